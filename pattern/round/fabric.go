package round

import (
	"errors"
	"fmt"

	"crochet/tallyturn/pattern/gauge"
	"crochet/tallyturn/pattern/stitch"
)

// Fabric is what rounds are worked in.
type Fabric struct {
	Gauge  gauge.Gauge
	Terms  stitch.Terms
	Stitch stitch.ID
	Width  float64 // of a stitch, mm
	Height float64 // of a round, mm
	Joined bool    // each round is closed with a slip stitch, and not worked in a spiral
	Exact  bool    // each round is as near its circle as whole stitches come, and not the usual number more
}

// Of is the fabric of a gauge in a stitch; stitch.None for the one that the
// gauge is in, and else single crochet. Where the gauge is in another, the
// stitch is taken to be as wide and, by its turning chain, higher or lower; a
// gauge without rows is taken to be of stitches as high as they are usually
// drawn. Rounds of stitches taller than a single crochet are joined. The error
// says why no fabric follows.
func Of(g gauge.Gauge, id stitch.ID, terms stitch.Terms) (Fabric, error) {
	f := Fabric{Gauge: g, Terms: terms, Stitch: id}
	if f.Stitch == stitch.None {
		f.Stitch = g.Stitch
	}
	if f.Stitch == stitch.None {
		f.Stitch = stitch.SC
	}
	s := stitch.Of(f.Stitch)
	switch {
	case s.Kind != stitch.Basic || s.Takes != 1 || s.Turn < 1:
		return f, fmt.Errorf("rounds of %s are not worked out; ask for plain stitches", f.Stitch.Words(terms))
	case !g.Stitches.Known():
		return f, errors.New("the gauge does not say how many stitches there are in a length")
	case g.Kind != gauge.ByStitch:
		return f, fmt.Errorf("the gauge counts %s; rounds need one in stitches", g.Named)
	}
	f.Width = 1 / g.Stitches.PerMM
	f.Joined = s.Turn > 1
	of := g.Stitch
	if of == stitch.None {
		of = f.Stitch
	}
	if g.Rows.Known() {
		f.Height = gauge.Tall(f.Stitch) / gauge.Tall(of) / g.Rows.PerMM
	} else {
		f.Height = gauge.Tall(f.Stitch) * f.Width
	}
	return f, nil
}
