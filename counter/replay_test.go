package counter_test

import (
	"errors"
	"testing"

	"crochet/tallyturn/counter"
)

func TestReplayOfAChangedPattern(t *testing.T) {
	log := script(t, "open tap6 finish tap2 jump:1,1,0,0 tap tap finish")
	if _, refused := counter.Replay(urchin(), log); refused != nil {
		t.Fatalf("refused: %+v", refused)
	}
	// The spines are gone: the jump leads nowhere, the taps count all the same.
	s, refused := counter.Replay(planOf(piece(1, 6, 12, 18)), log)
	if len(refused) != 1 || refused[0].Index != 4 || refused[0].Event != log[4] || !errors.Is(refused[0].Err, counter.ErrNoSuchRow) {
		t.Errorf("refused: %+v", refused)
	}
	if want := (counter.Place{Row: 2}); s.At() != want {
		t.Errorf("at %+v, want %+v", s.At(), want)
	}
}
