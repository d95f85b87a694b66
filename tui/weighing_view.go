package tui

import (
	"fmt"
	"math"
	"strings"

	"crochet/tallyturn/counter/skein"
	"crochet/tallyturn/pattern/yarn"
)

// The yarn page, from the top:
//
//	title, piece and copy                              whether it is saved
//	the place in the row
//	whether the yarn lasts, as large as it goes
//	what is left, what the rest takes, what is left over, and by what that is told
//	every yarn: its stitches so far, and what they took
//	the field for what is on the scale
//	a quiet line
//	buttons

// yarns sets the page out.
func (f *frame) yarns() {
	f.heading()
	f.placeLine()
	width := min(f.inner, wordsWide)
	room := max(f.height-len(f.lines)-2, 1)
	verdict := f.lasting(f.inner)
	told, table, field := f.toldOfYarn(width), f.yarnTable(width), f.weightField(width)

	// The field and the answer are always there; of the table as many lines as
	// there are, then what is told, then the hints, then air and large letters.
	left := room - 2
	rows := min(len(table), max(left-len(told), 1))
	if left < 2 {
		rows = max(left, 0)
	}
	table = scroll(table, f.w.scale.pick, rows, width)
	left -= len(table)
	told = told[:min(len(told), max(left, 0))]
	left -= len(told)
	field = field[:min(len(field), max(left+1, 1))]
	left -= len(field) - 1
	gap := min(max(left/4, 0), 1)
	if large := f.largeVerdict(left + 1 - 3*gap); large != nil {
		left -= len(large) - 1
		verdict = large
	}
	gap = min(max(left/3, 0), 2)
	for i, part := range [][][]span{verdict, told, table, field} {
		if i > 0 {
			f.blank(gap)
		}
		f.fill(part, len(part))
	}
	f.fill(nil, f.height-2-len(f.lines))
	f.lines = f.lines[:max(min(len(f.lines), f.height-2), 0)]
	f.footer()
}

// placeLine tells the place in the row.
func (f *frame) placeLine() {
	if f.sc.finished {
		f.put(span{good, "✓ finished"})
		return
	}
	row, stitch := f.sc.rowLine(), f.sc.stitchLine()
	if place := row + " · " + stitch; cells(place) <= f.inner {
		f.put(span{accent, place})
		return
	}
	f.put(span{accent, stitch})
	f.put(span{accent, row})
}

// verdictInk is how a verdict is told besides its words.
func verdictInk(v yarn.Verdict) (role, string) {
	switch v {
	case yarn.LastsEasily, yarn.Lasts:
		return good, "✓ "
	case yarn.MayNotLast:
		return lead, "? "
	}
	return alarm, "✗ "
}

// lasting is whether the yarn lasts, in a line.
func (f *frame) lasting(width int) [][]span {
	y := f.w.onPage()
	name := Clean(y.Name)
	if y.Left == nil || !y.Left.Known {
		return [][]span{clipSpans([]span{{strong, name}, {quiet, ": whether it lasts is not known yet"}}, width)}
	}
	ink, sign := verdictInk(y.Left.Verdict)
	return [][]span{clipSpans([]span{{ink, sign + name + " " + y.Left.Verdict.String()}}, width)}
}

// largeVerdict is the answer in block letters, nil where there is no room.
func (f *frame) largeVerdict(high int) [][]span {
	y := f.w.onPage()
	if y.Left == nil || !y.Left.Known {
		return nil
	}
	ink, sign := verdictInk(y.Left.Verdict)
	if ink == alarm {
		ink = figure
	}
	out := f.brush().largest(ink, y.Left.Verdict.String(), 2, f.inner, high-1)
	if out == nil {
		return nil
	}
	return append(out, clipSpans([]span{{ink, sign + Clean(y.Name)}, {quiet, " " + y.Left.Verdict.String()}}, f.inner))
}

// toldOfYarn is what the answer comes from.
func (f *frame) toldOfYarn(width int) (out [][]span) {
	add := func(r role, text string) { out = append(out, fold(r, text, width)...) }
	y := f.w.onPage()
	l := y.Left
	switch {
	case l == nil:
		words := "Put what is left of " + Clean(y.Name) + " on the scale and type the grams."
		if y.Rest.Mid > 0 {
			words = "The rest takes " + y.Rest.String() + " g. " + words
		}
		add(base, words)
	case !l.Known && l.AtFirst:
		add(base, yarn.Grams(l.Grams)+" g at the start. Put what is left of "+Clean(y.Name)+" on the scale and type the grams.")
	case !l.Known:
		add(base, fmt.Sprintf("%s g were on the scale. Weigh it again some rows on, or type what it weighed at the start and press %s.", yarn.Grams(l.Grams), f.w.named(keyFirstWeight)))
	default:
		words := yarn.Grams(l.Grams) + " g on the scale"
		if l.AtFirst {
			words = yarn.Grams(l.Grams) + " g at the start"
		}
		if now := l.Now.String(); math.Abs(l.Since.Mid) >= 0.05 {
			words += ", " + now + " g by now"
		}
		add(base, words+"; the rest takes "+y.Rest.String()+" g: "+skein.Over(l.Over)+".")
	}
	if words := y.By(); words != "" && (l != nil || y.Used.Mid > 0) {
		add(quiet, words)
	}
	if n := f.w.scale.account.Blind; n > 0 {
		add(quiet, fmt.Sprintf("Without %s of no known number of stitches.", count(n, "row")))
	}
	return out
}

// basisShort is what the weights of a yarn rest on, in two words.
var basisShort = map[skein.Basis]string{
	skein.ByScale: "by your scale", skein.ByOthers: "by the others", skein.BySwatch: "by the swatch", skein.RoughModel: "roughly",
}

// yarnTable is every yarn, the one on the page lit.
func (f *frame) yarnTable(width int) (out [][]span) {
	a := f.w.scale.account
	narrow := width < 60
	name, sts := 0, 0
	stitches := make([]string, len(a.Yarns))
	for i, y := range a.Yarns {
		name = max(name, cells(Clean(y.Name)))
		stitches[i] = fmt.Sprintf("%d of %d sts", y.Stitches, y.All)
		if narrow {
			stitches[i] = fmt.Sprintf("%d/%d", y.Stitches, y.All)
		}
		sts = max(sts, len(stitches[i]))
	}
	name = min(name, max(width/3, 6))
	for i, y := range a.Yarns {
		label := clip(Clean(y.Name), name)
		sign, ink := "  ", base
		if i == f.w.scale.pick {
			sign, ink = "▸ ", hand
		}
		used := ""
		switch {
		case y.Used.Mid > 0:
			used = "used " + y.Used.String() + " g"
		case y.Stitches == 0:
			used = "not begun"
		case y.Length.Mid > 0:
			used = "used " + y.Length.Times(0.001).String() + " m"
		}
		line := []span{{ink, sign + label}, {base, strings.Repeat(" ", max(name-cells(label), 0))},
			{base, fmt.Sprintf("  %*s", sts, stitches[i])}, {strong, "  " + used}}
		switch {
		case narrow:
		case y.Used.Mid > 0:
			line = append(line, span{quiet, "  " + basisShort[y.Basis]})
		case y.Length.Mid > 0 && y.Stitches > 0:
			line = append(line, span{quiet, "  roughly"})
		}
		out = append(out, clipSpans(line, width))
	}
	return out
}

// weightField is the field for the grams, and what keys do with them.
func (f *frame) weightField(width int) (out [][]span) {
	y := f.w.onPage()
	out = append(out, clipSpans([]span{{strong, "Left of " + clip(Clean(y.Name), max(width-22, 4)) + " "}, {hand, handOpen + f.w.scale.grams + handClose}, {strong, " g"}}, width))
	hint := fmt.Sprintf("Enter keeps it; %s keeps it as another ball, begun here; %s as its weight before the first stitch.", f.w.named(keyNewBall), f.w.named(keyFirstWeight))
	if len(f.w.scale.account.Yarns) > 1 {
		hint += " Up and Down go to another yarn."
	}
	return append(out, fold(quiet, hint, width)...)
}

// weighQuestion is the page as lines, for those who have it read to them.
func (f *frame) weighQuestion(width int) (out [][]span) {
	out = append(out, f.lasting(width)...)
	out = append(out, f.toldOfYarn(width)...)
	out = append(out, f.yarnTable(width)...)
	return append(out, f.weightField(width)...)
}
