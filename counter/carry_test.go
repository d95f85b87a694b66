package counter_test

import (
	"testing"

	"crochet/tallyturn/counter"
)

const quay = `Quay strip

US terms

Strip (make 2)
Ch 21.
Row 1: Sc in 2nd ch from hook and in each ch across. (20)
Rows 2-8: Ch 1, turn, sc in each st across. (20)
Row 9: Ch 1, turn, (sc in next 3 sts, 2 sc in next st) 5 times. (25)
`

func TestCarryOn(t *testing.T) {
	s := walk(t, read(quay), "finish20 tap20")
	if c := s.IfCarried(19); c == nil || len(c.Rows) != 2 || c.Mend == nil || c.Mend.Row != 2 || c.Mend.By != 1 {
		t.Errorf("if carried: %+v", c)
	}
	if s.IfCarried(20) != nil || s.Carried() != nil {
		t.Error("there is no difference")
	}
	s = apply(t, s, counter.Event{Kind: counter.Carry, N: 19})
	if n, _ := s.Expect(); n != 19 || s.Carried() == nil {
		t.Errorf("row 3 is expected to have %d", n)
	}
	if m, ok := s.Mismatch(); !ok || m.Row != 1 || m.Counted != 19 {
		t.Errorf("mismatch %+v", m)
	}
	// The other copy is as the pattern has it.
	other := apply(t, s, counter.Event{Kind: counter.Jump, Copy: 1, Row: 2})
	if n, _ := other.Expect(); n != 20 || other.Carried() != nil {
		t.Errorf("the other copy expects %d", n)
	}
	// A stitch added in row 3 brings it right again.
	s = apply(t, s, counter.Event{Kind: counter.Tap, N: 19}, counter.Event{Kind: counter.Carry, N: 20})
	if n, _ := s.Expect(); n != 20 {
		t.Errorf("row 4 is expected to have %d", n)
	}
	if len(s.Carried().Rows) != 1 {
		t.Errorf("%+v", s.Carried().Rows)
	}
	// Finishing row 2 again, as it should be, leaves no difference but that of row 3.
	again := apply(t, s, counter.Event{Kind: counter.Jump, Row: 1, N: 20}, counter.Event{Kind: counter.Finish, N: 20})
	if n, _ := again.Expect(); n != 20 || len(again.Carried().Rows) != 0 {
		t.Errorf("row 3 is expected to have %d, %+v", n, again.Carried())
	}
	// Unravelling takes the differences with it, and gives them back.
	ripped := apply(t, s, counter.Event{Kind: counter.Unravel, Row: 1, N: 4})
	if ripped.Carried() != nil {
		t.Error("a difference is left of what is unravelled")
	}
	if back := apply(t, ripped, counter.Event{Kind: counter.Back}); back.Carried() != s.Carried() {
		t.Error("the differences are not back")
	}
	s = apply(t, s, script(t, "back back back")...)
	if s.Carried() != nil {
		t.Error("carrying on is not taken back")
	}
	if n, _ := apply(t, s, counter.Event{Kind: counter.Redo}).Expect(); n != 19 {
		t.Errorf("done again: %d", n)
	}
}

// A count that agrees, or of a row that was not worked out, carries nothing.
func TestCarryOfNothing(t *testing.T) {
	s := walk(t, read(quay), "tap20")
	s = apply(t, s, counter.Event{Kind: counter.Carry, N: 20})
	if s.Carried() != nil || s.Row() != 1 {
		t.Errorf("row %d, %+v", s.Row(), s.Carried())
	}
	s = walk(t, urchin(), "tap6")
	s = apply(t, s, counter.Event{Kind: counter.Carry, N: 5})
	if m, ok := s.Mismatch(); s.Carried() != nil || !ok || m.Counted != 5 {
		t.Errorf("mismatch %+v", m)
	}
	if _, err := s.Apply(counter.Event{Kind: counter.Carry, N: counter.NotCounted}); err != counter.ErrBadCount {
		t.Errorf("carrying on with no count: %v", err)
	}
}

// A hunt does not come back to a slip that was accepted.
func TestHuntAfterCarryingOn(t *testing.T) {
	s := walk(t, read(quay), "finish20 tap20")
	s = apply(t, s, counter.Event{Kind: counter.Carry, N: 19}) // row 2
	s = apply(t, s, script(t, "finish finish tap19")...)       // rows 3 and 4 are not counted
	s = apply(t, s, counter.Event{Kind: counter.Seek, Row: 4, N: 18})
	real := map[int]int64{2: 19, 3: 18}
	for {
		h, _ := s.Hunt()
		q, more := h.Question()
		if !more {
			break
		}
		n, ok := real[q.Row]
		if !ok || q.From.Stitch > 0 || q.To.Stitch != 19 {
			n = q.Expect // the slip is at the very end of row 4
			if q.To.Stitch == 19 {
				n--
			}
		}
		if q.Row < 2 {
			t.Fatalf("asked for row %d: %+v", q.Row+1, q)
		}
		s = apply(t, s, counter.Event{Kind: counter.Answer, N: n})
	}
	h, _ := s.Hunt()
	if slip, ok := h.Slip(); !ok || slip.Row != 3 || slip.To != 19 {
		t.Errorf("found %+v", slip)
	}
}
