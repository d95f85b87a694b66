package pattern

import (
	"slices"
	"strings"
)

// Labelled is a pattern with a label before each of its rows, "Rnd 2:", where its author
// tells them with none, one after the other in running sentences; any other is given as it
// is. Only on the author's own lines do such rows show where they end: whatever prints
// them anew, or hands them on, prints them labelled.
//
// The words stay as they are, but for those that only lead on to a row ("and then", "on
// the next round we"), and rows worked even, which are told once for all of them. The
// result proves the same; what would not is given unchanged.
func (p *Pattern) Labelled() *Pattern {
	if !p.told {
		return p
	}
	l := &labeller{p: p, smooth: smooth(p.Source.Text)}
	l.write()
	out := readAs(l.out.String(), p.terms())
	if out.told || !provesSame(p, out) {
		return p
	}
	return out
}

// provesSame reports whether two patterns come to the same in their first size, row by row.
func provesSame(a, b *Pattern) bool {
	x, y := a.prove(Options{}, -1), b.prove(Options{}, -1)
	return slices.EqualFunc(x.Pieces, y.Pieces, func(s, t *PieceProof) bool {
		i, k := 0, 0
		for i < len(s.Rows) && k < len(t.Rows) {
			r, q := s.Rows[i], t.Rows[k]
			if r.Made != q.Made || r.Status != q.Status || max(r.First, q.First) > min(r.Last, q.Last) {
				return false
			}
			if r.Last <= q.Last {
				i++
			}
			if q.Last <= r.Last {
				k++
			}
		}
		return i == len(s.Rows) && k == len(t.Rows)
	})
}

// labeller writes a pattern with its rows labelled.
type labeller struct {
	p      *Pattern
	smooth string
	out    strings.Builder
	at     int // how far the source is written
}

func (l *labeller) write() {
	pr := &prover{pat: l.p}
	for _, pc := range l.p.Pieces {
		numbers := make(map[*Row]item, len(pc.Rows))
		for _, it := range pr.sequence(pc) {
			if _, twice := numbers[it.row]; twice {
				it.to = 0 // "Rows 3, 5 and 7"
			}
			numbers[it.row] = it
		}
		for _, r := range pc.Rows {
			if r.whole().Start >= l.at {
				l.row(r, numbers[r])
			}
		}
	}
	l.copy(len(l.p.Source.Text))
}

// row writes a row on a line of its own, under its label.
func (l *labeller) row(r *Row, it item) {
	l.leadUp(r.whole().Start)
	if r.labelSpan.Start > l.at {
		l.copy(r.labelSpan.Start) // its foundation
		l.endLine()
	}
	label := ""
	if r.Refer != nil && stepsMake(r.Steps) {
		it.to = it.from // "sc across, do 3 rows like this": its own is the first
	}
	if it.from > 0 && it.to >= it.from {
		n := Numbering{First: Num{N: int64(it.from)}, Last: Num{N: int64(it.to)}}
		label = plainLabel(&Row{Numbers: n, Side: r.Side, Kind: r.Kind})
	} else {
		label = strings.TrimRight(strings.TrimSpace(r.Label), ":.-= ")
	}
	if label != "" {
		l.out.WriteString(label + ": ")
	}
	l.at = r.labelSpan.End
	if n := len(r.Steps); n > 0 && it.to > it.from && r.Steps[0].Op == OpEven && r.noLabel {
		l.out.WriteString("work even") // "then three plain rounds"
		l.at = r.Steps[0].Span.End
	} else {
		l.at = l.behindLead(r.labelSpan.End, r.Span.End)
	}
	end := r.Span.End
	for end > l.at && strings.IndexByte(" ,;\n", l.smooth[end-1]) >= 0 {
		end--
	}
	l.copy(end)
	l.at = r.Span.End
	l.endLine()
	if strings.HasPrefix(l.smooth[l.at:], "\n") {
		l.at++
	}
}

// leadUp writes what stands before a row, and ends its line. Words that only lead on are
// left out, and a sentence that breaks off there is shown to.
func (l *labeller) leadUp(to int) {
	words := false
	for _, t := range lex(l.smooth[l.at:to]) {
		words = words || t.kind != tEnd && t.kind != tPunct && !t.in(leadOn)
	}
	if !words {
		l.at = to
		return
	}
	gap := strings.TrimRight(l.p.Source.Text[l.at:to], " ,;")
	l.out.WriteString(gap)
	if !strings.HasSuffix(gap, "\n") && !strings.ContainsAny(gap[len(gap)-1:], ".:!?") {
		l.out.WriteString(" ...")
	}
	l.at = to
	l.endLine()
}

// leadOn are the words that only lead from one row to the next.
var leadOn = newWordSet("then now and so also finally lastly on in for the we i you work make crochet do put")

// behindLead is where the words of a row begin behind those that lead on to it.
func (l *labeller) behindLead(from, to int) int {
	toks := lex(l.smooth[from:to])
	i := 0
	for i+2 < len(toks) && (toks[i].isAny("then", "now", "and", "so", "finally", "lastly") || toks[i].isMark(",.;:-") || toks[i].is("ok")) {
		i++
	}
	if i+3 < len(toks) && toks[i].is("after") && toks[i+1].isAny("that", "this") {
		i += 2
		if toks[i].is(",") {
			i++
		}
	}
	return from + int(toks[i].start)
}

// copy writes the source up to an offset as it stands.
func (l *labeller) copy(to int) {
	if to > l.at {
		l.out.WriteString(l.p.Source.Text[l.at:to])
		l.at = to
	}
}

func (l *labeller) endLine() {
	if n := l.out.Len(); n > 0 && l.out.String()[n-1] != '\n' { // String copies nothing
		l.out.WriteByte('\n')
	}
}
