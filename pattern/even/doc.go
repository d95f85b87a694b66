// Package even spreads increases or decreases evenly over a row or round:
// where each of them goes, and the row as it is written.
//
// A spread that is said to be even should look so. The plain stitches between
// two increases differ by one at most, and a row reads the same from both ends
// wherever the numbers allow it. Where they do not, which is where the row of
// an even count takes an odd number of increases, one stitch at its end is
// what is over.
//
// The package by file:
//
//	spread.go   where the increases go
//	share.go    so many things shared out over so many places
//	words.go    a spread as the words of a row
//	fold.go     what comes again and again as a repeat
//	ask.go      "increase 7 over 61" in words
//
// It knows no pattern: what it writes is proven by those who print it.
package even
