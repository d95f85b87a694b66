package pattern

import (
	"regexp"
	"slices"
	"sync"

	"crochet/tallyturn/pattern/stitch"
)

// BaseKind says what a stitch stands in.
type BaseKind uint8

// What a stitch can stand in.
const (
	BaseUnknown BaseKind = iota // an edge, an earlier row: nobody says where
	BaseRow                     // a place of the row below
	BaseChain                   // a chain of the foundation
	BaseOther                   // the other side of a chain of the foundation
	BaseRing                    // the ring
	BaseHost                    // a place of a row of another piece, or an earlier row of this one
	BaseSelf                    // a place made earlier in the same row, before the work turned
	BaseOwn                     // a chain of a length made in this row and worked back along
)

// Base is one place that a stitch stands in. At counts from 0 in the order in
// which the places were made, whatever way the row that stands in them runs.
type Base struct {
	Kind BaseKind
	At   int
}

// LinkKind says what a link is.
type LinkKind uint8

// What a row can make.
const (
	LinkStitch LinkKind = iota
	LinkSpace           // a space of chains; its bases are those of the stitches to either side
	LinkPicot           // a picot on the link before it
)

// Loop is the part of a stitch below that a stitch is worked into.
type Loop uint8

// The loops.
const (
	BothLoops Loop = iota
	BackLoop
	FrontLoop
)

// Link is one place that a row makes and what it stands in.
type Link struct {
	Kind   LinkKind
	Stitch stitch.ID // LinkStitch
	Name   string    // of a special stitch, or of the group it is part of
	Chains int       // of a space or a picot, or of a turning chain that is a stitch
	Turn   bool      // the chain at the start of the row, where it is a stitch or a space
	Loop   Loop
	Bases  []Base // more than one where several places are worked together
	Step   *Step  // the instruction; nil for what no instruction makes by itself
	Marks  []*Step
}

// RowLinks is what the rows First to Last, counted from 0 among those walked,
// make: each of them the same.
type RowLinks struct {
	First, Last int
	Row         *RowProof // the proof of the first of them

	// Known is false where the row was not worked out, or is larger than was
	// asked for; then nothing follows.
	Known bool

	Made    []Link  // in the order made; the bases of the next row count them
	Earlier []Link  // made before the work turned in mid-row; BaseSelf counts them
	Start   int     // chains at the start of the row that are not a stitch
	Chain   int     // chains of the foundation that the row is worked into; 0 where it is not
	Ring    bool    // begun in a ring
	Turned  bool    // the row runs back over the one below
	Round   bool    // the row goes round
	Joined  bool    // it is closed with a slip stitch
	Even    bool    // where increases and decreases stand is the maker's choice; they were spread evenly
	Marks   []*Step // colour changes, yarn joined and fastened off: those after the last link

	// Host is the piece and the row that the bases of kind BaseHost are in,
	// each from 0; -1 where there is none.
	Host, HostRow int
}

// Links works a piece once more and tells of each row which stitch stands
// where. A row with more than limit places, or worked into more, is not told.
// It is nil where the proof was not worked out from a text.
func (p *Proof) Links(piece, limit int) []RowLinks {
	if piece < 0 || piece >= len(p.Pieces) || p.Pieces[piece].work == nil {
		return nil
	}
	base := p.Pieces[piece]
	pr := &prover{pat: p.Pattern, size: p.size, terms: p.Terms, flips: base.work.flips, past: base.work.pr.past, asks: base.work.pr.asks}
	for _, q := range p.Pieces[:piece] {
		pr.pieces = append(pr.pieces, q.work)
	}
	w := pr.newPiece(base.Piece)
	w.turnNamed, w.onward = base.work.turnNamed, base.work.onward
	w.trial = &trial{readings: takenAs(base), carry: &carrying{diffs: []Difference{{Row: base.Len()}}, broken: make(map[int]string)}}
	w.links = &linking{proof: p, base: base, limit: int64(limit), loops: make(map[*Step]Loop)}
	w.workAll()
	return w.links.rows
}

// linking gathers the links of a piece while it is worked.
type linking struct {
	proof *Proof
	base  *PieceProof
	limit int64
	rows  []RowLinks
	loops map[*Step]Loop
	row1  int // rows told so far
}

// newLog begins the log of a row, where links are wanted.
func (l *linking) newLog(w *pieceWork, below *fabric, reversed bool) *linkLog {
	if l == nil {
		return nil
	}
	log := &linkLog{next: 1, limit: l.limit, in: l}
	s := linkSource{kind: BaseRow, reversed: reversed}
	switch {
	case below == nil:
	case below.chain:
		s.kind, s.reversed = BaseChain, true
	case len(w.rows) == 0 && len(w.pr.pieces) > 0:
		prev := w.pr.pieces[len(w.pr.pieces)-1]
		s.kind, s.piece, s.number = BaseHost, prev, prev.belowNumber
	}
	log.numberOf(below, s)
	return log
}

// row keeps the links of a row just worked.
func (l *linking) row(rp *RowProof, rw *rowWork) {
	if l == nil {
		return
	}
	r := RowLinks{First: l.row1, Last: l.row1, Row: rp, Host: -1, HostRow: -1}
	if b, _ := l.base.At(l.row1); b != nil {
		r.Row = b
	}
	if rw != nil {
		linkRow(&r, rw)
	}
	if n := len(l.rows); n > 0 {
		r.within(&l.rows[n-1])
	}
	l.row1++
	l.rows = append(l.rows, r)
}

// within keeps the bases inside the row below: a row that was proven over the
// number stated there, and not over what is made, can reach beyond it.
func (r *RowLinks) within(below *RowLinks) {
	if !below.Known {
		return
	}
	n := len(below.Made)
	for i := range r.Made {
		bs := r.Made[i].Bases
		for j := range bs {
			if bs[j].Kind == BaseRow && (bs[j].At < 0 || bs[j].At >= n) {
				bs[j].At = min(max(bs[j].At, 0), n-1)
			}
		}
	}
}

// upTo keeps rows that were not worked, as far as the proof has come.
func (l *linking) upTo(w *pieceWork) {
	if l == nil {
		return
	}
	if n := w.proof.Len(); n > l.row1 {
		b, _ := l.base.At(l.row1)
		l.rows = append(l.rows, RowLinks{First: l.row1, Last: n - 1, Row: b, Host: -1, HostRow: -1})
		l.row1 = n
	}
}

// again keeps n rows that go on like the one before.
func (l *linking) again(w *pieceWork, row *Row, n int) {
	if l == nil || len(l.rows) == 0 || n < 1 {
		return
	}
	last := l.rows[len(l.rows)-1]
	carry := w.carry
	turned := w.orient(row) != w.below
	w.carry = carry
	if turned == last.Turned {
		l.rows[len(l.rows)-1].Last += n
		l.row1 += n
		return
	}
	size := 0
	if len(l.rows) > 1 {
		size = len(last.Made)
	}
	r := last
	r.First, r.Last, r.Turned = l.row1, l.row1+n-1, turned
	r.Made = slices.Clone(last.Made)
	for i := range r.Made {
		r.Made[i].Bases = slices.Clone(r.Made[i].Bases)
		for j := range r.Made[i].Bases {
			if b := &r.Made[i].Bases[j]; b.Kind == BaseRow {
				b.At = size - 1 - b.At
			}
		}
	}
	l.row1 += n
	l.rows = append(l.rows, r)
}

// linkRow reads off the log of a row what stands where.
func linkRow(r *RowLinks, rw *rowWork) {
	r.Round, r.Joined = rw.kind == Round, rw.joined
	log := rw.log
	if log == nil || log.over || rw.free || rw.out.size() > log.limit {
		return
	}
	for _, s := range log.sources {
		switch s.kind {
		case BaseChain:
			r.Chain = max(r.Chain, int(s.n))
		case BaseRow:
			r.Turned = s.reversed
		case BaseHost:
			r.Host, r.HostRow = log.in.place(s.piece, s.number)
		}
	}
	b := linkBuilder{r: r, log: log, rw: rw, taken: make(map[int32]bool)}
	for i := range log.events {
		b.event(&log.events[i])
	}
	b.spaces()
	if rw.deltaSet {
		b.spread()
		b.grownSpaces()
	}
	r.standTurn()
	r.Marks = b.marks
	r.Known = int64(len(r.Made)) == rw.out.size()
	if !r.Known {
		*r = RowLinks{First: r.First, Last: r.Last, Row: r.Row, Host: -1, HostRow: -1}
	}
}

// standTurn finds the chain that the chains skipped at the hook stand on,
// where they are a stitch: as many back from the hook as they are high.
func (r *RowLinks) standTurn() {
	if len(r.Made) < 2 || !r.Made[0].Turn || len(r.Made[0].Bases) != 1 || r.Made[0].Bases[0].Kind != BaseUnknown {
		return
	}
	high := stitch.Of(r.Made[0].Stitch).Turn
	if r.Made[1].Kind == LinkSpace {
		high += r.Made[1].Chains
	}
	for _, l := range r.Made[1:] {
		if l.Kind == LinkStitch {
			if r.Round && r.oneBase() {
				r.Made[0].Bases = l.Bases // all in one chain, the middle of the work
			} else if len(l.Bases) == 1 && l.Bases[0].Kind == BaseChain {
				r.Made[0].Bases = []Base{{BaseChain, min(max(r.Chain-high, l.Bases[0].At+1), r.Chain-1)}}
			}
			return
		}
	}
}

// oneBase reports whether all stitches after the first stand in one place.
func (r *RowLinks) oneBase() bool {
	var one *Base
	for _, l := range r.Made[1:] {
		for i := range l.Bases {
			if one == nil {
				one = &l.Bases[i]
			} else if *one != l.Bases[i] {
				return false
			}
		}
	}
	return one != nil
}

// place finds a piece and a row of it, each from 0.
func (l *linking) place(w *pieceWork, number int) (piece, row int) {
	for i, q := range l.proof.Pieces {
		if q.work != w && q != l.base {
			continue
		}
		if q == l.base && w != nil && w.piece != q.Piece {
			continue
		}
		for _, r := range q.Rows {
			if r.First <= number && number <= r.Last {
				return i, r.Index + number - r.First
			}
		}
	}
	return -1, -1
}

// linkBuilder turns the log of a row into its links.
type linkBuilder struct {
	r     *RowLinks
	log   *linkLog
	rw    *rowWork
	queue []Base // taken, and nothing made in it yet
	ids   []int32
	last  []Base // of the stitch made last
	first []Base
	lastN int32 // the id of the place taken last
	taken map[int32]bool
	units int64 // places that what is made next is given out to; 0 where nobody says
	per   int64 // stitches made in each of them
	into  *Step
	loop  Loop // said for the row
	marks []*Step
}

func (b *linkBuilder) event(e *linkEvent) {
	switch e.kind {
	case evTake:
		for k := int64(0); k < e.n; k++ {
			id := later(e.id, k)
			b.queue = append(b.queue, b.base(id))
			b.ids = append(b.ids, id)
			b.taken[id], b.lastN = true, id
		}
	case evOwn:
		for k := e.n - 1; k >= 0; k-- {
			b.queue = append(b.queue, Base{BaseOwn, int(e.id) + int(k)})
			b.ids = append(b.ids, 0)
		}
	case evEach:
		b.units, b.per = e.n, max(e.per, 1)
	case evInto:
		b.into = e.step
		b.units = 0
	case evTravel:
		if n := len(b.queue); n > 0 {
			b.last = []Base{b.queue[n-1]}
		}
		for _, id := range b.ids {
			delete(b.taken, id)
		}
		b.queue, b.ids = nil, nil
	case evStart:
		b.r.Start = int(e.n)
	case evTurn:
		b.spaces()
		b.r.Earlier = append(b.r.Earlier, b.r.Made...)
		b.r.Made, b.queue, b.ids, b.last, b.first = nil, nil, nil, nil, nil
		b.units, b.into = 0, nil
	case evPass:
		switch e.step.Op {
		case OpColour, OpAttach, OpFasten, OpJoin:
			b.marks = append(b.marks, e.step)
		case OpNote:
			if l := loopIn(e.step.Text); l != BothLoops {
				b.loop = l
			}
		}
	case evMake:
		b.make(e)
	}
}

// base is the place with an id.
func (b *linkBuilder) base(id int32) Base {
	s := b.log.source(id)
	if id == 0 || s == nil {
		return Base{}
	}
	at := int(id - s.from)
	if s.reversed {
		at = int(s.n) - 1 - at
	}
	return Base{s.kind, at}
}

// make adds the links of places made.
func (b *linkBuilder) make(e *linkEvent) {
	l := Link{Stitch: e.p.stitch, Name: e.p.name, Turn: e.p.turn, Step: e.step}
	switch e.p.kind {
	case pSpace:
		l.Kind, l.Chains = LinkSpace, int(e.p.size)
		b.add(l) // its bases come when the stitch after it is known
		return
	case pPicot:
		l.Kind, l.Chains = LinkPicot, int(e.p.size)
		l.Bases = b.last
		b.add(l)
		return
	}
	if e.p.turn {
		l.Chains = int(e.p.size)
	}
	l.Loop = b.loop
	if e.step != nil {
		if own := b.log.in.loopOf(b.rw, e.step); own != BothLoops {
			l.Loop = own
		} else if b.into != nil {
			if own := b.log.in.loopOf(b.rw, b.into); own != BothLoops {
				l.Loop = own
			}
		}
	}
	var all [][]Base // the bases of the stitches in turn, each for per of them
	var per int64
	if len(b.queue) == 0 {
		all = b.elsewhere(e)
		per = max(e.n/int64(len(all)), 1)
	} else {
		all, per = b.share(e)
	}
	for k := int64(0); k < e.n; k++ {
		l.Bases = all[min(k/per, int64(len(all)-1))]
		b.add(l)
		b.last = l.Bases
		if b.first == nil {
			b.first = l.Bases
		}
	}
	if !e.p.in {
		b.into = nil
	}
}

// share gives out the places taken to the stitches made in them: so many
// stitches to each place, or so many places to each stitch.
func (b *linkBuilder) share(e *linkEvent) (all [][]Base, per int64) {
	t, units := int64(len(b.queue)), b.units
	legs := e.step != nil && e.step.Legs > 1
	if units == 0 {
		units = min(e.n, t)
		if legs {
			units = e.n
		}
	}
	if !legs && t > units { // those before were passed on the way
		b.queue = b.queue[t-units:]
		t = units
	}
	now := units     // the places, or sets of places, that these stitches fill
	if b.units > 0 { // they may come a group at a time
		now = min(max(e.n/b.per, 1), units)
	}
	now = min(now, e.n)
	for u := int64(0); u < now; u++ {
		from, to := u*t/units, (u+1)*t/units
		if to <= from {
			from = min(from, t-1)
			to = from + 1
		}
		all = append(all, b.queue[from:to:to])
	}
	per = max(e.n/now, 1)
	used := now * t / units
	b.queue = b.queue[used:]
	if b.units = max(b.units-now, 0); b.units == 0 {
		b.queue = nil
	}
	if len(b.queue) == 0 {
		b.queue, b.ids = nil, nil
	}
	return all, per
}

func (b *linkBuilder) add(l Link) {
	if b.marks != nil {
		l.Marks, b.marks = b.marks, nil
	}
	b.r.Made = append(b.r.Made, l)
}

// elsewhere gives the bases of stitches for which nothing was taken: more in
// the place before, the ring, or a place that only the words tell.
func (b *linkBuilder) elsewhere(e *linkEvent) [][]Base {
	s := e.step
	if e.p.in && b.into != nil {
		s = b.into
	}
	ring := len(b.last) == 0 || b.last[0].Kind == BaseRing
	which := Same
	if s != nil {
		which = s.Target.Which
	}
	switch {
	case e.p.turn && e.ring:
		return [][]Base{{{Kind: BaseRing}}}
	case which == InRing, e.ring && ring:
		b.r.Ring = true
		return [][]Base{{{Kind: BaseRing}}}
	case s != nil && s.Op == OpFree, which == Unworked, which == RowEnds,
		s != nil && s.Target.Row != nil && !b.rw.rowBelow(s.Target.Row):
		return [][]Base{{{}}}
	case which == SkippedOne && (e.step == s || b.into != nil):
		return b.skipped(e.n)
	case which == First && b.first != nil:
		return [][]Base{b.first}
	case len(b.last) > 0:
		return [][]Base{b.last}
	case stitch.Of(e.p.stitch).Kind == stitch.Foundation:
		return [][]Base{nil}
	}
	return [][]Base{{{}}}
}

// skipped finds the n places passed over just before the one taken last.
func (b *linkBuilder) skipped(n int64) [][]Base {
	var out [][]Base
	src := b.log.source(b.lastN)
	id := b.lastN - 1
	for ; src != nil && id >= src.from && b.taken[id]; id-- {
	}
	for ; src != nil && id >= src.from && !b.taken[id] && int64(len(out)) < n; id-- {
		b.taken[id] = true
		out = append(out, []Base{b.base(id)})
	}
	if len(out) == 0 {
		return [][]Base{{{}}}
	}
	slices.Reverse(out)
	for int64(len(out)) < n {
		out = append(out, out[len(out)-1])
	}
	return out
}

// spaces gives each space the bases of its neighbours.
func (b *linkBuilder) spaces() {
	m := b.r.Made
	for i := range m {
		if m[i].Kind != LinkSpace || m[i].Bases != nil {
			continue
		}
		var from, to []Base
		for j := i - 1; j >= 0 && from == nil; j-- {
			if m[j].Kind == LinkStitch {
				from = m[j].Bases
			}
		}
		for j := i + 1; j < len(m) && to == nil; j++ {
			if m[j].Kind == LinkStitch {
				to = m[j].Bases
			}
		}
		if n := len(from); n > 0 {
			m[i].Bases = append(m[i].Bases, from[n-1])
		}
		if len(to) > 0 {
			m[i].Bases = append(m[i].Bases, to[0])
		}
	}
}

// spread puts increases and decreases whose places are free at even distances
// along the row below.
func (b *linkBuilder) spread() {
	b.r.Even = true
	want := int(countOf(&b.rw.out))
	var have []int // the stitches worked, by their place among the links
	for i, l := range b.r.Made {
		if l.Kind == LinkStitch && l.Stitch != stitch.Slip {
			have = append(have, i)
		}
	}
	n := len(have)
	if n == 0 || want <= 0 || want == n || len(b.r.Made) != have[0]+n {
		return // only the space of a turning chain may stand before them
	}
	lead := b.r.Made[:have[0]:have[0]]
	out := make([]Link, want)
	for i := range out {
		if want > n {
			out[i] = b.r.Made[have[i*n/want]]
			continue
		}
		from, to := i*n/want, (i+1)*n/want
		out[i] = b.r.Made[have[from]]
		out[i].Bases = nil
		for _, k := range have[from:to] {
			out[i].Bases = append(out[i].Bases, b.r.Made[k].Bases...)
		}
	}
	b.r.Made = append(lead, out...)
}

// grownSpaces puts the spaces of a row that is like the one below it, and only has more
// stitches, among the stitches that were spread.
func (b *linkBuilder) grownSpaces() {
	if int64(len(b.r.Made)) != countOf(&b.rw.out) || b.rw.out.size() == countOf(&b.rw.out) {
		return
	}
	var out []Link
	at := 0
	for _, r := range b.rw.out.runs {
		for range r.n {
			if r.kind == pSpace {
				out = append(out, Link{Kind: LinkSpace, Chains: int(r.size)})
				continue
			}
			if at < len(b.r.Made) {
				out = append(out, b.r.Made[at])
				at++
			}
		}
	}
	b.r.Made = out
	b.spaces()
}

var (
	backLoop = sync.OnceValue(func() *regexp.Regexp {
		return regexp.MustCompile(`(?i)\b(?:blo?|blp|tbl|back loops?|back lps?|back lp)\b`)
	})
	frontLoop = sync.OnceValue(func() *regexp.Regexp {
		return regexp.MustCompile(`(?i)\b(?:flo?|flp|tfl|front loops?|front lps?|front lp)\b`)
	})
)

// loopIn finds in words which loop they mean.
func loopIn(text string) Loop {
	back, front := backLoop().MatchString(text), frontLoop().MatchString(text)
	switch {
	case back && !front:
		return BackLoop
	case front && !back:
		return FrontLoop
	}
	return BothLoops
}

// loopOf is the loop that the words of an instruction name.
func (l *linking) loopOf(rw *rowWork, s *Step) Loop {
	if v, ok := l.loops[s]; ok {
		return v
	}
	text := rw.pr.pat.Source.Slice(s.Span)
	v := BothLoops
	if len(text) < 400 {
		v = loopIn(text)
	}
	l.loops[s] = v
	return v
}
