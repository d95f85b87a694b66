package tui

import (
	"fmt"
	"strings"
	"testing"

	"crochet/tallyturn/counter"
	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/demo"
)

// demoWalk takes up a demo at a row of its first piece, some stitches in.
func demoWalk(t testing.TB, d demo.Demo, look Look, width, height, row, stitches int) *Walk {
	t.Helper()
	w := NewWalk(WalkConfig{
		ID: "demo", Title: d.Name, Journal: &shelf{}, Now: (&pinned{noon}).now, Look: look,
		State: counter.Begin(counter.NewPlan(pattern.Read(d.Text).Prove(pattern.Options{}))),
	})
	w.resize(width, height)
	w.open()
	w.jump(counter.Place{Row: row})
	press(w, times(" ", stitches)...)
	return w
}

// TestDemoFrames draws the patterns that come with the program.
func TestDemoFrames(t *testing.T) {
	for _, d := range demo.All() {
		var b strings.Builder
		for row := range 4 {
			w := demoWalk(t, d, Look{Colours: Plain}, 80, 24, row, 5)
			fmt.Fprintf(&b, "── row %d\n%s\n", row+1, visible(w.view()))
		}
		golden(t, "demo-"+d.Name+"-80x24.frame", b.String())
	}
	d := demo.All()[0]
	for i, colours := range []Colours{Plain, TwoFiftySix, TrueColour} {
		for _, size := range sizes {
			w := demoWalk(t, d, Look{Colours: colours, Dark: true}, size.width, size.height, 1, 5)
			name := fmt.Sprintf("demo-%s-%s-%dx%d.frame", d.Name, [...]string{"plain", "256", "true"}[i], size.width, size.height)
			golden(t, name, visible(w.view())+"\n")
		}
	}
}

// TestDemosLight goes through every stitch of every demo: as long as a row was
// worked out, its words show what is in hand, and more is done with each tap.
func TestDemosLight(t *testing.T) {
	for _, d := range demo.All() {
		proof := pattern.Read(d.Text).Prove(pattern.Options{})
		state := counter.Begin(counter.NewPlan(proof))
		for !state.Finished() {
			row, _ := state.Proof()
			for !state.AtRowEnd() && row.Trace != nil {
				words := wordsOf(proof.Words(row), state.Here(), false)
				if words.text(wordHand) == "" {
					t.Fatalf("%s: %s, stitch %d: nothing is in hand: %+v", d.Name, row.Label, state.Stitch()+1, words)
				}
				state, _ = state.Apply(counter.Event{Kind: counter.Tap, N: 1})
			}
			var err error
			if state, err = state.Apply(counter.Event{Kind: counter.Finish, N: counter.NotCounted}); err != nil {
				t.Fatal(err)
			}
		}
	}
}
