package tui

import (
	"strings"
	"testing"
)

// TestLessons: somebody who does what the foot of the screen says has learnt
// the main keys within two rows, and is told nothing after that.
func TestLessons(t *testing.T) {
	w, _ := walkText(t, demoText(t, "pennant"), 80, 24)
	w.cfg.Teach = true
	told := map[string]bool{}
	for w.state.Row() < 2 {
		w.note = ""
		if l := w.lesson(); l != "" {
			told[l] = true
			if w.mode == walking && !strings.Contains(w.view(), l) {
				t.Errorf("the frame does not say %q", l)
			}
		}
		press(w, " ")
	}
	if len(told) != 7 {
		t.Errorf("%d lessons are told, want 7", len(told))
	}
	for _, key := range []string{"Space", "Backspace", "s makes", "? shows", "o the whole", "q leaves", "b goes"} {
		if !strings.Contains(strings.Join(keysOfMap(told), "\n"), key) {
			t.Errorf("nothing is taught of %q", key)
		}
	}
	if l := w.lesson(); l != "" {
		t.Errorf("in the third row it still teaches: %q", l)
	}
	w.cfg.Teach = false
	for w.state.Row() > 0 {
		press(w, "backspace")
	}
	if l := w.lesson(); l != "" {
		t.Errorf("a maker's own pattern teaches: %q", l)
	}
}

func keysOfMap(m map[string]bool) (all []string) {
	for k := range m {
		all = append(all, k)
	}
	return all
}
