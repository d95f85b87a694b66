package tui

import (
	"strings"
	"testing"
)

// TestSketchedWalk: a walk that stands in for one that is being opened looks as
// that will, but for whether it is saved and the line that says so; and keys
// are kept for what comes.
func TestSketchedWalk(t *testing.T) {
	for _, size := range sizes {
		for _, keys := range [][]string{times(" ", 7), append(times(" ", 20), "enter", " ", " ", "p"), times(" ", 20)} {
			real, _ := walkTextLook(t, demoText(t, "pennant"), Look{Colours: Plain}, size.width, size.height)
			press(real, keys...)
			w := NewWalk(WalkConfig{
				ID: real.cfg.ID, Title: real.cfg.Title, State: real.state, Now: real.cfg.Now,
				Sketch: &Sketch{RowMillis: real.state.RowMillis(real.now)},
			})
			m := &model{page: w, then: func() (Page, error) { return real, nil }}
			m.size(size.width, size.height)
			m.Init()
			fitsScreen(t, "a sketch", m)
			if !strings.Contains(m.View(), "… opening") {
				t.Errorf("%dx%d: it does not say that it is being opened:\n%s", size.width, size.height, m.View())
			}
			real.note = w.note // so that both take the same lines for it
			real.draw()
			got, want := strings.Split(m.View(), "\n"), strings.Split(real.view(), "\n")
			for i := 1; i < len(want)-1; i++ { // without the heading and the buttons
				if got[i] != want[i] {
					t.Errorf("%dx%d after %d keys: line %d is %q, and will be %q", size.width, size.height, len(keys), i, got[i], want[i])
				}
			}
			before, tapping := real.state.Stitch(), real.mode == walking
			m.keys(keyOf(" "))
			if w.state.Stitch() != before || len(m.ahead) != 1 {
				t.Errorf("a tap goes to what stands in: %d kept", len(m.ahead))
			}
			m.Update(thenMsg{page: real})
			if _, ok := m.page.(*Walk); !ok || m.page != Page(real) {
				t.Error("the walk itself is not in front")
			}
			if tapping && real.state.Stitch() != before+1 {
				t.Errorf("the tap is lost: %d stitches, were %d", real.state.Stitch(), before)
			}
		}
	}
}
