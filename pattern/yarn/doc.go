// Package yarn works out how much yarn a proven pattern takes, by colour: from
// what a measured swatch took or, without one, roughly from the gauge.
//
// Stitches are told against one single crochet. Two home measurements of the
// same rows agree on half double and double crochet (1.48 and 1.92; another has
// 1.47); chains and slip stitches are from memory, taller stitches are carried on
// from these, and clusters are guessed. No handbook table was found.
//
// The package by file:
//
//	unit.go     how much a stitch takes beside a single crochet
//	colour.go   which yarn is in hand
//	usage.go    a pattern's stitches by row and colour
//	swatch.go   "20 sc x 22 rows used 8.2 m" in words
//	rate.go     yarn for a single crochet, and how sure that is
//	amount.go   metres, grams and balls
//	lasts.go    whether what is on the scale will do
//	scale.go    a rate from what was weighed on the way
//	stated.go   what a pattern states of it
//
// Lengths are in mm and weights in grams.
package yarn
