package spoken

import (
	"testing"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/demo"
)

func demoProof(t *testing.T, name string) *pattern.Proof {
	t.Helper()
	d, ok := demo.Find(name)
	if !ok {
		t.Fatalf("no demo %s", name)
	}
	return pattern.Read(d.Text).Prove(pattern.Options{})
}

// Every row walked has exactly one line, whether rows alike are said once or
// one by one, and the times add up.
func TestEveryRowHasItsLine(t *testing.T) {
	for _, d := range demo.All() {
		proof := demoProof(t, d.Name)
		for _, every := range []bool{false, true} {
			s := Of(proof, Options{EveryRow: every})
			for i, pc := range proof.Pieces {
				for row := range pc.Len() {
					said := 0
					for _, p := range s.Parts {
						for _, l := range p.Lines {
							if l.Piece == i && l.First <= row && row <= l.Last {
								said++
							}
						}
					}
					l, ok := s.Row(i, row)
					if said != 1 || !ok || every && l.First != l.Last {
						t.Errorf("%s: row %d of piece %d is said %d times: %+v", d.Name, row, i, said, l)
					}
				}
			}
			sum := int64(0)
			for _, p := range s.Parts {
				for _, l := range p.Lines {
					sum += l.Milliseconds
					if l.Milliseconds != Milliseconds(l.Text, s.Rate) || l.Milliseconds <= 0 {
						t.Errorf("%s: %d ms for %q", d.Name, l.Milliseconds, l.Text)
					}
				}
			}
			if sum != s.Milliseconds {
				t.Errorf("%s: %d ms in all, and its lines %d", d.Name, s.Milliseconds, sum)
			}
		}
	}
}
