package pattern

import (
	"fmt"
	"slices"
	"strings"
)

// comesOutWithout reports whether a row with words that are not understood
// comes out without them, and then they were a remark and no instruction: "do
// not join rnds but carry a thread up between first and last sc". No list of
// words can hold all that people say between two stitches; the count tells
// talk from work.
//
// It asks much, for a row must not be half understood. Every stitch offered is
// taken, none is left or passed over, no reading but the usual ones is needed,
// and the total stated is the one made. Where no total is stated, a number
// among the words is enough to leave the row unread: it could be stitches.
func (w *pieceWork) comesOutWithout(row, label *Row, below *fabric, total *Total) bool {
	if len(row.Steps) == 0 {
		return false
	}
	bad := row.bad
	if label != row {
		bad = label.bad
		if len(row.bad) > 0 && !w.pr.past[row] {
			return false
		}
	}
	if w.trial != nil {
		return (len(row.bad) == 0 || w.pr.past[row]) && (len(bad) == 0 || w.pr.past[label])
	}
	var behind []Span
	for _, sp := range bad {
		if sp.Len() > maxRemark {
			return false
		}
		if w.behindRow(label, sp, total) {
			behind = append(behind, sp)
		}
	}
	asked, carry, host := len(w.pr.asked), w.carry, w.host
	defer func() {
		w.carry, w.host, w.pr.asked = carry, host, w.pr.asked[:asked]
	}()
	for _, o := range append([]options{w.usual(row)}, w.readings(row, below)...) {
		save := *w
		w.carry, w.host = carry, host
		out := w.judge(w.attempt(row, below, o), total)
		*w = save
		if out.trouble < 2 && w.remarkOnly(row, bad, label != row, below, out) {
			w.lookPast(label, bad)
			return true
		}
		if out.trouble < 2 && len(behind) == len(bad) && len(bad) > 0 && !out.rw.free && !out.rw.leave && out.made > 0 && out.left == 0 {
			w.lookBehind(label, behind)
			return true
		}
	}
	if len(behind) == len(bad) && len(behind) > 0 && total != nil && label.Span.Contains(total.Span) {
		w.lookBehind(label, behind)
		return true // it is counted, and what is amiss in it is its own
	}
	return false
}

// maxRemark is the longest remark, in bytes, that is looked past in a row.
const maxRemark = 400

// remarkOnly reports whether a row that came out without some of its words
// proves by it that they ask for no work.
//
// Words beside "Rep Rows 9-16" that hold no number, talk, need not stand apart:
// they are of colours.
//
// What stands behind all the work of the row, as talk of what was made does, may
// hold numbers as long as none of them counts stitches; behind the last row of
// a piece even those: nothing follows that they could change.
func (w *pieceWork) remarkOnly(row *Row, bad []Span, talk bool, below *fabric, o outcome) bool {
	if o.rw.free || o.rw.leave || o.rw.deltaSet || o.made <= 0 || o.left > 0 {
		return false
	}
	if o.status == Agrees || len(bad) == 0 {
		return true // as it did where its words stand
	}
	if o.status == Unstated && !slices.ContainsFunc(bad, func(sp Span) bool { _, count := w.pr.pat.ownCounts[sp]; return !count }) {
		return below == nil || !below.free
	}
	if o.status != Unstated || below == nil || below.free || below.ring || o.rw.taken == 0 {
		return false
	}
	src, last := w.pr.pat.Source, row == lastOf(w.piece)
	for _, sp := range bad {
		words := src.Slice(sp)
		switch {
		case (talk || src.apart(sp)) && !holdsNumber(words):
		case !row.workBefore(sp.Start) || !src.breaks(sp) && !last:
			return false
		case asksForWork(words) && !last:
			return false
		}
	}
	return true
}

// lastOf is the last row of a piece.
func lastOf(p *Piece) *Row {
	if len(p.Rows) == 0 {
		return nil
	}
	return p.Rows[len(p.Rows)-1]
}

// workBefore reports whether all the work of a row is written before a place in
// the text.
func (r *Row) workBefore(at int) bool {
	for _, s := range r.Steps {
		if makesStitches(s) && s.Span.Start >= at {
			return false
		}
	}
	return true
}

// breaks reports whether words begin behind a mark or on a line of their own.
func (s *Source) breaks(sp Span) bool {
	before := strings.TrimRight(s.Slice(Span{max(0, sp.Start-8), sp.Start}), " \t\r\"'")
	if before == "" || strings.HasSuffix(before, "\n") {
		return true
	}
	return strings.ContainsRune(".!,;:)]-(", rune(before[len(before)-1])) || strings.HasSuffix(before, "\u2013") || strings.HasSuffix(before, "\u2014")
}

// workWords are words of stitches, places and ways to work.
const workWords = " sc dc hdc htr tr dtr ttr slst sl ss st sts stitch stitches ch chs chain chains inc incs dec decs increase increases increasing decrease decreases decreasing skip sk miss skipping missing rep repeat repeating times twice evenly each every tog together loop loops lp lps sp sps space spaces more less fewer shell shells cluster clusters picot fpdc bpdc rejoin reattach "

// asksForWork reports whether words may ask for stitches, rather than talk.
func asksForWork(s string) bool {
	if first, _, _ := strings.Cut(strings.ToLower(s), " "); first == "i" || first == "we" || first == "mine" || first == "my" {
		return false // the author tells of her own
	}
	for _, f := range strings.FieldsFunc(strings.ToLower(s), func(c rune) bool { return c < 'a' || c > 'z' }) {
		if strings.Contains(workWords, " "+f+" ") {
			return true
		}
	}
	return false
}

// apart reports whether words stand as a sentence of their own, or in brackets.
func (s *Source) apart(sp Span) bool {
	before := strings.TrimRight(s.Slice(Span{max(0, sp.Start-8), sp.Start}), " \t\r\n\"'")
	after := strings.TrimLeft(s.Slice(Span{sp.End, min(len(s.Text), sp.End+8)}), " \t\r\n\"'")
	opens := before == "" || strings.HasSuffix(before, ".") || strings.HasSuffix(before, "!") || strings.HasSuffix(before, "(") || strings.HasSuffix(before, "[")
	closes := after == "" || strings.HasPrefix(after, ".") || strings.HasPrefix(after, "!") || strings.HasPrefix(after, ")") || strings.HasPrefix(after, "]")
	return opens && closes
}

// listed reports whether words stand as one step among others: between two
// commas, or a comma and a bracket.
func (s *Source) listed(sp Span) bool {
	before := strings.TrimRight(s.Slice(Span{max(0, sp.Start-8), sp.Start}), " \t\r\n")
	after := strings.TrimLeft(s.Slice(Span{sp.End, min(len(s.Text), sp.End+8)}), " \t\r\n")
	if before == "" || after == "" {
		return false
	}
	opens, closes := before[len(before)-1], after[0]
	return strings.IndexByte(",;([*", opens) >= 0 && strings.IndexByte(",;)]*", closes) >= 0 && (opens == ',' || closes == ',')
}

// holdsNumber reports whether words hold a number that could be one of stitches.
func holdsNumber(s string) bool {
	if strings.ContainsAny(s, "0123456789") {
		return true
	}
	for _, f := range strings.Fields(strings.ToLower(s)) {
		if n := numberWords[strings.Trim(f, ".,;:()")]; n > 1 {
			return true
		}
	}
	return false
}

// ownTotal is the total that a row states in a unit of the author's own, in words that
// were not understood and without which it comes out; nil for none.
func (w *pieceWork) ownTotal(row *Row) *Total {
	for _, sp := range row.bad {
		if part, ok := w.pr.pat.ownCounts[sp]; ok {
			return &Total{Span: sp, Text: w.pr.pat.Source.Slice(sp), Parts: []TotalPart{part}}
		}
	}
	return nil
}

// lookPast says which words of a row were not understood and that it comes out
// without them.
func (w *pieceWork) lookPast(row *Row, bad []Span) {
	if w.markPast(row) {
		return
	}
	for _, sp := range bad {
		if part, count := w.pr.pat.ownCounts[sp]; count {
			w.pr.say(Note, CodeReading, sp, fmt.Sprintf("%q is taken for a count in a unit of the author's own, of which there are %d", oneLine(w.pr.pat.Source.Slice(sp)), part.N.N), "")
			continue
		}
		w.pr.say(Note, CodeReading, sp, fmt.Sprintf("%q is not understood; the row comes out without it", oneLine(w.pr.pat.Source.Slice(sp))), "")
	}
}

// markPast keeps that words of a row are looked past, and reports whether it was told of
// before.
func (w *pieceWork) markPast(row *Row) bool {
	if w.pr.past == nil {
		w.pr.past = make(map[*Row]bool)
	}
	w.pr.past[row] = true
	if w.told[row] {
		return true
	}
	if w.told == nil {
		w.told = make(map[*Row]bool)
	}
	w.told[row] = true
	return false
}

// suspects gives the words taken as a remark in a row that does not come out,
// where they could well be a step under a name of the author's own: "3 tr,
// corner, 3 tr". Then it is they that are not understood, and the row is not
// wrong.
func (w *pieceWork) suspects(row, label *Row, o outcome) []Span {
	if o.fatal == nil && o.status != Differs || label != row {
		return nil
	}
	var out []Span
	for _, sp := range row.remarks {
		if len(strings.Fields(w.pr.pat.Source.Slice(sp))) <= 2 && w.pr.pat.Source.listed(sp) {
			out = append(out, sp)
		}
	}
	return out
}
