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
