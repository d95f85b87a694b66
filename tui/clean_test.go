package tui

import (
	"testing"
	"unicode"
	"unicode/utf8"
)

func TestClean(t *testing.T) {
	for _, c := range []struct{ name, in, want string }{
		{"plain", "sc in next 3 sts", "sc in next 3 sts"},
		{"accents stay", "Crabe à l’été", "Crabe à l’été"},
		{"wide letters stay", "蟹 row", "蟹 row"},
		{"combining mark stays", "e\u0301te", "e\u0301te"},
		{"escape", "\x1b[2Jgone", "␛[2Jgone"},
		{"C0", "a\x00b\tc\nd\re\x7f", "a␀b␉c␊d␍e␡"},
		{"C1", "a\u009b31m", "a<U+009B>31m"},
		{"not UTF-8", "a\xff\xc3(", "a<0xFF><0xC3>("},
		{"a surrogate", "\xed\xa0\x80", "<0xED><0xA0><0x80>"},
		{"bidi", "abc\u202edef\u2066g\u200f", "abc<U+202E>def<U+2066>g<U+200F>"},
		{"zero width", "s\u200bc\u2060\ufeff\u00ad", "s<U+200B>c<U+2060><U+FEFF><U+00AD>"},
		{"joiner", "x\u200dy", "x<U+200D>y"},
		{"line separator", "a\u2028b", "a<U+2028>b"},
		{"spaces", "a\u00a0b\u3000c\u2009d", "a b c d"},
		{"variation selector", "❤\ufe0f!", "❤!"},
		{"private use", "\ue0b0", "<U+E0B0>"},
		{"tag", "\U000e0041", "<U+E0041>"},
		{"blank letter", "a\u3164b", "a<U+3164>b"},
		{"mark with nothing under it", "\u0301a", "<U+0301>a"},
		{"mark after a space", "a \u0301", "a <U+0301>"},
		{"a tower of marks", "a\u0301\u0301\u0301\u0301\u0301\u0301b",
			"a\u0301\u0301\u0301\u0301<U+0301><U+0301>b"},
		{"the replacement character itself", "a\ufffdb", "a\ufffdb"},
	} {
		if got := Clean(c.in); got != c.want {
			t.Errorf("%s: Clean(%q) = %q, want %q", c.name, c.in, got, c.want)
		}
	}
}

func FuzzClean(f *testing.F) {
	for _, s := range []string{"", "sc", "\x1b]0;x\x07", "\u202eabc", "\xff\xfe", "e\u0301\u0301", "a\u200d\ufe0fb"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		got := Clean(s)
		if !utf8.ValidString(got) {
			t.Fatalf("not UTF-8: %q", got)
		}
		for _, r := range got {
			if unicode.IsControl(r) || unicode.Is(unicode.Cf, r) || unseen(r) {
				t.Fatalf("Clean(%q) = %q keeps %U", s, got, r)
			}
		}
		if again := Clean(got); again != got {
			t.Fatalf("cleaning %q twice gives %q", got, again)
		}
	})
}
