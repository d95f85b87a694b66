package pattern

// cursor is a place in a fabric: a run, and how far into it.
type cursor struct {
	i   int
	off int64
}

// rowWork works the steps of one row into the fabric below.
type rowWork struct {
	pr    *prover
	pc    *pieceWork
	row   *Row
	opts  options
	below *fabric
	cur   cursor
	out   fabric

	last      place // where the last stitch went
	lastSet   bool
	lastAt    cursor // its position
	lastFresh bool   // the last place has not been worked into yet (yarn was joined there)
	underTold bool   // the stitch under the turning chain was skipped in words
	pending   int64  // chains made since the last stitch
	held      int64  // of these, those that end a group in one place: they stand up, and span nothing
	taken     int64
	skipped   int64
	passed    int64 // stitches stepped over without a word
	toLast    int64 // of these, those stepped over to reach the last one
	begun     bool  // a stitch, or a chain that counts, has been made
	chained   int64 // the chain at the start of the row
	stands    bool  // the turning chain stands on the last place
	named     bool  // the last place was found by name: what is left after it is not left over
	leave     bool
	joined    bool
	attached  bool
	elsewhere bool  // part of the row is worked into another row
	edged     bool  // part of it goes along an edge
	free      bool  // some number was not to be known
	delta     int64 // increases and decreases with no place of their own
	deltaSet  bool
	deltaStep *Step // the last of them
	own       []run // chain made in this row and worked back into
	host      *hostUse
	closing   int64 // chains of the last space of a round
	steps     int64
	toEnd     counts // see leftOfMany
	loops     loopsUsed
	tchApart  bool // the row names the turning chain apart from the other stitches

	problems  []problem
	trace     []*Trace
	untraced  bool     // the row is only tried: nobody will ask for its trace
	back      bool     // the row runs back over the one below
	log       *linkLog // nil where nobody asks which stitch stands where
	tangled   bool     // the work turned inside a repeat: which stitch belongs to which pass is not told
	rotated   bool     // the round begins elsewhere than the one below it
	blocked   int64    // blocks from corner to corner, worked so far
	hopped    cursor   // where the places skipped last end
	travelled bool     // slip stitches have moved the start of the round to the cursor
	behind    int64    // stitches passed by slip stitches at the start of a round
	reached0  int64    // places that "last" stepped over to come to the end, or that it found none of
	nest      int      // repeats that are open
	by        *Step    // what worked last, outside any repeat
	slack     int64    // places that may be used beyond the end

	kind        RowKind
	joinsChain  bool  // the round is joined to the top of its first chain
	joinsStitch bool  // the round is joined to its first stitch
	misfitLeft  int64 // places that a repeat could not use
	meshBegun   bool
	meshes      int64 // of filet, worked so far; -1 where a repeat made some
	idle        bool  // a repeat that was to fill the row was not worked even once
}

// problem is something that went wrong in working a row.
type problem struct {
	code  Code
	sev   Severity
	step  *Step
	msg   string
	hint  string
	over  int64
	fatal bool // the row could not be worked to its end
}

// mark is what has to be kept to try a pass and take it back.
type mark struct {
	cur                          cursor
	out                          []run
	runs                         int
	lastN                        int64
	last                         place
	lastSet, fresh, begun, named bool
	lastAt                       cursor
	pending, held, taken         int64
	loops                        loopsUsed
	skipped, passed              int64
	toLast                       int64
	problems                     int
	trace                        []*Trace
	stands, joined, leave, free  bool
	delta                        int64
	own                          []run
	elsewhere                    bool
	misfitLeft, closing, behind  int64
	mesh, idle                   bool
	chained                      int64
	below                        *fabric
	logged                       int
	lastTimes, lastStitches      int64 // of the last note of the trace
}

func (w *rowWork) mark() mark {
	m := mark{cur: w.cur, out: w.out.runs, runs: len(w.out.runs), last: w.last, lastSet: w.lastSet, fresh: w.lastFresh, begun: w.begun, named: w.named, lastAt: w.lastAt,
		pending: w.pending, held: w.held, loops: w.loops, taken: w.taken, skipped: w.skipped, passed: w.passed, toLast: w.toLast, problems: len(w.problems), trace: w.trace,
		stands: w.stands, joined: w.joined, leave: w.leave, free: w.free, delta: w.delta, own: w.own, elsewhere: w.elsewhere, misfitLeft: w.misfitLeft, closing: w.closing, behind: w.behind, mesh: w.meshBegun, idle: w.idle, chained: w.chained, below: w.below, logged: w.log.len()}
	if m.runs > 0 {
		m.lastN = w.out.runs[m.runs-1].n
	}
	if n := len(m.trace); n > 0 {
		m.lastTimes, m.lastStitches = m.trace[n-1].Times, m.trace[n-1].Stitches
	}
	return m
}

func (w *rowWork) reset(m mark) {
	w.cur, w.last, w.lastSet, w.lastFresh, w.begun, w.named, w.lastAt = m.cur, m.last, m.lastSet, m.fresh, m.begun, m.named, m.lastAt
	w.loops = m.loops
	w.pending, w.held, w.taken, w.skipped, w.passed, w.toLast = m.pending, m.held, m.taken, m.skipped, m.passed, m.toLast
	w.stands, w.joined, w.leave, w.free, w.delta, w.own, w.elsewhere = m.stands, m.joined, m.leave, m.free, m.delta, m.own, m.elsewhere
	w.misfitLeft, w.closing, w.meshBegun, w.chained, w.below = m.misfitLeft, m.closing, m.mesh, m.chained, m.below
	w.idle, w.behind = m.idle, m.behind
	w.log.cut(m.logged)
	w.problems, w.trace = w.problems[:m.problems], m.trace
	w.out.runs = m.out[:m.runs] // a turn in mid-row has begun another
	if m.runs > 0 {
		w.out.runs[m.runs-1].n = m.lastN
	}
	if n := len(w.trace); n > 0 {
		w.trace[n-1].Times, w.trace[n-1].Stitches = m.lastTimes, m.lastStitches
	}
}

// ended reports whether no place is left.
func (w *rowWork) ended() bool { return w.cur.i >= len(w.below.runs) }

// workable reports whether an ordinary stitch would go into the place: slip
// stitches that only travelled are passed by.
func (w *rowWork) workable(p *place) bool {
	return p.kind == pChain || p.kind == pStitch && (p.stitch != 1 || w.below.slips)
}

// norm moves the cursor to the start of the next run at the end of one.
func (w *rowWork) norm() {
	for w.cur.i < len(w.below.runs) && w.cur.off >= w.below.runs[w.cur.i].n {
		w.cur.i++
		w.cur.off = 0
	}
}

// matches reports whether a place answers a target's description.
func (w *rowWork) matches(p *place, of []Filter) bool {
	if len(of) == 0 {
		if w.opts.has(optChainsCount) && p.kind == pSpace {
			return true
		}
		return w.workable(p)
	}
	for _, f := range of {
		if f.Kind == AnyStitch {
			if w.workable(p) {
				return true
			}
			continue
		}
		if f.Kind == OneStitch && w.opts.has(optLooseNames) && w.workable(p) {
			return true
		}
		if f.match(p) {
			return true
		}
	}
	return false
}

// seek moves to the next place that answers, counting the stitches stepped
// over. It is false where there is none.
func (w *rowWork) seek(of []Filter) (stepped int64, inGroup, ok bool) {
	c := w.cur
	inGroup = true
	for c.i < len(w.below.runs) {
		r := &w.below.runs[c.i]
		if c.off >= r.n {
			c.i, c.off = c.i+1, 0
			continue
		}
		if w.matches(&r.place, of) {
			w.cur = c
			return stepped, inGroup, true
		}
		if r.counts() && !r.turn {
			stepped += r.n - c.off
			if !r.in {
				inGroup = false
			}
		}
		c.i, c.off = c.i+1, 0
	}
	return 0, false, false
}

// left counts the places that answer from the cursor to the end.
func (w *rowWork) left(of []Filter) int64 {
	if len(of) == 0 && len(w.below.runs)-w.cur.i > fewRuns {
		return w.leftOfMany()
	}
	w.pr.spend((len(w.below.runs) - w.cur.i) / 16)
	n := int64(0)
	off := w.cur.off
	for i := w.cur.i; i < len(w.below.runs); i++ {
		r := &w.below.runs[i]
		if w.matches(&r.place, of) && !(r.turn && w.tchApart) {
			n += r.n - off
		}
		off = 0
	}
	return n
}

// fewRuns is how many runs are counted faster than looked up.
const fewRuns = 32

// leftOfMany is left for any stitch, with the counts to the end of the fabric
// worked out once: a repeat over a long mesh asks at every pass.
func (w *rowWork) leftOfMany() int64 {
	f, c := w.below, &w.toEnd
	if c.of != f || len(c.n) != len(f.runs)+1 || c.apart != w.tchApart || c.slips != f.slips || c.opts != w.opts || c.last != f.runs[len(f.runs)-1].n {
		w.pr.spend(len(f.runs) / 4)
		*c = counts{of: f, n: make([]int64, len(f.runs)+1), apart: w.tchApart, slips: f.slips, opts: w.opts, last: f.runs[len(f.runs)-1].n}
		for i := len(f.runs) - 1; i >= 0; i-- {
			c.n[i] = c.n[i+1]
			if r := &f.runs[i]; w.matches(&r.place, nil) && !(r.turn && w.tchApart) {
				c.n[i] += r.n
			}
		}
	}
	n := c.n[w.cur.i]
	if c.n[w.cur.i+1] != n {
		n -= w.cur.off
	}
	return n
}

// counts is how many stitches are left from each run of a fabric on, and
// under which reading.
type counts struct {
	of           *fabric
	n            []int64
	last         int64
	opts         options
	apart, slips bool
}

// leftWith counts as left does, the turning chain among them.
func (w *rowWork) leftWith(of []Filter) int64 {
	apart := w.tchApart
	w.tchApart = false
	n := w.left(of)
	w.tchApart = apart
	return n
}

// runLeft is how many more places of this run there are.
func (w *rowWork) runLeft() int64 { return w.below.runs[w.cur.i].n - w.cur.off }

// take uses n places at the cursor, all of one run.
func (w *rowWork) take(n int64) {
	if w.ended() {
		return
	}
	n = min(n, w.runLeft())
	r := &w.below.runs[w.cur.i]
	w.log.take(r, w.cur.off, n)
	w.last, w.lastSet, w.lastFresh = r.place, true, false
	w.cur.off += n
	w.lastAt = cursor{w.cur.i, w.cur.off - 1}
	if r.kind != pGap {
		w.taken += n
	}
	if r.kind == pSpace {
		w.loops.use(r.size)
	}
	w.norm()
}
