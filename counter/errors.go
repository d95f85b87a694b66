package counter

import "errors"

// Why an event cannot be applied. The words are fit to be shown as they are.
var (
	// ErrAllWorked is given for work when no row is left to do it in.
	ErrAllWorked = errors.New("every row is worked; jump to a row to go on")
	// ErrNothingBack is given for Back at the very beginning.
	ErrNothingBack = errors.New("there is nothing left to take back")
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
