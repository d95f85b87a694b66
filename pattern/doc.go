// Package pattern reads a written crochet pattern and proves its counts.
//
// [Read] turns text into a [Pattern]: a small tree in which every instruction
// keeps its place in the source. It never fails; words it does not understand
// are kept and said. [Pattern.Prove] works that tree stitch by stitch into the
// row below and gives a [Proof]: for each row what it found, what it took,
// what it made, and whether that is what the author states. Both are pure
// functions of the text: no clock, no file, no terminal.
//
// The package in the order the text goes through it:
//
//	lex.go      bytes to words, with the spellings of print smoothed out
//	opening.go  which readings a word can begin
//	bench.go    what a text is read on, used again for the next
//	layout.go   lines to title, headers, sections, pieces and rows
//	read*.go    the words of a row to steps
//	prove*.go   steps into the fabric of the row below
//	work*.go    one row: what each step takes and makes, and its trace
//	fabric.go   the places a row offers, as runs
//	finding.go  what is said about it
//	mend*.go    which small change would set a row right
//	spread.go   where increases lie that are to be spread evenly
//	implied*.go what follows from the proof: work, multiples, positions
//	rework.go   the same pieces with other numbers in them
//	labelled.go the same pattern, with labels for rows told with none
//	one_size.go the same pattern in one of its sizes
package pattern
