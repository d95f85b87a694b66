package chart

import (
	"math"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/stitch"
)

// stand is a place on the ground.
type stand struct{ t, r float64 }

// made is a stitch, a space or a picot with its place.
type made struct {
	link *pattern.Link
	sign symbol
	head stand
	feet []stand
	lead [][2]stand // from places far below to the feet that stand for them
	yarn int        // which of the yarns, from 0; -1 where the pattern has one
	fan  bool       // it shares its place with the one beside it
	way  []pt
}

// level is a row with its places.
type level struct {
	made   []made // in the order made
	bottom float64
	top    float64 // how far out it reaches
	dir    float64 // 1 where it was made the way that t grows, else -1
	first  stand   // of the stitch made first
	mid    float64 // half way between its feet and heads
	start  []stand // the chains at its start that are no stitch: foot and head
	number stand
	align  int
	join   []stand
	attach []stand // where yarn is joined
	fasten []stand // where it is fastened off
}

// layer lays rows one on the other.
type layer struct {
	g      ground
	chain  []stand // the foundation, in the order made
	ring   float64 // how far out the ring lies
	digits int
	pitch  float64 // how far apart the chains of a foundation lie, on flat ground
	host   *level  // the row that this piece sits on
	yarns  *yarns
	tall   float64   // how much taller stitches are drawn
	turns  []float64 // peaks, valleys or corners of the row being laid, among its items
	begins bool      // the row being laid makes the corners
	ends   [2]int    // how many the first row puts into the end of a chain that it goes round: when it begins, and when it comes back
}

const (
	ringLeast  = 0.5
	chainLong  = 0.8 // length of a chain
	chainRise  = 0.24
	columnRise = 0.7 // of each chain of a turning chain
)

// lay places links on the row below. Earlier are those made in the same row
// before it turned.
func (l *layer) lay(rl *pattern.RowLinks, links []pattern.Link, below *level, earlier *level, base float64) *level {
	v := &level{made: make([]made, len(links)), bottom: base}
	for i := range links {
		m := &v.made[i]
		m.link, m.yarn = &links[i], l.yarns.at(&links[i])
		m.sign = symbolOf(links[i].Stitch)
		if l.tall > 1 {
			m.sign.high *= l.tall
		}
		if links[i].Kind == pattern.LinkStitch && len(links[i].Bases) == 1 && links[i].Step != nil && links[i].Step.Legs > 1 && m.sign.form == formStem {
			m.sign.form, m.sign.legs = formLeaf, min(links[i].Step.Legs, 9)
		}
	}
	o := &ordering{l: l, v: v, rl: rl, below: below, earlier: earlier}
	o.targets()
	o.order(rl.Turned || earlier != nil)
	o.fill()
	o.heads(base, rl)
	o.feet()
	o.spaces()
	o.extras(rl)
	return v
}

// ordering is the work of placing one row.
type ordering struct {
	l              *layer
	v              *level
	rl             *pattern.RowLinks
	below, earlier *level

	idx   []int     // the stitches, in the order in which t grows
	want  []float64 // where each stitch of made wants to be; NaN where nobody knows
	bases [][]stand // what each stands in
	ring  bool      // all stand in a ring
	gap   []float64
	high  float64
	reach float64 // the r that ways are measured at

	cornerAt []bool  // of each thing made, whether it turns a corner
	slotWide float64 // kept between the end and the beginning of a round
}

// targets finds what each stitch stands in.
func (o *ordering) targets() {
	o.want = make([]float64, len(o.v.made))
	o.bases = make([][]stand, len(o.v.made))
	own := 0
	for i := range o.v.made {
		m := &o.v.made[i]
		o.want[i] = math.NaN()
		if m.link.Kind != pattern.LinkStitch {
			continue
		}
		sum, n := 0.0, 0.0
		for _, b := range m.link.Bases {
			s, ok := o.base(b)
			if b.Kind == pattern.BaseRing {
				o.ring = true
			}
			if b.Kind == pattern.BaseOwn {
				own++
			}
			if !ok {
				continue
			}
			if n > 0 {
				s.t = o.near(s.t, o.bases[i][0].t)
			}
			o.bases[i] = append(o.bases[i], s)
			sum += s.t
			n++
		}
		if n > 0 {
			o.want[i] = sum / n
		}
	}
}

// near is t, moved by whole turns to where it is nearest to another.
func (o *ordering) near(t, to float64) float64 {
	if !o.round() {
		return t
	}
	turn := o.turn()
	return t - math.Round((t-to)/turn)*turn
}

// round reports whether the row comes back to where it began: on a closed
// ground, or unrolled.
func (o *ordering) round() bool {
	return o.l.g.closed || o.l.g.flat && o.rl.Round && o.below != nil && len(o.below.made) > 1
}

// turn is t once round.
func (o *ordering) turn() float64 {
	if o.l.g.closed {
		return o.l.g.turn()
	}
	lo, hi := o.below.extent()
	return math.Max(hi-lo+1, 1)
}

// base finds the place of a base.
func (o *ordering) base(b pattern.Base) (stand, bool) {
	from := func(v *level) (stand, bool) {
		if v == nil || b.At < 0 || b.At >= len(v.made) {
			return stand{}, false
		}
		s := v.made[b.At].head
		return s, true
	}
	switch b.Kind {
	case pattern.BaseRow:
		return from(o.below)
	case pattern.BaseSelf:
		return from(o.earlier)
	case pattern.BaseHost:
		return from(o.l.host)
	case pattern.BaseChain, pattern.BaseOther:
		return o.l.chainAt(b)
	}
	return stand{}, false
}

// chainAt is where a stitch in a chain of the foundation stands.
func (l *layer) chainAt(b pattern.Base) (stand, bool) {
	n := len(l.chain)
	if n == 0 {
		return stand{}, false
	}
	at := b.At
	if at >= n { // a chain of the turning chain's
		s := l.chain[n-1]
		if !l.g.flat {
			return stand{s.t, chainRise}, true
		}
		return stand{s.t + float64(at-n+1)*l.pitch, chainRise}, true
	}
	s := l.chain[at]
	s.r += chainRise
	if l.g.length > 0 { // round both sides of the chain
		g := l.g
		switch {
		case at == 0:
			s.t = g.length + math.Pi/2
		case at == n-1 && l.ends[0]+l.ends[1] > 1:
			// those at the end and those at the beginning of the round go round
			// this end of the chain together, a stitch or so from each other
			if s.t = -math.Pi/2 + float64(l.ends[1])/2; b.Kind == pattern.BaseOther {
				s.t = g.turn() - math.Pi/2 - float64(l.ends[0])/2
			}
		case b.Kind == pattern.BaseOther:
			s.t = 2*g.length + math.Pi - s.t
		}
	}
	return s, true
}

// order decides which way the row runs.
func (o *ordering) order(turned bool) {
	g := o.l.g
	was := -1.0
	switch {
	case o.earlier != nil:
		was = o.earlier.dir
	case o.below != nil:
		was = o.below.dir
	case !g.flat:
		was = 1
		turned = false
	}
	if turned {
		was = -was
	}
	o.v.dir = was
	if (g.flat || !g.closed) && !(o.rl.Round && o.below != nil) {
		sum := 0.0
		last := math.NaN()
		for i, m := range o.v.made {
			if m.link.Kind != pattern.LinkStitch || math.IsNaN(o.want[i]) {
				continue
			}
			if !math.IsNaN(last) {
				sum += o.want[i] - last
			}
			last = o.want[i]
		}
		if sum > 1e-6 {
			o.v.dir = 1
		} else if sum < -1e-6 {
			o.v.dir = -1
		}
	}
	for i := range o.v.made {
		k := i
		if o.v.dir < 0 {
			k = len(o.v.made) - 1 - i
		}
		if o.v.made[k].link.Kind == pattern.LinkStitch {
			o.idx = append(o.idx, k)
		}
	}
}

// fill gives a place to want to those that have none, and makes t grow along a
// round that passes its beginning.
func (o *ordering) fill() {
	g := o.l.g
	n := len(o.idx)
	known := 0
	last := math.NaN()
	for _, i := range o.idx {
		if math.IsNaN(o.want[i]) {
			continue
		}
		known++
		if !math.IsNaN(last) && o.round() {
			t := o.near(o.want[i], last)
			if t < last-1e-9 && last-t > o.turn()/3 {
				t += o.turn()
			}
			for k := range o.bases[i] {
				o.bases[i][k].t = o.near(o.bases[i][k].t, t)
			}
			o.want[i] = t
		}
		last = o.want[i]
	}
	if known == 0 {
		lo, hi := -float64(n-1)*o.l.pitch, 0.0
		switch {
		case g.closed:
			lo, hi = 0, g.turn()*float64(n-1)/float64(max(n, 1))
			if o.below != nil && len(o.below.made) > 0 {
				lo += o.below.first.t
				hi += o.below.first.t
			}
		case !g.flat && o.below == nil:
			lo, hi = -math.Pi/2, math.Pi/2
		case o.below != nil && len(o.below.made) > 0:
			lo, hi = o.below.extent()
		}
		for k, i := range o.idx {
			f := 0.5
			if n > 1 {
				f = float64(k) / float64(n-1)
			}
			o.want[i] = lo + (hi-lo)*f
		}
		return
	}
	// between two known ones, evenly; beyond the last, one by one
	for k := 0; k < n; k++ {
		if !math.IsNaN(o.want[o.idx[k]]) {
			continue
		}
		e := k
		for e < n && math.IsNaN(o.want[o.idx[e]]) {
			e++
		}
		step := 1.0
		if !g.flat {
			step = 1 / math.Max(2, o.v.bottom)
		}
		for j := k; j < e; j++ {
			switch {
			case k == 0:
				o.want[o.idx[j]] = o.want[o.idx[e]] - step*float64(e-j)
			case e == n:
				o.want[o.idx[j]] = o.want[o.idx[k-1]] + step*float64(j-k+1)
			default:
				f := float64(j-k+1) / float64(e-k+1)
				a, b := o.want[o.idx[k-1]], o.want[o.idx[e]]
				o.want[o.idx[j]] = a + (b-a)*f
			}
		}
		k = e
	}
}

// extent is how far a level reaches along its row.
func (v *level) extent() (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for i := range v.made {
		if v.made[i].link.Kind == pattern.LinkStitch {
			lo, hi = math.Min(lo, v.made[i].head.t), math.Max(hi, v.made[i].head.t)
		}
	}
	return lo, hi
}

// spaceWide is the room that n chains want between two heads.
func spaceWide(n int) float64 {
	switch {
	case n <= 1:
		return 0.6
	case n == 2:
		return 1
	}
	return math.Min(1+0.25*float64(n-2), 3)
}

// heads places the stitches.
func (o *ordering) heads(base float64, rl *pattern.RowLinks) {
	g, v := o.l.g, o.v
	n := len(o.idx)
	for _, i := range o.idx {
		o.high = math.Max(o.high, v.made[i].sign.high)
	}
	if n == 0 {
		o.high = 0.6
	}
	o.reach = base + o.high
	// the least distance from each to the next
	o.gap = make([]float64, n)
	total := 0.0
	o.slotWide = o.slot(rl)
	o.findCorners()
	for k := range o.idx {
		gap := v.made[o.idx[k]].sign.wide() / 2
		var next int
		if k+1 < n {
			next = o.idx[k+1]
			gap += v.made[next].sign.wide() / 2
			a, b := o.idx[k], next
			if a > b {
				a, b = b, a
			}
			gap += o.room(a+1, b)
		} else if g.closed {
			gap += v.made[o.idx[0]].sign.wide() / 2
			a, b := o.idx[0], o.idx[k]
			if a > b {
				a, b = b, a
			}
			gap += o.room(0, a) + o.room(b+1, len(v.made)) + o.slotWide
		}
		o.gap[k] = gap
		total += gap
	}
	lift := 0.0
	inner := o.ring && o.below == nil
	if g.closed {
		lift = math.Max(0, (total-2*g.length)/(2*math.Pi)-o.reach)
		// half way up, where the arms of crosses and the bars of stems are
		arms := 0.0
		for _, i := range o.idx {
			arms += v.made[i].sign.arms()
		}
		short := (arms-2*g.length)/(2*math.Pi) - (base+o.reach)/2
		if !inner {
			short *= 2 // only the heads can move
		}
		lift = math.Max(lift, short)
	}
	if !g.flat && !g.closed {
		span := 0.9 * 2 * math.Pi
		if o.below == nil {
			span = math.Pi
		}
		lift = math.Max(lift, total/span-o.reach)
	}
	if g.corners != nil && o.l.turns != nil {
		lift = math.Max(lift, o.longestSide()*float64(g.corners.n)/(2*math.Pi*sides(g.corners.n))-o.reach)
	}
	if lift > 0 {
		o.reach += lift
		if inner {
			if g.corners != nil { // taller stitches rather than a wide ring
				lift = math.Max(lift-1, 0)
			}
			o.l.ring += lift
			v.bottom += lift
		}
	}
	want := make([]float64, n)
	shaped := o.shaped(want)
	if !shaped && o.below == nil && g.closed && g.length > 0 {
		o.reach += o.upright()
	}
	if !shaped {
		want = o.wishes()
	}
	ways := o.settled(want)
	for k, i := range o.idx {
		m := &v.made[i]
		m.head = stand{g.at(ways[k], o.reach), o.reach - o.high + m.sign.high}
	}
	v.top = o.reach
	if n > 0 {
		first := o.idx[0]
		if v.dir < 0 {
			first = o.idx[n-1]
		}
		v.first = v.made[first].head
	}
}

// wishes are where the stitches want to be, those in one place side by side.
func (o *ordering) wishes() []float64 {
	n := len(o.idx)
	want := make([]float64, n)
	for k := 0; k < n; {
		e := k + 1
		wide := 0.0
		for e < n && o.siblings(o.idx[k], o.idx[e]) {
			wide += o.gap[e-1]
			e++
		}
		spread := o.spread(o.want[o.idx[k]], e-k, wide)
		at := o.l.g.way(o.want[o.idx[k]], o.reach) - wide*spread/2
		for j := k; j < e; j++ {
			want[j] = at
			at += o.gap[j] * spread
		}
		k = e
	}
	return want
}

// spread is how much further apart stitches in the one chain at the end of a
// foundation stand than they must, so that they go round the end evenly: n of
// them, as wide as they must be.
func (o *ordering) spread(t float64, n int, wide float64) float64 {
	g := o.l.g
	if o.below != nil || g.length == 0 || n < 3 || math.Abs(t-g.length-math.Pi/2) > 0.1 {
		return 1
	}
	return math.Min(math.Max(math.Pi*o.reach*float64(n-1)/float64(n+1)/wide, 1), 1.7)
}

// settled are the places that the stitches get.
func (o *ordering) settled(want []float64) []float64 {
	if o.l.g.closed {
		return settleRound(want, o.gap, o.l.g.around(o.reach))
	}
	return settle(want, o.gap)
}

// mostUpright is how much further out a round about a chain may lie so that the
// stitches along the chain stand upright.
const mostUpright = 1.0

// upright is how much further out a first round about a chain lies so that what
// crowds round its ends does not push the stitches along it over: as far as each
// step takes more lean away than it adds in height.
func (o *ordering) upright() float64 {
	from, best, least := o.reach, 0.0, math.Inf(1)
	for more := 0.0; more <= mostUpright; more += 0.125 {
		o.reach = from + more
		want := o.wishes()
		lean := 0.0
		for k, w := range o.settled(want) {
			lean = math.Max(lean, math.Abs(w-want[k]))
		}
		if cost := lean + 0.6*more; cost < least-1e-9 {
			best, least = more, cost
		}
	}
	o.reach = from
	return best
}

// room is what the spaces and picots from a up to b want.
func (o *ordering) room(a, b int) float64 {
	n := 0.0
	for i := a; i < b; i++ {
		switch m := &o.v.made[i]; m.link.Kind {
		case pattern.LinkSpace:
			n += spaceWide(m.link.Chains)
			if o.cornerAt != nil && o.cornerAt[i] {
				n += roundCorner
			}
		case pattern.LinkPicot:
			n += 0.3
		}
	}
	return n
}

// siblings reports whether two stitches stand in just one place, the same.
func (o *ordering) siblings(i, j int) bool {
	a, b := o.bases[i], o.bases[j]
	return len(a) == 1 && len(b) == 1 && a[0] == b[0]
}

// feet places what the stitches stand on.
func (o *ordering) feet() {
	g, v := o.l.g, o.v
	for k, i := range o.idx {
		m := &v.made[i]
		m.fan = k > 0 && o.siblings(o.idx[k-1], i) || k+1 < len(o.idx) && o.siblings(i, o.idx[k+1])
		if len(o.bases[i]) == 0 {
			r := o.reach - o.high
			if o.ring && o.below == nil {
				r = v.bottom
			}
			m.feet = []stand{{m.head.t, r}}
			continue
		}
		for b, s := range o.bases[i] {
			kind := pattern.BaseUnknown
			var on *made
			if b < len(m.link.Bases) {
				kind = m.link.Bases[b].Kind
				on = o.standsOn(m.link.Bases[b])
			}
			if on != nil && on.link.Kind == pattern.LinkSpace {
				// several in a space stand side by side on it
				from, to := k, k
				for from > 0 && o.siblings(o.idx[from-1], i) {
					from--
				}
				for to+1 < len(o.idx) && o.siblings(o.idx[to+1], i) {
					to++
				}
				n := float64(to - from + 1)
				step := math.Min(0.4, 1.2/n)
				s = stand{g.at(g.way(s.t, s.r)+(float64(k-from)-(n-1)/2)*step, s.r), s.r + 0.22}
			}
			if on != nil && m.sign.post != 0 && on.link.Kind == pattern.LinkStitch {
				s.r -= math.Min(0.55, 0.4*on.sign.high)
			}
			if kind == pattern.BaseHost && v.bottom-s.r > 1 {
				// other rows lie between: a line leads over them
				far := stand{s.t, v.bottom}
				m.lead = append(m.lead, [2]stand{s, far})
				s = far
			}
			m.feet = append(m.feet, s)
		}
	}
}

// standsOn is the thing that a base is the top of; nil where it is a chain or
// a ring.
func (o *ordering) standsOn(b pattern.Base) *made {
	var v *level
	switch b.Kind {
	case pattern.BaseRow:
		v = o.below
	case pattern.BaseSelf:
		v = o.earlier
	case pattern.BaseHost:
		v = o.l.host
	}
	if v == nil || b.At < 0 || b.At >= len(v.made) {
		return nil
	}
	return &v.made[b.At]
}

// arcSteps is how many pieces an arc of chains is drawn with.
const arcSteps = 24

// spaces hangs the chains between the stitches beside them.
func (o *ordering) spaces() {
	g, v := o.l.g, o.v
	n := len(v.made)
	next := func(i, by int) *made {
		for j := i + by; j >= 0 && j < n; j += by {
			if v.made[j].link.Kind == pattern.LinkStitch {
				return &v.made[j]
			}
		}
		return nil
	}
	for i := range v.made {
		m := &v.made[i]
		if m.link.Kind != pattern.LinkSpace {
			continue
		}
		a, b := next(i, -1), next(i, 1)
		if v.dir < 0 {
			a, b = b, a
		}
		var from, to stand
		wide := chainLong * float64(m.link.Chains)
		switch {
		case a != nil && b != nil:
			from, to = a.head, b.head
		case a == nil && b == nil:
			from = stand{0, o.reach}
			to = stand{g.at(g.way(0, o.reach)+wide, o.reach), o.reach}
		case g.closed && len(o.idx) > 0:
			// it closes the round
			a, b = &v.made[o.idx[len(o.idx)-1]], &v.made[o.idx[0]]
			from, to = a.head, stand{b.head.t + g.turn(), b.head.r}
		case a == nil:
			to = b.head
			from = stand{g.at(g.way(to.t, to.r)-wide-0.5, to.r), to.r}
		default:
			from = a.head
			to = stand{g.at(g.way(from.t, from.r)+wide+0.5, from.r), from.r}
		}
		o.hang(m, from, to)
	}
}

// hang lets a space of chains go from one place to another, in an arc where
// it is longer than the way.
func (o *ordering) hang(m *made, from, to stand) {
	g := o.l.g
	r := (from.r + to.r) / 2
	sa, sb := g.way(from.t, r), g.way(to.t, r)
	a, b := pt{sa, from.r}, pt{sb, to.r}
	d := b.sub(a)
	trim := math.Min(capHalf+0.1, d.length()*0.3)
	a, b = a.along(d.unit(), trim), b.along(d.unit(), -trim)
	chord := b.sub(a).length()
	long := chainLong * float64(m.link.Chains)
	out := d.unit().right().mul(-1) // to the left of the way: outward
	half := bulge(chord, long)
	top := pt{}
	for k := 0; k <= arcSteps; k++ {
		f := float64(k) / arcSteps
		p := a.to(b, f)
		if half > 1e-3 {
			// a circle through both ends
			rad := chord / 2 / math.Sin(half)
			ang := half * (2*f - 1)
			along := rad * math.Sin(ang)
			up := rad * (math.Cos(ang) - math.Cos(half))
			p = a.to(b, 0.5).along(d.unit(), along).along(out, up)
		}
		if k == arcSteps/2 {
			top = p
		}
		m.way = append(m.way, g.point(g.at(p.x, r), p.y))
	}
	m.head = stand{g.at(top.x, r), top.y}
	m.feet = []stand{m.head}
	o.v.top = math.Max(o.v.top, top.y)
}

// bulge is half the angle of the arc of a circle that is long over a chord.
func bulge(chord, long float64) float64 {
	if long <= chord*1.02 {
		return 0
	}
	// sin(a)/a falls from 1 to 0 as a goes from 0 to pi
	lo, hi := 0.0, math.Pi*0.93
	for range 50 {
		a := (lo + hi) / 2
		if math.Sin(a)/a > chord/long {
			lo = a
		} else {
			hi = a
		}
	}
	return lo
}

// slot is the room that a round keeps between its end and its beginning.
func (o *ordering) slot(rl *pattern.RowLinks) float64 {
	n := o.numberWide()
	if o.l.g.corners != nil { // a side has room for it beside its chains
		n = 0.2
	}
	if rl.Start > 0 && o.earlier == nil {
		n += 0.8
	}
	if rl.Joined {
		n += 0.6
	}
	return n
}

func (o *ordering) numberWide() float64 { return 0.4*float64(o.l.digits) + 0.3 }

// extras places what stands beside the stitches: picots, the chains at the
// start, the number, the join.
func (o *ordering) extras(rl *pattern.RowLinks) {
	g, v := o.l.g, o.v
	for i := range v.made {
		m := &v.made[i]
		if m.link.Kind != pattern.LinkPicot {
			continue
		}
		at := v.first
		for j := i - 1; j >= 0; j-- {
			if v.made[j].link.Kind != pattern.LinkPicot {
				at = v.made[j].head
				break
			}
		}
		m.head, m.feet = at, []stand{at}
		v.top = math.Max(v.top, at.r+2*picotRadius(m.link.Chains)+0.4)
	}
	low := v.bottom
	v.mid = (low + o.reach) / 2
	if len(o.idx) == 0 {
		v.number = stand{v.first.t, v.mid}
		return
	}
	// before is on the side where the row begins
	way := g.way(v.first.t, o.reach)
	edge := v.made[o.idx[0]].sign.wide() / 2
	if v.dir < 0 {
		edge = v.made[o.idx[len(o.idx)-1]].sign.wide() / 2
	}
	back := func(n float64) float64 { return g.at(way-v.dir*n, o.reach) }
	off := edge
	if lead := o.lead(); lead > 0 {
		off += lead
	}
	if rl.Start > 0 && o.earlier == nil {
		t := back(off + 0.35)
		v.start = []stand{{t, low}, {t, math.Min(low+columnRise*float64(rl.Start), o.reach+0.5)}}
		off += 0.8
	}
	if o.earlier == nil && attaches(v.made[0].link) {
		v.attach = []stand{{back(off + 0.3), low + 0.3}}
		off += 0.6
	}
	if fastens(rl.Marks) {
		last := o.idx[len(o.idx)-1]
		if v.dir < 0 {
			last = o.idx[0]
		}
		h := v.made[last].head
		v.fasten = []stand{{g.at(g.way(h.t, o.reach)+v.dir*0.75, o.reach), h.r - 0.3}}
		if g.closed {
			v.fasten[0] = stand{v.first.t, o.reach + 0.6}
		}
		v.top = math.Max(v.top, v.fasten[0].r)
	}
	switch {
	case g.closed:
		v.number = stand{back(off + o.numberWide()/2), v.mid}
		if !rl.Joined {
			break
		}
		// the slip stitch goes into the top of what the round begins with: it lies
		// beside that, or over the chains that stand there
		v.join = []stand{{back(edge + o.lead() + 0.2), v.first.r}}
		if v.start != nil {
			v.join[0] = stand{v.start[1].t, math.Max(v.first.r, v.start[1].r+0.2)}
		}
	case g.flat:
		v.number = stand{back(off + 0.5), v.mid}
		v.align = -1
		if v.dir > 0 != g.mirror {
			v.align = 1
		}
	default:
		v.number = stand{back(off + 0.6), v.mid}
	}
}

// lead is the room that chains before the first stitch take.
func (o *ordering) lead() float64 {
	n := 0.0
	for i := range o.v.made {
		m := &o.v.made[i]
		if m.link.Kind == pattern.LinkStitch {
			return n
		}
		if m.link.Kind == pattern.LinkSpace && !o.l.g.closed {
			n += chainLong*float64(m.link.Chains) + 0.5
		} else {
			n += spaceWide(m.link.Chains)
		}
	}
	return n
}

// picotRadius is the radius of the ring of chains of a picot.
func picotRadius(n int) float64 { return math.Max(0.28, float64(max(n, 3))*0.5/(2*math.Pi)) }

// ownChains is how many chains of a turning chain that is a stitch stand in
// the place of that stitch: the rest of them are the space after it.
func ownChains(made []made, i int) int {
	m := made[i].link
	n := max(m.Chains, 1)
	if i+1 < len(made) && made[i+1].link.Kind == pattern.LinkSpace {
		n = min(n-made[i+1].link.Chains, stitch.Of(m.Stitch).Turn)
	}
	return max(n, 1)
}

// attaches reports whether yarn is joined before a stitch.
func attaches(l *pattern.Link) bool {
	for _, s := range l.Marks {
		if s.Op == pattern.OpAttach {
			return true
		}
	}
	return false
}

// fastens reports whether the yarn is fastened off.
func fastens(marks []*pattern.Step) bool {
	for _, s := range marks {
		if s.Op == pattern.OpFasten {
			return true
		}
	}
	return false
}
