package tui

import (
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"pgregory.net/rapid"

	"crochet/tallyturn/counter"
	"crochet/tallyturn/pattern"
)

// TestRandomLive presses keys at random in a written pattern whose file
// changes, so that hunts, differences and rewritings come about. The frame
// fits and is not blank, and the log leads to where the screen stands.
func TestRandomLive(t *testing.T) {
	proof := pattern.Read(limpet).Prove(pattern.Options{})
	rapid.Check(t, func(t *rapid.T) {
		s := &shelf{}
		says := rapid.SampledFrom([]string{"", "nothing\n", strings.Replace(limpet, "Rnds 5-6:", "Rnds 5-7:", 1),
			strings.Replace(limpet, "Rnd 2: 2 sc in each st around. (12)", "Rnd 2: Sc in each st around. (6)", 1)}).Draw(t, "file")
		w := NewWalk(WalkConfig{ID: "limpet", Title: "Limpet", State: counter.Begin(counter.NewPlan(proof)), Journal: s,
			Now: (&pinned{noon}).now, Look: Look{Colours: NoColour}, Changed: says})
		m := &model{page: w}
		m.Update(tea.WindowSizeMsg{Width: rapid.SampledFrom([]int{30, 40, 80, 120}).Draw(t, "width"), Height: rapid.SampledFrom([]int{10, 12, 24, 40}).Draw(t, "height")})
		m.Init()
		for range rapid.IntRange(1, 80).Draw(t, "keys") {
			k := anyKey.Draw(t, "key")
			if rapid.IntRange(0, 2).Draw(t, "on") == 0 {
				k = " "
			}
			m.Update(keyOf(k))
			checkFrame(t, m, w)
		}
		again, refused := counter.Replay(counter.NewPlan(proof), s.events)
		if refused != nil || again.At() != w.state.At() || again.Plan().Text() != w.state.Plan().Text() {
			t.Fatalf("the log leads to %+v, the screen stands at %+v; refused %+v", again.At(), w.state.At(), refused)
		}
	})
}
