package tui

import (
	"strings"
	"testing"
)

// A question is read whole, however low the window: what is drawn gives way.
func TestQuestionIsNotCut(t *testing.T) {
	for _, size := range []struct{ width, height int }{{40, 12}, {60, 20}, {80, 24}, {100, 30}, {120, 40}, {250, 70}} {
		w, _ := walkTextLook(t, demoText(t, "pennant"), Look{Colours: Plain}, size.width, size.height)
		press(w, append(times(" ", 20), "1", "9", "enter")...)
		w.draw()
		seen := strings.Join(strings.Fields(w.view()), " ")
		for _, want := range []string{"1 SHORT", "each ch across”.", "finds the slip", "goes back"} {
			if !strings.Contains(seen, want) {
				t.Errorf("%dx%d: %q of the question is not to be seen:\n%s", size.width, size.height, want, w.view())
			}
		}
	}
}

// Within a row nothing moves up or down from tap to tap: eyes that come back
// from the yarn find things where they were.
func TestPlacesStayWithinARow(t *testing.T) {
	for _, name := range []string{"pennant", "star", "net", "buoy"} {
		for _, size := range sizes {
			w, _ := walkTextLook(t, demoText(t, name), Look{Colours: Plain}, size.width, size.height)
			where, row := -1, -1
			for range 60 {
				if w.mode != walking {
					press(w, "enter")
					continue
				}
				w.draw()
				at := -1
				for i, l := range strings.Split(w.view(), "\n") {
					if strings.Contains(l, w.scene.stitchLine()) {
						at = i
						break
					}
				}
				if row == w.state.Row() && at != where {
					t.Fatalf("%s %dx%d: the caption goes from line %d to %d at stitch %d of row %d", name, size.width, size.height, where, at, w.state.Stitch(), row+1)
				}
				where, row = at, w.state.Row()
				press(w, " ")
			}
		}
	}
}

// On a large screen the instruction in hand stands in letters that can be read
// from afar, with what is to be done before it.
func TestLargeWords(t *testing.T) {
	w, _ := walkTextLook(t, demoText(t, "pennant"), Look{Colours: Plain}, 250, 70)
	press(w, append(append(times(" ", 20), "enter"), times(" ", 2)...)...)
	w.draw()
	for _, l := range (brush{}).text("hdc in next 2 sts", 2) {
		if !strings.Contains(w.view(), strings.TrimRight(l, " ")) {
			t.Fatalf("the instruction in hand is not in large letters:\n%s", w.view())
		}
	}
}

// Where there are no half blocks a figure is of whole cells, and looks as its
// points do.
func TestWholeFigures(t *testing.T) {
	for d := range int64(10) {
		got := strings.Join(brush{whole: true}.figure(d, 1), "\n")
		want := strings.Join(pointFigures[d][:], "\n")
		if got = strings.ReplaceAll(got, "█", "#"); got != want {
			t.Errorf("%d is drawn\n%s\nand not\n%s", d, got, want)
		}
	}
	for scale := 1; scale <= biggest; scale++ {
		pen := brush{whole: true}
		high, _ := pen.cells(scale)
		if n := len(pen.text("Take 1", scale)); n != high {
			t.Errorf("at scale %d letters are %d lines high, figures %d", scale, n, high)
		}
	}
}

// A note that is longer than a line is told whole.
func TestLongNote(t *testing.T) {
	w, _ := walkTextLook(t, demoText(t, "pennant"), Look{Colours: Plain}, 40, 12)
	press(w, " ", "p")
	w.draw()
	if seen := strings.Join(strings.Fields(w.view()), " "); !strings.Contains(seen, "stands still until the next tap.") {
		t.Errorf("the note is cut:\n%s", w.view())
	}
}

// No more lines are kept empty between what is drawn and the words of the row
// than a gap takes: room that large words could have had goes below.
func TestNoHole(t *testing.T) {
	walks := map[string]func(width, height int) *Walk{
		"crab": func(width, height int) *Walk {
			w, _ := walkOf(t, harbourCrab(), Look{Colours: Plain}, width, height)
			return w
		},
	}
	for _, name := range []string{"pennant", "star", "net", "buoy"} {
		walks[name] = func(width, height int) *Walk {
			w, _ := walkTextLook(t, demoText(t, name), Look{Colours: Plain}, width, height)
			return w
		}
	}
	for name, walk := range walks {
		for _, size := range sizes {
			w := walk(size.width, size.height)
			for range 70 {
				if w.state.Finished() {
					break
				}
				if _, known := w.state.Expect(); !known && w.state.Stitch() >= 3 && w.mode == walking {
					press(w, "e")
				}
				w.draw()
				empty, most := 0, 0
				for _, l := range strings.Split(w.view(), "\n") {
					if strings.HasPrefix(strings.TrimSpace(l), w.scene.label) {
						break
					}
					if empty++; strings.TrimSpace(l) != "" {
						empty = 0
					}
					most = max(most, empty)
				}
				// A gap, an empty line at the edge of the drawing, and half of what a
				// short instruction leaves of the place of a long one.
				if allowed := max(size.height/15, 1) + 1 + 4; most > allowed {
					t.Fatalf("%s %dx%d, row %d, stitch %d: %d empty lines above the words:\n%s", name, size.width, size.height, w.state.Row()+1, w.state.Stitch(), most, w.view())
				}
				press(w, " ")
			}
		}
	}
}
