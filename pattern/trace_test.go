package pattern

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// lastRow is the proof of the last row of a small pattern.
func lastRow(t *testing.T, rows string) *RowProof {
	t.Helper()
	p := Read("Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across. (20 sc)\n" + rows).Prove(Options{})
	if p.Errors() > 0 {
		t.Fatalf("errors: %s", someFindings(p))
	}
	pc := p.Pieces[0]
	return pc.Rows[len(pc.Rows)-1]
}

// outlineOf writes a trace in one line: the words of each instruction, what it
// makes, and how often the passes of a repeat are gone through.
func outlineOf(src *Source, t *Trace) string {
	words := "row"
	if t.Step != nil {
		words = oneLine(src.Slice(t.Step.Span))
	}
	if t.Kids == nil {
		return fmt.Sprintf("%s=%d", words, t.Stitches)
	}
	var kids []string
	for _, k := range t.Kids {
		kids = append(kids, outlineOf(src, k))
	}
	in := strings.Join(kids, "; ")
	switch {
	case t.Of > 0:
		return fmt.Sprintf("passes %d-%d of %d, each %d [%s]", t.First, t.First+t.Times-1, t.Of, t.Stitches, in)
	case t.Step == nil:
		return in
	}
	return fmt.Sprintf("%s=%d [%s]", words, t.Stitches, in)
}

func TestTrace(t *testing.T) {
	tests := []struct{ row, want string }{
		{"Row 2: Ch 1, turn, sc in each st across. (20 sc)",
			"Ch 1=0; turn=0; sc in each st across=20"},
		{"Row 2: Ch 1, turn, (sc in next st, 2 sc in next st) 10 times. (30 sc)",
			"Ch 1=0; turn=0; passes 1-10 of 10, each 3 [sc in next st=1; 2 sc in next st=2]"},
		{"Row 2: Ch 1, turn, *sc in next 3 sts, ch 1, sk next st; rep from * across. (15 sc)",
			"Ch 1=0; turn=0; passes 1-5 of 5, each 3 [sc in next 3 sts=3; ch 1=0; sk next st=0]"},
		{"Row 2: Ch 1, turn, *sc in next 3 sts, ch 1, sk next st; rep from * to last 4 sts, sc in last 4 sts. (16 sc)",
			"Ch 1=0; turn=0; passes 1-4 of 4, each 3 [sc in next 3 sts=3; ch 1=0; sk next st=0]; sc in last 4 sts=4"},
		{"Row 2: Ch 1, turn, ((sc in next st, hdc in next st) twice, dc in next st) 4 times. (20 sts)",
			"Ch 1=0; turn=0; passes 1-4 of 4, each 5 [passes 1-2 of 2, each 2 [sc in next st=1; hdc in next st=1]; dc in next st=1]"},
		{"Row 2: Ch 3, turn, sk first 2 sts, *(2 dc, ch 1, 2 dc) in next st, sk next 2 sts; rep from * across.",
			"Ch 3=1; turn=0; sk first 2 sts=0; passes 1-6 of 6, each 4 [(2 dc, ch 1, 2 dc) in next st=4 [2 dc=2; ch 1=0; 2 dc=2]; sk next 2 sts=0]"},
	}
	for _, tt := range tests {
		r := lastRow(t, tt.row)
		if r.Trace == nil {
			t.Errorf("%s: no trace", tt.row)
			continue
		}
		src := NewSource("Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across. (20 sc)\n" + tt.row)
		if got := outlineOf(src, r.Trace); got != tt.want {
			t.Errorf("%s\n got %s\nwant %s", tt.row, got, tt.want)
		}
	}
}

// TestTraceLong keeps the trace of 100,000 passes as small as that of two.
func TestTraceLong(t *testing.T) {
	p := Read("Ch 200001.\nRow 1: Sc in 2nd ch from hook and in each ch across. (200000)\nRow 2: Ch 1, turn, *sc in next st, hdc in next st; rep from * across. (200000)").Prove(Options{})
	rows := p.Pieces[0].Rows
	got := outlineOf(p.Pattern.Source, rows[len(rows)-1].Trace)
	want := "Ch 1=0; turn=0; passes 1-100000 of 100000, each 2 [sc in next st=1; hdc in next st=1]"
	if got != want {
		t.Errorf("got %s\nwant %s", got, want)
	}
}

// TestTraceAdds holds the traces of rows made up at random to the count of the
// row: every stitch belongs to one instruction, and going along them one by one
// tells the same passes.
func TestTraceAdds(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		var b strings.Builder
		used := 0
		for used < 20 {
			n := rapid.IntRange(1, min(6, 20-used)).Draw(rt, "stitches")
			times := rapid.IntRange(1, (20-used)/n).Draw(rt, "times")
			if times > 1 {
				fmt.Fprintf(&b, "(sc in next %d sts, ch 1) %d times, ", n, times)
			} else {
				fmt.Fprintf(&b, "dc in next %d sts, ", n)
			}
			used += n * times
		}
		r := lastRow(t, "Row 2: Ch 1, turn, "+strings.TrimSuffix(b.String(), ", ")+".")
		if r.Trace.total() != r.Made || r.Made != 20 {
			rt.Fatalf("the trace has %d stitches, the row %d", r.Trace.total(), r.Made)
		}
		for done := int64(0); done < r.Made; done++ {
			h := r.Here(done)
			if h.Step == nil || h.Nth < 1 || h.Nth > h.Of || h.InstructionEnd != done-h.Nth+1+h.Of || h.PassEnd < h.InstructionEnd {
				rt.Fatalf("after %d stitches: %+v", done, h)
			}
			for _, p := range h.Passes {
				if p.N < 1 || p.N > p.Of {
					rt.Fatalf("after %d stitches: pass %d of %d", done, p.N, p.Of)
				}
			}
		}
		if end := r.Here(r.Made); end.Step != nil || end.InstructionEnd != r.Made {
			rt.Fatalf("at the end of the row: %+v", end)
		}
	})
}
