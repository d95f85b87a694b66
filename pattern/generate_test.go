package pattern

import (
	"fmt"
	"strings"

	"pgregory.net/rapid"
)

// A made-up pattern is right by construction: its rows are put together from
// steps whose places and stitches are known, and only then written down, in a
// house style drawn by lot. The count is the generator's own; nothing of the
// reader or the prover goes into it.

// madeStep is a step of a made-up row.
type madeStep struct {
	kind  madeKind
	n     int // places, or chains
	per   int // stitches in each place
	st    string
	body  []madeStep
	times int
}

type madeKind int

const (
	mWork  madeKind = iota // n places, per stitches in each
	mDec                   // n times two places together
	mSkip                  // n places
	mChain                 // n chains, a space
	mGroup                 // body, times over
	mFill                  // body, as often as it fits, leaving n
	mEach                  // one in each to the end, leaving n
	mFirst                 // per stitches in the first place
	mLast                  // one in each of the last n places
	mBoth                  // one in each stitch and in each space
	mSpace                 // per stitches in each space
)

// count is what steps come to over so many places: how many they take, how
// many stitches and spaces they make. It is not ok where a repeat does not
// come out whole, or places run short.
type count struct {
	takes, made, spaces int
	ok                  bool
}

func countSteps(steps []madeStep, have, spaces int) count {
	c := count{ok: true}
	for _, s := range steps {
		left := have - c.takes
		switch s.kind {
		case mWork:
			c.takes += s.n
			c.made += s.n * s.per
		case mFirst:
			c.takes++
			c.made += s.per
		case mLast:
			c.takes += s.n
			c.made += s.n * s.per
			c.ok = c.ok && left == s.n
		case mDec:
			c.takes += 2 * s.n
			c.made += s.n
		case mSkip:
			c.takes += s.n
		case mChain:
			c.spaces++
		case mGroup:
			for range s.times {
				b := countSteps(s.body, have-c.takes, 0)
				c.takes, c.made, c.spaces, c.ok = c.takes+b.takes, c.made+b.made, c.spaces+b.spaces, c.ok && b.ok
			}
		case mFill:
			one := countSteps(s.body, left, 0)
			if one.takes == 0 {
				c.ok = false
				continue
			}
			n := (left - s.n) / one.takes
			c.ok = c.ok && one.ok && n > 0 && n*one.takes == left-s.n
			c.takes, c.made, c.spaces = c.takes+n*one.takes, c.made+n*one.made, c.spaces+n*one.spaces
		case mEach:
			c.ok = c.ok && left > s.n
			c.takes += left - s.n
			c.made += left - s.n
		case mBoth:
			c.takes += left
			c.made += left + spaces
		case mSpace:
			c.takes = have
			c.made += spaces * s.per
		}
		c.ok = c.ok && c.takes <= have
	}
	return c
}

// madeRow is a made-up row.
type madeRow struct {
	from, to int
	chain    int  // turning chain
	counted  bool // it stands for a stitch
	lead     string
	steps    []madeStep
	have     int // stitches below
	spaces   int // spaces below
	stated   int // the total it states; -1 for none
	count    count
}

// made is the number of stitches that the row makes.
func (r *madeRow) made() int {
	if r.counted {
		return r.count.made + 1
	}
	return r.count.made
}

// places is the number of places that the steps have, once the turning chain
// has taken its own.
func (r *madeRow) places() int {
	if r.counted {
		return r.have - 1
	}
	return r.have
}

func (r *madeRow) recount() { r.count = countSteps(r.steps, r.places(), r.spaces) }

// right reports whether nothing is amiss with the row.
func (r *madeRow) right() bool {
	return r.count.ok && r.count.takes == r.places() && (r.stated < 0 || r.stated == r.made())
}

// madePattern is a made-up piece of work.
type madePattern struct {
	rows   []*madeRow
	round  bool
	joined bool
	st     string // the main stitch
	chains int    // foundation; 0 for a magic ring
}

// house is a manner of writing.
type house struct {
	label, plain, inc, dec, rep, fill, each, total int
	uk, turnAtEnd, saysTerms, saysCounts           bool
	capitals                                       int
}

func drawHouse(t *rapid.T) house {
	n := func(name string, k int) int { return rapid.IntRange(0, k-1).Draw(t, name) }
	b := func(name string) bool { return rapid.Bool().Draw(t, name) }
	return house{label: n("label", 6), plain: n("plain", 5), inc: n("inc", 3), dec: n("dec", 4), rep: n("rep", 7), fill: n("fill", 5), each: n("each", 3), total: n("total", 9),
		uk: b("uk"), turnAtEnd: b("turn at end"), saysTerms: b("says terms"), saysCounts: b("says counts"), capitals: n("capitals", 3)}
}

// stitchName is a stitch in the terms of the house.
func (h house) stitchName(us string) string {
	if h.uk {
		return map[string]string{"sc": "dc", "hdc": "htr", "dc": "tr", "tr": "dtr"}[us]
	}
	return us
}

func (h house) skip() string {
	if h.uk {
		return "miss"
	}
	return []string{"sk", "skip"}[h.each%2]
}

// writeSteps writes steps in the manner of the house.
func (h house) writeSteps(steps []madeStep, round bool) string {
	var out []string
	for _, s := range steps {
		out = append(out, h.writeStep(s, round))
	}
	return strings.Join(out, ", ")
}

func (h house) writeStep(s madeStep, round bool) string {
	st := h.stitchName(s.st)
	sts := func(n int) string {
		if n == 1 {
			return "next st"
		}
		return fmt.Sprintf("next %d sts", n)
	}
	way := "across"
	if round {
		way = "around"
	}
	switch s.kind {
	case mWork:
		if s.per == 1 {
			switch {
			case s.n == 1:
				return []string{st + " in next st", st, st + " in next st", "1 " + st + " in next st", st + " in next st"}[h.plain]
			case h.plain == 0:
				return fmt.Sprintf("%s in %s", st, sts(s.n))
			case h.plain == 1:
				return fmt.Sprintf("%d %s", s.n, st)
			case h.plain == 2:
				return fmt.Sprintf("%s in each of %s", st, sts(s.n))
			case h.plain == 3:
				return fmt.Sprintf("1 %s in each of %s", st, sts(s.n))
			}
			return fmt.Sprintf("%s %d", st, s.n)
		}
		if s.n == 1 {
			if s.per == 2 && h.inc == 1 {
				return "inc"
			}
			return fmt.Sprintf("%d %s in next st", s.per, st)
		}
		return fmt.Sprintf("%d %s in each of %s", s.per, st, sts(s.n))
	case mDec:
		one := []string{st + "2tog", "dec", st + " 2 tog", st + "2tog over next 2 sts"}[h.dec]
		if s.n == 1 {
			return one
		}
		return fmt.Sprintf("(%s) %d times", one, s.n)
	case mSkip:
		return h.skip() + " " + sts(s.n)
	case mChain:
		return fmt.Sprintf("ch %d", s.n)
	case mFirst:
		if s.per == 1 {
			return st + " in first st"
		}
		return fmt.Sprintf("%d %s in first st", s.per, st)
	case mLast:
		if s.n == 1 && s.per == 1 {
			return st + " in last st"
		}
		if s.n == 1 {
			return fmt.Sprintf("%d %s in last st", s.per, st)
		}
		return fmt.Sprintf("%s in last %d sts", st, s.n)
	case mGroup:
		body := h.writeSteps(s.body, round)
		switch h.rep {
		case 0:
			return fmt.Sprintf("(%s) x %d", body, s.times)
		case 1:
			return fmt.Sprintf("[%s] %d times", body, s.times)
		case 2:
			return fmt.Sprintf("*%s; rep from * %d more times", body, s.times-1)
		case 3:
			return fmt.Sprintf("*%s; repeat from * %d times more", body, s.times-1)
		case 4:
			return fmt.Sprintf("(%s) %d times", body, s.times)
		case 5:
			return fmt.Sprintf("*%s, rep from * %d more times", body, s.times-1)
		}
		return fmt.Sprintf("[%s] x %d", body, s.times)
	case mFill:
		body := h.writeSteps(s.body, round)
		to := way
		if s.n > 0 {
			to = fmt.Sprintf("to last %d sts", s.n)
			if s.n == 1 {
				to = "to last st"
			}
			if h.each == 1 {
				to = way + " " + to
			}
		}
		switch h.fill {
		case 0:
			return fmt.Sprintf("*%s; rep from * %s", body, to)
		case 1:
			return fmt.Sprintf("(%s) %s", body, to)
		case 2:
			return fmt.Sprintf("[%s] %s", body, to)
		case 3:
			return fmt.Sprintf("*%s*, repeat from * to * %s", body, to)
		}
		return fmt.Sprintf("*%s, rep from * %s", body, to)
	case mEach:
		switch {
		case s.n == 0:
			return st + []string{" in each st " + way, " in each st to end", " " + way}[h.each]
		case s.n == 1:
			return st + []string{" in each st " + way + " to last st", " in each st to last st", " " + way + " to last st"}[h.each]
		}
		return fmt.Sprintf("%s in each st %s to last %d sts", st, way, s.n)
	case mBoth:
		return st + []string{" in each st and ch sp " + way, " in each st and in each ch sp " + way, " in each st and each ch sp " + way}[h.each]
	case mSpace:
		return fmt.Sprintf("%d %s in each ch sp %s", s.per, st, way)
	}
	return ""
}

func (h house) writeLabel(r *madeRow, round bool) string {
	word, short := "Row", "Row"
	if round {
		word, short = "Round", "Rnd"
	}
	if r.from != r.to {
		return fmt.Sprintf("%s %d-%d:", word+"s", r.from, r.to)
	}
	switch h.label {
	case 0:
		return fmt.Sprintf("%s %d:", word, r.from)
	case 1:
		return fmt.Sprintf("%s %d:", short, r.from)
	case 2:
		return fmt.Sprintf("%s %s:", ordinal(int64(r.from)), strings.ToLower(word))
	case 3:
		return fmt.Sprintf("%s %d -", word, r.from)
	case 4:
		return fmt.Sprintf("%s %d.", word, r.from)
	}
	return fmt.Sprintf("**%s %d:**", word, r.from)
}

func (h house) writeTotal(r *madeRow, main string) string {
	if r.stated < 0 {
		return "."
	}
	st := h.stitchName(main)
	switch h.total {
	case 0:
		return fmt.Sprintf(". (%d)", r.stated)
	case 1:
		return fmt.Sprintf(". (%d sts)", r.stated)
	case 2:
		return fmt.Sprintf(" [%d %s]", r.stated, st)
	case 3:
		return fmt.Sprintf(". {%d}", r.stated)
	case 4:
		return fmt.Sprintf(" = %d", r.stated)
	case 5:
		return fmt.Sprintf(" - %d sts.", r.stated)
	case 6:
		return fmt.Sprintf(". [%d sts]", r.stated)
	case 7:
		return fmt.Sprintf(" (%d %s).", r.stated, st)
	}
	return fmt.Sprintf(". %d sts.", r.stated)
}

// write puts a made-up pattern down in the manner of a house.
func (p *madePattern) write(h house) string {
	var b strings.Builder
	b.WriteString("Harbour Sampler\n\n")
	if h.uk {
		b.WriteString("Terms: UK\n\n")
	} else if h.saysTerms {
		b.WriteString("US terms\n\n")
	}
	st := h.stitchName(p.st)
	if p.chains > 0 {
		fmt.Fprintf(&b, "Ch %d.\n", p.chains)
	}
	for i, r := range p.rows {
		var parts []string
		if !p.round && i > 0 && (!h.turnAtEnd || r.counted) {
			parts = append(parts, h.turning(r, st))
		}
		if p.joined && i > 0 && r.chain > 0 {
			parts = append(parts, fmt.Sprintf("ch %d", r.chain))
		}
		if r.lead != "" {
			parts = append(parts, strings.ReplaceAll(r.lead, "@", st))
		}
		if len(r.steps) > 0 {
			parts = append(parts, h.writeSteps(r.steps, p.round))
		}
		if p.joined {
			parts = append(parts, "join with "+map[bool]string{false: "sl st", true: "ss"}[h.uk]+" in first "+st)
		}
		if !p.round && h.turnAtEnd && i+1 < len(p.rows) && !p.rows[i+1].counted {
			parts = append(parts, h.turning(p.rows[i+1], st))
		}
		body := strings.Join(parts, ", ")
		switch h.capitals {
		case 1:
			body = strings.ToUpper(body[:1]) + body[1:]
		case 2:
			body = strings.ToUpper(body)
		}
		b.WriteString(h.writeLabel(r, p.round) + " " + body + h.writeTotal(r, p.st) + "\n")
	}
	return b.String()
}

func (h house) turning(r *madeRow, st string) string {
	ch := fmt.Sprintf("ch %d", r.chain)
	if r.chain > 1 && (h.saysCounts || !r.counted) {
		if r.counted {
			ch += " (counts as " + st + ")"
		} else {
			ch += " (does not count as a st)"
		}
	}
	return ch + ", turn"
}

// drawPattern makes up a pattern of one of the kinds of work.
func drawPattern(t *rapid.T) *madePattern {
	switch rapid.IntRange(0, 5).Draw(t, "work") {
	case 0, 1:
		return drawFlat(t)
	case 2:
		return drawMesh(t)
	case 3:
		return drawOval(t)
	}
	return drawRounds(t)
}

// drawFlat makes up rows worked back and forth.
func drawFlat(t *rapid.T) *madePattern {
	st := rapid.SampledFrom([]string{"sc", "sc", "hdc", "dc", "tr"}).Draw(t, "stitch")
	turn := map[string]int{"sc": 1, "hdc": 2, "dc": 3, "tr": 4}[st]
	counted := turn > 1 && rapid.Bool().Draw(t, "counted")
	n := rapid.IntRange(8, 60).Draw(t, "width")
	p := &madePattern{st: st}
	// worked into the chain after those that are skipped
	first := &madeRow{from: 1, to: 1, have: n}
	hook := ordinal(int64(turn+1)) + " ch from hook"
	if turn > 1 && !counted {
		first.lead = fmt.Sprintf("@ in %s (skipped chs do not count as a st) and in each ch across", hook)
	} else {
		first.lead = fmt.Sprintf("@ in %s and in each ch across", hook)
	}
	p.chains = n + turn
	first.count = count{takes: n, made: n, ok: true}
	if counted && turn > 1 {
		p.chains = n - 1 + turn
	}
	p.rows = append(p.rows, first)
	for k := range rapid.IntRange(1, 6).Draw(t, "rows") {
		last := p.rows[len(p.rows)-1]
		r := &madeRow{from: last.to + 1, to: last.to + 1, chain: turn, counted: counted, have: last.made()}
		r.steps = drawShaped(t, st, r.places(), counted)
		r.recount()
		if len(r.steps) == 1 && r.steps[0].kind == mEach && k > 0 && !counted && rapid.Bool().Draw(t, "range") {
			r.to += rapid.IntRange(1, 8).Draw(t, "more rows")
		}
		if !r.count.ok || r.made() < 6 || r.made() > 400 {
			break
		}
		p.rows = append(p.rows, r)
	}
	p.state(t)
	return p
}

// drawShaped makes up the steps of a row over so many places.
func drawShaped(t *rapid.T, st string, have int, counted bool) []madeStep {
	plain := func(n int) madeStep { return madeStep{kind: mWork, n: n, per: 1, st: st} }
	each := func(leave int) madeStep { return madeStep{kind: mEach, n: leave, st: st} }
	var firstInc, lastInc []madeStep
	firstInc = []madeStep{{kind: mWork, n: 1, per: 2, st: st}}
	lastInc = []madeStep{{kind: mLast, n: 1, per: 2, st: st}}
	switch rapid.IntRange(0, 6).Draw(t, "shape") {
	case 0:
		if counted {
			return []madeStep{plain(have)}
		}
		return []madeStep{each(0)}
	case 1:
		return append(append(firstInc, each(1)), lastInc...)
	case 2:
		return []madeStep{{kind: mDec, n: 1, st: st}, each(2), {kind: mDec, n: 1, st: st}}
	case 3:
		a := rapid.IntRange(1, have/3).Draw(t, "before")
		return []madeStep{plain(a), {kind: mWork, n: 1, per: rapid.IntRange(2, 3).Draw(t, "inc"), st: st}, plain(have - a - 1)}
	case 4:
		return drawRepeat(t, st, have, false)
	}
	return drawRepeat(t, st, have, rapid.Bool().Draw(t, "fills"))
}

// drawRepeat makes up a row around a repeat, with plain stitches before and
// after to make it come out.
func drawRepeat(t *rapid.T, st string, have int, fill bool) []madeStep {
	var body []madeStep
	takes := 0
	for range rapid.IntRange(1, 3).Draw(t, "body") {
		s := madeStep{kind: mWork, n: rapid.IntRange(1, 4).Draw(t, "n"), per: 1, st: st}
		switch rapid.IntRange(0, 3).Draw(t, "step") {
		case 0:
			s.n, s.per = 1, 2
		case 1:
			s = madeStep{kind: mDec, n: 1, st: st}
		}
		if k := len(body); k > 0 && body[k-1].kind == s.kind && body[k-1].per == s.per {
			continue
		}
		body = append(body, s)
		takes += countSteps([]madeStep{s}, 1000, 0).takes
	}
	passes := have / takes
	if passes < 2 {
		return []madeStep{{kind: mEach, st: st}}
	}
	passes = rapid.IntRange(2, passes).Draw(t, "passes")
	rest := have - passes*takes
	before := rapid.IntRange(0, rest).Draw(t, "before")
	after := rest - before
	var out []madeStep
	if before > 0 {
		out = append(out, madeStep{kind: mWork, n: before, per: 1, st: st})
	}
	if fill {
		out = append(out, madeStep{kind: mFill, body: body, n: after})
	} else {
		out = append(out, madeStep{kind: mGroup, body: body, times: passes})
	}
	if after > 0 {
		out = append(out, madeStep{kind: mWork, n: after, per: 1, st: st})
	}
	return out
}

// drawMesh makes up rows of spaces and of shells in sc.
func drawMesh(t *rapid.T) *madePattern {
	p := &madePattern{st: "sc"}
	k := rapid.IntRange(3, 15).Draw(t, "repeats")
	shells := rapid.Bool().Draw(t, "shells")
	n := 2*k + 1
	if shells {
		n = 6*k + 1
	}
	p.chains = n + 1
	p.rows = append(p.rows, &madeRow{from: 1, to: 1, have: n, lead: "@ in 2nd ch from hook and in each ch across", count: count{takes: n, made: n, ok: true}})
	r := &madeRow{from: 2, to: 2, chain: 1, have: n}
	if shells {
		fan := rapid.IntRange(3, 7).Draw(t, "fan")
		r.steps = []madeStep{{kind: mFirst, per: 1, st: "sc"},
			{kind: mFill, body: []madeStep{{kind: mSkip, n: 2}, {kind: mWork, n: 1, per: fan, st: "dc"}, {kind: mSkip, n: 2}, {kind: mWork, n: 1, per: 1, st: "sc"}}}}
		r.recount()
		p.rows = append(p.rows, r)
		p.rows = append(p.rows, &madeRow{from: 3, to: 3, chain: 1, have: r.made(), steps: []madeStep{{kind: mEach, st: "sc"}}})
		p.rows[2].recount()
		p.state(t)
		return p
	}
	ch := rapid.IntRange(1, 3).Draw(t, "chains")
	r.steps = []madeStep{{kind: mFirst, per: 1, st: "sc"}, {kind: mFill, body: []madeStep{{kind: mChain, n: ch}, {kind: mSkip, n: 1}, {kind: mWork, n: 1, per: 1, st: "sc"}}}}
	r.recount()
	next := &madeRow{from: 3, to: 3, chain: 1, have: r.made(), spaces: r.count.spaces}
	if rapid.Bool().Draw(t, "both") {
		next.steps = []madeStep{{kind: mBoth, st: "sc"}}
	} else {
		next.steps = []madeStep{{kind: mSpace, per: rapid.IntRange(1, 4).Draw(t, "in each"), st: "sc"}}
	}
	next.recount()
	p.rows = append(p.rows, r, next)
	p.state(t)
	return p
}

// drawOval makes up a piece worked along both sides of a chain.
func drawOval(t *rapid.T) *madePattern {
	n := rapid.IntRange(4, 30).Draw(t, "length")
	p := &madePattern{st: "sc", round: true, chains: n + 1}
	side := n - 2
	p.rows = append(p.rows, &madeRow{from: 1, to: 1,
		lead:  fmt.Sprintf("@ in 2nd ch from hook, @ in next %d ch, 3 @ in last ch; working along opposite side of ch, @ in next %d ch, 2 @ in last ch", side, side),
		count: count{made: 2*side + 6, ok: true}})
	r := &madeRow{from: 2, to: 2, have: 2*side + 6}
	r.steps = []madeStep{{kind: mWork, n: 1, per: 2, st: "sc"}, {kind: mWork, n: side, per: 1, st: "sc"}, {kind: mWork, n: 3, per: 2, st: "sc"}, {kind: mWork, n: side, per: 1, st: "sc"}, {kind: mWork, n: 2, per: 2, st: "sc"}}
	r.recount()
	p.rows = append(p.rows, r)
	p.rows = append(p.rows, &madeRow{from: 3, to: 3, have: r.made(), steps: drawRepeat(t, "sc", r.made(), rapid.Bool().Draw(t, "fills"))})
	p.rows[2].recount()
	p.state(t)
	return p
}

// drawRounds makes up rounds that grow from a ring by so many a round, stay,
// and narrow again.
func drawRounds(t *rapid.T) *madePattern {
	p := &madePattern{st: "sc", round: true, joined: rapid.Bool().Draw(t, "joined")}
	by := rapid.IntRange(4, 9).Draw(t, "by")
	p.rows = append(p.rows, &madeRow{from: 1, to: 1, lead: fmt.Sprintf("%d @ in a magic ring", by), count: count{made: by, ok: true}})
	grow := rapid.IntRange(1, 6).Draw(t, "grow")
	plain := func(n int) madeStep { return madeStep{kind: mWork, n: n, per: 1, st: "sc"} }
	inc := madeStep{kind: mWork, n: 1, per: 2, st: "sc"}
	add := func(r *madeRow) {
		last := p.rows[len(p.rows)-1]
		r.from, r.have = last.to+1, last.made()
		r.to += r.from
		if p.joined {
			r.chain = 1
		}
		r.recount()
		p.rows = append(p.rows, r)
	}
	for k := range grow {
		body := []madeStep{inc}
		if k > 0 {
			body = []madeStep{plain(k), inc}
			if rapid.Bool().Draw(t, "inc first") {
				body = []madeStep{inc, plain(k)}
			}
		}
		if rapid.Bool().Draw(t, "fills") {
			add(&madeRow{steps: []madeStep{{kind: mFill, body: body}}})
		} else {
			add(&madeRow{steps: []madeStep{{kind: mGroup, body: body, times: by}}})
		}
	}
	add(&madeRow{to: rapid.IntRange(0, 5).Draw(t, "more rounds"), steps: []madeStep{{kind: mEach, st: "sc"}}})
	for k := grow; k > 1 && rapid.Bool().Draw(t, "narrow"); k-- {
		add(&madeRow{steps: []madeStep{{kind: mGroup, body: []madeStep{plain(k - 1), {kind: mDec, n: 1, st: "sc"}}, times: by}}})
	}
	p.state(t)
	return p
}

// state decides which rows state their totals.
func (p *madePattern) state(t *rapid.T) {
	all := rapid.IntRange(0, 3).Draw(t, "totals") > 0
	for _, r := range p.rows {
		r.stated = r.made()
		if !all && rapid.Bool().Draw(t, "no total") {
			r.stated = -1
		}
	}
}

// slip is a made-up pattern with one number changed so that a row no longer
// comes out.
type slip struct {
	p   *madePattern
	h   house
	row int
	was string // the pattern before
}

// drawSlip makes up a pattern and changes one number in it: a total, a count
// in a row, how often a repeat is worked, the foundation.
func drawSlip(t *rapid.T) slip {
	for {
		p, h := drawPattern(t), drawHouse(t)
		s := slip{p: p, h: h, was: p.write(h)}
		var numbers []*int
		var rows []int
		for i, r := range p.rows {
			add := func(n *int) { numbers, rows = append(numbers, n), append(rows, i) }
			if r.stated >= 0 {
				add(&r.stated)
			}
			madeNumbers(r.steps, add)
		}
		k := rapid.IntRange(0, len(numbers)-1).Draw(t, "number")
		by := rapid.SampledFrom([]int{-2, -1, 1, 2, 3}).Draw(t, "by")
		if *numbers[k]+by < 1 {
			continue
		}
		*numbers[k] += by
		s.row = rows[k]
		r := p.rows[s.row]
		if len(r.steps) > 0 {
			r.recount()
		}
		if !r.right() && p.write(h) != s.was {
			return s
		}
	}
}

// madeNumbers gives every number that the steps are written with.
func madeNumbers(steps []madeStep, add func(*int)) {
	for i := range steps {
		s := &steps[i]
		switch s.kind {
		case mWork:
			add(&s.n)
			if s.per > 1 {
				add(&s.per)
			}
		case mDec, mSkip:
			add(&s.n)
		case mFirst, mSpace:
			if s.per > 1 {
				add(&s.per)
			}
		case mLast:
			if s.per > 1 {
				add(&s.per)
			}
		case mGroup:
			add(&s.times)
			madeNumbers(s.body, add)
		case mFill:
			if s.n > 0 {
				add(&s.n)
			}
			madeNumbers(s.body, add)
		case mEach:
			if s.n > 0 {
				add(&s.n)
			}
		}
	}
}
