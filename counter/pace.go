package counter

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/stitch"
)

// How fast a maker is comes from her own finished rows and from nothing else.
// A row takes the sum, over the kinds of stitch in it, of their number times
// what one of the kind takes her, give or take a share that differs from row
// to row. What each kind takes is fitted to her rows by least squares; kinds
// that are rare are tied together by their height. The range of a forecast is
// that of regression: the scatter of the rows to come, and the doubt about
// what was fitted. It says how sure it is by OddsOfRange.

const (
	// OddsOfRange is how often the truth lies in a forecast's range.
	OddsOfRange = 0.8
	// fewestSpare is how many rows there must be beyond those that fix the
	// kinds, before the scatter of rows is known at all.
	fewestSpare = 3
	// ownRows is how many rows a kind must be in to be fitted by itself.
	ownRows = 3
	// strangeShare is the share of a forecast that may rest on kinds that she
	// has hardly worked.
	strangeShare = 0.05
)

// Pace is how fast a maker works, as her finished rows show it.
type Pace struct {
	Rows  int // rows that it rests on
	Kinds []KindPace

	terms  stitch.Terms
	enough bool
	spread float64     // of a row's time, as a share of it
	free   int         // degrees of freedom of the spread
	doubt  [][]float64 // inverse of the normal equations, by group
	groups int
}

// KindPace is how fast a maker works stitches of a kind.
type KindPace struct {
	Name      string
	Stitches  int64   // that it rests on
	PerMinute float64 // 0 where there are not enough rows yet

	rows   int
	group  int
	weight float64 // ms of one, by its height alone
	ms     float64 // ms of one, as fitted
}

// Forecast is how much longer something will take.
type Forecast struct {
	Low, High int64  // ms of work; the truth lies between in OddsOfRange of cases
	Known     bool   // there is a range
	Why       string // why there is none
	Blind     int64  // rows that are not in it, since nobody knows their number
}

// Outlook is how much longer the row, the copy and the project will take.
type Outlook struct{ Row, Copy, Project Forecast }

// sample is a finished row: how many stitches of each kind, and its time.
type sample struct {
	counts []float64 // by kind
	ms     float64
}

// heft is what a stitch takes beside a single crochet, by its height. It only
// ties together kinds that are too rare to be fitted.
func heft(name string, terms stitch.Terms) float64 {
	id, _ := stitch.LexiconFor(terms).Find(strings.ToLower(name))
	s := stitch.Of(id)
	switch {
	case id == stitch.None, id == stitch.Slip:
		return 0.6 // a space, a chain, a slip stitch
	case s.Kind == stitch.Compound:
		return 3
	}
	return 1 + 0.35*float64(max(s.Turn-1, 0))
}

// kindsOf is what a row is made of.
func kindsOf(r *pattern.RowProof) []pattern.KindCount {
	if len(r.ByKind) > 0 {
		return r.ByKind
	}
	if n, ok := expect(r); ok {
		return []pattern.KindCount{{Name: "stitch", N: n}}
	}
	return nil
}

// Pace works out how fast the maker is. The cost is that of the rows finished.
func (s State) Pace() Pace {
	var p Pace
	if proof := s.planned().proof; proof != nil {
		p.terms = proof.Terms
	}
	index := map[string]int{}
	var samples []sample
	for r := range s.Records() {
		if !r.Finished || r.Millis <= 0 || r.Expected <= 0 {
			continue
		}
		row, _ := s.RowOf(r.Piece, r.Copy, r.Row)
		x := sample{ms: float64(r.Millis)}
		for _, k := range kindsOf(row) {
			if k.N <= 0 {
				continue
			}
			i, ok := index[k.Name]
			if !ok {
				i = len(p.Kinds)
				index[k.Name] = i
				p.Kinds = append(p.Kinds, KindPace{Name: k.Name, weight: heft(k.Name, p.terms)})
			}
			for len(x.counts) <= i {
				x.counts = append(x.counts, 0)
			}
			x.counts[i] += float64(k.N)
			p.Kinds[i].rows++
			p.Kinds[i].Stitches = add(p.Kinds[i].Stitches, k.N)
		}
		if len(x.counts) > 0 {
			samples = append(samples, x)
		}
	}
	p.Rows = len(samples)
	p.fit(samples)
	slices.SortStableFunc(p.Kinds, func(a, b KindPace) int {
		return cmp.Or(cmp.Compare(b.Stitches, a.Stitches), cmp.Compare(a.Name, b.Name))
	})
	return p
}

// fit finds what each kind takes.
func (p *Pace) fit(samples []sample) {
	if len(samples) == 0 {
		return
	}
	shared := -1 // the group of kinds that are too rare
	for i := range p.Kinds {
		k := &p.Kinds[i]
		switch {
		case k.rows >= ownRows:
			k.group = p.groups
			p.groups++
		default:
			if shared < 0 {
				shared = p.groups
				p.groups++
			}
			k.group = shared
		}
	}
	var ms, weight float64
	for _, x := range samples {
		ms += x.ms
		for i, n := range x.counts {
			weight += float64(n * p.Kinds[i].weight)
		}
	}
	for i := range p.Kinds {
		p.Kinds[i].weight *= ms / weight
		p.Kinds[i].ms = p.Kinds[i].weight
	}
	p.free = len(samples) - p.groups
	if p.free < fewestSpare {
		return
	}
	scale := make([]float64, p.groups)
	for i := range scale {
		scale[i] = 1
	}
	for range 6 {
		p.round(samples, scale)
	}
	var sum float64
	for _, x := range samples {
		e := x.ms/p.predict(x.counts) - 1
		sum += float64(e * e)
	}
	p.spread = math.Sqrt(sum / float64(p.free))
	p.enough = true
	for i := range p.Kinds {
		if k := &p.Kinds[i]; k.rows >= ownRows {
			k.PerMinute = 60_000 / k.ms
		}
	}
}

func (p *Pace) predict(counts []float64) float64 {
	var ms float64
	for i, n := range counts {
		ms += float64(n * p.Kinds[i].ms)
	}
	return ms
}

// round does one round of least squares on the shares of the rows' times.
func (p *Pace) round(samples []sample, scale []float64) {
	g := p.groups
	normal := make([][]float64, g)
	right := make([]float64, g)
	for i := range normal {
		normal[i] = make([]float64, g)
	}
	for _, x := range samples {
		pred := p.predict(x.counts)
		col := make([]float64, g)
		for i, n := range x.counts {
			col[p.Kinds[i].group] += float64(n*p.Kinds[i].weight) / pred
		}
		for i := range g {
			right[i] += float64(col[i] * x.ms / pred)
			for j := range g {
				normal[i][j] += float64(col[i] * col[j])
			}
		}
	}
	// Kinds that always come in the same company cannot be told apart: a
	// feather's weight holds them to what their heights say, and leaves the
	// doubt about them large.
	const feather = 1e-4
	for i := range g {
		normal[i][i] += feather
		right[i] += feather
	}
	inverse := invert(normal)
	for i := range g {
		var v float64
		for j := range g {
			v += float64(inverse[i][j] * right[j])
		}
		scale[i] = max(v, 0.05)
	}
	for i := range p.Kinds {
		k := &p.Kinds[i]
		k.ms = float64(k.weight * scale[k.group])
	}
	// The doubt is about shares of the time to come, as the kinds have them now.
	p.doubt = inverse
	for i := range g {
		for j := range g {
			p.doubt[i][j] /= float64(scale[i] * scale[j])
		}
	}
}

// invert gives the inverse of a small positive matrix.
func invert(m [][]float64) [][]float64 {
	n := len(m)
	out := make([][]float64, n)
	a := make([][]float64, n)
	for i := range out {
		out[i] = make([]float64, n)
		out[i][i] = 1
		a[i] = slices.Clone(m[i])
	}
	for c := range n {
		best := c
		for r := c; r < n; r++ {
			if math.Abs(a[r][c]) > math.Abs(a[best][c]) {
				best = r
			}
		}
		a[c], a[best], out[c], out[best] = a[best], a[c], out[best], out[c]
		d := a[c][c]
		for j := range n {
			a[c][j] /= d
			out[c][j] /= d
		}
		for r := range n {
			if f := a[r][c]; r != c && f != 0 {
				for j := range n {
					a[r][j] -= float64(f * a[c][j])
					out[r][j] -= float64(f * out[c][j])
				}
			}
		}
	}
	return out
}

// quantile is Student's t that OddsOfRange lies within, by degrees of freedom.
func quantile(free int) float64 {
	table := [...]float64{3: 1.638, 4: 1.533, 5: 1.476, 6: 1.440, 7: 1.415, 8: 1.397, 9: 1.383, 10: 1.372,
		11: 1.363, 12: 1.356, 13: 1.350, 14: 1.345, 15: 1.341, 16: 1.337, 17: 1.333, 18: 1.330, 19: 1.328, 20: 1.325}
	switch {
	case free < 3:
		return math.Inf(1)
	case free < len(table):
		return table[free]
	}
	return 1.2816 + 0.87/float64(free)
}

// ahead is work to come.
type ahead struct {
	pace   *Pace
	ms     float64   // in all, by what was fitted
	square float64   // of the rows' times, summed
	groups []float64 // ms by group
	odd    float64   // ms of kinds hardly worked
	names  []string  // of these
	blind  int64
}

func (a *ahead) add(b ahead, n float64) {
	a.ms += float64(b.ms * n)
	a.square += float64(b.square * n)
	a.odd += float64(b.odd * n)
	a.blind += int64(n) * b.blind
	for i := range b.groups {
		a.groups[i] += float64(b.groups[i] * n)
	}
	for _, name := range b.names {
		if !slices.Contains(a.names, name) {
			a.names = append(a.names, name)
		}
	}
}

func (p *Pace) nothing() ahead { return ahead{pace: p, groups: make([]float64, p.groups)} }

// row is the work of a share of a row.
func (p *Pace) row(r *pattern.RowProof, share float64) ahead {
	a := p.nothing()
	kinds := kindsOf(r)
	if len(kinds) == 0 {
		a.blind = 1
		return a
	}
	for _, k := range kinds {
		n := float64(float64(max(k.N, 0)) * share)
		i := slices.IndexFunc(p.Kinds, func(x KindPace) bool { return x.Name == k.Name })
		if i < 0 || p.Kinds[i].rows < 2 {
			// By its height, beside what is known of others.
			ms := float64(n * heft(k.Name, p.terms) * p.unit())
			a.ms += ms
			a.odd += ms
			if k.N > 0 {
				a.names = append(a.names, k.Name)
			}
			continue
		}
		ms := float64(n * p.Kinds[i].ms)
		a.ms += ms
		a.groups[p.Kinds[i].group] += ms
	}
	a.square = float64(a.ms * a.ms)
	return a
}

// unit is the ms of a stitch of height one, by all that is known.
func (p *Pace) unit() float64 {
	var ms, weight float64
	for _, k := range p.Kinds {
		ms += float64(float64(k.Stitches) * k.ms)
		weight += float64(float64(k.Stitches) * heft(k.Name, p.terms))
	}
	if weight == 0 {
		return 0
	}
	return ms / weight
}

// forecast puts a range on work to come.
func (a ahead) forecast() Forecast {
	f := Forecast{Blind: a.blind}
	p := a.pace
	switch {
	case !p.enough:
		f.Why = "not enough rows yet"
	case a.ms <= 0 && a.blind > 0:
		f.Why = "nobody knows how many stitches are to come"
	case a.odd > strangeShare*a.ms:
		f.Why = "not enough rows of " + strings.Join(a.names, ", ") + " yet"
	default:
		var doubt float64
		for i, x := range a.groups {
			for j, y := range a.groups {
				doubt += float64(x * y * p.doubt[i][j])
			}
		}
		half := quantile(p.free) * p.spread * math.Sqrt(a.square+doubt)
		f.Known = true
		f.Low, f.High = int64(max(a.ms-half, 0)), int64(min(a.ms+half, 1e17))
	}
	return f
}

// Outlook tells how much longer the row, the copy in hand and the project
// will take at a pace. Done work is taken as it stands.
func (s State) Outlook(p Pace) Outlook {
	var o Outlook
	row, copy, all := p.nothing(), p.nothing(), p.nothing()
	plan := s.planned()
	if r, _ := s.Proof(); r != nil {
		share := 1.0
		if n, ok := expect(r); ok && n > 0 {
			share = float64(n-min(s.at.Stitch, n)) / float64(n)
		}
		row = p.row(r, share)
		copy.add(row, 1)
		copy.add(p.rows(plan, s.at.Piece, s.at.Row+1), 1)
		all.add(copy, 1)
	}
	for i := range plan.pieces {
		pc := &plan.pieces[i]
		if pc.rows == 0 {
			continue
		}
		fresh := int64(pc.copies) // copies that were not taken up
		if s.at.Piece == i {
			fresh--
		}
		if s.places != nil {
			it := s.places.Iterator()
			for it.Seek(pc.slot); !it.Done(); {
				slot, at, _ := it.Next()
				if slot >= pc.slot+pc.copies {
					break
				}
				if slot == s.rowKey().slot {
					continue
				}
				fresh--
				all.add(p.rows(plan, i, at.Row), 1)
			}
		}
		if fresh > 0 {
			all.add(p.rows(plan, i, 0), float64(fresh))
		}
	}
	o.Row, o.Copy, o.Project = row.forecast(), copy.forecast(), all.forecast()
	return o
}

// rows is the work of a piece from a row on.
func (p *Pace) rows(plan *Plan, piece, from int) ahead {
	a := p.nothing()
	for _, r := range plan.pieces[piece].proof.Rows {
		if n := r.Index + r.Count() - max(r.Index, from); n > 0 {
			a.add(p.row(r, 1), float64(n))
		}
	}
	return a
}
