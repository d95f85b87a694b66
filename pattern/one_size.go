package pattern

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
)

// OneSize is the text of a pattern for one of its sizes, counted from 0: of
// "29 (33, 37)" one number is left, and the line that names the sizes is gone.
func (p *Pattern) OneSize(size int) string {
	if len(p.Sizes) < 2 {
		return p.Source.Text
	}
	one := oneSize{p: p, size: size, out: make(Changes)}
	for _, s := range p.Specials {
		one.steps(s.Body, 0)
	}
	for _, pc := range p.Pieces {
		for _, r := range pc.Rows {
			one.row(r)
		}
		for _, h := range pc.Notes {
			one.words(h.Span)
		}
	}
	for _, h := range p.Headers {
		one.words(h.Span)
	}
	for _, h := range p.Assembly {
		one.words(h.Span)
	}
	cut := p.notFor(size)
	for sp := range one.out {
		for _, c := range cut {
			if c.Contains(sp) {
				delete(one.out, sp)
			}
		}
	}
	text := (&Source{Text: blotted(p.Source.Text, cut)}).Write(one.out)
	for _, h := range p.Headers {
		if h.Kind == HeaderSize && namesAll(h.Text, p.Sizes) {
			first, last := p.Source.lineAt(h.Span.Start), p.Source.lineAt(max(h.Span.Start, h.Span.End-1))
			text = withoutLines(text, first, last)
			break
		}
	}
	if len(cut) == 0 {
		return text
	}
	return unblotted(text)
}

// notFor is what does not stand in the text of a size: rows of other sizes, and
// words that only say for which sizes something is.
func (p *Pattern) notFor(size int) []Span {
	out := slices.Clone(p.onlyWords)
	for _, pc := range p.Pieces {
		for _, r := range pc.Rows {
			if !r.forSize(size) {
				out = append(out, r.Span)
			}
		}
	}
	return out
}

// blot stands for each byte that is taken out of a text, so that what is told
// of the rest by where it stands still holds.
const blot = '\x01'

func blotted(text string, cut []Span) string {
	if len(cut) == 0 {
		return text
	}
	b := []byte(text)
	for _, sp := range cut {
		for i := sp.Start; i < min(sp.End, len(b)); i++ {
			if b[i] != '\n' {
				b[i] = blot
			}
		}
	}
	return string(b)
}

// unblotted takes out what was blotted, and lines of which nothing is left.
func unblotted(text string) string {
	if strings.IndexByte(text, blot) < 0 {
		return text
	}
	var out []string
	for _, l := range strings.SplitAfter(text, "\n") {
		if i := strings.IndexByte(l, blot); i >= 0 {
			rest := strings.TrimLeft(strings.ReplaceAll(l[i:], string(blot), ""), " ")
			l = l[:i] + rest
			if strings.TrimSpace(l) == "" {
				continue
			}
		}
		out = append(out, l)
	}
	return strings.Join(out, "")
}

// oneSize gathers the numbers that remain.
type oneSize struct {
	p    *Pattern
	size int
	out  Changes
}

func (o *oneSize) num(n Num) {
	if len(n.Sizes) > 0 && !n.Span.Empty() {
		o.out[n.Span] = n.At(o.size)
	}
}

func (o *oneSize) row(r *Row) {
	for _, n := range []Num{r.Numbers.First, r.Numbers.Last, r.Numbers.Count, r.changes.delta, r.until} {
		o.num(n)
	}
	o.steps(r.Setup, 0)
	o.steps(r.Steps, 0)
	if r.Total != nil {
		for _, part := range r.Total.Parts {
			o.num(part.N)
		}
	}
	for ref := r.Refer; ref != nil; ref = ref.Then {
		for _, n := range []Num{ref.Times, ref.Rows, ref.Until, ref.UntilSts} {
			o.num(n)
		}
		if ref.Sizes[0] != nil {
			o.words(ref.Span)
		}
	}
}

func (o *oneSize) steps(steps []*Step, depth int) {
	if depth > maxDepth {
		return
	}
	for _, s := range steps {
		for _, n := range []Num{s.N, s.Target.N, s.Target.Bound.N, s.Target.told, s.Times.N, s.Times.Bound.N} {
			o.num(n)
		}
		if s.Op == OpDelta || s.Op == OpFree {
			o.words(s.Span)
		}
		if ref := s.Target.Row; ref != nil {
			o.num(ref.Skip)
			if ref.Sizes != nil {
				o.words(ref.Span)
			}
		}
		o.steps(s.Body, depth+1)
		if s.ending != nil {
			o.steps(s.ending.Body, depth+1)
		}
	}
}

// sizedNumber is a number for each size in words that are not read as steps.
var sizedNumber = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`\d+(?:\.\d+)?(?:st|nd|rd|th)? ?[(\[{]\d[\d., ;:/-]*[)\]}]`)
})

var oneNumber = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`\d+(?:\.\d+)?`)
})

// words finds numbers for each size in a stretch of the text. Numbers with a
// decimal part are left alone.
func (o *oneSize) words(sp Span) {
	text := o.p.Source.Slice(sp)
	for _, at := range sizedNumber().FindAllStringIndex(text, -1) {
		all := oneNumber().FindAllString(text[at[0]:at[1]], -1)
		if len(all) != len(o.p.Sizes) {
			continue
		}
		n, err := strconv.ParseInt(all[o.size], 10, 64)
		if err == nil {
			o.out[Span{sp.Start + at[0], sp.Start + at[1]}] = n
		}
	}
}

// namesAll reports whether every name stands in a text, in any order and case.
func namesAll(text string, names []string) bool {
	text = strings.ToLower(text)
	at := 0 // of the name before: the next one mostly stands behind it
	for _, n := range names {
		n = strings.ToLower(n)
		if i := strings.Index(text[at:], n); i >= 0 {
			at += i
		} else if at = strings.Index(text, n); at < 0 {
			return false
		}
	}
	return true
}

// withoutLines leaves out lines, counted from 1, and a blank one that would
// stand double.
func withoutLines(text string, first, last int) string {
	lines := strings.SplitAfter(text, "\n")
	last = min(last, len(lines))
	before, after := lines[:first-1], lines[last:]
	if len(after) > 0 && strings.TrimSpace(after[0]) == "" && (len(before) == 0 || strings.TrimSpace(before[len(before)-1]) == "") {
		after = after[1:]
	}
	return strings.Join(before, "") + strings.Join(after, "")
}
