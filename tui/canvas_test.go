package tui

import (
	"testing"

	"github.com/charmbracelet/x/ansi"
	"pgregory.net/rapid"
)

// TestCells holds the quick way of measuring against the careful one.
func TestCells(t *testing.T) {
	for r := rune(0); r < 0x30000; r++ {
		if r >= 0xd800 && r < 0xe000 {
			continue
		}
		s := Clean(string(r))
		if got, want := cells(s), ansi.StringWidth(s); got != want {
			t.Fatalf("%q (%U) is %d columns, measured as %d", s, r, want, got)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		s := Clean(rapid.String().Draw(t, "text"))
		if got, want := cells(s), ansi.StringWidth(s); got != want {
			t.Fatalf("%q is %d columns, measured as %d", s, want, got)
		}
	})
}

func TestFold(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := Clean(rapid.StringOf(rapid.SampledFrom([]rune("ab 霧e\u0301 \x1b-"))).Draw(t, "text"))
		width := rapid.IntRange(2, 30).Draw(t, "width")
		var joined string
		for _, l := range fold(base, text, width) {
			if n := spanCells(l); n > width || n == 0 {
				t.Fatalf("a line of %d columns folded to %d: %v", n, width, l)
			}
			for _, s := range l {
				joined += s.text
			}
		}
		if got, want := letters(joined), letters(text); got != want {
			t.Fatalf("folding %q keeps %q", want, got)
		}
	})
}

// letters is text without its blanks.
func letters(s string) string {
	var out []rune
	for _, r := range s {
		if r != ' ' {
			out = append(out, r)
		}
	}
	return string(out)
}

// TestGoesOn: one sign says that more follows, after a whole word.
func TestGoesOn(t *testing.T) {
	for _, c := range []struct {
		line []span
		w    int
		want string
	}{
		{[]span{{base, "sc in next"}}, 20, "sc in next …"},
		{[]span{{base, "sc in next 12 sts"}}, 16, "sc in next 12 …"},
		{[]span{{base, "sc in next 12 sts"}}, 12, "sc in next …"},
		{[]span{{base, "sc in "}, {hand, "next twelve"}}, 14, "sc in next …"},
		{[]span{{base, "Mützenmacherei"}}, 8, "Mützen …"},
		{[]span{{base, "編み物"}}, 7, "編み …"},
	} {
		var got string
		for _, s := range goesOn(c.line, c.w) {
			got += s.text
		}
		if got != c.want || cells(got) > c.w {
			t.Errorf("in %d columns %v goes on as %q, want %q", c.w, c.line, got, c.want)
		}
	}
}
