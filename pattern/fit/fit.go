package fit

import (
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/gauge"
)

// Result is a pattern in another size.
type Result struct {
	Text  string         // the pattern as written anew
	Proof *pattern.Proof // the proof of Text
	Piece string         // the piece that was fitted, as it is named in a sentence

	Base       string // the number it is begun on
	Across, Up Measure
	Moved      []Move   // numbers that changed by rule and are worth a word
	Choice     string   // the next size on the other side of the wish; "" for none
	Notes      []string // about the gauge
	Kept       []string // what was left as it was, and why
	Look       []string // what only the author can set right
}

// Measure is one measure of the fitted piece. What nobody asked for, or cannot
// be told without a gauge, is 0.
type Measure struct {
	WasStitches, Stitches float64 // across: stitches of the widest row; up: rows
	WasMM, MM             float64
	WishMM                float64
	Slack                 float64 // mm: how far MM may be off as far as the swatch differs
	WishN                 int64   // stitches or rows, where those were asked for
	Asked                 bool
	Unit                  gauge.Unit
}

// Off is how far the piece comes out from the wish: in mm or, where there is no
// gauge to tell, 0.
func (m Measure) Off() float64 {
	switch {
	case m.WishMM > 0:
		return m.MM - m.WishMM
	case m.WishN > 0 && m.Stitches > 0:
		return m.MM / m.Stitches * (m.Stitches - float64(m.WishN))
	}
	return 0
}

// Move is a number that changed.
type Move struct {
	What     string // "base chain", "Second Point on Row 3 of Strip"
	Was, Now string
}

// NotWithinReach is the error for a wish that no size of the pattern comes
// near to.
type NotWithinReach struct {
	Wish    string   // "22 cm"
	Rows    []string // those that stand in the way
	Why     string   // what does, where it is no row of the piece itself
	Nearest []string // the sizes that do work, smaller and larger
}

func (e *NotWithinReach) Error() string { return "no size near " + e.Wish + " works" }

// fitter is one fitting.
type fitter struct {
	proof   *pattern.Proof
	work    *pattern.Rework
	tape    tape
	wish    Wish
	main    int // the piece
	base    base
	kept    map[int]*pattern.Reworked // pieces as they are in the new size
	perched []*perch                  // rows that are worked onto
	changes pattern.Changes
	told    map[pattern.Span]bool // headers that were changed themselves
	pairs   []pair                // labels that said "Rows 4 and 5"

	renumbered bool // rows have other numbers
	res        *Result
}

// To fits a proven pattern to a wish. The gauge may be empty where the wish is
// for stitches or rows. Its errors are one line each, or a *NotWithinReach.
func To(proof *pattern.Proof, g gauge.Gauge, w Wish) (*Result, error) {
	var pairs []pair
	if w.higher() {
		proof, pairs = pairsAsRanges(proof)
	}
	f, err := begin(proof, g, w)
	if err != nil {
		return nil, err
	}
	f.pairs = pairs
	if err := f.fit(); err != nil {
		return nil, err
	}
	return f.res, nil
}

// fit finds every number of the new size, and proves what comes of it.
func (f *fitter) fit() error {
	f.perched = f.perches()
	if err := f.width(); err != nil {
		return err
	}
	if err := f.height(); err != nil {
		return err
	}
	if err := f.prove(); err != nil {
		return err
	}
	f.finished()
	f.others()
	f.prose()
	return f.prove()
}

// others names what was left as it is.
func (f *fitter) others() {
	var on []string
	for i, p := range f.proof.Pieces {
		switch {
		case i == f.main:
			continue
		case p.Sits() != nil && (f.kept[i] == nil || f.kept[i].Proof.Rows[0].Made == p.Rows[0].Made):
			on = append(on, pieceName(p))
			continue
		case f.kept[i] != nil:
			continue
		}
		why := "it does not begin on a chain that its width follows from"
		if b, ok := baseOf(p, 0); ok && f.widens(i, b) {
			why = fmt.Sprintf("it begins on a %s of its own, %d", b.name, b.n)
			if p.Piece.Name != "" {
				why += "; --piece fits it"
			}
		} else if round(p) {
			why = "it grows by its rounds; tallyturn rounds works them out"
		}
		f.res.Kept = append(f.res.Kept, fmt.Sprintf("%s: %s", pieceName(p), why))
	}
	if len(on) > 0 {
		f.res.Kept = append(f.res.Kept, someOf(on)+": as large as before, worked onto another piece")
	}
	if !f.res.Up.Asked {
		return
	}
	var shaping []string
	pc := f.proof.Pieces[f.main]
	for i, r := range pc.Rows {
		if i > 0 && r.Made != pc.Rows[i-1].Made && !slices.Contains(shaping, r.Label) {
			shaping = append(shaping, r.Label)
		}
	}
	if len(shaping) > 0 {
		f.res.Kept = append(f.res.Kept, someOf(shaping)+": as many as before, since they shape the piece")
	}
}

// someOf lists names, no more of them than can be taken in.
func someOf(names []string) string {
	const most = 8
	if len(names) > most {
		return fmt.Sprintf("%s and %d more", strings.Join(names[:most-1], ", "), len(names)-most+1)
	}
	return strings.Join(names, ", ")
}

// begin checks what can be checked before anything is worked.
func begin(proof *pattern.Proof, g gauge.Gauge, w Wish) (*fitter, error) {
	if err := w.check(); err != nil {
		return nil, err
	}
	if n := proof.Errors(); n > 0 {
		return nil, fmt.Errorf("its numbers are not right as they are (%s); set them right first", countOf(n, "error"))
	}
	if len(proof.Pattern.Sizes) > 1 {
		return nil, errors.New("it is written in several sizes already; a pattern in one size is needed")
	}
	f := &fitter{proof: proof, work: proof.Rework(), tape: tape{g, proof.Terms}, wish: w, changes: make(pattern.Changes), kept: make(map[int]*pattern.Reworked), told: make(map[pattern.Span]bool), res: &Result{}}
	f.res.Notes = gauge.Unusual(proof.Pattern, g)
	return f, f.choose()
}

func countOf(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	if strings.HasSuffix(what, "ch") {
		return fmt.Sprintf("%d %ses", n, what)
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// choose finds the piece to fit: the one named, or the first that is begun on
// a number and stands by itself.
func (f *fitter) choose() error {
	size := 0
	f.main = -1
	why := errors.New("none of its pieces begins on a chain that its width follows from; a circle grows by its rounds, which tallyturn rounds works out")
	_, byTape := f.wish.across()
	widens := byTape || f.wish.Stitches > 0
	for i, p := range f.proof.Pieces {
		if f.wish.Piece != "" && !sameName(f.wish.Piece, p.Piece.Name) {
			continue
		}
		b, ok := baseOf(p, size)
		if !widens && (f.wish.Piece != "" || p.Sits() == nil) && f.work.Try(i, nil).Stop == nil && p.Len() > 1 {
			f.main = i // only higher: it does not matter how it begins
			break
		}
		if !ok {
			if f.wish.Piece != "" {
				return fmt.Errorf("%s does not begin on a chain that its width follows from", pieceName(p))
			}
			continue
		}
		out := f.work.Try(i, nil)
		if out.Stop != nil {
			why = fmt.Errorf("%s of %s cannot be worked out, so nobody can tell what it comes to in another size", out.Stop.Label, pieceName(p))
			if f.wish.Piece != "" {
				return why
			}
			continue
		}
		if !f.widens(i, b) {
			if f.wish.Piece != "" {
				return fmt.Errorf("%s begins in a ring of chain, and its width does not follow from it", pieceName(p))
			}
			continue
		}
		f.main, f.base = i, b
		break
	}
	if f.main < 0 {
		if f.wish.Piece != "" {
			return fmt.Errorf("there is no piece called %q", f.wish.Piece)
		}
		return why
	}
	f.res.Base = fmt.Sprint(f.base.n)
	f.res.Piece = pieceName(f.proof.Pieces[f.main])
	return f.tape.needs(f.wish, f.proof.Pieces[f.main])
}

// widens reports whether the first row of a piece becomes wider with its base.
func (f *fitter) widens(i int, b base) bool {
	was := f.proof.Pieces[i]
	if len(was.Rows) == 0 {
		return false
	}
	now := f.work.Try(i, pattern.Changes{b.span: b.n + 1})
	if now.Stop == was.Piece.Rows[0] && b.n <= 4 {
		return false // a centre: all goes into one chain of it
	}
	return now.Stop == was.Piece.Rows[0] || len(now.Proof.Rows) > 0 && now.Proof.Rows[0].Made != was.Rows[0].Made
}

// width finds the base for the wish across.
func (f *fitter) width() error {
	p := f.proof.Pieces[f.main]
	m := &f.res.Across
	m.WasStitches, m.WasMM = stitchesWide(p), f.tape.across(p)
	m.Stitches, m.MM = m.WasStitches, m.WasMM
	target, byTape := f.wish.across()
	if !byTape && f.wish.Stitches == 0 {
		return nil
	}
	m.Asked, m.Unit = true, f.tape.gauge.Unit
	measure := stitchesWide
	if byTape {
		if f.wish.Wide > 0 && round(p) {
			target *= 2 // a tube lies double
		}
		if n := f.tape.gauge.Stitches.In(target); n < least {
			return fmt.Errorf("%s is less than two %s at this gauge", f.tape.gauge.Unit.Tell(target), f.unitName())
		} else if n > most {
			return fmt.Errorf("%s comes to %.0f %s, more than the %d that are worked out", f.tape.gauge.Unit.Tell(target), n, f.unitName(), int64(most))
		}
		m.WishMM = target
		measure = f.tape.across
	} else {
		m.WishN = f.wish.Stitches
		target = float64(m.WishN)
	}
	s := f.solverFor(f.main)
	var first error // why the nearest that its own rows allow does not do
	s.accept = func(x *found) bool {
		try, err := f.with(x)
		if err != nil {
			if first == nil && x.n != f.base.n {
				first = err
			}
			return false
		}
		x.as = try
		return true
	}
	best := s.nearest(f.base, target, measure)
	if s.tired() && (best == nil || best.n == f.base.n) {
		return fmt.Errorf("%s has too many rows with numbers of their own to be worked out in another width", pieceName(p))
	}
	reach := float64(reachLeast)
	if byTape {
		reach = f.tape.gauge.Stitches.Length(reachLeast)
	}
	if best == nil || best.off(target) > min(max(reach, reachShare*target), target/2) {
		return f.outOfReach(s, target, byTape, first)
	}
	choice := ""
	if best.off(target) >= 1 {
		if x := s.beyond(f.base, best, target, measure); x != nil {
			choice = fmt.Sprintf("%d chains: %s", x.n, x.as.comesTo(x, target, byTape))
		}
	}
	*f = *best.as
	f.res.Choice = choice
	return nil
}

// comesTo says what a base makes, and how far it is off.
func (f *fitter) comesTo(x *found, target float64, byTape bool) string {
	s := countOf(int(stitchesWide(x.out.Proof)), "stitch")
	if byTape {
		off := int(roundMM(x.measure - target))
		return s + fmt.Sprintf(", %s, %d mm %s", f.tape.gauge.Unit.Tell(x.measure), max(off, -off), moreOrLess(off))
	}
	off := int(x.measure - target)
	return s + fmt.Sprintf(", %d %s", max(off, -off), moreOrLess(off))
}

// with is the fitting with a base that the rows of the piece come out on:
// what is worked onto the piece is moved, and all of it proven.
func (f *fitter) with(x *found) (*fitter, error) {
	c := *f
	res := *f.res
	c.res, c.work, c.kept = &res, f.work.Copy(), make(map[int]*pattern.Reworked)
	c.changes = f.changes.With(x.changes).With(x.out.Totals)
	c.keep(c.main, x.out)
	res.Base = fmt.Sprint(x.n)
	if x.n != c.base.n {
		res.Moved = append(slices.Clone(res.Moved), Move{What: c.base.name, Was: fmt.Sprint(c.base.n), Now: fmt.Sprint(x.n)})
	}
	c.tuned(x.changes)
	if err := c.place(c.perched); err != nil {
		return nil, err
	}
	return &c, c.prove()
}

// tuned lists the numbers of rows that follow the base.
func (f *fitter) tuned(ch pattern.Changes) {
	src := f.proof.Pattern.Source
	type change struct{ was, now string }
	alike := make(map[change][]string) // labels
	var order []change
	for _, row := range f.proof.Pieces[f.main].Piece.Rows {
		var spans []pattern.Span
		for sp := range ch {
			if row.Span.Contains(sp) && sp != f.base.span {
				spans = append(spans, sp)
			}
		}
		slices.SortFunc(spans, func(a, b pattern.Span) int { return a.Start - b.Start })
		var was, now []string
		for _, sp := range spans {
			was = append(was, src.Slice(sp))
			now = append(now, fmt.Sprint(ch[sp]))
		}
		if len(spans) > 0 {
			c := change{strings.Join(slices.Compact(was), " and "), strings.Join(slices.Compact(now), " and ")}
			if alike[c] == nil {
				order = append(order, c)
			}
			alike[c] = append(alike[c], row.Label)
		}
	}
	for _, c := range order {
		f.res.Moved = append(f.res.Moved, Move{What: someOf(alike[c]), Was: c.was, Now: c.now})
	}
}

func (f *fitter) unitName() string {
	if f.tape.gauge.Kind == gauge.ByStitch {
		return "stitches"
	}
	return f.tape.gauge.Named
}

// prove writes the pattern anew and proves it.
func (f *fitter) prove() error {
	for _, sp := range slices.SortedFunc(maps.Keys(f.changes), func(a, b pattern.Span) int { return a.Start - b.Start }) {
		if n := f.changes[sp]; n < 0 {
			// "skip next 15 sts" between two shoulders that are now too wide
			return fmt.Errorf("the new size does not prove: %s would have to be %d", f.proof.Pattern.Source.Slice(sp), n)
		}
	}
	f.res.Text = asPairs(f.proof.Pattern.Source.Write(f.changes), f.pairs)
	f.res.Proof = pattern.Read(f.res.Text).Prove(pattern.Options{Terms: f.proof.Terms})
	if err := same(f.proof, f.res.Proof); err != nil {
		return err
	}
	return f.measure()
}

// measure tells the finished size by what was proven.
func (f *fitter) measure() error {
	pc := f.res.Proof.Pieces[f.main]
	f.res.Across.Stitches, f.res.Across.MM = stitchesWide(pc), f.tape.across(pc)
	f.res.Across.Slack = f.res.Across.MM * f.tape.gauge.Stitches.Slack(1) / max(f.tape.gauge.Stitches.Length(1), 1e-9)
	up := &f.res.Up
	if up.Asked && float64(rowsOf(pc)) != up.Stitches {
		return fmt.Errorf("the new size does not prove: %s reads back as %d rows, not %d", pieceName(pc), rowsOf(pc), int64(up.Stitches))
	}
	up.Stitches, up.MM = float64(rowsOf(pc)), f.tape.up(pc)
	up.Slack = up.MM * f.tape.gauge.Rows.Slack(1) / max(f.tape.gauge.Rows.Length(1), 1e-9)
	return nil
}

// keep settles a piece in the new size.
func (f *fitter) keep(i int, as *pattern.Reworked) {
	f.kept[i] = as
	f.work.Keep(i, as)
}

// alongRows reports whether a stated total is that of a row worked into the ends
// of other rows, which are as many as the new size has.
func alongRows(p *pattern.Proof, total pattern.Span) bool {
	for _, pc := range p.Pieces {
		for _, r := range pc.Rows {
			if r.Row.Total == nil || r.Row.Total.Span != total {
				continue
			}
			return slices.ContainsFunc(r.Row.Steps, func(s *pattern.Step) bool {
				return s.Op == pattern.OpFree || s.Op == pattern.OpWork && s.Target.Which == pattern.RowEnds
			})
		}
	}
	return false
}

// same holds a proof against the one that it was made from: every row must
// come out as well as it did.
func same(was, now *pattern.Proof) error {
	if n := now.Errors(); n > 0 {
		for _, x := range now.Findings {
			if x.Severity == pattern.Error {
				line, _ := now.Pattern.Source.Position(x.Span.Start)
				if alongRows(now, x.Span) {
					return fmt.Errorf("line %d works into the ends of rows, and their number would change: %s", line, x.Message)
				}
				return fmt.Errorf("the new size does not prove: line %d, %s", line, x.Message)
			}
		}
	}
	if a, b := troubles(was), troubles(now); b > a {
		return fmt.Errorf("the new size does not prove: %s where there were %d", countOf(b, "warning"), a)
	}
	if len(was.Pieces) != len(now.Pieces) {
		return errors.New("the new size does not read back as it was meant")
	}
	for i, p := range was.Pieces {
		a, b := labels(p), labels(now.Pieces[i])
		if len(a) != len(b) {
			return errors.New("the new size does not read back as it was meant")
		}
		for k := range a {
			if a[k].status != b[k].status {
				return fmt.Errorf("the new size does not prove: %s of %s is no longer %s", b[k].label, pieceName(p), a[k].status)
			}
		}
	}
	return nil
}

// labelled is how the rows under a label came out: the worst of them.
type labelled struct {
	label  string
	line   int
	status pattern.Status
}

func labels(p *pattern.PieceProof) []labelled {
	var out []labelled
	for _, r := range p.Rows {
		if n := len(out); n > 0 && out[n-1].label == r.Label && out[n-1].line == r.Line {
			out[n-1].status = max(out[n-1].status, r.Status)
			continue
		}
		out = append(out, labelled{r.Label, r.Line, r.Status})
	}
	return out
}

func troubles(p *pattern.Proof) int {
	n := 0
	for _, f := range p.Findings {
		if f.Severity == pattern.Warning {
			n++
		}
	}
	return n
}

// sameName reports whether two names are one, whatever their case.
func sameName(a, b string) bool { return strings.EqualFold(strings.TrimSpace(a), strings.TrimSpace(b)) }
