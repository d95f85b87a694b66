// Package film knows what was filmed: which row is in which take, and which
// footage makes the film.
//
// It is pure: times come with what happened, and nothing here reads a clock, a
// file or a terminal.
//
// A [Recorder] takes the events of a walk one at a time, or [Of] all of them,
// and gives a [Session]: the takes, the tries of rows that fill them, and the
// marks in them, to the millisecond. What was taken back (a row ended too
// early, an unravelling by mistake) is to a Session as if it had never been
// done, and what was done again as if it had never been taken back; only a
// slip that was seen stays a mark. The time of a take is never taken back.
//
// A [Fit] sets the footage of each row against the words that are said over
// it, and says what would bring them together. What the maker chooses is kept
// in the log too, and leads to the [EditList] that cues are made from.
//
// The package by file:
//
//	session.go  takes, tries and marks
//	record.go   what the events of a walk come to
//	unfold.go   how takes are parted into tries
//	label.go    what rows are called
//	choice.go   what can be done with the footage of a row
//	fit.go      footage against words
//	plan.go     the film as an edit list
//	edit.go     the edit list
//
// The package timeline draws a Session.
package film
