package film

import (
	"maps"
	"slices"
	"strconv"

	"crochet/tallyturn/counter"
)

// unfolding parts takes into tries, going through what was done and not taken
// back in the order in which it was done.
type unfolding struct {
	stepped, taken int // how many steps and takes it has gone through

	plan  *counter.Plan
	at    counter.Place
	take  *reel // the one that is on
	tries []trying
	marks []Moment
	open  bool // the last of tries is going on

	cameras, codes map[int]string
	claps          map[int]int64
	choices        map[place]Choice
	alike          Choice
	rate           int64
}

// trying is a try, and when it came to which stitch.
type trying struct {
	Try
	reached []reach
}

type reach struct{ stitch, ms int64 }

// mayChange is how many of the newest steps are gone through anew for each
// session: as many can be taken back before all of them are.
const mayChange = 32

// Session is what the events come to so far. As long as they only come, its
// cost is that of the tries and marks there are and of the newest steps; after
// more than a few were taken back, once that of all steps.
func (r *Recorder) Session() *Session {
	if r.settled == nil {
		r.settled = &unfolding{plan: r.begun.Plan(), at: r.begun.At(), alike: Usual,
			cameras: map[int]string{}, codes: map[int]string{}, claps: map[int]int64{}, choices: map[place]Choice{}}
	}
	r.settled.goOn(r, mayChange)
	u := r.settled.copy()
	u.goOn(r, 0)
	u.endTake()
	return u.session(r)
}

// goOn goes through the steps of a recorder that it has not gone through yet,
// but for the newest.
func (u *unfolding) goOn(r *Recorder, but int) {
	for u.taken < len(r.takes) || u.stepped < len(r.done) {
		takes, done := r.takes[u.taken:], r.done[u.stepped:]
		if but > 0 && len(done) <= but {
			return
		}
		switch {
		case u.take != nil && u.take.End != Rolling && (len(done) == 0 || done[0].seq > u.take.to):
			u.endTake()
		case len(takes) > 0 && (len(done) == 0 || done[0].seq > takes[0].from):
			u.beginTake(takes[0])
			u.taken++
		default:
			u.step(done[0])
			u.stepped++
		}
	}
}

// copy is an unfolding that goes on by itself.
func (u *unfolding) copy() *unfolding {
	c := *u
	c.tries, c.marks = slices.Clone(u.tries), slices.Clone(u.marks)
	if n := len(c.tries) - 1; n >= 0 { // the only one that is reached further
		c.tries[n].reached = slices.Clip(c.tries[n].reached)
	}
	c.cameras, c.codes, c.claps, c.choices = maps.Clone(u.cameras), maps.Clone(u.codes), maps.Clone(u.claps), maps.Clone(u.choices)
	return &c
}

func (u *unfolding) session(r *Recorder) *Session {
	s := &Session{SpeakAt: u.rate, Alike: u.alike, choices: u.choices, plan: r.state.Plan(), state: r.state}
	for _, t := range r.takes {
		t := t.Take
		t.Camera, t.Timecode, t.ClapAt = u.cameras[t.Number], u.codes[t.Number], u.claps[t.Number]
		s.Takes = append(s.Takes, t)
	}
	for _, t := range u.tries {
		if t.Length() > 0 {
			if t.Piece >= 0 {
				t.Label = labelOf(s.plan, t.place())
			}
			s.Tries = append(s.Tries, t.Try)
		}
	}
	s.Marks = u.marks
	for _, slip := range r.slips {
		s.Marks = append(s.Marks, Moment{
			Mark: Mark{At: slip.ms, Kind: Slipped, Text: differs(slip)}, Take: slip.take,
			Piece: slip.before.Piece, Copy: slip.before.Copy, Row: slip.before.Row, Stitch: slip.before.Stitch, TakenBack: true,
		})
	}
	slices.SortStableFunc(s.Marks, func(a, b Moment) int {
		if a.Take != b.Take {
			return a.Take - b.Take
		}
		return int(min(max(a.At-b.At, -1), 1))
	})
	return s
}

func (u *unfolding) beginTake(t *reel) {
	u.endTake()
	u.take = t
	u.begin(0)
}

func (u *unfolding) endTake() {
	if u.take != nil {
		u.close(u.take.Length, false)
		if u.take.End != Rolling {
			u.lookBack()
		}
		u.take = nil
	}
}

// lookBack gives the end of a take to the row that was ended in it, where the
// next one was not begun any more: what is seen then is what was made.
func (u *unfolding) lookBack() {
	n := len(u.tries) - 1
	if n < 1 {
		return
	}
	t, made := &u.tries[n], &u.tries[n-1]
	if made.Take != t.Take || !made.Ended || t.FromStitch > 0 || len(t.reached) > 0 || t.place() == other {
		return
	}
	begun := len(u.marks)
	for i := len(u.marks) - 1; i >= 0 && u.marks[i].Take == t.Take && u.marks[i].At >= t.From; i-- {
		if u.marks[i].Kind == RowBegun {
			begun = i
			break
		}
		if u.marks[i].Kind != OwnWord {
			return // something was counted
		}
	}
	if begun < len(u.marks) {
		u.marks = slices.Delete(u.marks, begun, begun+1)
	}
	made.To = t.To
	u.tries = u.tries[:n]
}

// here is the row in hand.
func (u *unfolding) here() place {
	at := u.at
	if at.Copy < 0 || at.Copy >= u.plan.Copies(at.Piece) || at.Row < 0 || at.Row >= u.plan.Rows(at.Piece) {
		return other
	}
	return place{at.Piece, at.Copy, at.Row}
}

// begin begins a try of the row in hand.
func (u *unfolding) begin(ms int64) {
	at := u.here()
	label := labelOf(u.plan, at)
	t := Try{Take: u.take.Number, Piece: at.piece, Copy: at.copy, Row: at.row, Label: label, From: ms, To: ms}
	if at != other {
		t.FromStitch, t.ToStitch = u.at.Stitch, u.at.Stitch
		words := label
		if u.at.Stitch > 0 {
			words += ", from stitch " + strconv.FormatInt(u.at.Stitch+1, 10)
		}
		u.mark(ms, RowBegun, words)
	}
	u.tries = append(u.tries, trying{Try: t})
	u.open = true
}

// close ends the try that is going on.
func (u *unfolding) close(ms int64, ended bool) {
	if !u.open {
		return
	}
	t := &u.tries[len(u.tries)-1]
	t.To, t.Ended = max(ms, t.From), ended
	u.open = false
}

// mark sets a mark at the place in hand.
func (u *unfolding) mark(ms int64, kind MarkKind, text string) {
	at := u.here()
	m := Moment{Mark: Mark{At: ms, Kind: kind, Text: clean(text)}, Take: u.take.Number, Piece: at.piece, Copy: at.copy, Row: at.row}
	if at != other {
		m.Stitch = u.at.Stitch
	}
	u.marks = append(u.marks, m)
}

// reach notes that the try that is going on came to a stitch.
func (u *unfolding) reach(ms int64) {
	if !u.open {
		return
	}
	t := &u.tries[len(u.tries)-1]
	t.ToStitch = u.at.Stitch
	t.reached = append(t.reached, reach{u.at.Stitch, ms})
}

func (u *unfolding) step(s step) {
	filmed := u.take != nil && s.take == u.take.Number
	was := u.here()
	moved := false // another row is in hand
	switch e := s.event; e.Kind {
	case counter.Camera:
		u.cameras[e.Row+1] = clean(e.Text)
	case counter.Timecode:
		u.codes[e.Row+1] = clean(e.Text)
	case counter.Clap:
		u.claps[e.Row+1] = e.N
	case counter.Choose:
		u.choices[place{e.Piece, e.Copy, e.Row}] = choiceOf(e)
	case counter.Alike:
		if u.alike = choiceOf(e); u.alike.Way == AsUsual {
			u.alike = Usual
		}
	case counter.SpeakAt:
		u.rate = e.N
	case counter.Remark:
		if filmed {
			u.mark(s.ms, OwnWord, e.Text)
		}
	case counter.Check:
		if filmed {
			u.counted(s)
		}
	case counter.FromHere:
		if filmed {
			u.mark(s.ms, Again, "")
			u.close(s.ms, false)
			u.drop(was, u.at.Stitch, DoneOver)
			u.begin(s.ms)
		}
	case counter.Unravel:
		if filmed {
			u.mark(s.ms, Unravelled, "")
			u.close(s.ms, false)
		}
		u.at = s.after
		for row := e.Row; row < u.plan.Rows(e.Piece) && u.filmed(); row++ {
			u.drop(place{e.Piece, e.Copy, row}, e.N, RippedUp)
			e.N = 0
			if row > u.last(e.Piece, e.Copy) {
				break
			}
		}
		moved = true
	case counter.Rewrite:
		moved = u.carry(s, was)
	case counter.Finish, counter.Carry:
		if filmed {
			text := ""
			if e.N != counter.NotCounted {
				text = strconv.FormatInt(e.N, 10)
			}
			if s.slip {
				u.mark(s.ms, Slipped, differs(s))
			}
			u.mark(s.ms, RowEnded, text)
			u.close(s.ms, true)
		}
		u.at = s.after
		moved = true
	default:
		u.at = s.after
		if s.bare() && s.times > 1 {
			u.at.Stitch += int64(s.times-1) * e.N
		}
		if moved = u.here() != was; moved || !filmed {
			break
		}
		switch e.Kind {
		case counter.Count:
			u.counted(s)
			u.reach(s.ms)
		case counter.Tap, counter.Jump:
			u.reach(s.ms)
		}
		if s.words != "" {
			u.mark(s.ms, Instruction, s.words)
		}
	}
	if moved && filmed {
		u.close(s.ms, false)
		u.begin(s.ms)
	}
}

// filmed reports whether there is a try at all.
func (u *unfolding) filmed() bool { return len(u.tries) > 0 }

// last is the last row of a copy that there is a try of, -1 where there is
// none.
func (u *unfolding) last(piece, copy int) int {
	row := -1
	for _, t := range u.tries {
		if t.Piece == piece && t.Copy == copy {
			row = max(row, t.Row)
		}
	}
	return row
}

// counted marks a count in mid-row.
func (u *unfolding) counted(s step) {
	if s.slip {
		u.mark(s.ms, Slipped, differs(s))
		return
	}
	u.mark(s.ms, Counted, strconv.FormatInt(s.event.N, 10))
}

// differs puts a slip in figures.
func differs(s step) string {
	return strconv.FormatInt(s.event.N, 10) + " for " + strconv.FormatInt(s.expected, 10)
}

// drop sets aside what tries of a row show of it from a stitch on.
func (u *unfolding) drop(at place, stitch int64, why Why) {
	for i := 0; i < len(u.tries); i++ {
		t := &u.tries[i]
		if t.place() != at || t.Unused != Used {
			continue
		}
		if t.FromStitch >= stitch {
			t.Unused = why
			continue
		}
		k := slices.IndexFunc(t.reached, func(r reach) bool { return r.stitch >= stitch })
		if k < 0 || t.reached[k].ms >= t.To {
			continue
		}
		rest := *t
		rest.reached = t.reached[k+1:]
		rest.From, rest.FromStitch, rest.Unused = t.reached[k].ms, t.reached[k].stitch, why
		t.reached = t.reached[: k+1 : k+1] // a copy may have what follows
		t.To, t.ToStitch, t.Ended = rest.From, rest.FromStitch, false
		u.tries = slices.Insert(u.tries, i+1, rest)
		i++
	}
}

// carry goes on with another text of the pattern: what was filmed and chosen
// goes where its rows are by now. It reports whether another row is in hand
// than was.
func (u *unfolding) carry(s step, was place) (moved bool) {
	where := counter.Carrying(s.from, s.to)
	move := func(at place) place {
		if to, ok := where(at.piece, at.copy, at.row); ok {
			return place{to.Piece, to.Copy, to.Row}
		}
		return other
	}
	for i := range u.tries {
		t := &u.tries[i]
		to := move(t.place())
		if to == other && t.place() != other && t.Unused == Used {
			t.Unused = Gone
		}
		t.Piece, t.Copy, t.Row = to.piece, to.copy, to.row
	}
	for i := range u.marks {
		m := &u.marks[i]
		to := move(place{m.Piece, m.Copy, m.Row})
		m.Piece, m.Copy, m.Row = to.piece, to.copy, to.row
	}
	choices := map[place]Choice{}
	for at, c := range u.choices {
		if to := move(at); to != other {
			choices[to] = c
		}
	}
	u.choices, u.plan, u.at = choices, s.to, s.after
	return u.here() != move(was)
}
