package sheet

import (
	"strings"
	"testing"

	"crochet/tallyturn/pattern"
)

// TestUnheaded keeps the hash of a row's number, and takes off the marks of
// Markdown.
func TestUnheaded(t *testing.T) {
	for label, want := range map[string]string{
		"#3 -": "#3 -", "## #3 -": "#3 -", "**#3 -**": "#3 -", "#4 & #5 -": "#4 & #5 -",
		"### Row 3:": "Row 3:", "# 3.": "3.", "**Row 3:**": "Row 3:", "__R3__": "R3", "#": "", "": "",
	} {
		if got := unheaded(label); got != want {
			t.Errorf("%q is the label %q, not %q", label, got, want)
		}
	}
}

// TestSmallNames reads the pieces of a maker's notes back from a page, where a
// blank line stands below each name.
func TestSmallNames(t *testing.T) {
	proof, d := sheetOf("crablet\n\nbody\nmr 6\nr2 inc all 12\nr3 12\n\nøyne\nch 5\nr1 4\nr2 4\n", Options{})
	if len(d.Unlike) > 0 {
		t.Errorf("refused: %v", d.Unlike)
	}
	page := pageText(parsePage(t, HTML(d)))
	if bad := Unlike(proof.Pattern, proof.Terms, pattern.Read(page)); len(bad) > 0 {
		t.Errorf("%v in\n%s", bad, page)
	}
	for _, name := range []string{"\nBody\n", "\nØyne\n"} {
		if !strings.Contains(page, name) {
			t.Errorf("no %q in\n%s", name, page)
		}
	}
}
