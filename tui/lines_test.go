package tui

import (
	"slices"
	"testing"
)

// In the plain mode a row of the list is told in words, without the signs and
// columns of the screen.
func TestSpokenRows(t *testing.T) {
	w, _ := walkTextLook(t, demoText(t, "pennant"), Look{Colours: Plain}, 80, 24)
	press(w, append(times(" ", 20), "1", "9", "enter", "enter", " ", "r")...)
	for _, want := range []string{
		"2 of 3, Row 2, 19 stitches, in hand, 0:01: Ch 1, turn, (sc in next 2 sts, hdc in next 2 sts) 5 times.",
		"1 of 3, Row 1 (RS), 20 stitches, 19 counted, 1 short, 0:2",
	} {
		told := w.spoken()
		if !slices.ContainsFunc(told, func(l string) bool { return len(l) >= len(want) && l[:len(want)] == want }) {
			t.Errorf("it does not say %q but %q", want, told)
		}
		press(w, "up")
	}
}
