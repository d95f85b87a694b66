// Package fit makes another size of a written pattern: it finds the
// foundation chain on which every row still works, nearest to the measure that
// is wished, and writes the pattern anew in the author's own words with only
// its numbers changed.
//
// The package by file:
//
//	wish.go     what is asked for, and whether it can be
//	measure.go  how wide and how high a piece comes out
//	base.go     the number that a piece is begun on
//	solve.go    the numbers of the rows that follow from it
//	search.go   the base that is nearest to the measure
//	fit.go      all of it, and the proof of what is written
//	report.go   what is said about it
//
// Nothing leaves the package that was not read back and proven as it is
// printed.
package fit
