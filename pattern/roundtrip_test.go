package pattern

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// checkMade holds the proof of a made-up pattern against the generator's own
// count.
func checkMade(p *madePattern, text string) []string {
	var bad []string
	proof := Read(text).Prove(Options{})
	for _, f := range proof.Findings {
		if f.Severity > Note {
			line, _ := proof.Pattern.Source.Position(f.Span.Start)
			bad = append(bad, fmt.Sprintf("line %d: %s %s: %s", line, f.Severity, f.Code, f.Message))
		}
	}
	if len(proof.Pieces) != 1 {
		return append(bad, fmt.Sprintf("%d pieces", len(proof.Pieces)))
	}
	for _, r := range p.rows {
		for n := r.from; n <= r.to; n++ {
			got := findProofRow(proof, proof.Pieces[0].Piece.Name, n)
			want := Agrees
			if r.stated < 0 {
				want = Unstated
			}
			switch {
			case got == nil:
				bad = append(bad, fmt.Sprintf("row %d is not there", n))
			case got.Made != int64(r.made()) || got.Status != want:
				bad = append(bad, fmt.Sprintf("row %d makes %d, %s; by construction %d, %s", n, got.Made, got.Status, r.made(), want))
			}
		}
	}
	return bad
}

// TestMadeUpPatterns writes patterns that are right by construction in houses
// drawn by lot: the proof must come to the same counts with nothing to say.
func TestMadeUpPatterns(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, h := drawPattern(t), drawHouse(t)
		text := p.write(h)
		if bad := checkMade(p, text); len(bad) > 0 {
			t.Fatalf("%s\n%s\n%+v", text, strings.Join(bad, "\n"), h)
		}
	})
}

// TestMadeUpPatternsWritten writes what was read of them in our own style.
func TestMadeUpPatternsWritten(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, h := drawPattern(t), drawHouse(t)
		text := p.write(h)
		out := Write(Read(text))
		if bad := checkMade(p, out); len(bad) > 0 {
			t.Fatalf("%s\n%s\n%s", text, out, strings.Join(bad, "\n"))
		}
		if again := Write(Read(out)); again != out {
			t.Fatalf("written otherwise the second time:\n%s\n%s", out, again)
		}
	})
}
