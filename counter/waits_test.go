package counter_test

import (
	"testing"

	"crochet/tallyturn/counter"
)

func TestWaits(t *testing.T) {
	plan := read("Quay strip\n\nUS terms\n\nStrip (make 2)\nCh 21.\nRow 1: Sc in 2nd ch from hook and in each ch across. (20)\nRow 2: Ch 1, turn, sc in each st across. (20)\nFasten off.\n\n" +
		"Point (make 2)\nRow 1: Join yarn in 8th st of Row 2 of Strip, sc in same st and in next 4 sts. (5)\n")
	s := walk(t, plan, "finish20")
	for copy, want := range []counter.Place{{Row: 1}, {Copy: 1, Row: 1}} {
		if at, ok := s.Waits(1, copy); !ok || at != want {
			t.Errorf("point %d waits for %+v, %v", copy+1, at, ok)
		}
	}
	s = apply(t, s, counter.Event{Kind: counter.Finish, N: 20})
	if at, ok := s.Waits(1, 0); ok {
		t.Errorf("point 1 waits for %+v", at)
	}
	if _, ok := s.Waits(1, 1); !ok {
		t.Error("point 2 waits for nothing")
	}
	if _, ok := s.Waits(0, 0); ok {
		t.Error("the strip waits for something")
	}
}
