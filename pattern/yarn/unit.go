package yarn

import "crochet/tallyturn/pattern/stitch"

// Yarn in stitches, as a share of that in a single crochet. Sources: see the
// package comment.
const (
	chainUnit = 0.48 // measured: a foundation chain against its row of single crochet
	slipUnit  = 0.55 // from memory
	overUnit  = 0.46 // each yarn over more beyond a double crochet: carried on, not measured
	legUnit   = 0.8  // a leg of stitches worked together, which share a top: guessed
)

var unitOf = map[stitch.ID]float64{
	stitch.Slip: slipUnit, stitch.SC: 1, stitch.HDC: 1.48, stitch.DC: 1.92,
	stitch.Cluster: 4.5, stitch.Bobble: 7, stitch.Popcorn: 9.6, stitch.Puff: 5, // guessed, from 3 to 5 legs
}

// Unit is how much yarn a stitch takes, where a single crochet takes 1.
func Unit(id stitch.ID) float64 {
	if u, ok := unitOf[id]; ok {
		return u
	}
	s := stitch.Of(id)
	if u, ok := unitOf[s.Base]; ok {
		if s.Kind == stitch.Foundation {
			return u + chainUnit
		}
		return u
	}
	if s.Turn > 3 {
		return 1.92 + overUnit*float64(s.Turn-3)
	}
	return 1.92
}
