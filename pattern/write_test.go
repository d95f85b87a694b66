package pattern

import (
	"fmt"
	"strings"
	"testing"
)

// figures is what a proof comes to, without the words it came from.
func figures(p *Proof) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s %s\n", p.Terms, p.Size)
	for _, pc := range p.Pieces {
		fmt.Fprintf(&b, "%s x%d\n", pc.Piece.Name, pc.Piece.Copies)
		for _, r := range pc.Rows {
			for n := r.First; n <= r.Last && n < r.First+200; n++ {
				fmt.Fprintf(&b, "  %s %d: %d %v %s\n", r.Kind, n, r.Made, r.ByKind, r.Status)
			}
		}
	}
	return b.String()
}

// checkWritten holds Write to its word: what it writes proves the same, in
// every size, and writing that again changes nothing.
func checkWritten(t *testing.T, text string) string {
	t.Helper()
	p := Read(text)
	out := Write(p)
	q := Read(out)
	for _, size := range append([]string{""}, p.Sizes...) {
		want, got := figures(p.Prove(Options{Size: size})), figures(q.Prove(Options{Size: size}))
		if want != got {
			t.Errorf("it proves otherwise once written (size %q):\n%s", size, lineDiff(want, got))
			break
		}
	}
	if again := Write(q); again != out {
		t.Errorf("it is written otherwise the second time:\n%s", lineDiff(out, again))
	}
	if t.Failed() {
		t.Logf("read:\n%s\nwritten:\n%s", text, out)
	}
	return out
}

// lineDiff shows the lines in which two texts differ.
func lineDiff(a, b string) string {
	x, y := strings.Split(a, "\n"), strings.Split(b, "\n")
	var out strings.Builder
	for i := 0; i < max(len(x), len(y)); i++ {
		l, r := "", ""
		if i < len(x) {
			l = x[i]
		}
		if i < len(y) {
			r = y[i]
		}
		if l != r {
			fmt.Fprintf(&out, "- %s\n+ %s\n", l, r)
		}
	}
	return out.String()
}

func TestWriteAll(t *testing.T) {
	for _, w := range allWritten(t) {
		t.Run(w.name, func(t *testing.T) { checkWritten(t, w.text) })
	}
}

// TestWriteHouseStyle shows the style itself.
func TestWriteHouseStyle(t *testing.T) {
	text := `Limpet
US terms

LIMPET - make 2
Ch 10; join with a slip stitch to the first chain to form a ring.
R1 - 20 single crochet in ring (20)
Round 2. [sc in next st, inc] x 10 -- 30 sts
3rd round: *1 sc in each of next 2 sts, 2 sc in next st* around {40 sc}
Rnds 4 to 6 = sc in each st around [40]
Rnd 7: *sc in back loops only of next 3 sts, pm; rep from * 9 times more (30 sts).
Fasten off.

STRAP
chain 21
ROW 1: DC in 4th chain from hook and in each chain across: 19 dc
Row 2 (WS) - ch 3 (counts as first dc), turn, skip first st, double crochet in each stitch to end. 19 dc
`
	want := `Limpet
US terms

## LIMPET (make 2)
Ch 10, join with sl st in first ch to form a ring.
Rnd 1: 20 sc in ring. (20 sts)
Rnd 2: *Sc in next st, 2 sc in next st; rep from * 9 more times. (30 sts)
Rnd 3: *Sc in next 2 sts, 2 sc in next st; rep from * around. (40 sc)
Rnds 4-6: Sc in each st around. (40 sts)
Rnd 7: *Sc in back loops only of next 3 sts, pm; rep from * 9 more times. (30 sts)
Fasten off.

## STRAP
Ch 21.
Row 1: Dc in 4th ch from hook and in each ch across. (19 dc)
Row 2 (WS): Ch 3 (counts as dc), turn, skip first st, dc in each st across. (19 dc)
`
	if got := checkWritten(t, text); got != want {
		t.Errorf("written otherwise:\n%s", lineDiff(want, got))
	}
}

// TestWriteInSizes has the rows of each size told as a range of their own, and
// each size named once.
func TestWriteInSizes(t *testing.T) {
	text := "Cuff\nSizes: S (M, L)\n\nCuff\nCh 11 (13, 15).\nRow 1: Sc in 2nd ch from hook and in each ch across. (10 (12, 14) sc)\nRows 2-9 (10, 13): Ch 1, turn, sc in each st across. (10 (12, 14) sc)\nRows 10 (11, 14) to 15 (17, 21): Ch 1, turn, sc in each st across. (10 (12, 14) sc)\n"
	got := checkWritten(t, text)
	for _, want := range []string{"Rows 2-9 (10, 13): ", "Rows 10-15 (11-17, 14-21): "} {
		if !strings.Contains(got, want) {
			t.Errorf("no %q in\n%s", want, got)
		}
	}
	for text, want := range map[string]string{
		text: "size L",
		strings.Replace(text, "Sizes: S (M, L)\n", "", 1): "size 3",
		"Rnd 1: 6 sc in magic ring. (6)\n":                "",
	} {
		p := Read(text)
		size := ""
		if n := len(p.Sizes); n > 0 {
			size = p.Sizes[n-1]
		}
		if got := p.Prove(Options{Size: size}).InSize(); got != want {
			t.Errorf("%q is proven in %q, want %q", text, got, want)
		}
	}
}

// TestWriteRunsOn has sentences between stitches run on within the row, those
// after them behind the total, and names with their capital.
func TestWriteRunsOn(t *testing.T) {
	text := `Mitt
US terms

Mitt
Ch 16.
Rnd 1: Sc in 2nd ch from hook, sc in next 14 ch. Don't turn. Working back along the bottom of the chain, sc in next 15 ch. (30 sts)
Rnd 2: Ch 1, sc in same place, sc in each st to end. Do not join. Work in a spiral from here. (30)
Rnd 3: Sc in each st around. (30)
Rnd 4: As Rnd 3. Fasten off and weave in the ends. (30 sts)
`
	got := checkWritten(t, text)
	for _, want := range []string{
		"sc in next 14 ch, don't turn, working back along the bottom of the chain, sc in next 15 ch. (30 sts)\n",
		"Rnd 2: Ch 1, sc in same st, sc in each st around, do not join, work in a spiral from here. (30 sts)\n",
		"Rnd 4: As Rnd 3. (30 sts) Fasten off and weave in the ends.\n",
	} {
		if !strings.Contains(got, want) {
			t.Errorf("no %q in\n%s", want, got)
		}
	}
}

// TestWriteLosesNothing has corners worked beside stitches that nobody can count
// written too, and leaves a row as it stands that has words in none of its steps: it
// would prove the same without them.
func TestWriteLosesNothing(t *testing.T) {
	const strip = "Strip\nCh 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10 sc)\n"
	for row, want := range map[string]string{
		"Row 2: Ch 1, turn, sc evenly across, working 3 sc in each corner. (12 sc)": "3 sc in each corner. (12 sc)",
		"Row 2: Ch 1, turn, then work 1 sc in the next 10 st. (10 sc)":              "Row 2: Ch 1, turn, sc in next 10 sts. (10 sc)",
	} {
		if text := Write(Read(strip + row + "\n")); !strings.Contains(text, want) {
			t.Errorf("%q is written\n%s", row, text)
		}
	}
	p := Read(strip + "Row 2: Ch 1, turn, sc in next 8 sts, and then sc2tog. (9 sc)\n")
	w, r := newWriter(p), p.Pieces[0].Rows[1]
	if w.loses(r) {
		t.Error("a row of which all words are in its steps is said to lose some")
	}
	r.Steps = r.Steps[:len(r.Steps)-1]
	if !w.loses(r) {
		t.Error("nobody sees that the decrease is gone")
	}
}
