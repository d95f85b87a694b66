package pattern

import (
	"fmt"
	"runtime"
	"strings"
	"testing"
)

// workOf is a proof and what it took to read and prove it: bytes allocated in
// all, which do not depend on the clock.
type workOf struct {
	proof *Proof
	bytes uint64
}

func workFor(text string) workOf {
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	p := Read(text).Prove(Options{})
	runtime.ReadMemStats(&after)
	return workOf{p, after.TotalAlloc - before.TotalAlloc}
}

// has reports whether a finding of a code stands in the proof.
func (w workOf) has(c Code) bool {
	for _, f := range w.proof.Findings {
		if f.Code == c {
			return true
		}
	}
	return false
}

const mega = 1 << 20

// TestLimits gives the program what no pattern holds. Each is answered, or
// refused in so many words, within a bound on what is allocated.
func TestLimits(t *testing.T) {
	if racing {
		t.Skip("sizes are for the run without the race detector")
	}
	if testing.Short() {
		t.Skip("takes some seconds")
	}
	start := "Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across. (20 sc)\n"
	many := func(n int, s string) string { return strings.Repeat(s, n) }
	tests := []struct {
		name string
		text func() string
		want Code   // "" where nothing is amiss
		most uint64 // bytes allocated, in all
	}{
		{"a repeat of a million million", func() string { return start + "Row 2: Ch 1, turn, (sc in next st) x 1000000000000. (20 sc)\n" }, CodeOverrun, 4 * mega},
		{"a repeat of a million million in a ring", func() string { return "Rnd 1: (2 sc, ch 1) x 1000000000000 in a magic ring.\n" }, CodeTooLarge, 400 * mega},
		{"number beyond all", func() string { return start + "Row 2: Ch 1, turn, sc in next 99999999999999999999999 sts.\n" }, CodeOverrun, 4 * mega},
		{"repeats of repeats of a million", func() string {
			return start + "Row 2: Ch 1, turn, ((((2 sc in same st) x 1000000) x 1000000) x 1000000) x 1000000.\n"
		}, CodeTooLarge, 400 * mega},
		{"nested brackets", func() string { return start + "Row 2: " + many(100_000, "(") + "sc" + many(100_000, ")") + "\n" }, CodeUnread, 400 * mega},
		{"nested brackets with times", func() string {
			return start + "Row 2: " + many(100_000, "(") + "sc" + many(100_000, ") x 2") + "\n"
		}, CodeUnread, 600 * mega},
		{"open brackets", func() string { return start + "Row 2: " + many(100_000, "[ sc in next st, ") + "\n" }, CodeTooMuch, 600 * mega},
		{"nested stars", func() string {
			return start + "Row 2: " + many(100_000, "*sc, ") + many(100_000, "; rep from * 2 times") + "\n"
		}, CodeTooMuch, 800 * mega},
		{"nested places", func() string { return start + "Row 2: " + many(100_000, "in next sp work (") + "\n" }, CodeTooMuch, 3000 * mega},
		{"a line of 10 MB of words", func() string { return start + "Row 2: " + many(10*mega/8, "seaweed ") + "\n" }, CodeTooMuch, 800 * mega},
		{"a line of 10 MB of stitches", func() string { return start + "Row 2: " + many(10*mega/4, "sc, ") + "\n" }, CodeTooMuch, 4000 * mega},
		{"a line of 2 MB of rows", func() string { return start + many(2*mega/20, "Row 2: sc, sc. (2) ") + "\n" }, "", 4000 * mega},
		{"2 MB of marks", func() string { return many(2*mega, "*") }, "", 1600 * mega},
		{"2 MB of brackets", func() string { return many(2*mega, "(") }, "", 3000 * mega},
		{"2 MB without a word", func() string { return many(2*mega, "\x00") }, "", 300 * mega},
		{"2 MB of line ends", func() string { return many(2*mega, "\n") }, "", 800 * mega},
		{"100,000 pieces", func() string {
			var b strings.Builder
			for i := range 100_000 {
				fmt.Fprintf(&b, "## Fin %d\nCh 4.\nRow 1: sc in 2nd ch from hook and in next 2 ch. (3)\n\n", i)
			}
			return b.String()
		}, CodeTooMuch, 800 * mega},
		{"pieces that name one another", func() string {
			var b strings.Builder
			for i := range 2000 {
				fmt.Fprintf(&b, "## Fin %d\nCh 4.\nRow 1: sc in 2nd ch from hook and in next 2 ch. (3)\nRow 2: Ch 1, turn, sc in next 3 sts of Fin %d, sc in st from Row 1 of Fin %d.\n\n", i, i/2, i/3)
			}
			return b.String()
		}, CodeOverrun, 3000 * mega},
		{"a million rows of a million stitches", func() string {
			return "Ch 1000001.\nRow 1: Sc in 2nd ch from hook and in each ch across. (1000000)\nRows 2-1000000: Ch 1, turn, sc in each st across. (1000000)\n"
		}, "", mega},
		{"100,000 rows that grow", func() string { return start + "Rows 2-100000: Ch 1, turn, 2 sc in first st, sc in each st across.\n" }, CodeTooLarge, 400 * mega},
		{"rows that double", func() string { return start + "Rows 2-80: Ch 1, turn, 2 sc in each st across.\n" }, CodeTooLarge, 10 * mega},
		{"a mesh that grows", func() string {
			return start + "Rows 2-100000: Ch 1, turn, 2 sc in first st, *ch 1, sc in next st; rep from * across.\n"
		}, CodeTooLarge, 1600 * mega},
		{"rows of many runs repeated", func() string {
			return "Ch 100001.\nRow 1: Sc in 2nd ch from hook and in each ch across.\nRow 2: Ch 1, turn, *sc in next st, dc in next st; rep from * across.\n" +
				"Row 3: Ch 1, turn, *dc in next st, sc in next st; rep from * across.\nRows 4-20000: Rep Rows 2 and 3.\n"
		}, CodeTooLarge, 1600 * mega},
		{"100,000 sizes", func() string {
			var list []string
			for i := range 100_000 {
				list = append(list, fmt.Sprint(i+20))
			}
			all := list[0] + " (" + strings.Join(list[1:], ", ") + ")"
			return "Sizes: " + all + "\n\nCh " + all + ".\nRow 1: Sc in 2nd ch from hook and in each ch across. (" + all + " sc)\n"
		}, CodeUnread, 800 * mega},
		{"200,000 rows that repeat one", func() string {
			var b strings.Builder
			b.WriteString(start)
			for i := range 199_000 {
				fmt.Fprintf(&b, "Row %d: Rep Row 1.\n", i+2)
			}
			return b.String()
		}, CodeTooLarge, 1600 * mega},
		{"every even row of a thousand million", func() string {
			return start + "Row 2 and all even rows: Ch 1, turn, sc in each st across.\nRow 999999999: Ch 1, turn, sc in each st across.\n"
		}, "", 100 * mega},
		{"10,000 definitions", func() string {
			var b strings.Builder
			b.WriteString("Special Stitches:\n")
			for i := range 10_000 {
				fmt.Fprintf(&b, "Fin%s shell: (2 dc, ch 1, fin%s shell) in next st.\n", strings.Repeat("x", i%20), strings.Repeat("y", i%20))
			}
			return b.String() + "\n" + start
		}, "", 800 * mega},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			w := workFor(tt.text())
			if tt.want != "" && !w.has(tt.want) {
				t.Errorf("no finding %q among %s", tt.want, someFindings(w.proof))
			}
			if tt.want == "" && w.proof.Errors() > 0 {
				t.Errorf("errors: %s", someFindings(w.proof))
			}
			t.Logf("%d MB", w.bytes/mega)
			if w.bytes > tt.most {
				t.Errorf("%d MB allocated, want at most %d", w.bytes/mega, tt.most/mega)
			}
			checkProof(t, w.proof)
		})
	}
}

// TestOneSizeOfMany takes one of more sizes than any pattern has.
func TestOneSizeOfMany(t *testing.T) {
	var list []string
	for i := range 20_000 {
		list = append(list, fmt.Sprint(i+20))
	}
	all := list[0] + " (" + strings.Join(list[1:], ", ") + ")"
	p := Read("Sizes: " + all + "\n\nCh " + all + ".\nRow 1: Sc in 2nd ch from hook and in each ch across.\n")
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	got := p.OneSize(12_000)
	runtime.ReadMemStats(&after)
	if want := "Ch 12020.\nRow 1: Sc in 2nd ch from hook and in each ch across.\n"; strings.TrimSpace(got) != strings.TrimSpace(want) {
		t.Errorf("got %.200q, want %q", got, want)
	}
	if n := after.TotalAlloc - before.TotalAlloc; n > 48*mega { // twice that with the race detector; by the square it would be thousands
		t.Errorf("%d MB allocated", n/mega)
	}
}

func someFindings(p *Proof) string {
	var b strings.Builder
	for i, f := range p.Findings {
		if i == 5 {
			fmt.Fprintf(&b, "... %d in all", len(p.Findings))
			break
		}
		fmt.Fprintf(&b, "%s %s: %.200s; ", f.Severity, f.Code, f.Message)
	}
	if b.Len() == 0 {
		return "none"
	}
	return b.String()
}
