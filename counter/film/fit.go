package film

import (
	"cmp"
	"slices"
	"strconv"

	"crochet/tallyturn/counter"
	"crochet/tallyturn/pattern/spoken"
)

// Spare is how much longer than its words the film of a row may be and still
// fit them, in ms. It is our own choice: a breath, and a look at the end.
const Spare = 2000

// Verdict is how the words of a row sit on its film.
type Verdict uint8

// The verdicts.
const (
	NoWords Verdict = iota // nothing is said of it
	Fits
	TooLong  // the words are longer than the film, by By
	TooShort // they are shorter by more than Spare: By is left
)

// Fit is the footage of every row set against what is said of it.
type Fit struct {
	Rows   []RowFit // by the pattern
	Parts  []Part   // by piece
	Length int64    // of the film, in ms
	// Beside is how long the words are that belong to no row, in ms, and
	// Unfilmed those of rows that there is no footage of, and their number.
	Beside, Unfilmed int64
	UnfilmedRows     int

	session *Session
	title   string
}

// Part is a piece of the pattern in the film.
type Part struct {
	Piece int // from 0; -1 for what is no row
	Title string
	Film  int64 // its running length, in ms
}

// RowFit is one row of one copy.
type RowFit struct {
	Piece, Copy, Row int // from 0; Piece is -1 for what is no row
	Label            string
	Title            string // what a viewer calls it, where that is more

	Footage int64  // that is used, in ms
	Tries   int    // in all
	Unused  int    // of them
	Speech  int64  // its words, in ms
	Words   string // said of it
	With    string // the row that its words are said with, or empty
	Like    string // the row before that it is made as, or empty

	Chosen Choice // by the maker
	Done   Choice // what is done: Chosen, or what is usual
	Film   int64  // its running length, in ms

	Verdict Verdict
	By      int64 // ms that the words are too long, or that are left
	Mends   []Mend

	cuts []stretch
}

// Mend is what would bring words and film together.
type Mend struct {
	Choice Choice // to be made; AsUsual where it is for the words to change
	Film   int64  // the length it leads to, in ms
	Trim   int64  // words to leave out, where that is the mend
}

// String puts a mend in words.
func (m Mend) String() string {
	switch {
	case m.Trim == 1:
		return "trim a word"
	case m.Trim > 0:
		return "trim about " + strconv.FormatInt(m.Trim, 10) + " words"
	case m.Choice.Way == Slow:
		return "slow it to " + Seconds(m.Film) + " s"
	case m.Choice.Way == Speed:
		return "speed it up ×" + strconv.FormatInt(m.Choice.N, 10) + ": " + Seconds(m.Film) + " s"
	case m.Choice.Way == Shorten:
		return "cut to the end of the row: " + Seconds(m.Film) + " s"
	}
	return m.Choice.String()
}

// String is the verdict on a row in words.
func (r RowFit) String() string {
	switch r.Verdict {
	case Fits:
		return "fits"
	case TooLong:
		return "over by " + Seconds(r.By) + " s"
	case TooShort:
		return "spare " + Seconds(r.By) + " s"
	}
	return "no words"
}

// Script is what is to be said, at the maker's own rate and with her notes.
func (s *Session) Script() *spoken.Script {
	proof := s.plan.Proof()
	if proof == nil || proof.Pattern == nil || proof.Pattern.Source == nil {
		return &spoken.Script{}
	}
	return spoken.Of(proof, spoken.Options{Rate: spoken.Rate(s.SpeakAt), Notes: s.Notes()})
}

// Notes are the maker's own lines, of several copies of a piece those of the
// first.
func (s *Session) Notes() []spoken.Note {
	var out []spoken.Note
	said := map[[2]int]bool{}
	for n := range s.state.Notes() {
		if at := [2]int{n.Piece, n.Row}; !said[at] {
			said[at] = true
			out = append(out, spoken.Note{Piece: n.Piece, Row: n.Row, Text: n.Text})
		}
	}
	return out
}

// Fit sets the footage against a script.
func (s *Session) Fit(script *spoken.Script) *Fit {
	f := &Fit{session: s, title: clean(script.Title)}
	index := map[place]int{}
	footage := map[place][]stretch{}
	for _, t := range s.Tries {
		at := t.place()
		if at == other && t.Unused == Gone {
			continue
		}
		i, ok := index[at]
		if !ok {
			i = len(f.Rows)
			index[at] = i
			f.Rows = append(f.Rows, RowFit{Piece: at.piece, Copy: at.copy, Row: at.row,
				Label: labelOf(s.plan, at), Title: titleOf(s.plan, at), Chosen: s.choices[at]})
		}
		r := &f.Rows[i]
		r.Tries++
		if t.Unused != Used {
			r.Unused++
			continue
		}
		r.Footage += t.Length()
		footage[at] = append(footage[at], stretch{t.Take, t.From, t.To, AsFilmed})
	}
	slices.SortStableFunc(f.Rows, func(a, b RowFit) int { return compare(a.place(), b.place()) })
	said, first := map[[3]int]string{}, map[[2]int]string{}
	for i := range f.Rows {
		r := &f.Rows[i]
		at := place{r.Piece, r.Copy, r.Row}
		if at != other && r.Footage > 0 {
			f.say(r, script, said)
			s.likeness(r, first)
		}
		r.Done = r.Chosen
		if r.Chosen.Way == AsUsual {
			r.Done = Choice{Way: Full}
			if r.Like != "" {
				r.Done = s.Alike
			}
		}
		r.cuts = r.Done.do(footage[at], r.Speech)
		for _, c := range r.cuts {
			r.Film += c.film()
		}
		r.judge(script.Rate)
		f.Length += r.Film
		f.part(r)
	}
	f.rest(script, said)
	return f
}

// say gives a row its words. Where several rows are told of at once, the first
// that was filmed has them.
func (f *Fit) say(r *RowFit, script *spoken.Script, said map[[3]int]string) {
	line, ok := script.Row(r.Piece, r.Row)
	if !ok {
		return
	}
	key := [3]int{line.Piece, line.First, line.Last}
	if with, ok := said[key]; ok {
		r.With = with
		return
	}
	said[key] = cmp.Or(r.Title, r.Label)
	r.Words, r.Speech = clean(line.Text), min(line.Milliseconds, MaxTime)
}

// likeness finds the row before that a row is made as: another of the same
// words, or the same one of another copy.
func (s *Session) likeness(r *RowFit, first map[[2]int]string) {
	proof, _ := s.plan.Row(r.Piece, r.Row)
	if proof == nil {
		return
	}
	key := [2]int{r.Piece, proof.Index}
	if like, ok := first[key]; ok {
		r.Like = like
		return
	}
	first[key] = cmp.Or(r.Title, r.Label)
}

// judge says how words and film sit, and what would mend it.
func (r *RowFit) judge(rate spoken.Rate) {
	if r.Speech == 0 || r.Footage == 0 {
		return
	}
	over := r.Speech - r.Film
	switch {
	case r.Done.Way == Out, over > 0:
		r.Verdict, r.By = TooLong, over
	case -over <= Spare:
		r.Verdict = Fits
	default:
		r.Verdict, r.By = TooShort, -over
	}
	switch r.Verdict {
	case TooLong:
		if r.Footage > r.Speech && r.Done.Way != Full { // there is enough of it
			r.Mends = append(r.Mends, r.mend(Choice{Way: Full}))
		} else if r.Footage < r.Speech {
			r.Mends = append(r.Mends, r.mend(Choice{Way: Slow}))
		}
		perMinute := int64(cmp.Or(rate, spoken.DefaultRate))
		r.Mends = append(r.Mends, Mend{Film: r.Film, Trim: max((over*perMinute+59_999)/60_000, 1)})
	case TooShort:
		// The most whole times that still leave room for the words.
		if n := room(r.Footage, r.Speech); n > 1 {
			r.Mends = append(r.Mends, r.mend(Choice{Speed, n}))
		}
		r.Mends = append(r.Mends, Mend{Choice: Choice{Way: Shorten}, Film: min(r.Speech, r.Footage)})
	}
}

func (r *RowFit) mend(c Choice) Mend {
	var ms int64
	for _, s := range c.do([]stretch{{from: 0, to: r.Footage}}, r.Speech) {
		ms += s.film()
	}
	return Mend{Choice: c, Film: ms}
}

// part adds a row to its piece.
func (f *Fit) part(r *RowFit) {
	if n := len(f.Parts); n == 0 || f.Parts[n-1].Piece != r.Piece {
		title := cmp.Or(pieceOf(f.session.plan, r.Piece), f.title)
		if r.Piece < 0 {
			title = makingUp
		}
		f.Parts = append(f.Parts, Part{Piece: r.Piece, Title: title})
	}
	f.Parts[len(f.Parts)-1].Film += r.Film
}

// rest counts the words that no footage is for.
func (f *Fit) rest(script *spoken.Script, said map[[3]int]string) {
	for _, p := range script.Parts {
		for _, l := range p.Lines {
			if l.First < 0 {
				f.Beside += l.Milliseconds
			} else if _, ok := said[[3]int{l.Piece, l.First, l.Last}]; !ok {
				f.Unfilmed += l.Milliseconds
				f.UnfilmedRows += l.Last - l.First + 1
			}
		}
	}
}

func (r RowFit) place() place { return place{r.Piece, r.Copy, r.Row} }

// compare puts rows in the order of the pattern. What is no row comes last.
func compare(a, b place) int {
	if a.piece < 0 || b.piece < 0 {
		return cmp.Compare(b.piece, a.piece)
	}
	return cmp.Or(cmp.Compare(a.piece, b.piece), cmp.Compare(a.copy, b.copy), cmp.Compare(a.row, b.row))
}

// At finds the fit of a row.
func (f *Fit) At(piece, copy, row int) (RowFit, bool) {
	i, ok := slices.BinarySearchFunc(f.Rows, place{piece, copy, row}, func(r RowFit, at place) int { return compare(r.place(), at) })
	if !ok {
		return RowFit{}, false
	}
	return f.Rows[i], true
}

// Choose is the event that chooses c for the row; false where there is no
// choice about it.
func (r RowFit) Choose(c Choice) (counter.Event, bool) {
	if r.Piece < 0 {
		return counter.Event{}, false
	}
	return c.For(r.Piece, r.Copy, r.Row), true
}
