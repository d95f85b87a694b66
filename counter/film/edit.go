package film

import (
	"errors"
	"fmt"
	"unicode/utf8"
)

// MaxTime is the longest a film or a take may be, in ms: a day, the most that
// a timecode can count.
const MaxTime = 24 * 60 * 60 * 1000

// The speeds of a cut, in thousandths of the speed it was filmed at.
const (
	MinSpeed = 10 // a hundredth of it
	AsFilmed = 1000
	MaxSpeed = 1_000_000 // a thousand times it
)

// MaxCuts is the most cuts a list may have.
const MaxCuts = 100_000

// EditList is which footage makes the film, in the order in which it is seen.
// It knows no frames and no format of any editor: those are counter/film/cue's.
//
// A list for which no plan of cuts was chosen holds all there is: the tries of
// every row as they were filmed, one take after the other at the speed they
// were filmed at. It is laid out in film time like any other, so that there is
// one kind of list only.
type EditList struct {
	Title   string // of the pattern
	Planned bool   // a plan of cuts was chosen
	Cuts    []Cut  // by film time, without a gap
}

// Cut is one stretch of one take.
//
// Times are in ms. Those of the source run from the clap of its take, those of
// the film from its beginning. From and FilmFrom belong to the cut, To and
// FilmTo do not any more.
type Cut struct {
	Take int // from 1, in the order they were begun
	// Clip is the camera's own name for the file, or empty. Start is the
	// timecode of its first frame as it was noted, or empty; ClapAt is how long
	// after that frame the clap is seen, or 0 where nobody has looked.
	Clip   string
	Start  string
	ClapAt int64

	From, To         int64
	FilmFrom, FilmTo int64
	Speed            int64 // in thousandths: 4000 shows four seconds in one

	Piece string // empty in a pattern of one piece without a name
	Row   string // as the pattern calls it: "Row 3", "Rnds 5-6"
	Title string // what a viewer would call it; empty is Piece and Row
	Again int    // how many tries of the row came before this one
	// Unused is a try that was done again later. A plan has none.
	Unused bool

	// Say is what is spoken over the cut, beginning with it, and SayFor how
	// long that takes, or 0 where that is not known. It may run on over the
	// cuts that follow and have nothing to say.
	Say    string
	SayFor int64

	Marks []Mark // by At
}

// MarkKind is what a mark in the footage stands for.
type MarkKind uint8

// The kinds of mark.
const (
	RowBegun    MarkKind = iota + 1 // and which it is
	RowEnded                        // with its count, if there was one
	Instruction                     // the next instruction of the row
	Counted                         // stitches were counted in mid-row
	Slipped                         // a count was not what it should be
	Unravelled                      // stitches were ripped out
	Again                           // from here it was done once more
	OwnWord                         // set by the maker
)

// Mark is a moment of a take.
type Mark struct {
	At   int64 // ms from the clap
	Kind MarkKind
	Text string
}

// Length is how long the film is, in ms.
func (l EditList) Length() int64 {
	if len(l.Cuts) == 0 {
		return 0
	}
	return l.Cuts[len(l.Cuts)-1].FilmTo
}

// FilmLength is how long ms of footage are on the screen at a speed in
// thousandths, rounded to the nearest millisecond, halves up.
func FilmLength(ms, speed int64) int64 { return (ms*AsFilmed + speed/2) / speed }

// Film is where in the film a moment of the cut's source is seen. Moments
// before the cut are seen at its beginning, moments after it at its end.
func (c Cut) Film(source int64) int64 {
	source = min(max(source, c.From), c.To)
	return min(c.FilmFrom+FilmLength(source-c.From, c.Speed), c.FilmTo)
}

// Source is the moment of the source that is seen at a moment of the film, to
// the nearest millisecond. Moments outside the cut are taken for its ends.
func (c Cut) Source(film int64) int64 {
	film = min(max(film, c.FilmFrom), c.FilmTo)
	return min(c.From+((film-c.FilmFrom)*c.Speed+AsFilmed/2)/AsFilmed, c.To)
}

// Check says what is wrong with a list, or nil. What is right about it:
//
//   - The film begins at 0; each cut begins where the one before it ends, is
//     at least a millisecond long both in the source and in the film, and
//     neither goes past [MaxTime].
//   - The film's length of a cut is [FilmLength] of the source's.
//   - Marks lie within their cut and in order.
//   - Takes are numbered from 1, and the cuts of a take agree about its clip.
//   - Tries that were done again are not in a plan.
//   - Texts are UTF-8. They may hold anything else.
func (l EditList) Check() error {
	if len(l.Cuts) > MaxCuts {
		return fmt.Errorf("%d cuts are more than %d", len(l.Cuts), MaxCuts)
	}
	if !utf8.ValidString(l.Title) {
		return errors.New("the title is not UTF-8")
	}
	type clip struct {
		name, start string
		clapAt      int64
	}
	clips := map[int]clip{}
	var end int64
	for i, c := range l.Cuts {
		if err := c.check(end); err != nil {
			return fmt.Errorf("cut %d: %w", i+1, err)
		}
		if c.Unused && l.Planned {
			return fmt.Errorf("cut %d: a try that was done again is in the plan", i+1)
		}
		now := clip{c.Clip, c.Start, c.ClapAt}
		if was, ok := clips[c.Take]; ok && was != now {
			return fmt.Errorf("cut %d: take %d has another clip than it had before", i+1, c.Take)
		}
		clips[c.Take] = now
		end = c.FilmTo
	}
	return nil
}

// check is Check of one cut, where the film is end long so far.
func (c Cut) check(end int64) error {
	switch {
	case c.Take < 1:
		return fmt.Errorf("take %d is not counted from 1", c.Take)
	case c.ClapAt < 0 || c.ClapAt > MaxTime:
		return fmt.Errorf("the clap is %d ms into the clip", c.ClapAt)
	case c.From < 0 || c.To <= c.From || c.To > MaxTime:
		return fmt.Errorf("its source goes from %d ms to %d", c.From, c.To)
	case c.Speed < MinSpeed || c.Speed > MaxSpeed:
		return fmt.Errorf("its speed is %d thousandths", c.Speed)
	case c.FilmFrom != end:
		return fmt.Errorf("it begins at %d ms of the film, where the one before ends at %d", c.FilmFrom, end)
	case c.FilmTo <= c.FilmFrom || c.FilmTo > MaxTime:
		return fmt.Errorf("it goes from %d ms of the film to %d", c.FilmFrom, c.FilmTo)
	case c.FilmTo-c.FilmFrom != FilmLength(c.To-c.From, c.Speed):
		return fmt.Errorf("%d ms at %d thousandths are not %d ms", c.To-c.From, c.Speed, c.FilmTo-c.FilmFrom)
	case c.Again < 0 || c.SayFor < 0 || c.SayFor > MaxTime:
		return errors.New("a number is out of bounds")
	}
	at := c.From
	for _, m := range c.Marks {
		if m.At < at || m.At > c.To {
			return fmt.Errorf("a mark at %d ms is out of its place", m.At)
		}
		if m.Kind < RowBegun || m.Kind > OwnWord {
			return fmt.Errorf("a mark is of kind %d", m.Kind)
		}
		if !utf8.ValidString(m.Text) {
			return errors.New("a mark's text is not UTF-8")
		}
		at = m.At
	}
	for _, s := range [...]string{c.Clip, c.Start, c.Piece, c.Row, c.Title, c.Say} {
		if !utf8.ValidString(s) {
			return fmt.Errorf("%q is not UTF-8", s)
		}
	}
	return nil
}
