package counter

import "errors"

// Why an event cannot be applied. The words are fit to be shown as they are.
var (
	// ErrAllWorked is given for work when no row is left to do it in.
	ErrAllWorked = errors.New("every row is worked; jump to a row to go on")
	// ErrNothingBack is given for Back at the very beginning.
	ErrNothingBack = errors.New("there is nothing left to take back")
	// ErrNothingAgain is given for Redo when nothing was taken back.
	ErrNothingAgain = errors.New("nothing was taken back that could be done again")
	// ErrNothingThere is given for an Unravel to a spot that is not reached.
	ErrNothingThere = errors.New("the work does not go that far: there is nothing to unravel")
	// ErrNoMarker is given for an Unmark where there is no marker, and
	// ErrMarker for a second one in a stitch.
	ErrNoMarker = errors.New("there is no marker in that stitch")
	ErrMarker   = errors.New("that stitch has a marker")
	// ErrNoStep is given for a Tick of a step that the making up has not.
	ErrNoStep = errors.New("the making up has no such step")
	// ErrNoHunt is given for an answer to no question, ErrNoCount for a hunt
	// in a row that nobody knows the number of.
	ErrNoHunt  = errors.New("there is no question to answer")
	ErrNoCount = errors.New("nobody knows what that row should have, so there is no slip to look for")
	// ErrNoStitches is given for a hunt in a row that is not begun.
	ErrNoStitches = errors.New("that row has no stitches yet")
	// ErrRolling is given for a second take while one is on, ErrNotRolling for
	// what needs a take that is on, ErrNoTake for a note on a take that was
	// not filmed.
	ErrRolling    = errors.New("a take is on already")
	ErrNotRolling = errors.New("no take is on")
	ErrNoTake     = errors.New("there is no such take")
	// ErrBadRate is given for a speaking rate, ErrBadTime for a time, that
	// cannot be.
	ErrBadRate = errors.New("nobody speaks at that rate")
	ErrBadTime = errors.New("that is not a time")
	// ErrBadWeight is given for what no ball of yarn can weigh, ErrNoBall for a
	// ball after one that was never weighed.
	ErrBadWeight = errors.New("no ball of yarn weighs that")
	ErrNoBall    = errors.New("the ball before that one was never weighed")
	// ErrNoText is given for a pattern that has no rows.
	ErrNoText = errors.New("that pattern has no rows")
	// ErrNoSuchRow is given for a Jump outside the plan.
	ErrNoSuchRow = errors.New("the pattern has no such row")
	// ErrBadCount is given for a number that cannot be a number of stitches.
	ErrBadCount = errors.New("that is not a number of stitches")
	// ErrTooMany is given for more than MaxStitches in a row.
	ErrTooMany = errors.New("that is more stitches than a row can hold")
	// ErrUnknownKind is given for a kind of event that this version does not
	// know.
	ErrUnknownKind = errors.New("this was recorded by a newer version")
)
