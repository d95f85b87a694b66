package spoken

import (
	"slices"
	"strings"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/stitch"
)

// Options choose how a pattern is said.
type Options struct {
	// Terms to say it in; Unknown keeps the pattern's own.
	Terms stitch.Terms
	// Rate of reading; the zero Rate is [DefaultRate].
	Rate Rate
	// EveryRow says each of several rows alike in full, as far as
	// [MostRowsInFull] of them; otherwise they are said once.
	EveryRow bool
	// Piece says this piece alone, named as in the pattern (case does not
	// matter); empty is all of them, with what is said before and after.
	Piece string
	// Notes are lines of the reader's own, said after the row they are kept
	// with.
	Notes []Note
}

// MostRowsInFull is how many rows alike are said one by one where that is
// asked for. A longer run is said once all the same.
const MostRowsInFull = 1000

// Note is a line of the reader's own.
type Note struct {
	Piece int // counted from 0, as in the proof
	Row   int // place among the rows walked in the piece, from 0
	Text  string
}

// Script is a pattern as it is said aloud.
type Script struct {
	Title        string
	Size         string       // which of several it is in: "size M"; "" for a pattern in one
	Terms        stitch.Terms // the terms it is said in
	Rate         Rate
	Parts        []Part
	Milliseconds int64 // of all lines
}

// Part is a piece, or what is said before the first of them or after the last.
type Part struct {
	Piece        int // counted from 0, as in the proof; -1 for what belongs to no piece
	Title        string
	Lines        []Line
	Milliseconds int64 // of its lines
}

// Line is what is said of one row, of several rows alike, or of none.
type Line struct {
	Piece        int    // as that of its part
	First, Last  int    // places among the rows walked in the piece, from 0; -1 where it is of no row
	Label        string // the row as print names it: "Rows 2-14"; "" where it is of no row
	Text         string // one paragraph, in sentences
	Milliseconds int64  // to read it at the rate of the script
}

// Of says a proven pattern aloud.
func Of(proof *pattern.Proof, o Options) *Script {
	t := newTeller(proof, o)
	s := &Script{Title: proof.Pattern.Title, Size: proof.InSize(), Terms: t.to, Rate: o.Rate.orDefault()}
	if o.Piece == "" {
		s.add(t.opening())
	}
	for i, pc := range proof.Pieces {
		if o.Piece == "" || strings.EqualFold(pc.Piece.Name, o.Piece) {
			s.add(t.piece(i, pc))
		}
	}
	if o.Piece == "" {
		s.add(t.closing())
	}
	return s
}

// add takes a part in and times its lines.
func (s *Script) add(p Part) {
	p.Lines = slices.DeleteFunc(p.Lines, func(l Line) bool { return l.Text == "" })
	if len(p.Lines) == 0 {
		return
	}
	for i := range p.Lines {
		p.Lines[i].Piece = p.Piece
		p.Lines[i].Milliseconds = Milliseconds(p.Lines[i].Text, s.Rate)
		p.Milliseconds += p.Lines[i].Milliseconds
	}
	s.Milliseconds += p.Milliseconds
	s.Parts = append(s.Parts, p)
}

// Row finds the line that is said of a row: the piece counted from 0, and the
// row's place among those walked in it. It is false where there is none.
func (s *Script) Row(piece, row int) (Line, bool) {
	for _, p := range s.Parts {
		if p.Piece != piece {
			continue
		}
		for _, l := range p.Lines {
			if l.First >= 0 && l.First <= row && row <= l.Last {
				return l, true
			}
		}
	}
	return Line{}, false
}
