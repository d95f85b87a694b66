package film

import (
	"errors"
	"sort"
)

// Why there is no edit list.
var (
	ErrNothingFilmed = errors.New("nothing was filmed that is used")
	ErrTooLong       = errors.New("that is more than a day of film")
	ErrTooMany       = errors.New("those are more cuts than an edit list holds")
)

// Film is the film as it is planned: row by row in the order of the pattern.
// It is sound by [EditList.Check].
func (f *Fit) Film() (EditList, error) {
	l := layer{list: EditList{Title: f.title, Planned: true}, session: f.session}
	for _, r := range f.Rows {
		words := r.Words
		for _, s := range r.cuts {
			if l.cut(r, s, Used, words) {
				words = "" // said with the first of them
			}
		}
	}
	return l.done()
}

// Footage is all there is, take by take, the tries that are not used among it.
// It is sound by [EditList.Check].
func (f *Fit) Footage() (EditList, error) {
	l := layer{list: EditList{Title: f.title}, session: f.session}
	said := map[place]bool{}
	for _, t := range f.session.Tries {
		r, ok := f.At(t.Piece, t.Copy, t.Row)
		if !ok || t.Unused == Gone {
			r = RowFit{Piece: -1, Label: t.Label}
		}
		words := r.Words
		if t.Unused != Used || said[t.place()] {
			words = ""
		}
		if l.cut(r, stretch{t.Take, t.From, t.To, AsFilmed}, t.Unused, words) && words != "" {
			said[t.place()] = true
		}
	}
	return l.done()
}

// layer lays cuts end to end.
type layer struct {
	list    EditList
	session *Session
	again   map[place][]Try // those that are not used
	err     error
}

// cut adds a stretch; false where it is too short to be seen, or the list is
// full.
func (l *layer) cut(r RowFit, s stretch, unused Why, words string) bool {
	n := s.film()
	if n < 1 || s.to <= s.from || l.err != nil {
		return false
	}
	from := l.list.Length()
	switch {
	case n > MaxTime-from:
		l.err = ErrTooLong
		return false
	case len(l.list.Cuts) >= MaxCuts:
		l.err = ErrTooMany
		return false
	}
	t := l.session.Takes[s.take-1]
	c := Cut{
		Take: s.take, Clip: t.Camera, Start: t.Timecode, ClapAt: t.ClapAt,
		From: s.from, To: s.to, FilmFrom: from, FilmTo: from + n, Speed: s.speed,
		Piece: pieceOf(l.session.plan, r.Piece), Row: r.Label, Title: r.Title,
		Again: l.tried(place{r.Piece, r.Copy, r.Row}, s), Unused: unused != Used,
		Marks: l.session.marks(s),
	}
	if words != "" {
		c.Say, c.SayFor = words, r.Speech
	}
	l.list.Cuts = append(l.list.Cuts, c)
	return true
}

func (l *layer) done() (EditList, error) {
	switch {
	case l.err != nil:
		return EditList{}, l.err
	case len(l.list.Cuts) == 0:
		return EditList{}, ErrNothingFilmed
	}
	return l.list, nil
}

// tried is how many tries of a row that are not used came before a stretch.
func (l *layer) tried(at place, s stretch) int {
	if l.again == nil {
		l.again = map[place][]Try{}
		for _, t := range l.session.Tries {
			if t.Unused == DoneOver || t.Unused == RippedUp {
				l.again[t.place()] = append(l.again[t.place()], t)
			}
		}
	}
	return sort.Search(len(l.again[at]), func(i int) bool { return !before(l.again[at][i], s) })
}

// before reports whether a try begins before a stretch.
func before(t Try, s stretch) bool { return t.Take < s.take || t.Take == s.take && t.From < s.from }

// marks are those that a stretch shows. Between two stretches a mark belongs
// to the one that ends there where it tells of an end, else to the one that
// begins.
func (s *Session) marks(at stretch) (out []Mark) {
	first := sort.Search(len(s.Marks), func(i int) bool {
		m := s.Marks[i]
		return m.Take > at.take || m.Take == at.take && m.At >= at.from
	})
	for _, m := range s.Marks[first:] {
		if m.Take != at.take || m.At > at.to {
			break
		}
		ends := m.Kind == RowEnded || m.Kind == Slipped || m.Kind == Unravelled || m.Kind == Again
		if m.At == at.from && ends && at.from > 0 || m.At == at.to && !ends && at.to < s.Takes[at.take-1].Length {
			continue
		}
		out = append(out, m.Mark)
	}
	return out
}
