package sheet

import (
	"fmt"
	"regexp"
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"

	"crochet/tallyturn/pattern"
)

// piece takes a piece from its heading, or from its first row, to its end.
func (b *builder) piece(ps []pattern.Passage) int {
	pc := ps[0].Piece
	n := 0
	if ps[0].Kind == pattern.PiecePassage {
		head := capital(clean(pc.Name))
		if b.from == pieceTitle && len(b.p.Pieces) == 1 && pc.Copies == 1 {
			head = "Pattern" // its name is said at the top
		}
		if pc.Copies > 1 {
			head += fmt.Sprintf(" (make %d)", pc.Copies)
		}
		b.making = append(b.making, Block{Kind: Heading, Text: head, Sub: isShaping(head) && len(b.making) > 0})
		n++
	} else if len(b.making) == 0 {
		b.making = append(b.making, Block{Kind: Heading, Text: "Pattern"})
	}
	for ; n < len(ps); n++ {
		switch x := ps[n]; {
		case x.Kind == pattern.RowPassage && x.Piece == pc:
			b.row(x)
		case x.Kind == pattern.HeaderPassage && x.Is == pattern.HeaderNote && x.Label == "" && b.within(ps[n:], pc):
			b.making = append(b.making, Block{Kind: Para, Text: clean(b.p.Source.Slice(x.Span))})
		default:
			return n
		}
	}
	return n
}

// isShaping reports whether a heading opens a part of the piece above it rather
// than a piece of its own: "Shape armholes".
func isShaping(head string) bool {
	first, _, _ := strings.Cut(strings.ToLower(head), " ")
	return first == "shape" || first == "shaping" || first == "divide"
}

// within reports whether a note stands among a piece's own.
func (b *builder) within(ps []pattern.Passage, pc *pattern.Piece) bool {
	for i := range pc.Notes {
		if &pc.Notes[i] == ps[0].Header {
			return true
		}
	}
	return false
}

func (b *builder) row(x pattern.Passage) {
	src := b.p.Source
	r := Row{Before: b.lines(src.Slice(pattern.Span{Start: x.Span.Start, End: x.Named.Start}))}
	body := unslanted(src, x)
	if !x.Named.Empty() {
		label := src.Slice(x.Named)
		if strings.HasPrefix(label, "**") {
			body = strings.Replace(body, "**", "", 1) // a label in bold
		} else if strings.HasSuffix(src.Text[:x.Named.Start], "**") {
			body = strings.Replace(body, "**", "", 1)
			if n := len(r.Before); n > 0 {
				r.Before[n-1] = strings.TrimRight(strings.TrimSuffix(r.Before[n-1], "**"), " -*+")
				if r.Before[n-1] == "" {
					r.Before = r.Before[:n-1]
				}
			}
		}
		r.Label = unheaded(clean(label))
		b.joinHeading(&r, src.Text[:x.Named.Start])
	}
	body, cord := b.cutCord(body)
	r.Lines = b.lines(total(body))
	pi, ri := b.place(x)
	r.ID = fmt.Sprintf("%d-%d", pi+1, ri+1)
	r.Wrong = b.wrong(x)
	if n := len(b.making); n > 0 && b.making[n-1].Kind == Rows {
		b.making[n-1].Rows = append(b.making[n-1].Rows, r)
	} else {
		b.making = append(b.making, Block{Kind: Rows, Rows: []Row{r}})
	}
	b.making = append(b.making, cord...)
}

// unslanted is the words of a row behind its label, without the stars of Markdown's
// italics about a total, "*(64 sts)*": in other print they would mark a repeat.
func unslanted(src *pattern.Source, x pattern.Passage) string {
	words := func(from, to int) string { return src.Slice(pattern.Span{Start: from, End: to}) }
	from, to := x.Named.End, x.Span.End
	t := x.Row.Total
	if t == nil || t.Span.Start <= from || t.Span.End > to {
		return words(from, to)
	}
	star := t.Slanted(src)
	if star < from {
		return words(from, to)
	}
	return words(from, star) + words(star+1, t.Span.End) + strings.TrimPrefix(words(t.Span.End, to), "*")
}

// cutCord cuts from the words of a row what is made after it and has no rows, under
// a heading of its own.
func (b *builder) cutCord(body string) (row string, cord []Block) {
	if b.care.rows {
		return body, nil
	}
	parts := strings.Split(body, "\n\n")
	for i := 1; i < len(parts); i++ {
		head, rest, _ := strings.Cut(strings.TrimSpace(parts[i]), "\n")
		if head, rest = clean(head), clean(rest); rest != "" && isCord(head, rest) {
			cord = []Block{{Kind: Heading, Text: head}, {Kind: Para, Text: rest}}
			for _, p := range parts[i+1:] {
				cord = append(cord, Block{Kind: Para, Text: clean(p)})
			}
			return strings.Join(parts[:i], "\n\n"), cord
		}
	}
	return body, nil
}

// joinHeading puts a heading that a dash leads from to the label before the
// label again, "Shape armholes - Row 1:", "Shape Top-Rnd 7:": print that ends a
// line in a dash takes it for a word that is cut in two. What stands before the
// label ends text.
func (b *builder) joinHeading(r *Row, text string) {
	n := len(b.making) - 1
	if strings.HasSuffix(text, "\n") || len(r.Before) > 0 || n < 0 {
		return
	}
	between := text[len(strings.TrimRight(text, " ")):]
	switch k := &b.making[n]; k.Kind {
	case Para:
		if dashed(k.Text) {
			r.Label, b.making = k.Text+between+r.Label, b.making[:n]
		}
	case Rows: // the reader has left it behind the words of the row before
		last := &k.Rows[len(k.Rows)-1]
		if i := len(last.Lines) - 1; i > 0 && dashed(last.Lines[i]) {
			r.Label, last.Lines = last.Lines[i]+between+r.Label, last.Lines[:i]
		}
	}
}

// dashed reports whether a line ends in a dash that no other stands before.
func dashed(line string) bool {
	c, n := utf8.DecodeLastRuneInString(line)
	return strings.ContainsRune("-–—", c) && !strings.HasSuffix(line[:len(line)-n], "-")
}

// capital begins the name of a piece with a capital, as print does: only by that
// is a name known for one where a blank line stands below it, as it does in
// what is copied from a page.
func capital(name string) string {
	c, n := utf8.DecodeRuneInString(name)
	if n == 0 {
		return name
	}
	return string(unicode.ToUpper(c)) + name[n:]
}

// unheaded takes the marks of a heading or of bold off a label. A hash at a
// number, "#3", is the label's own.
func unheaded(label string) string {
	rest := strings.TrimLeft(label, "*_# ")
	if rest != "" && isDigit(rest[0]) && strings.HasSuffix(label[:len(label)-len(rest)], "#") {
		rest = "#" + rest
	}
	return strings.TrimRight(rest, "*_# ")
}

var (
	boldTotal   = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`\*\*([(\[][^*]*[)\]])(\*\*|\s*$)`) })
	columnTotal = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`(?:\t| {3,})(\d+(?: [a-z]+)?)(?: \([+-]\d+\))?\s*$`) })
)

// total writes a row's total as the trade does where its layout told it: in a
// column of its own, or in bold.
func total(body string) string {
	body = boldTotal().ReplaceAllString(body, "$1")
	if m := columnTotal().FindStringSubmatchIndex(body); m != nil && !strings.Contains(strings.TrimSpace(body), "\n") {
		return strings.TrimSpace(body[:m[0]]) + " (" + body[m[2]:m[3]] + ")"
	}
	return body
}

// place is where a row stands: its piece among the pieces, and itself among
// the rows that the author wrote for it.
func (b *builder) place(x pattern.Passage) (piece, row int) {
	for i, pc := range b.p.Pieces {
		if pc != x.Piece {
			continue
		}
		for k, r := range pc.Rows {
			if r == x.Row {
				return i, k
			}
		}
	}
	return 0, 0
}

// wrong says what is wrong with a row: the errors found in it.
func (b *builder) wrong(x pattern.Passage) string {
	var out []string
	for _, f := range b.proof.Findings {
		if f.Severity == pattern.Error && x.Span.Start <= f.Span.Start && f.Span.Start < x.Span.End {
			out = append(out, f.Message)
		}
	}
	return strings.Join(out, "; ")
}

// lines cuts words into lines where the author ends a sentence with one; what
// runs on is joined.
func (b *builder) lines(s string) []string {
	var out []string
	for l := range strings.SplitSeq(s, "\n") {
		l = strings.Trim(clean(l), " ")
		if strings.Trim(l, "-*_=~|#+ ") == "" && len(l) != 1 {
			continue
		}
		if !b.care.rows && furniture().MatchString(l) {
			continue
		}
		if n := len(out); n > 0 && !b.care.rows {
			if last := out[n-1]; !strings.ContainsAny(last[len(last)-1:], ".)]}!:;") || !('A' <= l[0] && l[0] <= 'Z') {
				out[n-1] += " " + l
				continue
			}
		}
		if l != "" {
			out = append(out, l)
		}
	}
	return out
}

// assembly is making up as steps: the author's own where she lists them, and
// her sentences where she does not.
func (b *builder) assembly(ps []pattern.Passage) []string {
	var texts []line
	listed := false
	for _, x := range ps {
		whole := b.p.Source.Line(lineOf(b.p.Source, x.Span.Start))
		item := startsItem(whole)
		listed = listed || item
		texts = append(texts, line{unlist(clean(b.p.Source.Slice(x.Span))), item || x.Apart})
	}
	var out []string
	for _, l := range texts {
		if n := len(out); n > 0 && !l.apart {
			out[n-1] += " " + l.text
			continue
		}
		out = append(out, l.text)
	}
	if listed || b.care.words {
		return out
	}
	var steps []string
	for _, s := range out {
		steps = append(steps, sentences(s)...)
	}
	return steps
}

func lineOf(s *pattern.Source, offset int) int {
	n, _ := s.Position(offset)
	return n
}

// startsItem reports whether a line is an item of a list.
func startsItem(s string) bool { return unlist(clean(s)) != clean(s) }

// unlist takes the bullet or number off an item.
func unlist(s string) string {
	for _, mark := range []string{"- ", "* ", "+ ", "• "} {
		if rest, ok := strings.CutPrefix(s, mark); ok {
			return rest
		}
	}
	digits := len(s) - len(strings.TrimLeft(s, "0123456789"))
	if digits > 0 && digits < 3 {
		for _, mark := range []string{". ", ") "} {
			if rest, ok := strings.CutPrefix(s[digits:], mark); ok {
				return rest
			}
		}
	}
	return s
}

// sentences cuts a paragraph after each full stop that ends a sentence.
func sentences(s string) []string {
	var out []string
	start := 0
	for i := 0; i+2 < len(s); i++ {
		if (s[i] == '.' || s[i] == '!') && s[i+1] == ' ' && 'A' <= s[i+2] && s[i+2] <= 'Z' && i-start > 3 {
			out = append(out, s[start:i+1])
			start = i + 2
		}
	}
	return append(out, s[start:])
}
