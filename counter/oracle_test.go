package counter_test

import (
	"maps"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"crochet/tallyturn/counter"
	"crochet/tallyturn/pattern"
)

// naive does what State does, in the plainest way: the work is copied whole
// before each thing done, and everything asked is worked out anew.
type naive struct {
	rows   [][]int64 // of each piece
	copies []int
	work   work
	past   []work
	kinds  []counter.Kind
	ms     map[rowOf]int64
	last   int64
	open   bool
	paused bool
}

type (
	copyOf struct{ piece, copy int }
	rowOf  struct{ piece, copy, row int }
)

type work struct {
	at       copyOf
	places   map[copyOf]counter.Place
	ended    map[rowOf][2]int64 // tapped, counted
	mismatch *rowOf
}

func (w work) clone() work {
	w.places, w.ended = maps.Clone(w.places), maps.Clone(w.ended)
	return w
}

func newNaive(copies []int, rows [][]int64) *naive {
	n := &naive{rows: rows, copies: copies, ms: map[rowOf]int64{}}
	n.work = work{places: map[copyOf]counter.Place{}, ended: map[rowOf][2]int64{}}
	for _, c := range n.all() {
		n.work.places[c] = counter.Place{Piece: c.piece, Copy: c.copy}
	}
	return n
}

func (n *naive) all() (all []copyOf) {
	for p := range n.rows {
		for c := range n.copies[p] {
			all = append(all, copyOf{p, c})
		}
	}
	return all
}

func (n *naive) place() counter.Place { return n.work.places[n.work.at] }
func (n *naive) row() rowOf           { return rowOf{n.work.at.piece, n.work.at.copy, n.place().Row} }
func (n *naive) done(c copyOf) bool   { return n.work.places[c].Row >= len(n.rows[c.piece]) }
func (n *naive) finished() bool       { return n.done(n.work.at) }

func (n *naive) expect() int64 {
	if n.finished() {
		return unknown
	}
	return n.rows[n.work.at.piece][n.place().Row]
}

// can tells whether the event can be.
func (n *naive) can(e counter.Event) bool {
	switch e.Kind {
	case counter.Tap:
		return !n.finished() && e.N > 0
	case counter.Count:
		return !n.finished() && e.N >= 0
	case counter.Finish:
		return !n.finished() && e.N >= -1
	case counter.Back:
		return len(n.past) > 0
	case counter.Jump:
		return e.Piece >= 0 && e.Piece < len(n.rows) && e.Copy >= 0 && e.Copy < n.copies[e.Piece] &&
			e.Row >= 0 && e.Row < len(n.rows[e.Piece]) && e.N >= 0
	}
	return true
}

func (n *naive) apply(e counter.Event) {
	n.spend(e)
	if e.Kind == counter.Back {
		n.work = n.past[len(n.past)-1]
		n.past, n.kinds = n.past[:len(n.past)-1], n.kinds[:len(n.kinds)-1]
		return
	}
	before := n.work.clone()
	at := n.place()
	switch e.Kind {
	default:
		return
	case counter.Tap:
		at.Stitch += e.N
		n.work.places[n.work.at] = at
	case counter.Count:
		at.Stitch = e.N
		n.work.places[n.work.at] = at
	case counter.Jump:
		n.work.at = copyOf{e.Piece, e.Copy}
		n.work.places[n.work.at] = counter.Place{Piece: e.Piece, Copy: e.Copy, Row: e.Row, Stitch: e.N}
	case counter.Finish:
		row := n.row()
		n.work.ended[row] = [2]int64{at.Stitch, e.N}
		if _, differs := n.differs(row); differs {
			n.work.mismatch = &row
		}
		at.Row, at.Stitch = at.Row+1, 0
		n.work.places[n.work.at] = at
		if n.done(n.work.at) {
			all := n.all()
			i := slices.Index(all, n.work.at)
			for _, c := range append(all[i+1:], all[:i]...) {
				if !n.done(c) {
					n.work.at = c
					break
				}
			}
		}
	}
	n.past, n.kinds = append(n.past, before), append(n.kinds, e.Kind)
}

func (n *naive) spend(e counter.Event) {
	var stitches int64
	switch {
	case e.Kind == counter.Tap:
		stitches = e.N
	case e.Kind == counter.Finish && e.N == counter.NotCounted:
		stitches = n.expect() - n.place().Stitch
	case e.Kind == counter.Finish, e.Kind == counter.Count:
		stitches = e.N - n.place().Stitch
	}
	limit := max(5*60_000, min(stitches*15_000, 4*3_600_000))
	gap := e.At - n.last
	if n.open && !n.paused && e.Kind != counter.Open && gap > 0 && gap <= limit && !n.finished() {
		n.ms[n.row()] += gap
	}
	n.last, n.open = e.At, e.Kind != counter.Close
	switch e.Kind {
	case counter.Pause:
		n.paused = true
	case counter.Resume, counter.Tap, counter.Count, counter.Finish:
		n.paused = false
	}
}

func (n *naive) differs(r rowOf) (counter.Mismatch, bool) {
	ended, ok := n.work.ended[r]
	want := n.rows[r.piece][r.row]
	m := counter.Mismatch{Piece: r.piece, Copy: r.copy, Row: r.row, Number: r.row + 1, Expected: want, Counted: ended[1]}
	if !ok || want == unknown {
		return m, false
	}
	if ended[1] == counter.NotCounted {
		m.Counted, m.Tapped = ended[0], true
		return m, ended[0] > want
	}
	return m, ended[1] != want
}

// view is all that can be asked of a state.
type view struct {
	At                        counter.Place
	Paused, Running, Finished bool
	Expect, Left, Extra       int64
	AtRowEnd                  bool
	Number                    int
	Next                      counter.Place
	HasNext                   bool
	Places                    []counter.Place
	Records                   []counter.Record
	Mismatch                  counter.Mismatch
	HasMismatch               bool
	Mismatches                []counter.Mismatch
	Stitches, Rows            [2]int64
	RowMillis, Millis         int64
	Last                      counter.Kind
}

func (n *naive) view() view {
	v := view{At: n.place(), Paused: n.paused, Running: n.open, Finished: n.finished(), Expect: n.expect()}
	if v.Expect != unknown {
		v.Left, v.Extra = max(0, v.Expect-v.At.Stitch), max(0, v.At.Stitch-v.Expect)
		v.AtRowEnd = v.At.Stitch >= v.Expect
	}
	if !v.Finished {
		v.Number = v.At.Row + 1
		after := *n
		after.work, after.ms, after.past, after.kinds = n.work.clone(), maps.Clone(n.ms), nil, nil
		after.apply(counter.Event{Kind: counter.Finish, N: counter.NotCounted})
		if !after.finished() {
			v.Next, v.HasNext = after.place(), true
		}
		v.RowMillis = n.ms[n.row()]
	}
	for _, c := range n.all() {
		at := n.work.places[c]
		v.Places = append(v.Places, at)
		for i, want := range n.rows[c.piece] {
			key := rowOf{c.piece, c.copy, i}
			stitches := max(0, want)
			v.Stitches[1] += stitches
			v.Rows[1]++
			if i < at.Row {
				v.Stitches[0] += stitches
				v.Rows[0]++
			} else if i == at.Row {
				v.Stitches[0] += min(stitches, at.Stitch)
			}
			v.Millis += n.ms[key]
			ended, ok := n.work.ended[key]
			r := counter.Record{Piece: c.piece, Copy: c.copy, Row: i, Number: i + 1, Finished: ok,
				Tapped: ended[0], Counted: counter.NotCounted, Expected: want, Millis: n.ms[key]}
			if ok {
				r.Counted = ended[1]
			}
			if ok || r.Millis > 0 {
				v.Records = append(v.Records, r)
			}
			if m, differs := n.differs(key); differs {
				v.Mismatches = append(v.Mismatches, m)
			}
		}
	}
	if n.work.mismatch != nil {
		if m, ok := n.differs(*n.work.mismatch); ok {
			v.Mismatch, v.HasMismatch = m, true
		}
	}
	if len(n.kinds) > 0 {
		v.Last = n.kinds[len(n.kinds)-1]
	}
	return v
}

func viewOf(s counter.State, copies []int) view {
	v := view{At: s.At(), Paused: s.Paused(), Running: s.Running(), Finished: s.Finished(),
		Expect: unknown, Extra: s.Extra(), AtRowEnd: s.AtRowEnd()}
	if n, ok := s.Expect(); ok {
		v.Expect = n
		v.Left, _ = s.Left()
	}
	_, v.Number = s.Proof()
	v.Next, v.HasNext = s.Next()
	for p, n := range copies {
		for c := range n {
			at, _ := s.PlaceOf(p, c)
			v.Places = append(v.Places, at)
		}
	}
	v.Records = slices.Collect(s.Records())
	v.Mismatch, v.HasMismatch = s.Mismatch()
	v.Mismatches = slices.Collect(s.Mismatches())
	v.Stitches[0], v.Stitches[1] = s.Stitches()
	v.Rows[0], v.Rows[1] = s.Rows()
	v.RowMillis, v.Millis = s.RowMillis(s.LastEvent()), s.Millis(s.LastEvent())
	v.Last, _ = s.Last()
	return v
}

// drawEvent draws an event that can be, or nearly.
func drawEvent(t *rapid.T, n *naive, at int64) counter.Event {
	e := counter.Event{At: at}
	e.Kind = rapid.SampledFrom([]counter.Kind{
		counter.Tap, counter.Tap, counter.Tap, counter.Back, counter.Back, counter.Finish, counter.Finish,
		counter.Count, counter.Pause, counter.Resume, counter.Jump, counter.Open, counter.Close,
	}).Draw(t, "kind")
	switch e.Kind {
	case counter.Tap:
		e.N = rapid.SampledFrom([]int64{1, 1, 1, 2, 3, 40, 0}).Draw(t, "stride")
	case counter.Finish, counter.Count:
		e.N = rapid.Int64Range(-2, 6).Draw(t, "count")
	case counter.Jump:
		c := rapid.SampledFrom(n.all()).Draw(t, "copy")
		e.Piece, e.Copy = c.piece, c.copy
		e.Row = rapid.IntRange(0, len(n.rows[c.piece])-1).Draw(t, "row")
		e.N = rapid.Int64Range(0, 6).Draw(t, "stitch")
		switch rapid.IntRange(0, 19).Draw(t, "astray") {
		case 0:
			e.Piece = rapid.SampledFrom([]int{-1, len(n.rows)}).Draw(t, "piece")
		case 1:
			e.Copy = rapid.SampledFrom([]int{-1, n.copies[c.piece]}).Draw(t, "copy")
		case 2:
			e.Row = rapid.SampledFrom([]int{-1, len(n.rows[c.piece])}).Draw(t, "row")
		case 3:
			e.N = -1
		}
	}
	return e
}

func TestAgainstOracle(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rows := rapid.SliceOfN(rapid.SliceOfN(rapid.Int64Range(unknown, 5), 1, 4), 1, 3).Draw(t, "pieces")
		copies := rapid.SliceOfN(rapid.IntRange(1, 3), len(rows), len(rows)).Draw(t, "copies")
		plan := planFrom(rows, copies)
		oracle, s := newNaive(copies, rows), counter.Begin(plan)

		var log []byte // encoded events
		var ends []int
		states, dumps := []counter.State{s}, []string{s.Dump()}
		at := int64(0)
		for range rapid.IntRange(0, 60).Draw(t, "events") {
			at += rapid.SampledFrom([]int64{0, 1, 2000, 90_000, 299_999, 300_000, 300_001, 600_000, -70_000}).Draw(t, "pass")
			e := drawEvent(t, oracle, at)
			next, err := s.Apply(e)
			if can := oracle.can(e); can != (err == nil) {
				t.Fatalf("%+v can be: %v; error %v", e, can, err)
			}
			if err != nil {
				continue
			}
			oracle.apply(e)
			s = next
			if diff := cmp.Diff(oracle.view(), viewOf(s, copies)); diff != "" {
				t.Fatalf("after %+v (-naive +state):\n%s", e, diff)
			}
			log, _ = e.AppendBinary(log)
			ends = append(ends, len(log))
			states, dumps = append(states, s), append(dumps, s.Dump())
		}

		// No state was touched by what came after it.
		for i := range states {
			if got := states[i].Dump(); got != dumps[i] {
				t.Fatalf("state %d was\n%sand is\n%s", i, dumps[i], got)
			}
		}
		// The log alone rebuilds the last one.
		var events []counter.Event
		start := 0
		for _, end := range ends {
			var e counter.Event
			if err := e.UnmarshalBinary(log[start:end]); err != nil {
				t.Fatal(err)
			}
			events, start = append(events, e), end
		}
		again, refused := counter.Replay(planFrom(rows, copies), events)
		if got := again.Dump(); got != s.Dump() || refused != nil {
			t.Fatalf("replayed\n%slive\n%srefused %v", got, s.Dump(), refused)
		}
		// And it can all be taken back.
		for {
			next, err := s.Apply(counter.Event{Kind: counter.Back, At: at})
			if err != nil {
				break
			}
			s = next
		}
		if s.At() != (counter.Place{}) {
			t.Fatalf("all taken back, and at %+v", s.At())
		}
		if done, _ := s.Stitches(); done != 0 {
			t.Fatalf("all taken back, and %d stitches done", done)
		}
	})
}

// planFrom folds neighbours alike, as a proof does.
func planFrom(rows [][]int64, copies []int) *counter.Plan {
	pieces := make([]*pattern.PieceProof, len(rows))
	for i := range rows {
		pieces[i] = piece(copies[i])
		for j := 0; j < len(rows[i]); {
			k := j
			for k < len(rows[i]) && rows[i][k] == rows[i][j] {
				k++
			}
			addRows(pieces[i], rows[i][j], k-j)
			j = k
		}
	}
	return planOf(pieces...)
}
