package chart

import (
	"math"
	"slices"
	"strconv"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/stitch"
)

func itoa(n int) string { return strconv.Itoa(n) }

// usage is what a figure has drawn.
type usage struct {
	chain, dot, ring, picot bool
	back, front             bool
	attach, fasten          bool // ends of yarn
	sided                   bool // something that is another thing seen from the other side
	stitches                []kind
	specials                []string
	yarns                   []int
}

// kind is a stitch as the legend tells it apart.
type kind struct {
	id    stitch.ID
	legs  int
	place bool // the legs stand in one place
}

func (u *usage) add(m *made) {
	k := kind{id: m.link.Stitch}
	if s := m.link.Step; s != nil && s.Legs > 1 && stitch.Of(k.id).Kind != stitch.Compound {
		k.legs = s.Legs
		k.place = len(m.link.Bases) == 1
	}
	u.sided = u.sided || m.sign.post != 0 || m.link.Loop != pattern.BothLoops
	switch m.link.Loop {
	case pattern.BackLoop:
		u.back = true
	case pattern.FrontLoop:
		u.front = true
	}
	if k.id == stitch.Slip {
		u.dot = true
		return
	}
	if k.id == stitch.Special {
		u.special(m.link.Name)
		return
	}
	if !slices.Contains(u.stitches, k) {
		u.stitches = append(u.stitches, k)
	}
}

// special is the number of a stitch that only this pattern has, from 1.
func (u *usage) special(name string) int {
	i := slices.Index(u.specials, name)
	if i < 0 {
		u.specials = append(u.specials, name)
		i = len(u.specials) - 1
	}
	return i + 1
}

func (u *usage) yarn(n int) {
	if !slices.Contains(u.yarns, n) {
		u.yarns = append(u.yarns, n)
	}
}

// entry is one line of the legend.
type entry struct {
	draw   func(g *group, at pt) // in a field 2 wide and 2 high, its foot at the point
	letter string                // in a chart of text
	name   string
	words  string
	yarn   int // -1 where it is no yarn
}

// legend lists what was drawn.
func (f *figure) legend() []entry {
	u := &f.used
	var out []entry
	add := func(letter, name, words string, draw func(g *group, at pt)) {
		out = append(out, entry{letter: letter, name: name, words: words, draw: draw, yarn: -1})
	}
	if u.ring {
		add("", "", "magic ring", func(g *group, at pt) {
			var o path
			o.ellipse(at.add(pt{0, 0.5}), pt{1, 0}, ringLeast, ringLeast)
			g.put(stroke, o)
		})
	}
	if u.chain {
		add("o", "ch", "chain", func(g *group, at pt) {
			var o path
			o.ellipse(at.add(pt{0, 0.5}), pt{1, 0}, chainLong/2, 0.2)
			g.put(stroke, o)
		})
	}
	if u.dot {
		add(".", stitch.Slip.Name(f.terms), stitch.Slip.Words(f.terms)+f.across(stitch.Slip, 0), func(g *group, at pt) {
			var o path
			o.ellipse(at.add(pt{0, 0.5}), pt{1, 0}, 0.22, 0.15)
			g.put(solid, o)
		})
	}
	for _, k := range u.stitches {
		s := symbolOf(k.id)
		name, words := k.id.Name(f.terms), k.id.Words(f.terms)
		letter := string(s.letter)
		switch {
		case k.id == stitch.None:
			name, words = "", "a stitch of a row that is not worked out: only how many there are is known"
		case k.legs > 1 && k.place:
			words = name + ": " + itoa(k.legs) + " worked together in one place"
			name = name + itoa(k.legs) + "tog"
			letter = "A"
		case k.legs > 1:
			name, words = name+itoa(k.legs)+"tog", words+" "+itoa(k.legs)+" stitches together"
			letter = "Λ"
		}
		if k.id != stitch.None {
			words += f.across(k.id, k.legs)
		}
		add(letter, name, words, func(g *group, at pt) {
			sn := sign{symbol: s, feet: []pt{at}, head: at.add(pt{0, s.high})}
			switch {
			case k.legs > 1 && k.place:
				if sn.form == formStem {
					sn.form, sn.legs = formLeaf, min(k.legs, 9)
				}
			case k.legs > 1:
				sn.feet = nil
				n := min(k.legs, 6)
				for i := range n {
					sn.feet = append(sn.feet, at.add(pt{(float64(i) - float64(n-1)/2) * 0.9 * 2 / float64(max(n, 2)), 0}))
				}
			}
			g.draw(sn)
		})
	}
	for i, name := range u.specials {
		add("#"+itoa(i+1), clean(name), "a stitch of this pattern", func(g *group, at pt) {
			g.draw(sign{symbol: symbolOf(stitch.Special), feet: []pt{at}, head: at.add(pt{0, 1.6})})
			g.labels = append(g.labels, label{at: at.add(pt{0, 1.03}), text: itoa(i + 1), size: 0.45})
		})
	}
	loop := func(words string, dir int) {
		add("", "", words, func(g *group, at pt) {
			var o path
			arc(&o, at.add(pt{0, 0.5}), pt{1, 0}, pt{0, 1}, dir)
			g.put(stroke, o)
		})
	}
	if u.back {
		loop("in the back loop only", 1)
	}
	if u.front {
		loop("in the front loop only", -1)
	}
	if u.picot {
		add("^", "picot", "chains closed into a small ring", func(g *group, at pt) {
			m := made{link: &pattern.Link{Chains: 3}, head: stand{at.x, at.y + 0.1}}
			f.picot(g, ground{flat: true}, &m)
		})
	}
	if u.attach {
		add("", "", "join yarn", func(g *group, at pt) { g.put(open, triangle(at.add(pt{0, 0.5}), pt{0, 1})) })
	}
	if u.fasten {
		add("", "", "fasten off", func(g *group, at pt) { g.put(solid, triangle(at.add(pt{0, 0.5}), pt{0, -1})) })
	}
	for _, n := range u.yarns {
		y := f.y.all[n]
		out = append(out, entry{name: clean(y.name), yarn: n, draw: func(g *group, at pt) {
			o := []pt{at.add(pt{-0.8, 0}), at.add(pt{0.8, 0}), at.add(pt{0.8, 1}), at.add(pt{-0.8, 1})}
			var p path
			p.lines(o...)
			p.close()
			g.shapes = append(g.shapes, shape{paint: tint, yarn: n, path: p})
			g.hatching(n, o)
			g.put(fine, p)
		}})
	}
	return out
}

// drawLegend lays the legend out below from, in as many columns as there is room
// for, and gives what it drew. A name that is longer than the others by far has a
// line of its own.
func drawLegend(key []entry, notes []string, left, top, right float64) group {
	g := group{title: "Legend"}
	const (
		size  = 0.72 // of letters
		field = 2.1  // of a symbol, with what parts it from its name
		apart = 1.2  // from column to column
	)
	type cell struct {
		e    entry
		box  box
		name label
		wide float64
	}
	var cells []cell
	column := 0.0
	for _, e := range key {
		var s group
		e.draw(&s, pt{})
		words := e.name
		if e.words != "" && e.words != e.name {
			if words != "" {
				words += ": "
			}
			words += e.words
		}
		t := label{text: words, size: size, align: -1}
		tb := t.box()
		c := cell{e, s.box(), t, field + tb.max.x - tb.min.x}
		cells = append(cells, c)
		if c.wide <= (right-left)/2 {
			column = math.Max(column, c.wide)
		}
	}
	columns := 1
	if column > 0 {
		columns = max(1, int((right-left+apart)/(column+apart)))
	}
	y := top - 1.2
	for i := 0; i < len(cells); {
		n := 1
		if cells[i].wide <= column {
			for n < columns && i+n < len(cells) && cells[i+n].wide <= column {
				n++
			}
		}
		high := size
		for _, c := range cells[i : i+n] {
			high = math.Max(high, c.box.max.y-c.box.min.y)
		}
		mid := y - high/2
		for k, c := range cells[i : i+n] {
			x := left + float64(k)*(column+apart)
			c.e.draw(&g, pt{x + 0.9, mid - (c.box.min.y+c.box.max.y)/2})
			c.name.at = pt{x + field, mid - 0.25}
			g.labels = append(g.labels, c.name)
		}
		y -= high + 0.7
		i += n
	}
	y -= 0.2
	for _, n := range notes {
		for _, line := range wrap(n, int((right-left)/(letter*size))) {
			g.labels = append(g.labels, label{at: pt{left, y - size}, text: line, size: size, align: -1})
			y -= size * 1.5
		}
	}
	return g
}

// wrap breaks words into lines of at most n letters.
func wrap(s string, n int) []string {
	n = max(n, 20)
	var out []string
	line := ""
	for _, w := range splitSpaces(s) {
		if line != "" && len(line)+1+len(w) > n {
			out = append(out, line)
			line = ""
		}
		if line != "" {
			line += " "
		}
		line += w
	}
	return append(out, line)
}
