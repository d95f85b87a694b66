package pattern

import (
	"fmt"
	"regexp"
	"strings"
	"testing"
)

// chainPatterns are worked on a chain written as CH; totals hold for one
// chain only and stand in braces.
var chainPatterns = []struct {
	name, text      string
	chains          int64
	of, plus, least int64
}{
	{"single crochet", `
Ch CH.
Row 1: Sc in 2nd ch from hook and in each ch across. {20 sc}
Rows 2-9: Ch 1, turn, sc in each st across. {20 sc}`, 21, 1, 0, 2},
	{"double crochet", `
Ch CH.
Row 1: Dc in 4th ch from hook and in each ch across. {20 dc}
Row 2: Ch 3 (counts as dc), turn, dc in each st across. {20 dc}`, 22, 1, 0, 4},
	{"pairs", `
Ch CH.
Row 1: Sc in 2nd ch from hook and in each ch across. {20 sc}
Row 2: Ch 1, turn, *sc in next st, sk next st, 2 sc in next st, sc in next st; rep from * across. {20 sc}`, 21, 4, 1, 5},
	{"shells", `
Ch CH.
Row 1: Sc in 2nd ch from hook, *sk 2 ch, 5 dc in next ch, sk 2 ch, sc in next ch; rep from * across. {4 sc, 15 dc}`, 20, 6, 2, 8},
	{"mesh", `
Ch CH.
Row 1: Dc in 8th ch from hook, *ch 2, sk 2 ch, dc in next ch; rep from * across. {7 dc, 6 ch-2 sps}`, 23, 3, 2, 11},
	{"increases across", `
Ch CH.
Row 1: Sc in 2nd ch from hook and in each ch across. {24 sc}
Row 2: Ch 1, turn, (sc in next 5 sts, inc) across. {28 sc}
Row 3: Ch 1, turn, (sc in next 6 sts, inc) across. {32 sc}`, 25, 6, 1, 7},
	{"two rows of different multiples", `
Ch CH.
Row 1: Sc in 2nd ch from hook and in each ch across. {24 sc}
Row 2: Ch 1, turn, (sc in next 2 sts, dc in next 2 sts) across. {12 sc, 12 dc}
Row 3: Ch 1, turn, (sc in next 2 sts, dc in next 4 sts) across. {8 sc, 16 dc}`, 25, 12, 1, 13},
	{"fixed repeats", `
Ch CH.
Row 1: Sc in 2nd ch from hook and in each ch across. {20 sc}
Row 2: Ch 1, turn, (sc in next 2 sts, hdc in next 2 sts) 5 times. {10 sc, 10 hdc}`, 21, 0, 0, 21},
	{"increases at both ends of a number", `
Ch CH.
Row 1: Sc in 2nd ch from hook and in each ch across. {10 sc}
Row 2: Ch 1, turn, 2 sc in first st, sc in next 8 sts, 2 sc in last st. {12 sc}`, 11, 0, 0, 11},
	{"edge stitches kept", `
Ch CH.
Row 1: Sc in 2nd ch from hook and in each ch across. {23 sc}
Row 2: Ch 1, turn, sc in next 2 sts, *ch 3, sk 3 sts, sc in next st; rep from * to last st, sc in last st.`, 24, 4, 0, 8},
	{"decreasing to a point", `
Ch CH.
Row 1: Sc in 2nd ch from hook and in each ch across. {10 sc}
Rows 2-4: Ch 1, turn, sc2tog, sc in each st to last 2 sts, sc2tog. {4 sc}`, 11, 1, 0, 9},
	{"oval", `
Ch CH.
Rnd 1: Sc in 2nd ch from hook and in each ch to last ch, 3 sc in last ch; working along opposite side of ch, sc in each ch to last ch, 2 sc in last ch.`, 10, 1, 0, 3},
	{"half of a pair at the end", `
Ch CH.
Row 1: Sc in 2nd ch from hook and in each ch across. {21 sc}
Row 2: Ch 1, turn, sc in first st, *ch 1, sk next st, sc in next st; rep from * across. {11 sc, 10 ch-1 sps}
Row 3: Ch 1, turn, sc in first sc, *sc in next ch-1 sp, sc in next sc; rep from * across. {21 sc}`, 22, 2, 0, 4},
	{"wave", `
Ch CH.
Row 1: Sc in 2nd ch from hook, sc in next 2 ch, *3 sc in next ch, sc in next 3 ch, sk 2 ch, sc in next 3 ch; rep from * to last 4 ch, 3 sc in next ch, sc in last 3 ch.`, 26, 9, 8, 17},
}

var braces = regexp.MustCompile(`\{([^}]*)\}`)

// The multiple is right for every chain from 1 to 300: each is written out,
// read and proven for itself.
func TestChainMultiples(t *testing.T) {
	for _, test := range chainPatterns {
		t.Run(test.name, func(t *testing.T) {
			written := strings.ReplaceAll(braces.ReplaceAllString(test.text, "($1)"), "CH", fmt.Sprint(test.chains))
			proof := Read(written).Prove(Options{})
			if proof.Errors() > 0 {
				t.Fatalf("%v", proof.Findings)
			}
			m := proof.Implied().Pieces[0].Chain
			if m == nil {
				t.Fatal("no multiple found")
			}
			if m.Of != test.of || m.Plus != test.plus || m.Least != test.least {
				t.Errorf("multiple of %d, plus %d, from %d; want %d, plus %d, from %d", m.Of, m.Plus, m.Least, test.of, test.plus, test.least)
			}
			plain := braces.ReplaceAllString(test.text, "")
			for c := int64(1); c <= 300; c++ {
				want := c == m.Chains
				if m.Of > 0 {
					want = c >= m.Least && c%m.Of == m.Plus
				}
				p := Read(strings.ReplaceAll(plain, "CH", fmt.Sprint(c))).Prove(Options{})
				got := true
				for _, f := range p.Findings {
					got = got && f.Severity == Note
				}
				for _, r := range p.Pieces[0].Rows {
					got = got && !idle(r)
				}
				if got != want {
					t.Errorf("on %d chains it comes out: %v; the multiple says %v", c, got, want)
				}
			}
		})
	}
}

// idle reports whether a repeat of the row that is to fill it is not worked
// at all.
func idle(r *RowProof) bool {
	for _, s := range r.Row.Steps {
		if s.Op == OpGroup && s.Times.Kind == Fill && !traced(r.Trace, s) {
			return true
		}
	}
	return false
}

func traced(t *Trace, s *Step) bool {
	if t == nil || t.Step == s {
		return t != nil
	}
	for _, k := range t.Kids {
		if traced(k, s) {
			return true
		}
	}
	return false
}

// fins is a panel with three fins on its last row.
const fins = `
Panel
Ch 31.
Row 1: Sc in 2nd ch from hook and in each ch across. (30 sc)
Rows 2-9: Ch 1, turn, sc in each st across. (30 sc)

First Fin
Row 1: Join yarn in %s st of Row 9 of Panel, sc in same st and in next 5 sts. (6 sc)

Second Fin (make 2)
Row 1: Join yarn in 13th st of Row 9 of Panel, sc in same st and in next 5 sts. (6 sc)
Row 2: Ch 1, turn, (sc, hdc) in first st, hdc in next 4 sts, 2 sc in last st. (3 sc, 5 hdc)

Third Fin
Row 1: Join yarn in 22nd st of Row 9 of Panel, sc in same st and in next 5 sts. (6 sc)
`

func TestPlacing(t *testing.T) {
	for _, test := range []struct {
		first     string
		from, to  int64
		free      string
		symmetric bool
	}{
		{"4th", 4, 9, "[3 3 3 3]", true},
		{"5th", 5, 10, "[4 2 3 3]", false},
		{"8th", 8, 13, "[7 -1 3 3]", false},
		{"1st", 1, 6, "[0 6 3 3]", false},
	} {
		im := Read(fmt.Sprintf(fins, test.first)).Prove(Options{}).Implied()
		if len(im.Pieces) != 4 {
			t.Fatalf("%d pieces", len(im.Pieces))
		}
		s := im.Pieces[1].Sits
		if s == nil {
			t.Fatalf("%s: the first fin sits nowhere", test.first)
		}
		if s.Host.Piece.Name != "Panel" || s.Row != 9 || s.From != test.from || s.To != test.to || s.Of != 30 || s.Before() != test.from-1 || s.After() != 30-test.to {
			t.Errorf("%s: %+v", test.first, *s)
		}
		hosts := im.Pieces[0].Hosts
		if len(hosts) != 1 || len(hosts[0].Pieces) != 3 {
			t.Fatalf("%s: host rows %+v", test.first, hosts)
		}
		if h := hosts[0]; fmt.Sprint(h.Free) != test.free || h.Symmetrical != test.symmetric {
			t.Errorf("%s: free %v, symmetrical %v; want %s, %v", test.first, h.Free, h.Symmetrical, test.free, test.symmetric)
		}
	}
}

func TestImpliedCounts(t *testing.T) {
	im := Read(fmt.Sprintf(fins, "4th")).Prove(Options{}).Implied()
	for i, want := range []struct {
		rows, stitches int64
		kinds          string
	}{{9, 270, "[{sc 270}]"}, {1, 6, "[{sc 6}]"}, {2, 14, "[{sc 9} {hdc 5}]"}, {1, 6, "[{sc 6}]"}} {
		pi := im.Pieces[i]
		if pi.Rows != want.rows || pi.Stitches != want.stitches || fmt.Sprint(pi.ByKind) != want.kinds {
			t.Errorf("piece %d: %d rows, %d stitches, %v; want %+v", i, pi.Rows, pi.Stitches, pi.ByKind, want)
		}
	}
	if im.Rows != 9+1+2*2+1 || im.Stitches != 270+6+2*14+6 || fmt.Sprint(im.ByKind) != "[{sc 300} {hdc 10}]" || im.Unknown != 0 {
		t.Errorf("in all %d rows, %d stitches, %v, %d unknown", im.Rows, im.Stitches, im.ByKind, im.Unknown)
	}
}

// What is not known is not given out as known.
func TestImpliedUnknown(t *testing.T) {
	for _, test := range []struct{ name, text string }{
		{"a row not understood", "Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across. (20 sc)\nRow 2: Ch 1, turn, frobnicate in next 3 sts. (20 sc)"},
		{"a row that differs", "Ch 20.\nRow 1: Sc in 2nd ch from hook and in next 30 ch. (20 sc)"},
		{"a ring", "Ch 6, join with sl st in first ch to form ring.\nRnd 1: Ch 1, 12 sc in ring, join. (12 sc)"},
		{"no foundation", "Rnd 1: 6 sc in magic ring. (6)"},
		{"nothing", ""},
	} {
		im := Read(test.text).Prove(Options{}).Implied()
		for _, pi := range im.Pieces {
			if pi.Chain != nil {
				t.Errorf("%s: %+v", test.name, *pi.Chain)
			}
		}
	}
}

func BenchmarkImplied(b *testing.B) {
	var text strings.Builder
	text.WriteString("Ch 121.\nRow 1: Sc in 2nd ch from hook and in each ch across. (120 sc)\n")
	for i := 2; i < 300; i += 2 {
		fmt.Fprintf(&text, "Row %d: Ch 1, turn, *sc in next st, ch 1, sk next st; rep from * across.\nRow %d: Ch 1, turn, sc in each ch-1 sp and in each sc across. (120 sc)\n", i, i+1)
	}
	p := Read(text.String()).Prove(Options{})
	for b.Loop() {
		p.Implied()
	}
}

// Numbers beyond all yarn are no reason to come to less than nothing.
func TestImpliedHuge(t *testing.T) {
	for _, text := range []string{
		"Panel (make 9)\nCh 999999999999.\nRow 1: Sc in 2nd ch from hook and in each ch across.\nRows 2-900000: Ch 1, turn, sc in each st across.\n",
		"Coil (make 900)\nRnd 1: 999999999999999999 sc in magic ring.\nRnds 2-90: Sc in each st around.\n",
	} {
		im := Read(text).Prove(Options{}).Implied()
		if im.Stitches <= 0 || im.Rows <= 0 {
			t.Errorf("%d stitches in %d rows", im.Stitches, im.Rows)
		}
	}
}

// Whatever the text, what it implies is had without harm, is the same every
// time, and leaves the proof as it was.
func FuzzImplied(f *testing.F) {
	for _, w := range allWritten(f) {
		f.Add(w.text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if len(text) > maxFuzzed {
			t.Skip()
		}
		p := Read(text).Prove(Options{})
		before := fmt.Sprint(p.Findings, p.Summary())
		a, b := p.Implied(), p.Implied()
		if len(a.Pieces) != len(p.Pieces) {
			t.Fatalf("%d pieces of %d", len(a.Pieces), len(p.Pieces))
		}
		for i, pi := range a.Pieces {
			if c, d := pi.Chain, b.Pieces[i].Chain; (c == nil) != (d == nil) || c != nil && *c != *d {
				t.Errorf("%v, then %v", c, d)
			}
			if pi.Stitches < 0 || pi.Rows < 0 || pi.Unknown < 0 {
				t.Errorf("less than nothing: %+v", *pi)
			}
			for _, h := range pi.Hosts {
				if h.String() == "" || len(h.Free) != len(h.Pieces)+1 {
					t.Errorf("%+v", h)
				}
			}
			if c := pi.Chain; c != nil && c.Of > 0 && (c.Plus >= c.Of || c.Least > c.Chains || c.Chains%c.Of != c.Plus) {
				t.Errorf("%+v", *c)
			}
		}
		if after := fmt.Sprint(p.Findings, p.Summary()); after != before {
			t.Error("the proof has changed")
		}
	})
}
