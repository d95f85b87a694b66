package report

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode"

	"github.com/charmbracelet/x/ansi"
	"github.com/google/go-cmp/cmp"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/stitch"
)

var update = flag.Bool("update", false, "write the golden files anew")

func golden(t *testing.T, name string, got []byte) {
	t.Helper()
	file := filepath.Join("testdata", name)
	if *update {
		if err := os.WriteFile(file, got, 0o666); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), string(got)); diff != "" {
		t.Errorf("%s (-want +got):\n%s", name, diff)
	}
}

// reefText is the source that the proof in reef points into. The figures of
// that proof are set by hand: what is tested here is how they are shown.
const reefText = "Reef \x1b[31mStrip\n" +
	"Strip (make 2)\n" +
	"Ch 21.\n" +
	"Row 1: Sc in 2nd ch from hook and in each ch across. (20 sc)\n" +
	"Row 2: Ch 1, turn, *sc in next 2 sts, hdc in next 2 sts; rep from * across. (21 sts)\n" +
	"Row 3: Ch 1, turn, 海星 \U0001f980\u202e sc in\ta frobbed way, then go on and on in the same manner until the strip is as long as the reef is. (20 sc)\n" +
	"Row 4: Sc evenly\n" +
	"across. (18 sc)\n"

func reef(t *testing.T) *pattern.Proof {
	t.Helper()
	src := pattern.NewSource(reefText)
	span := func(words string) pattern.Span {
		i := strings.Index(reefText, words)
		if i < 0 {
			t.Fatalf("%q is not in the text", words)
		}
		return pattern.Span{Start: i, End: i + len(words)}
	}
	total := func(n int64, text string) *pattern.Total { return &pattern.Total{N: n, Text: text} }
	strip := &pattern.PieceProof{
		Piece: &pattern.Piece{Name: "Strip", Copies: 2, Line: 2},
		Rows: []*pattern.RowProof{
			{Label: "Row 1", First: 1, Last: 1, Line: 4, Available: 21, Taken: 20, Skipped: 1, Made: 20,
				ByKind: []pattern.KindCount{{Name: "sc", N: 20}}, Stated: total(20, "20 sc"), Status: pattern.Agrees},
			{Label: "Row 2", First: 2, Last: 2, Index: 1, Line: 5, Available: 20, Taken: 20, Made: 20,
				ByKind: []pattern.KindCount{{Name: "sc", N: 10}, {Name: "hdc", N: 10}},
				Stated: total(21, "21 sts"), Status: pattern.Differs},
			{Label: "Row 3", First: 3, Last: 3, Index: 2, Line: 6, Available: 20, Taken: -1, Left: -1, Skipped: -1, Made: -1,
				Stated: total(20, "20 sc"), Status: pattern.Unread},
			{Label: "Row 4", First: 4, Last: 4, Index: 3, Line: 7, Available: 20, Taken: 18, Left: 2, Made: 18,
				Stated: total(18, "18 sc"), Status: pattern.Trusted},
		},
	}
	loose := &pattern.PieceProof{
		Piece: &pattern.Piece{Copies: 1, Line: 8},
		Rows:  []*pattern.RowProof{{Label: "Rnds 1-9", Kind: pattern.Round, First: 1, Last: 9, Line: 9, Available: 6, Taken: 6, Made: 6, Status: pattern.Unstated}},
	}
	return &pattern.Proof{
		Pattern: &pattern.Pattern{Source: src, Title: "Reef \x1b[31mStrip", Sizes: []string{"S", "M", "L"}},
		Terms:   stitch.US,
		Size:    "M",
		Pieces:  []*pattern.PieceProof{strip, loose},
		Findings: []pattern.Finding{
			{Severity: pattern.Error, Code: "total-differs", Span: span("(21 sts)"),
				Message: "the pattern states 21 stitches, the row makes 20", Hint: "change the total to 20"},
			{Severity: pattern.Warning, Code: "not-understood", Span: span("frobbed way"), Message: "\"frobbed way\" was not understood"},
			{Severity: pattern.Note, Code: "free-count", Span: span("evenly\nacross"), Message: "only the author knows how many"},
			{Severity: pattern.Note, Code: "whole-file", Message: "an empty span at the very beginning"},
		},
	}
}

func TestText(t *testing.T) {
	for _, test := range []struct {
		golden string
		o      Options
	}{
		{"reef-100.golden", Options{Name: "reef.txt", Width: 100}},
		{"reef-40.golden", Options{Name: "reef.txt", Width: 40}},
		{"reef-colour.golden", Options{Width: 80, Colour: true}},
	} {
		var b bytes.Buffer
		if err := Text(&b, reef(t), test.o); err != nil {
			t.Fatal(err)
		}
		golden(t, test.golden, b.Bytes())
	}
}

func TestTextTellsNothingByColourAlone(t *testing.T) {
	var plain, coloured bytes.Buffer
	o := Options{Name: "reef.txt", Width: 90}
	Text(&plain, reef(t), o)
	o.Colour = true
	Text(&coloured, reef(t), o)
	if !strings.Contains(coloured.String(), "\x1b[") {
		t.Error("the coloured report has no colour")
	}
	if diff := cmp.Diff(plain.String(), ansi.Strip(coloured.String())); diff != "" {
		t.Errorf("without its colours the report differs (-plain +coloured):\n%s", diff)
	}
}

func TestJSON(t *testing.T) {
	for _, test := range []struct{ golden, file string }{
		{"reef.json", ""},
		{"reef-named.json", "nets/reef.txt"},
	} {
		var b bytes.Buffer
		if err := JSON(&b, reef(t), test.file); err != nil {
			t.Fatal(err)
		}
		if n := bytes.Count(b.Bytes(), []byte("\n")); n != 1 {
			t.Errorf("%s: %d line ends, want the one at the end", test.golden, n)
		}
		golden(t, test.golden, b.Bytes())
	}
}

func TestNothingSteersTheTerminal(t *testing.T) {
	var b bytes.Buffer
	if err := Text(&b, reef(t), Options{Name: "a\x1b]0;b\x07.txt", Width: 80}); err != nil {
		t.Fatal(err)
	}
	if err := JSON(&b, reef(t), "a\x1b]0;b\u009b.txt"); err != nil {
		t.Fatal(err)
	}
	for _, line := range strings.Split(b.String(), "\n") {
		if i := strings.IndexFunc(line, func(r rune) bool { return !unicode.IsGraphic(r) }); i >= 0 {
			t.Errorf("%q holds %q", line, line[i:i+1])
		}
	}
}
