package pdf

import (
	"strings"
	"testing"

	"golang.org/x/text/unicode/norm"

	"crochet/tallyturn/pattern/stitch"
)

// TestCharacters prints titles and reads them again with pdftotext (poppler):
// what the type has comes back as it was written, and the rest in words.
func TestCharacters(t *testing.T) {
	for _, c := range []struct{ title, want string }{
		{"Żółw Ærø – Πλώρη “Невод”", ""},
		{"Phao vơ´i do\u0302\u0323 sâu", norm.NFC.String("Phao vơ´i do\u0302\u0323 sâu")}, // accents joined to their letters
		{"Ծովախեցգետին დელფინი", ""},
		{"Star ♥ ☀ ✂ ⚓ Net", ""},
		{"Crab 🦀 and shell \U0001F41A", "Crab [crab] and shell [spiral shell]"},
		{"🦀🐙 Net", "[crab, octopus] Net"},
		{"Ahoy 👋🏽 🇵🇹", "Ahoy [waving hand sign, medium skin] [flag PT]"},
		{"𝓗𝓪𝓻𝓫𝓸𝓾𝓻 𝐁𝐮𝐨𝐲", "Harbour Buoy"},
		{"海星 Star", ""},
		{"钩针编织的海星杯垫", ""},
		{"ヒトデのコースター", ""},
		{"ヒトテ\u3099", "ヒトデ"}, // the mark of voicing joined to its letter
		{"불가사리 컵받침", ""},
		{"\u1107\u116e\u11af", "불"},
		{"𠮷 Net", "[U+20BB7] Net"}, // beyond the type
		{"Heart ❤\uFE0F", "Heart ❤"},
		{"צדף קטן", ""},
		{"نجمة البحر", ""},
		{"سلام لا", ""},
	} {
		_, d := docOf(c.title+"\n\nUS terms\n\nStrip\nCh 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10 sc)\n", stitch.US)
		text := strings.NewReplacer("\u202a", "", "\u202b", "", "\u202c", "").Replace(printed(t, "pdftotext", write1(t, d, A4), "-"))
		first, _, _ := strings.Cut(strings.TrimSpace(text), "\nWritten")
		if c.want == "" {
			c.want = c.title
		}
		if norm.NFKC.String(strings.Join(strings.Fields(first), " ")) != norm.NFKC.String(c.want) {
			t.Errorf("%q is printed as %q, want %q", c.title, first, c.want)
		}
	}
}

// TestVisual has lines in the order of the page, worked out by hand by the rules
// of UAX 9.
func TestVisual(t *testing.T) {
	for _, c := range [][2]string{
		{"plain (text)", "plain (text)"},
		{"אבג", "גבא"},
		{"row אבג 12 end", "row 12 גבא end"},
		{"(אבג)", "(גבא)"},
		{"Net (אבג) 12", "Net (גבא) 12"},
		{"בא nets", "אב nets"},
		{"אבגד net (הו)", "(וה) net דגבא"},
		{"אבג 1,5 דה", "הד 1,5 גבא"},
		// lam and alef join, as do the letters before them (Unicode, chapter 9)
		{"سلام", "\ufee1\ufefc\ufeb3"},
		{"بحر", "\ufeae\ufea4\ufe91"},
	} {
		if got := visual(c[0]); got != c[1] {
			t.Errorf("%q stands as %q (%+q), want %q", c[0], got, got, c[1])
		}
	}
}
