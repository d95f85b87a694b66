package tui

import (
	"fmt"
	"strings"
	"testing"

	"crochet/tallyturn/pattern/demo"
)

// demoText is a pattern that comes with the program.
func demoText(t testing.TB, name string) string {
	t.Helper()
	d, ok := demo.Find(name)
	if !ok {
		t.Fatalf("there is no demo %s", name)
	}
	return d.Text
}

// TestScreens is a picture of each screen at five sizes and three depths of
// colour. Of a demo, so that each is one that a maker meets.
func TestScreens(t *testing.T) {
	walk := func(keys ...string) func(Look, int, int) *model {
		return func(look Look, width, height int) *model {
			w, _ := walkTextLook(t, demoText(t, "pennant"), look, width, height)
			m := &model{page: w}
			m.size(width, height)
			for _, k := range keys {
				m.Update(keyOf(k))
				m.Update(Safe{Walk: w.cfg.ID, Seq: w.appended})
			}
			return m
		}
	}
	row := append(times(" ", 20), "enter")
	screens := []struct {
		name string
		on   func(Look, int, int) *model
	}{
		{"row", walk(append(row, times(" ", 7)...)...)},
		{"differs", walk(append(times(" ", 20), "1", "9", "enter")...)},
		{"hunt", walk(append(times(" ", 20), "1", "9", "enter", "h")...)},
		{"rows", walk("r")},
		{"help", walk("?")},
		{"overview", walk(append(append(row, times(" ", 7)...), "o")...)},
		{"locked", walk("ctrl+l", " ")},
		{"basket", func(look Look, width, height int) *model {
			m := &model{page: basketOf(look)}
			m.size(width, height)
			m.Update(keyOf("down"))
			return m
		}},
		{"notice", func(look Look, width, height int) *model {
			m := &model{page: NewNotice(NoticeConfig{Title: "About your basket", Lines: []string{"Everything in it was read.", "It is kept."}, Look: look})}
			m.size(width, height)
			return m
		}},
	}
	for _, s := range screens {
		for _, colours := range []Colours{Sixteen, TwoFiftySix, TrueColour} {
			var b strings.Builder
			for _, size := range sizes {
				m := s.on(Look{Colours: colours, Dark: true}, size.width, size.height)
				m.page.draw()
				fitsScreen(t, s.name, m)
				fmt.Fprintf(&b, "── %dx%d\n%s\n", size.width, size.height, visible(m.View()))
			}
			golden(t, fmt.Sprintf("screen-%s-%s.frame", s.name, [...]string{Sixteen: "16", TwoFiftySix: "256", TrueColour: "true"}[colours]), b.String())
		}
	}
}
