package pattern

import (
	"strings"
	"testing"
)

// TestOtherSizes plants a wrong number in the brackets of each list of sizes:
// the first size is right, and the error is told all the same, once.
func TestOtherSizes(t *testing.T) {
	const hat = `Sizes: S (M, L)
Rnd 1: 8 (9, 10) sc in magic ring. (8 (9, 10) sc)
Rnd 2: 2 sc in each st around. (16 (18, 20) sc)
Rnds 3-6 (7, 8): Sc in each st around. (16 (18, 20) sc)
Rnd 7 (8, 9): (Sc in next 6 (7, 8) sts, sc2tog) twice. (14 (16, 18) sc)
`
	if p := Read(hat).Prove(Options{Others: true}); p.Errors() != 0 {
		t.Fatalf("%v in the right text", p.Findings)
	}
	for _, c := range []struct {
		from, to string
		line     int
		in       string
	}{
		{"8 (9, 10) sc in", "8 (9, 11) sc in", 2, "in size L "},
		{"(16 (18, 20) sc)\nRnds", "(16 (19, 20) sc)\nRnds", 3, "in size M "},
		{"3-6 (7, 8)", "3-6 (8, 8)", 4, "in size M "},
		{"7 (8, 9)", "7 (8, 8)", 5, "in size L "},
		{"next 6 (7, 8)", "next 6 (8, 9)", 5, "in size M "},
		{"(14 (16, 18) sc)", "(14 (16, 20) sc)", 5, "in size L "},
	} {
		wrong := strings.Replace(hat, c.from, c.to, 1)
		if wrong == hat {
			t.Fatalf("no %q", c.from)
		}
		if n := Read(wrong).Prove(Options{}).Errors(); n != 0 {
			t.Errorf("%q: %d errors in size S", c.to, n)
		}
		p := Read(wrong).Prove(Options{Others: true})
		n := 0
		for _, f := range p.Findings {
			if line, _ := p.Pattern.Source.Position(f.Span.Start); f.Severity == Error && (line != c.line || !strings.HasPrefix(f.Message, c.in)) {
				t.Errorf("%q: error in line %d: %s", c.to, line, f.Message)
			}
		}
		if n = p.Errors(); n != 1 {
			t.Errorf("%q: %d errors, want one", c.to, n)
		}
	}
}

// TestOneTotalForAllSizes: a row that states one number where the sizes differ
// may have been counted in one size only, which is no error.
func TestOneTotalForAllSizes(t *testing.T) {
	p := Read("Sizes: S (M)\nRnd 1: 8 (9) sc in magic ring. (8 (9) sc)\nRnd 2: 2 sc in each st around. (16 sc)\n").Prove(Options{Others: true})
	if p.Errors() != 0 || len(p.Findings) != 1 || p.Findings[0].Severity != Warning {
		t.Errorf("%v, want one warning", p.Findings)
	}
}

// TestSizesInTitle takes the names of sizes out of the first line, where the
// numbers come in as many.
func TestSizesInTitle(t *testing.T) {
	for title, want := range map[string]string{
		"Skerry Warmer, sizes Small (Large)": "Small/Large",
		"Skerry Warmer (size S (M))":         "S/M",
		"Skerry Warmer, sizes S (M, L)":      "size 1/size 2",
		"Skerry Warmer in two sizes":         "size 1/size 2",
	} {
		p := Read(title + "\nUS terms\n\nFLAP\nCh 12 (14).\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. [11 (13) sc]\n")
		if got := strings.Join(p.Sizes, "/"); got != want {
			t.Errorf("%q: %s, want %s", title, got, want)
		}
	}
}

// TestTotalBeforeAround reads on past the end of a line that could end in a total.
func TestTotalBeforeAround(t *testing.T) {
	const legs = "Rnd 1: 6 sc into magic ring; 6 sc.\nRnd 2: Ch 3, join to the first leg with 1 sc, 11 sc around the first leg, 3 sc in the chs, 12 sc%saround the second leg, 3 sc on the other side of the chs = 30 sc;\n"
	for _, gap := range []string{" ", "\n"} {
		p := Read(strings.Replace(legs, "%s", gap, 1)).Prove(Options{})
		if r := p.Pieces[0].Rows[1]; r.Status != Agrees || r.Made != 30 {
			t.Errorf("with %q: %s, %d made", gap, r.Status, r.Made)
		}
	}
}

// TestLabelOfSize tells rows by the numbers of the size that is proven.
func TestLabelOfSize(t *testing.T) {
	const cap = "Sizes: S (M, L)\nRnd 1: 8 (9, 10) sc in magic ring.\nRnd 2: 2 sc in each st around.\nRnds 3-6 (7, 8): Sc in each st around.\nRnd 7 (8, 9): Sc in each st around.\nRnd 8 (9, 10) (edge): Sc in each st around.\n"
	for size, want := range map[string]string{
		"S": "Rnd 1, Rnd 2, Rnds 3-6, Rnd 7, Rnd 8 (edge)",
		"M": "Rnd 1, Rnd 2, Rnds 3-7, Rnd 8, Rnd 9 (edge)",
		"L": "Rnd 1, Rnd 2, Rnds 3-8, Rnd 9, Rnd 10 (edge)",
	} {
		p := Read(cap).Prove(Options{Size: size})
		var labels []string
		for _, r := range p.Pieces[0].Rows {
			labels = append(labels, p.LabelOf(r))
		}
		if got := strings.Join(labels, ", "); got != want {
			t.Errorf("size %s: %s, want %s", size, got, want)
		}
	}
	p := Read("Rnd 1: 8 sc in magic ring.\nRnds 2 (3): Sc in each st around.\n").Prove(Options{})
	if got := p.LabelOf(p.Pieces[0].Rows[1]); got != p.Pieces[0].Rows[1].Label {
		t.Errorf("a pattern in one size has %q for %q", got, p.Pieces[0].Rows[1].Label)
	}
}
