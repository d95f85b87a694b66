package film

import (
	"strconv"

	"crochet/tallyturn/counter"
)

// Session is everything that was filmed of one walk.
type Session struct {
	Takes []Take   // in the order they were begun
	Tries []Try    // in the order they were filmed; together they fill the takes
	Marks []Moment // in the order they happened

	// SpeakAt is the maker's own speaking rate in words a minute, 0 where she
	// has set none.
	SpeakAt int64
	// Alike is what becomes of rows that are made as an earlier one is, where
	// nothing else is chosen for them.
	Alike Choice

	choices map[place]Choice
	plan    *counter.Plan
	state   counter.State
}

// Take is one run of the camera.
type Take struct {
	Number int   // from 1
	Begun  int64 // the clap, in ms since the Unix epoch
	Length int64 // ms from the clap to the end, or to the last event while it is on
	End    End

	Camera   string // the camera's own name for the file, or empty
	Timecode string // of the first frame of that file, or empty
	ClapAt   int64  // ms from that frame to the clap, 0 where nobody has looked
}

// End is how a take ended.
type End uint8

// The ways a take can end.
const (
	Rolling End = iota // it has not ended
	Stopped            // the maker ended it
	Left               // the walk was left with it on
	Broken             // the program went away; it ends with the last thing that was kept
)

var endWords = [...]string{"is on", "ended", "ended by leaving", "broke off; it ends at its last mark"}

// String tells it in a word or two, to stand after the number of the take.
func (e End) String() string {
	if int(e) < len(endWords) {
		return endWords[e]
	}
	return "ended"
}

// Try is a stretch of a take in which one row was in hand.
type Try struct {
	Take             int // Take.Number
	Piece, Copy, Row int // from 0; Piece is -1 where no row was in hand
	Label            string
	From, To         int64 // ms from the clap; To does not belong to it any more
	// FromStitch and ToStitch are how many stitches of the row were there at
	// its beginning and its end.
	FromStitch, ToStitch int64
	Ended                bool // with it the row was ended
	Unused               Why  // it is not used in the film
}

// Why is why a try is not used.
type Why uint8

// The reasons.
const (
	Used     Why = iota
	DoneOver     // the maker began again
	RippedUp     // what it shows was unravelled
	Gone         // the pattern has the row no more
)

// String is "used" or the reason why not.
func (w Why) String() string {
	switch w {
	case DoneOver:
		return "done again"
	case RippedUp:
		return "unravelled"
	case Gone:
		return "not in the pattern any more"
	}
	return "used"
}

// Length is how long a try is, in ms.
func (t Try) Length() int64 { return t.To - t.From }

// Moment is a mark in a take.
type Moment struct {
	Mark
	Take             int
	Piece, Copy, Row int   // from 0; Piece is -1 where no row was in hand
	Stitch           int64 // how many stitches of the row were there
	TakenBack        bool  // a slip that was seen, and mended by taking something back
}

// place names a row of a copy; other is all that is no row.
type place struct{ piece, copy, row int }

var other = place{piece: -1}

func (t Try) place() place { return place{t.Piece, t.Copy, t.Row} }

// Called is the label of a try, with its piece and copy where there are several.
func (s *Session) Called(t Try) string {
	if t.Piece < 0 || s.plan.Pieces() < 2 && s.plan.Copies(t.Piece) < 2 {
		return t.Label
	}
	name := pieceOf(s.plan, t.Piece)
	if name == "" {
		name = "piece " + strconv.Itoa(t.Piece+1)
	}
	if s.plan.Copies(t.Piece) > 1 {
		name += " " + strconv.Itoa(t.Copy+1)
	}
	return t.Label + ", " + name
}

// Plan is the pattern that was walked, as it is by the end.
func (s *Session) Plan() *counter.Plan { return s.plan }

// State is where the walk stands by the end.
func (s *Session) State() counter.State { return s.state }

// Rolling is the take that is on.
func (s *Session) Rolling() (Take, bool) {
	if n := len(s.Takes); n > 0 && s.Takes[n-1].End == Rolling {
		return s.Takes[n-1], true
	}
	return Take{}, false
}

// Since is how long after its clap a moment is, in ms, as the marks of a take
// have it: never less than its length so far, nor more than [MaxTime].
func (t Take) Since(at int64) int64 {
	if at <= t.Begun {
		return t.Length
	}
	gap := uint64(at) - uint64(t.Begun) // right even where the difference runs over
	return max(t.Length, int64(min(gap, MaxTime)))
}

// Footage is how long the tries of a row are that are used, in ms, and how
// many there are of it in all.
func (s *Session) Footage(piece, copy, row int) (used int64, tries int) {
	for _, t := range s.Tries {
		if t.place() == (place{piece, copy, row}) {
			tries++
			if t.Unused == Used {
				used += t.Length()
			}
		}
	}
	return used, tries
}
