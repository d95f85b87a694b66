package tui

import (
	"strings"
	"testing"

	"crochet/tallyturn/pattern/layout"
)

// TestOverview: as rows are worked, more of the pieces is filled and less is
// dotted, until nothing is left to come; the row in hand stands out, and the
// legend says where each piece is.
func TestOverview(t *testing.T) {
	for _, name := range []string{"pennant", "buoy", "star", "net", "cuff"} {
		w, _ := walkTextLook(t, demoText(t, name), Look{ASCII: true}, 100, 40)
		m := &model{page: w}
		m.size(100, 40)
		count := func() (come, done, hand int) {
			w.enter(walking)
			m.Update(keyOf("o"))
			if w.mode != overviewing {
				t.Fatalf("%s: o leads to mode %d", name, w.mode)
			}
			for _, l := range w.surveyed().draw(90, 30, true, nil) {
				text := plainText(l)
				come += strings.Count(text, ".")
				done += strings.Count(text, "+")
				hand += strings.Count(text, "#")
			}
			if !w.state.Finished() && !strings.Contains(m.View(), w.scene.rowLine()) {
				t.Errorf("%s: the legend does not say %s:\n%s", name, w.scene.rowLine(), m.View())
			}
			m.Update(keyOf("esc"))
			return come, done, hand
		}
		come, done, hand := count()
		if done != 0 || come+hand == 0 || hand == 0 && name != "cuff" {
			t.Errorf("%s: at the beginning %d to come, %d done, %d in hand", name, come, done, hand)
		}
		before := done
		for range 10_000 {
			row, piece := w.state.Row(), w.state.Piece()
			for w.state.Row() == row && w.state.Piece() == piece && !w.state.Finished() {
				press(w, " ")
			}
			if _, now, lit := count(); now+lit < before && w.state.Copy() == 0 {
				t.Fatalf("%s: %d cells were filled, and now %d", name, before, now)
			} else {
				before = now
			}
			if w.state.Finished() {
				break
			}
		}
		if come, done, hand = count(); come != 0 || hand != 0 || done == 0 {
			t.Errorf("%s: at the end %d to come, %d done, %d in hand", name, come, done, hand)
		}
	}
}

func TestWithin(t *testing.T) {
	square := []layout.Point{{X: 0, Y: 0}, {X: 4, Y: 0}, {X: 4, Y: 4}, {X: 0, Y: 4}}
	for _, c := range []struct {
		x, y float64
		in   bool
	}{{2, 2, true}, {5, 2, false}, {2, -1, false}, {0.1, 3.9, true}} {
		if got := within(square, layout.Point{X: c.x, Y: c.y}); got != c.in {
			t.Errorf("%v, %v lies in it: %v", c.x, c.y, got)
		}
	}
}

// What is to come is an outline with its name in it, what is worked is filled,
// and the row in hand stands out without colour, however small the picture.
func TestOverviewDrawn(t *testing.T) {
	for _, size := range [][2]int{{40, 12}, {100, 50}, {250, 70}} {
		w, _ := walkTextLook(t, demoText(t, "pennant"), Look{}, size[0], size[1])
		m := &model{page: w}
		m.size(size[0], size[1])
		for range 30 {
			press(w, " ")
		}
		m.Update(keyOf("o"))
		view := m.View()
		if !strings.Contains(view, "██████████") {
			t.Errorf("%v: the row in hand does not stand out:\n%s", size, view)
		}
		blank, full := 0, 0
		grid := w.surveyed().draw(size[0]-4, size[1]/2, false, nil)
		for _, l := range grid {
			text := plainText(l)
			blank += strings.Count(text, " ")
			full += strings.Count(text, "⣿")
		}
		if size[0] >= 100 && (blank == 0 || full == 0) {
			t.Errorf("%v: %d cells are free and %d filled", size, blank, full)
		}
		if named := strings.Count(view, "Second Point"); size[0] >= 100 && named != 2 {
			t.Errorf("%v: the second point is named %d times:\n%s", size, named, view)
		}
	}
}

// However long the name of a piece, the smallest screen tells how far it is.
func TestOverviewTellsTheStitch(t *testing.T) {
	for _, name := range []string{"", "Outer shell of the northern breakwater"} {
		w, _ := walkTextLook(t, "US terms\n\n"+name+"\nRnd 1: 12 dc in ring. (12)\nRnds 2-12: Dc in each st around. (12)\n", Look{}, 40, 12)
		m := &model{page: w}
		m.size(40, 12)
		for range 143 {
			press(w, " ")
		}
		m.Update(keyOf("o"))
		for _, s := range []string{w.scene.rowLine(), w.scene.stitchLine()} {
			if view := m.View(); !strings.Contains(view, s) {
				t.Errorf("of %q it does not say %q:\n%s", name, s, view)
			}
		}
	}
}
