// Package stitch is the vocabulary of the trade: one table of what each stitch
// is called on both sides of the Atlantic, what it takes and makes, how high
// it stands and how it is said. Everything else asks this table.
package stitch

// ID is a stitch, whatever it is called. None is no stitch.
type ID uint16
