package pattern

import (
	"sort"
	"strings"
)

// PassageKind says what a stretch of the source was taken for.
type PassageKind uint8

// What a passage can be.
const (
	PlainPassage   PassageKind = iota // words that are none of the others
	TitlePassage                      // the title
	SectionPassage                    // a heading that names no piece: "Notes"
	HeaderPassage                     // a line or paragraph outside the rows
	PiecePassage                      // the heading of a piece
	RowPassage                        // a row, with what stands before its label
	PagePassage                       // what the page says behind the pattern
)

// Passage is a stretch of the source, and what it was taken for.
type Passage struct {
	Kind   PassageKind
	Span   Span
	Label  string     // words before it on its line: "Yarn:"
	Apart  bool       // a blank line stands before it
	Is     HeaderKind // SectionPassage, HeaderPassage
	Header *Header    // HeaderPassage
	Piece  *Piece     // PiecePassage; RowPassage: the piece that the row belongs to
	Row    *Row       // RowPassage
	Named  Span       // RowPassage: the row's label; what stands before it is its foundation
}

// Passages goes through the source from its beginning to its end. Every word
// of it is in one passage or in its label; lines of marks alone are left out.
func (p *Pattern) Passages() []Passage {
	var claims []Passage
	take := func(h *Header) {
		claims = append(claims, Passage{Kind: HeaderPassage, Span: h.Span, Is: h.Kind, Header: h})
	}
	for i := range p.Headers {
		take(&p.Headers[i])
	}
	for i := range p.Assembly {
		take(&p.Assembly[i])
	}
	for _, pc := range p.Pieces {
		if !pc.Span.Empty() {
			claims = append(claims, Passage{Kind: PiecePassage, Span: pc.Span, Piece: pc})
		}
		for i := range pc.Notes {
			take(&pc.Notes[i])
		}
		for _, r := range pc.Rows {
			claims = append(claims, Passage{Kind: RowPassage, Span: r.whole(), Piece: pc, Row: r, Named: r.labelSpan})
		}
	}
	sort.SliceStable(claims, func(i, j int) bool { return claims[i].Span.Start < claims[j].Span.Start })
	w := &passages{p: p, smooth: smooth(p.Source.Text)}
	for _, c := range claims {
		if c.Span.End <= w.at {
			continue
		}
		c.Span.Start = max(c.Span.Start, w.at)
		c.Label = w.gap(c.Span.Start)
		c.Apart, w.blank = w.blank, false
		w.out = append(w.out, c)
		w.at = c.Span.End
	}
	w.gap(len(p.Source.Text))
	return w.out
}

type passages struct {
	p      *Pattern
	smooth string
	out    []Passage
	at     int
	blank  bool
	titled bool
}

// gap takes what stands before the next passage, up to an offset: whole lines
// are passages of their own, and what is left on its line is its label.
func (w *passages) gap(to int) string {
	whole := w.at == 0
	for from := w.at; from < to || from == to && from < len(w.smooth); {
		end := strings.IndexByte(w.smooth[from:to], '\n')
		if end < 0 && to < len(w.smooth) {
			if hasWord(w.smooth[from:to]) {
				return strings.TrimSpace(tidy(w.p.Source.Text[from:to]))
			}
			return ""
		}
		if end < 0 {
			end = to - from
		}
		line := Span{from, from + end}
		switch {
		case hasWord(w.smooth[line.Start:line.End]):
			w.line(line)
		case whole && strings.TrimSpace(w.smooth[line.Start:line.End]) == "":
			w.blank = true
		}
		whole = true
		from += end + 1
	}
	return ""
}

// line takes a line that is part of nothing else.
func (w *passages) line(sp Span) {
	text := w.p.Source.Slice(sp)
	lead := len(text) - len(strings.TrimLeft(text, " \t\r*_#>"))
	sp = Span{sp.Start + lead, sp.Start + lead + len(strings.TrimRight(text[lead:], " \t\r*_:#"))}
	c := Passage{Kind: PlainPassage, Span: sp, Apart: w.blank}
	w.blank = false
	name := oneLine(w.p.Source.Slice(sp))
	if page := w.p.Page; !page.Empty() && sp.Start >= page.Start {
		c.Kind = PagePassage
	} else if sec, ok := sectionNames[strings.ToLower(name)]; ok {
		c.Kind, c.Is = SectionPassage, sectionKinds[sec]
	} else if !w.titled && len(w.out) < 2 && w.p.Title != "" && strings.HasSuffix(name, w.p.Title) {
		c.Kind, w.titled = TitlePassage, true
	}
	w.out = append(w.out, c)
}
