package tui

import (
	"strings"
	"testing"
)

// In a window too small for a picture the lit row of the list is told, and that
// a take is on.
func TestTiny(t *testing.T) {
	w, _, _ := filmWalk(t, Look{Colours: Plain}, 20, 6)
	seen := func() string { return strings.Join(strings.Fields(w.view()), " ") }
	press(w, "k")
	unflash(w)
	press(w, " ")
	if s := seen(); !strings.Contains(s, "take 1 0:00") || !strings.Contains(s, "stitch 2 of 20") || !strings.Contains(s, "row 1 of 3") {
		t.Errorf("that a take is on is not told: %s", s)
	}
	press(w, "k", "r")
	if s := seen(); !strings.Contains(s, "1 of 3, Row 1 (RS)") || !strings.Contains(s, "Enter goes there") {
		t.Errorf("the lit row is not told: %s", s)
	}
	press(w, "down")
	if s := seen(); !strings.Contains(s, "2 of 3, Row 2, 20 stitches: Ch 1, turn") {
		t.Errorf("the next row is not told: %s", s)
	}
}
