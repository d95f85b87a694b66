package pdf

import (
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"

	"crochet/tallyturn/pattern/stitch"
)

// TestEasternType holds what the type is said to have, by the blocks of Unicode:
// kana, the Unified Ideographs of Unicode 1.1 (U+4E00 to U+9FA5), and all
// syllables of Korean.
func TestEasternType(t *testing.T) {
	for _, block := range []struct{ from, to rune }{{0x3041, 0x3094}, {0x30a1, 0x30f6}, {0x30fb, 0x30fe}, {0x4e00, 0x9fa5}, {0xac00, 0xd7a3}, {0xff01, 0xff5e}} {
		for r := block.from; r <= block.to; r++ {
			if !has(r) && !isEastern(r) {
				t.Errorf("%U %c is not in the type", r, r)
			}
		}
	}
	for _, r := range "aé☀🦀ب" {
		if isEastern(r) {
			t.Errorf("%U %c is taken for writing of the East", r, r)
		}
	}
}

// TestEasternLines prints a paragraph without a space in it: it stays on the
// page, comes back whole, and no line begins with a stop.
func TestEasternLines(t *testing.T) {
	about := strings.Repeat("这个杯垫像一只海星，五个角，一圈一圈地钩。用中等粗细的棉线，大约四十米；", 6) + "完。"
	_, d := docOf("海星\n\n"+about+"\n\nUS terms\n\nStrip\nCh 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10 sc)\n", stitch.US)
	text := printed(t, "pdftotext", write1(t, d, A4), "-")
	if got := strings.ReplaceAll(text, "\n", ""); !strings.Contains(got, about) {
		t.Errorf("the paragraph is not there:\n%s", text)
	}
	for l := range strings.SplitSeq(text, "\n") {
		if n := utf8.RuneCountInString(l); n > 60 {
			t.Errorf("a line of %d characters: %s", n, l)
		}
		if r, _ := utf8.DecodeRuneInString(l); strings.ContainsRune("，。；", r) {
			t.Errorf("a line begins with a stop: %s", l)
		}
	}
}

// TestWrapKeepsAll cuts any words into lines: all fit that can, and nothing but
// spaces comes or goes.
func TestWrapKeepsAll(t *testing.T) {
	bare := func(s string) string { return strings.Join(strings.Fields(s), "") }
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.StringOfN(rapid.SampledFrom([]rune("ab c，海星)( 1.")), 0, 80, -1).Draw(t, "text")
		n := rapid.IntRange(1, 20).Draw(t, "width")
		lines := wrap(s, func(l string) bool { return utf8.RuneCountInString(l) <= n })
		for _, l := range lines {
			if utf8.RuneCountInString(l) > n {
				t.Fatalf("%q is longer than %d", l, n)
			}
		}
		if got := bare(strings.Join(lines, "")); got != bare(s) {
			t.Fatalf("%q is %q in lines", s, got)
		}
	})
}

// BenchmarkEastern prints a long text in Chinese; the peer is as long a one in
// English.
func BenchmarkEastern(b *testing.B) {
	for name, word := range map[string]string{"Chinese": "海星杯垫，", "English": "A net, "} {
		b.Run(name, func(b *testing.B) {
			_, d := docOf("Net\n\n"+strings.Repeat(word, 4000)+"\n\nUS terms\n\nStrip\nCh 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10 sc)\n", stitch.US)
			for b.Loop() {
				if _, err := Write(d, A4); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
