// Package fit makes another size of a written pattern: it finds the
// foundation chain on which every row still works, nearest to the measure that
// is wished, and writes the pattern anew in the author's own words with only
// its numbers changed.
//
// The package by file:
//
//	wish.go      what is asked for, and whether it can be
//	measure.go   how wide and how high a piece comes out
//	base.go      the number that a piece is begun on
//	fit.go       the order of it all, and the proof of what is written
//	search.go    the base that is nearest to the measure
//	solve.go     the numbers of the rows that follow from it
//	place.go     where pieces sit on the changed row
//	gaps.go      stitches dealt out among the gaps of a row
//	pairs.go     "Rows 4 and 5", which has to say "Rows 4-9" to be longer
//	stretch.go   rows that repeat, and how many of them
//	height.go    the rows after them counted anew
//	finished.go  the finished size that a pattern states
//	look.go      prose that another size may make wrong
//	reach.go     what to say where no size near the wish works
//	sizes.go     several sizes in one pattern
//	yarn.go      what several sizes take
//	report.go    what is said about a size
//
// Nothing leaves the package that was not read back and proven as it is
// printed.
package fit
