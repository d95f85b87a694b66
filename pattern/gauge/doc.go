// Package gauge holds the trade's tables of hooks and yarns: what a hook of
// so many millimetres is called, and which gauge a weight of yarn is sold for.
//
// It also reads a gauge, "20 sc and 22 rows = 10 cm", from words, from the
// header of a pattern or from a swatch that was counted at several places, and
// says how wide and how high rows come out at it.
//
// The package by file:
//
//	hook.go     the table of hooks
//	yarn.go     the table of yarns
//	length.go   lengths in print: 22 cm, 8 1/2 in
//	scan.go     the words and numbers of a gauge
//	read.go     words to a gauge
//	count.go    how many there are in a length, and its spread
//	header.go   what a pattern says of its gauge, yarn and hook
//	usual.go    whether that is usual for the yarn and the hook
//	rows.go     how wide and how high rows come out
//
// Lengths are in millimetres throughout; an inch is 25.4 mm exactly
// (international yard and pound agreement of 1959).
//
// Sizes of hooks are in millimetres, which alone are sure: the letters of the
// United States name some sizes twice, and the numbers of steel hooks differ
// from maker to maker. Gauges are stitches of single crochet (UK double
// crochet) in 4 inches, about 10 cm.
package gauge
