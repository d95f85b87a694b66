// Package counter keeps a maker's place in a pattern, to the stitch, and what
// happened on the way there.
//
// What a maker does is an [Event]: a tap, a row finished, a pause. [Begin]
// stands at the first stitch of a [Plan], and [State.Apply] takes one event
// at a time. Nothing here reads a clock, a file or a terminal: events carry
// their time, so a log of them rebuilds the same State to the last byte.
//
// A State is a value. Apply gives a new one that shares with the old what did
// not change, and costs the same after a million events as after ten.
//
// Two kinds of thing are kept apart in it. The work (where the hook is, what
// was counted, what was marked and noted) is what [Back] takes back, one thing
// at a time, to the very beginning, and what [Redo] does again. The time spent is not work: minutes that were spent stay spent,
// on the row that was in hand, whatever is taken back afterwards.
//
// The package by file:
//
//	event.go    what can happen
//	encode.go   an event as bytes
//	plan.go     what there is to walk
//	state.go    where the maker is, for all to ask
//	apply.go    what an event does to it
//	replay.go   what a log of events comes to
//	past.go     how it is taken back, and done again
//	clock.go    which time counts as work
//	record.go   what is kept of a row
//	stride.go   how far a tap goes, and what lies under it
//	extras.go   markers, notes, counts in mid-row, steps of the making up
//	unravel.go  what is ripped out, and what that costs
//	hunt.go     the search for a slip, over outline.go and landmark.go
//	reasons.go  what a difference could be
//	pace.go     how fast the maker is, and how long the rest may take
//	waits.go    what has to be made before a piece
//	carry.go    going on with a difference
//	compare.go  what another text of the pattern changes
//	rewrite.go  going on with it
//	scale.go    what was left of the yarn, and how far the work was then
//	reel.go     takes of a camera, and what is noted on them
package counter
