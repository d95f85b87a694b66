package report

import (
	"strings"
	"testing"
	"unicode"

	"github.com/charmbracelet/x/ansi"
	"pgregory.net/rapid"

	"crochet/tallyturn/pattern"
)

func TestCut(t *testing.T) {
	for _, test := range []struct {
		name   string
		line   string // the words meant stand between « and »
		width  int
		text   string
		carets string
	}{
		{"plain", "sc in «next 3» sts", 40,
			"sc in next 3 sts",
			"      ^^^^^^"},
		{"wide letters", "海 «海星» 海", 40,
			"海 海星 海",
			"   ^^^^"},
		{"an accent of its own takes no column", "re\u0301p «x6»", 40,
			"re\u0301p x6",
			"    ^^"},
		{"control characters are shown", "a\x1b[2J «b\a»", 40,
			"a␛[2J b␇",
			"      ^^"},
		{"a tab", "a\t«b»", 40,
			"a␉b",
			"  ^"},
		{"stray bytes", "a\xff «b»", 40,
			"a<0xFF> b",
			"        ^"},
		{"hidden direction marks", "a\u202e«b»", 40,
			"a<U+202E>b",
			"         ^"},
		{"nothing meant", "sc«» in", 40,
			"sc in",
			"  ^"},
		{"past the end", "sc«»", 40,
			"sc",
			"  ^"},
		{"an indented line", "   \t «sc»", 40,
			"sc",
			"^^"},
		{"cut before", "one two three four five six seven «eight»", 20,
			"…ive six seven eight",
			"               ^^^^^"},
		{"cut after", "«one» two three four five six seven eight", 20,
			"one two three four …",
			"^^^"},
		{"cut on both sides", "one two three four «five» six seven eight nine", 20,
			"…ree four five six …",
			"          ^^^^"},
		{"words too long", "«one two three four five six seven eight»", 20,
			"one two three …",
			"^^^^^^^^^^^^^^"},
	} {
		t.Run(test.name, func(t *testing.T) {
			src, at := meant(test.line)
			e := cut(src, at, test.width)
			if e.text != test.text || e.carets != test.carets {
				t.Errorf("got\n%s\n%s\nwant\n%s\n%s", e.text, e.carets, test.text, test.carets)
			}
		})
	}
}

// meant takes the marks out of a line and places what stood between them.
func meant(line string) (*pattern.Source, place) {
	before, rest, _ := strings.Cut(line, "«")
	words, after, _ := strings.Cut(rest, "»")
	src := pattern.NewSource(before + words + after)
	return src, locate(src, pattern.Span{Start: len(before), End: len(before) + len(words)})
}

func TestLocateOverLines(t *testing.T) {
	src := pattern.NewSource("Row 1: sc in\r\neach st.\n\nRow 2")
	for _, test := range []struct {
		start, end int
		want       place
	}{
		{7, 9, place{1, 8, 1, 10}},
		{10, 18, place{1, 11, 2, 13}},
		{14, 23, place{2, 1, 2, 9}}, // ends with its line end
		{23, 23, place{3, 1, 3, 1}},
		{24, 29, place{4, 1, 4, 6}},
		{29, 29, place{4, 6, 4, 6}},
		{8, 3, place{1, 9, 1, 9}},
	} {
		if got := locate(src, pattern.Span{Start: test.start, End: test.end}); got != test.want {
			t.Errorf("locate(%d, %d) = %v, want %v", test.start, test.end, got, test.want)
		}
	}
}

// Whatever the line, the excerpt fits, the carets stay under it, and nothing
// in it can steer a terminal.
func TestCutHolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringOf(rapid.OneOf(
			rapid.RuneFrom([]rune("sc in next 2 sts (海星) \t\x1b\x07\u0301\u200d\u202e🦀")),
			rapid.Rune(),
		)).Draw(t, "text")
		text += rapid.SampledFrom([]string{"", "\xff", "\xf0\x9f", strings.Repeat("\u0301", 900)}).Draw(t, "tail")
		start := rapid.IntRange(0, len(text)).Draw(t, "start")
		end := rapid.IntRange(start, len(text)).Draw(t, "end")
		width := rapid.IntRange(30, 90).Draw(t, "width")
		src := pattern.NewSource(text)
		e := cut(src, locate(src, pattern.Span{Start: start, End: end}), width)
		// A character that only changes the one before it takes up columns of
		// its own where the two are cut apart: two for a skin tone, say.
		if w := ansi.StringWidth(e.text); w > width+2 {
			t.Fatalf("%q is %d wide, more than %d", e.text, w, width)
		}
		if w, c := ansi.StringWidth(e.text), len(e.carets); c > w+2 {
			t.Fatalf("carets reach column %d of %d under %q", c, w, e.text)
		}
		if i := strings.IndexFunc(e.text+e.carets, func(r rune) bool { return !unicode.IsGraphic(r) }); i >= 0 {
			t.Fatalf("%q would steer the terminal", e.text)
		}
	})
}

func BenchmarkCut(b *testing.B) {
	src, at := meant(strings.Repeat("sc in next st, ", 500) + "«2 sc in next st»" + strings.Repeat(", sc in next st", 500))
	for b.Loop() {
		cut(src, at, 100)
	}
}
