package fit

import (
	"errors"
	"fmt"
	"math"

	"crochet/tallyturn/pattern/gauge"
)

// Wish is the size that is asked for. Of the measures across one is given, of
// those up the fabric one at most; what is 0 is not asked for.
type Wish struct {
	Around   float64 // mm along a row or round, before ease
	Wide     float64 // mm across the piece as it lies flat, before ease
	Stitches int64   // the stitches of the widest row
	Tall     float64 // mm up the fabric
	Rows     int64   // rows of the piece
	Ease     Ease    // goes with Around and Wide
	Piece    string  // the piece to fit; "" for the first that can be
}

// Ease is what a piece is made larger than what it goes on, smaller where it
// is negative: knitwear that stretches is made smaller.
type Ease struct {
	MM      float64
	Percent float64 // used where MM is 0
}

// Bounds on what is worked out: nobody makes a piece of more stitches, and one
// of fewer than two is none.
const (
	most  = 4_000
	least = 2
)

var errNoWish = errors.New("say which size is wanted: --around, --wide or --stitches, --tall or --rows")

// higher reports whether another height is asked for.
func (w Wish) higher() bool { return w.Tall > 0 || w.Rows > 0 }

// check says in one line what is impossible about a wish by itself.
func (w Wish) check() error {
	across, up := 0, 0
	for _, v := range []float64{w.Around, w.Wide, float64(w.Stitches)} {
		if v < 0 || math.IsNaN(v) || math.IsInf(v, 0) {
			return errors.New("a piece cannot be narrower than nothing")
		}
		if v > 0 {
			across++
		}
	}
	for _, v := range []float64{w.Tall, float64(w.Rows)} {
		if v < 0 || math.IsNaN(v) || math.IsInf(v, 0) {
			return errors.New("a piece cannot be lower than nothing")
		}
		if v > 0 {
			up++
		}
	}
	switch {
	case across == 0 && up == 0:
		return errNoWish
	case across > 1:
		return errors.New("--around, --wide and --stitches say the same thing; give one of them")
	case up > 1:
		return errors.New("--tall and --rows say the same thing; give one of them")
	case w.Ease != (Ease{}) && w.Around == 0 && w.Wide == 0:
		return errors.New("--ease goes with --around or --wide")
	case w.Stitches > most:
		return fmt.Errorf("%d stitches are more than the %d that are worked out", w.Stitches, int64(most))
	case w.Stitches == 1:
		return errors.New("a piece has two stitches at least")
	case w.Rows > most:
		return fmt.Errorf("%d rows are more than the %d that are worked out", w.Rows, int64(most))
	}
	if mm, ok := w.across(); ok && mm <= 0 {
		return fmt.Errorf("with the ease of %s nothing is left of %s", w.Ease, gauge.Centimetres.Tell(w.Around+w.Wide))
	}
	return nil
}

// across is the finished measure across, in mm; it is not ok where a wish asks
// for stitches, or for nothing across.
func (w Wish) across() (mm float64, ok bool) {
	mm = w.Around + w.Wide
	if mm == 0 {
		return 0, false
	}
	if w.Ease.MM != 0 {
		return mm + w.Ease.MM, true
	}
	return mm * (1 + w.Ease.Percent/100), true
}

func (e Ease) String() string {
	if e.MM != 0 {
		return gauge.Centimetres.Tell(e.MM)
	}
	return fmt.Sprintf("%g%%", e.Percent)
}
