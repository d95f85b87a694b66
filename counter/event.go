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
	// Back takes the last thing back, whatever it was: one Tap however long,
	// one Count, one Finish, one Unravel.
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
	// Redo does again what the last Back took back, as long as nothing else
	// was done since.
	Redo Kind = 10
	// Unravel rips a copy back to the first N stitches of Row: the stitches
	// after them are gone, and the time they took stays in the records as
	// unravelled.
	Unravel Kind = 11
	// SetStride says how far a tap goes: N stitches, or one of ByInstruction,
	// ByPass and ByRow.
	SetStride Kind = 12
	// Mark puts a marker named Text into the stitch after the first N of Row;
	// Unmark takes it out.
	Mark   Kind = 13
	Unmark Kind = 14
	// Note keeps Text with a row; an empty one takes the note away.
	Note Kind = 15
	// Check keeps a count given in the middle of a row, without moving the
	// place: N stitches are on the hook.
	Check Kind = 16
	// Seek begins the hunt for a slip in Row, of which N stitches are known to
	// be there, or NotCounted; Answer answers its question with N; Leave ends
	// it.
	Seek   Kind = 17
	Answer Kind = 18
	Leave  Kind = 19
	// Carry ends the row as Finish does, with a count N that is not what it
	// should be, and lets what follows be worked from the N stitches there are.
	Carry Kind = 20
	// Tick ticks the step of the making up that reads Text, or takes the tick
	// away: step N, from 0, where several read so. Older logs have no Text.
	Tick Kind = 21
	// Rewrite goes on with another text of the pattern, Text, place and times
	// carried over; Keep stays with the text so far although the file says
	// Text by now.
	Rewrite Kind = 22
	Keep    Kind = 23
	// BeginTake and EndTake are the clap and the end of a take: the camera
	// runs in between. An Open or a Close ends a take too. Takes are time
	// spent, not work: they are not taken back.
	BeginTake Kind = 24
	EndTake   Kind = 25
	// Remark marks a moment of the take with Text, the maker's own word.
	Remark Kind = 26
	// FromHere says that the row is done again, from the stitch in hand on:
	// what was filmed of it since that stitch was reached is not used.
	FromHere Kind = 27
	// Camera notes that take Row, from 0, is in the file Text of the camera;
	// Timecode that the first frame of that file has the timecode Text; Clap
	// that the clap is seen N ms after it. An empty Text takes a note away.
	Camera   Kind = 28
	Timecode Kind = 29
	Clap     Kind = 30
	// Choose says what is to be done in the film with what there is of Row of
	// Copy of Piece, and Alike with the rows that are made as an earlier one
	// is: Text is the word for it and N the number that goes with it, as
	// package film has them.
	Choose Kind = 31
	Alike  Kind = 32
	// SpeakAt says how fast the maker speaks: N words a minute, or 0 for the
	// usual rate.
	SpeakAt Kind = 33
	// Weigh notes what is left of a yarn: N mg of ball Copy, from 0, of the
	// colour Text are on the scale at this place. Row is OnTheScale or AtFirst.
	Weigh Kind = 34
)

// What a Weigh tells of a ball, as its Row: what is left of it by now, or what
// the first one weighed before the first stitch.
const (
	OnTheScale = 0
	AtFirst    = 1
)

// The strides that are no number of stitches, as the N of a SetStride.
const (
	ByInstruction = -1 // one time through an instruction
	ByPass        = -2 // one pass of a repeat
	ByRow         = -3 // all that is left of the row
)

// NotCounted is the N of a Finish when the maker did not count the row.
const NotCounted = -1

// MaxStitches is the most stitches a row can hold.
const MaxStitches = 1_000_000_000_000

var kindNames = [...]string{
	Tap: "tap", Back: "back", Finish: "finish", Count: "count", Pause: "pause",
	Resume: "resume", Jump: "jump", Open: "open", Close: "close", Redo: "redo",
	Unravel: "unravelling", SetStride: "stride", Mark: "marker", Unmark: "taking out of a marker",
	Note: "note", Check: "check", Seek: "beginning of a hunt", Answer: "answer", Leave: "end of a hunt",
	Carry: "carrying on", Tick: "tick", Rewrite: "change of the pattern", Keep: "keeping of the pattern",
	BeginTake: "beginning of a take", EndTake: "end of a take", Remark: "mark in the take",
	FromHere: "beginning again", Camera: "camera file", Timecode: "timecode", Clap: "clap",
	Choose: "choice for a row", Alike: "choice for rows alike", SpeakAt: "speaking rate",
	Weigh: "weighing",
}

// Work reports whether Back takes it back. What is no work is the time spent,
// takes among it, the stride, and Back and Redo themselves.
func (k Kind) Work() bool {
	switch k {
	case Back, Redo, SetStride, Pause, Resume, Open, Close, BeginTake, EndTake:
		return false
	}
	return int(k) < len(kindNames) && kindNames[k] != ""
}

func (k Kind) String() string {
	if int(k) < len(kindNames) && kindNames[k] != "" {
		return kindNames[k]
	}
	return "kind " + strconv.Itoa(int(k))
}

// OfFilm reports whether it is a note or a choice about the film.
func (k Kind) OfFilm() bool { return k >= Remark && k <= SpeakAt }

// Event is one thing that happened. Fields that its kind does not speak of
// are zero.
type Event struct {
	Kind  Kind
	At    int64 // when, in ms since the Unix epoch
	N     int64 // stitches; of a Weigh mg
	Piece int   // from 0, as are Copy and Row
	Copy  int   // of a Weigh the ball
	Row   int   // of a Camera, a Timecode and a Clap the take
	Text  string
}
