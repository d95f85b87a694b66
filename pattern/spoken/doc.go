// Package spoken says a proven pattern aloud: the words of a voice-over, row
// by row, as someone who teaches the work would say them, and how long they
// take to read.
//
// [Of] turns a [pattern.Proof] into a [Script]: numbers in words, abbreviations
// in full, repeats told rather than marked, each row's total at its end, in
// either set of terms. What the reader of patterns did not understand is said
// in the author's own words, spelled out. [Milliseconds] times any text at a
// [Rate], and [Timed] finds the rate of someone's own reading.
package spoken
