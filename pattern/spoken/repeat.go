package spoken

import (
	"slices"
	"strings"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/stitch"
)

// tellable reports whether a repeat can be told from the tree: nothing is
// said of it beside its steps, how often, and how it ends.
func (x *rowTeller) tellable(s *pattern.Step) bool {
	_, ok := x.howOften(s)
	return ok && len(x.lostAround(s)) == 0
}

// lostAround are words of a repeat that stand outside its steps, its remark
// and its ending, and are not kept.
func (x *rowTeller) lostAround(s *pattern.Step) []string {
	lost := x.lost(s)
	drop := func(sp pattern.Span) {
		if sp.Empty() {
			return
		}
		for _, b := range cut(x.proof.Pattern.Source.Slice(sp)) {
			if i := slices.Index(lost, b.low); i >= 0 {
				lost = slices.Delete(lost, i, i+1)
			}
		}
	}
	drop(s.Remark())
	if e := s.Ending(); e != nil {
		drop(e.Span)
		for _, k := range e.Body {
			drop(k.Span)
		}
	}
	var rest []string
	for _, w := range lost {
		switch w {
		case "ending", "end", "omitting", "omit", "all", "way", "working", "these", "this", "sequence", "pattern", "pat", "entire", "total", "whole", "between", "asterisk", "asterisks", "star", "until", "you", "have", "left", "reach", "\u2020", "instructions", "steps", "bracket", "brackets", "back", "is", "are", "at", "start", "go", "**", "it", "once", "rep", "keep", "repeating", "over", "again", "after", "doubled", "doubling":
		default:
			rest = append(rest, w)
		}
	}
	return rest
}

// often is how a repeat is told.
type often struct {
	n     int64  // times in all; 0 where it goes on to a bound
	until string // "until you have two stitches left"; "" for all the way
	whole bool   // to the end of the row
}

func (x *rowTeller) howOften(s *pattern.Step) (often, bool) {
	n := x.passes[s]
	switch s.Times.Kind {
	case pattern.Once:
		return often{n: 1}, true
	case pattern.Exactly:
		if n <= 0 {
			n = x.at(s.Times.N)
		}
		return often{n: n}, n > 0
	case pattern.More:
		if n <= 0 {
			n = x.at(s.Times.N) + 1
		}
		return often{n: n}, n > 0
	}
	b := s.Times.Bound
	switch b.Kind {
	case pattern.NoBound, pattern.ToEnd:
		return often{whole: true}, true
	case pattern.ToPlace:
		return often{until: strings.TrimSpace(x.own(x.proof.Pattern.Source.Slice(b.Span)))}, !b.Span.Empty()
	}
	until, ok := x.bound(b)
	return often{until: strings.TrimSpace(until)}, ok
}

// repeat says a repeat in sentences of its own. Before tells that stitches of
// the row stand before it, so that where it begins has to be said; after, that
// more follow it.
func (x *rowTeller) repeat(s *pattern.Step, lead string, before, after bool) []string {
	o, _ := x.howOften(s)
	var items []string
	for i := range s.Body {
		if !s.Body[i].Unsaid() {
			items = x.add(items, s.Body, i)
		}
	}
	if len(items) == 0 {
		return nil
	}
	way := " " + x.way()
	if len(items) == 1 && s.Ending() == nil {
		said := lead + items[0]
		switch {
		case o.n == 1:
		case o.n > 0:
			said += ", " + times(o.n, x.to)
			if o.n > 2 {
				said += " in all"
			}
		case o.until != "":
			said += ", and so on " + o.until
		default:
			said += ", and so on" + way
		}
		return []string{sentence(said + x.lastPass(s))}
	}
	if o.n == 1 {
		return split(append([]string{lead + items[0]}, items[1:]...))
	}
	again := ""
	switch {
	case o.n == 2:
		again = "do that twice"
	case o.n > 0:
		again = "do that " + times(o.n, x.to) + " in all"
		if !before && !after && x.r.Left == 0 && x.r.Skipped == 0 {
			again += "," + way
		}
	case o.until != "":
		again = "repeat that " + o.until
	default:
		again = "repeat that" + way
	}
	again += x.lastPass(s)
	if len(items) <= most && !slices.ContainsFunc(items, doesAgain) {
		said := list(items)
		switch {
		case lead != "":
			said = lead + said
		case before:
			said = "now the part to repeat: " + said
		}
		return []string{sentence(said), sentence(again)}
	}
	var out []string
	if before {
		out = append(out, "Now comes the part to repeat.")
	}
	items[0] = lead + items[0]
	out = append(out, split(items)...)
	again = strings.Replace(again, "that", "all of that", 1)
	again = strings.Replace(again, "that all the way across", "that to the end of the row", 1)
	return append(out, sentence(again))
}

// way is how far a repeat goes that goes on to the end.
func (x *rowTeller) way() string {
	if x.goesRound() {
		return "all the way " + x.around()
	}
	return "all the way across"
}

// lastPass says how the last time through a repeat differs.
func (x *rowTeller) lastPass(s *pattern.Step) string {
	said := ""
	if n, ok := s.StopsAfter(); ok && n > 0 && n <= len(s.Body) {
		said = "; the last time, stop after you " + verb(x.clause(s.Body[n-1]))
	}
	if e := s.Ending(); e != nil {
		var items []string
		for i := range e.Body {
			items = x.add(items, e.Body, i)
		}
		if len(items) > 0 {
			said += "; the last time, end with " + list(items)
		} else if text := x.written(e); text != "" {
			said += "; " + text
		}
	}
	if !s.Remark().Empty() {
		said += ", " + x.own(strings.Trim(x.proof.Pattern.Source.Slice(s.Remark()), " ,;.()[]"))
	}
	return said
}

// verb puts a verb before an instruction that begins with the name of a
// stitch.
func verb(clause string) string {
	first, _, _ := strings.Cut(clause, " ")
	switch first {
	case "chain", "skip", "miss", "work", "turn", "join", "fasten", "into", "make", "slip":
		if first == "into" {
			return "work " + clause
		}
		return clause
	}
	return "work " + clause
}

// inner says a repeat among other instructions: what is done again is counted
// back, so that it is plain where it begins.
func (x *rowTeller) inner(s *pattern.Step) (string, bool) {
	o, ok := x.howOften(s)
	if !ok || len(x.lostAround(s)) > 0 {
		return "", false
	}
	var items []string
	for i := range s.Body {
		if !s.Body[i].Unsaid() {
			items = x.add(items, s.Body, i)
		}
	}
	if len(items) == 0 {
		return "", false
	}
	often := ""
	switch {
	case o.n == 1:
		return list(items) + x.lastPass(s), true
	case o.n > 0:
		if often = times(o.n, x.to); o.n > 2 {
			often += " in all"
		}
	case o.until != "":
		often = o.until
	default:
		often = x.way()
	}
	if len(items) == 1 && !strings.Contains(items[0], ",") {
		return items[0] + " " + strings.TrimSuffix(often, " in all") + x.lastPass(s), true
	}
	if len(items) == 1 {
		return items[0] + ", " + often + x.lastPass(s), true
	}
	those := "those " + cardinal(int64(len(items)), x.to == stitch.UK) + " steps"
	if o.n > 0 {
		return list(items) + ", and do " + those + " " + often + x.lastPass(s), true
	}
	return list(items) + ", and repeat " + those + " " + often + x.lastPass(s), true
}
