package tui

import (
	"strings"
	"testing"
)

// What closes several rows of one line is told with the last of them alone.
func TestOfOne(t *testing.T) {
	for _, c := range []struct{ name, rows, early, last, closes string }{
		{"a colour behind the total", "Rnds 2-4: Sc in each st around. (6) Change to white.", "[Sc in each st around]. (6)", "[Sc in each st around]. (6) Change to white.", "Change to white"},
		{"fastening off", "Rnds 2-4: Sc in each st around. Fasten off.", "[Sc in each st around].", "[Sc in each st around]. Fasten off.", "Fasten off"},
		{"yarn cut in each", "Rnds 2-4: Sc in next 3 sts. Fasten off. Join white, sc in next 3 sts. (6)", "[Sc in next 3 sts]. Fasten off. Join white, sc in next 3 sts.", "[Sc in next 3 sts]. Fasten off. Join white, sc in next 3 sts.", "nothing"},
		{"a colour of each", "Rnds 2-4: With white, sc in each st around. (6)", "[With white], [sc in each st around].", "[With white], [sc in each st around].", "nothing"},
	} {
		w, _ := walkTextLook(t, "Whelk\n\nUS terms\n\nRnd 1: With grey, 6 sc in magic ring. (6)\n"+c.rows+"\nRnd 5: Sc in each st around. (6)\n", Look{Colours: Plain}, 120, 40)
		for i := range 4 {
			press(w, append(times(" ", 6), "enter")...)
			if i == 3 {
				break
			}
			lines, _ := w.scene.words.wrap(100)
			got := ""
			for _, l := range lines {
				got += plainText(l)
			}
			want := c.early
			if i == 2 {
				want = c.last
			}
			if got != want {
				t.Errorf("%s: row %d reads %q, want %q", c.name, i+2, got, want)
			}
			ahead := w.scene.next[0]
			if i < 2 && strings.Contains(ahead.words, c.closes) != (i == 1 && c.closes != "nothing") {
				t.Errorf("%s: row %d comes as %q", c.name, i+3, ahead.words)
			}
		}
	}
}
