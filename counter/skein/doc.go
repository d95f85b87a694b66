// Package skein tells what a walk has used of each yarn, and whether what is
// left of it lasts.
//
// It sets the stitches that were worked, which the walk knows, against what was
// weighed on the way. Where too little was weighed it goes by a rate that it is
// given, from a swatch or the gauge, and says so.
//
//	account.go  the yarns of a walk, one by one
//	words.go    the same in words
//	worked.go   how much of each was worked at every weighing
//
// Lengths are in mm and weights in grams.
package skein
