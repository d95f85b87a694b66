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

// TestSlipsAreFound changes one number in each of so many made-up patterns:
// the proof must find it on its own line, as an error where the row states a
// total, as a warning at least where only the fit is lost. A few may be lost,
// since print is read generously: "5 times" may be five more.
func TestSlipsAreFound(t *testing.T) {
	const slips, atLeast = 400, 380
	gen := rapid.Custom(drawSlip)
	found := 0
	for seed := range slips {
		s := gen.Example(seed)
		text := s.p.write(s.h)
		r := s.p.rows[s.row]
		want := Warning
		if r.stated >= 0 {
			want = Error
		}
		proof := Read(text).Prove(Options{})
		line := lineOfRow(text, s.row)
		caught := false
		for _, f := range proof.Findings {
			at, _ := proof.Pattern.Source.Position(f.Span.Start)
			caught = caught || f.Severity >= want && at == line
		}
		if caught {
			found++
			continue
		}
		t.Logf("not found (line %d, %s):\n%s\n%s", line, want, lineDiff(s.was, text), text)
		for _, f := range proof.Findings {
			at, _ := proof.Pattern.Source.Position(f.Span.Start)
			t.Logf("    line %d: %s %s: %s", at, f.Severity, f.Code, f.Message)
		}
	}
	t.Logf("%d of %d found", found, slips)
	if found < atLeast {
		t.Errorf("%d of %d slips are found, want %d", found, slips, atLeast)
	}
}

// lineOfRow is the line of the i-th row of a made-up pattern: its rows are
// the lines with a label, in order.
func lineOfRow(text string, i int) int {
	for k, line := range strings.Split(text, "\n") {
		for _, word := range []string{"row", "rnd", "round"} {
			label := strings.TrimLeft(strings.ToLower(line), "*")
			if digits := strings.TrimLeft(label, "0123456789"); digits != label {
				_, label, _ = strings.Cut(digits, " ") // "1st row"
			}
			if strings.HasPrefix(label, word) {
				if i == 0 {
					return k + 1
				}
				i--
				break
			}
		}
	}
	return 0
}
