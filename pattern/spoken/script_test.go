package spoken

import (
	"fmt"
	"strings"
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

// TestLongRuns wants a run beyond what is said one by one to be said once, and
// a run of that length in full.
func TestLongRuns(t *testing.T) {
	for rows, want := range map[int]int{MostRowsInFull + 1: MostRowsInFull + 1, MostRowsInFull + 2: 2, 1_000_000: 2} {
		text := fmt.Sprintf("Ch 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10 sc)\nRows 2-%d: Ch 1, turn, sc in each st across. (10 sc)\n", rows)
		s := Of(pattern.Read(text).Prove(pattern.Options{}), Options{EveryRow: true})
		if got := len(s.Parts[0].Lines); got != want {
			t.Errorf("%d rows have %d lines, want %d", rows, got, want)
		}
	}
}

// TestOnePiece says one piece alone, whatever the case of its name, with the
// reader's own line behind its row.
func TestOnePiece(t *testing.T) {
	s := Of(demoProof(t, "net"), Options{Piece: "HANDLE", Notes: []Note{{1, 1, "show the 2 ends"}, {0, 1, "not this"}}})
	if len(s.Parts) != 1 || s.Parts[0].Piece != 1 || len(s.Parts[0].Lines) != 2 {
		t.Fatalf("%+v", s.Parts)
	}
	if l, ok := s.Row(1, 1); !ok || !strings.HasSuffix(l.Text, "Show the two ends.") {
		t.Errorf("%q", l.Text)
	}
	if _, ok := s.Row(0, 0); ok {
		t.Error("another piece is said")
	}
}
