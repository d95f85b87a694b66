package counter

import "strconv"

// Kind is what happened. The numbers are kept on disk: new kinds are added at
// the end, and none is ever given another meaning.
type Kind uint8

// The kinds of event.
const (
	// Tap goes N stitches forward in the row, at least 1. It may go past the
	// number the row should have.
	Tap Kind = 1
	// Back takes the last thing back: one Tap however long, one Count, one
	// Finish or one Jump.
	Back Kind = 2
	// Finish ends the row and goes to the next. N is the maker's own count of
	// it, or NotCounted.
	Finish Kind = 3
	// Count corrects the place in the middle of a row: N stitches are on the
	// hook.
	Count Kind = 4
	// Pause stops the time; Resume, or any work, lets it go on.
	Pause  Kind = 5
	Resume Kind = 6
	// Jump goes to the stitch after the first N of Row of Copy of Piece, each
	// counted from 0.
	Jump Kind = 7
	// Open and Close are the beginning and the end of a run of the program.
	Open  Kind = 8
	Close Kind = 9
)

// NotCounted is the N of a Finish when the maker did not count the row.
const NotCounted = -1

// MaxStitches is the most stitches a row can hold.
const MaxStitches = 1_000_000_000_000

var kindNames = [...]string{
	Tap: "tap", Back: "back", Finish: "finish", Count: "count", Pause: "pause",
	Resume: "resume", Jump: "jump", Open: "open", Close: "close",
}

func (k Kind) String() string {
	if int(k) < len(kindNames) && kindNames[k] != "" {
		return kindNames[k]
	}
	return "kind " + strconv.Itoa(int(k))
}

// Event is one thing that happened. Fields that its kind does not speak of
// are zero.
type Event struct {
	Kind  Kind
	At    int64 // when, in ms since the Unix epoch
	N     int64 // stitches
	Piece int   // from 0, as are Copy and Row
	Copy  int
	Row   int
	Text  string
}
