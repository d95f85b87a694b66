package pattern

import (
	"sort"
	"strings"
)

// maxOthers bounds how many other sizes are worked beside the one proven.
const maxOthers = 24

// otherSizes adds to a proof of one size the errors that only other sizes
// have: a number wrong in the brackets of "54 (60, 66)" shows nowhere else. A
// place that has an error already is left alone, and one that is wrong in
// several sizes is told once.
func (p *Pattern) otherSizes(proof *Proof, o Options) {
	type place struct {
		code Code
		at   Span
	}
	told := make(map[int]bool) // lines
	for _, f := range proof.Findings {
		if f.Severity == Error {
			told[p.Source.lineAt(f.Span.Start)] = true
		}
	}
	var found []Finding
	sizes := make(map[place][]string)
	for i, name := range p.Sizes {
		if i == proof.size || i >= maxOthers {
			continue
		}
		other := p.prove(Options{Terms: o.Terms}, i)
		for _, f := range other.Findings {
			if f.Severity != Error || told[p.Source.lineAt(f.Span.Start)] {
				continue
			}
			if !p.sizedAt(f.Span) {
				f.Severity = Warning // the author may have counted one size only
			}
			k := place{f.Code, f.Span}
			if sizes[k] == nil {
				found = append(found, f)
			}
			if n := len(sizes[k]); n == 0 || sizes[k][n-1] != name {
				sizes[k] = append(sizes[k], name)
			}
		}
	}
	for _, f := range found {
		names := sizes[place{f.Code, f.Span}]
		in := namedSize(names[0])
		f.Message = "in " + in + " " + f.Message
		if n := len(names) - 1; n > 0 {
			f.Message += "; size " + strings.Join(names[1:], ", ") + " is wrong here too"
		}
		proof.Findings = append(proof.Findings, f)
	}
	sort.SliceStable(proof.Findings, func(i, j int) bool { return proof.Findings[i].Span.Start < proof.Findings[j].Span.Start })
}

// sizedAt reports whether the row that a span is in has numbers for each size, or is
// for one size alone.
func (p *Pattern) sizedAt(sp Span) bool {
	for _, pc := range p.Pieces {
		for _, r := range pc.Rows {
			if sp.Start < r.Span.Start || sp.Start >= r.Span.End {
				continue
			}
			sized := r.sizesWorking() == 1 || len(r.Numbers.First.Sizes)+len(r.Numbers.Last.Sizes)+len(r.Numbers.Count.Sizes) > 0
			if r.Total != nil {
				for _, part := range r.Total.Parts {
					sized = sized || len(part.N.Sizes) > 0
				}
			}
			has := func(_ *Step, n numAt) { sized = sized || len(n.num.Sizes) > 0 }
			eachNumber(r.Setup, 0, has)
			eachNumber(r.Steps, 0, has)
			return sized
		}
	}
	return true
}
