// Package layout lays the pieces of a pattern out flat, to the scale of a
// gauge: the outline of each by the widths of its rows, circles for rounds, and
// pieces that are worked onto others where they join them.
//
// The package by file:
//
//	layout.go   the pieces, where each goes
//	rows.go     the outline of a piece worked in rows
//	rounds.go   that of one worked in rounds
//	seat.go     where a piece sits on another
//	pack.go     pieces side by side
//	text.go     the drawing in letters
//	svg.go      the drawing as SVG
//	pages.go    the same for pages of paper
//	sizes.go    the finished sizes in words
//
// Lengths are in mm; X runs to the right and Y up. Pieces in rows are seen from
// the side that faces the maker in their first row, or from the right side where
// the pattern says which it is, as one who holds the hook in the right hand
// works them: the first row begins at the right, and rounds run anticlockwise.
package layout
