// Package film knows what was filmed: which row is in which take, and which
// footage makes the film.
//
// It is pure: times come with what happened, and nothing here reads a clock, a
// file or a terminal.
package film
