package pattern

import "strings"

// sizesOnly reads words that say for which sizes the work behind them is:
// "Sizes M and L only", "For size S only:", "2nd and 3rd sizes only". It gives
// which those are and the token after the words.
//
//	sizesOnly = [ "for" ] [ "size" | "sizes" ] size { ( "," | "and" | "(" ) size } [ "sizes" ] [ "only" ] [ ":" | "," | "-" ] .
func (r *reader) sizesOnly(i, end int) (only []bool, after int, ok bool) {
	n := len(r.pat.Sizes)
	if n < 2 || end-i < 2 {
		return nil, 0, false
	}
	k := i
	at := func() *token { return &r.toks[min(k, len(r.toks)-1)] }
	lead := at().is("for")
	if lead {
		k++
	}
	if at().is("the") {
		k++
	}
	named := at().isAny("size", "sizes")
	if named {
		k++
	}
	mask := make([]bool, n)
	any := false
	for k < end {
		s, w := r.sizeAt(k, end)
		if w == 0 {
			break
		}
		for _, v := range s {
			mask[v], any = true, true
		}
		k += w
		for k < end && (at().isMark(",/&()") || at().isAny("and", "&")) {
			k++
		}
	}
	for k > i && r.toks[k-1].is(",") {
		k--
	}
	if at().isAny("size", "sizes") {
		named = true
		k++
	}
	said := at().isAny("only")
	if said {
		k++
	}
	if !any || !said && !(lead && named) {
		return nil, 0, false
	}
	if !said && !(k >= end || at().isMark(":,-")) {
		return nil, 0, false
	}
	if at().isMark(")]") {
		k++
	}
	for k < end && at().isMark(":,-.;") {
		k++
	}
	return mask, k, true
}

// allSizes reports a line that ends what is for some sizes only.
func (r *reader) allSizes(i, end int) (after int, ok bool) {
	x := r.scratch(i)
	x.accept("for")
	if !x.phrase("all|both", "[the]", "sizes") || x.p > end {
		return 0, false
	}
	for x.p < end && x.peek().isMark(":,-.;") {
		x.p++
	}
	return x.p, true
}

// sizeAt reads the name of a size at token k, by its name, its number in the
// list, or where it stands in it: "largest", "2 largest".
func (r *reader) sizeAt(k, end int) ([]int, int) {
	n := len(r.pat.Sizes)
	t := &r.toks[k]
	some := func(m int, largest bool) (out []int) {
		m = min(m, n)
		from := 0
		if largest {
			from = n - m
		}
		for v := range m {
			out = append(out, from+v)
		}
		return out
	}
	// names first: "8" may be a size
	for w := min(5, end-k); w > 0; w-- {
		text := sizeKey(r.text(k, k+w))
		for v, name := range r.pat.Sizes {
			if key := sizeKey(name); text != "" && (text == key || sizeLetter(text) != "" && sizeLetter(text) == sizeLetter(key)) {
				return []int{v}, w
			}
		}
	}
	next := &r.toks[min(k+1, len(r.toks)-1)]
	switch {
	case t.kind == tOrd && t.num >= 1 && int(t.num) <= n:
		return []int{int(t.num) - 1}, 1
	case t.isAny("largest", "biggest", "larger", "last", "smallest", "smaller", "first"):
		m, words := 1, 1
		switch {
		case next.kind == tNum:
			m, words = int(next.num), 2
		case t.isAny("larger", "smaller"):
			m = n - 1
		}
		return some(m, t.isAny("largest", "biggest", "larger", "last")), words
	case t.kind == tNum && next.isAny("largest", "larger", "biggest", "smallest", "smaller"):
		return some(int(t.num), !next.isAny("smallest", "smaller")), 2
	}
	return nil, 0
}

// sizeKey is the name of a size without what only says that it is one.
func sizeKey(s string) string {
	var b strings.Builder
	for _, c := range strings.ToLower(s) {
		if 'a' <= c && c <= 'z' || '0' <= c && c <= '9' {
			b.WriteRune(c)
		} else {
			b.WriteByte(' ')
		}
	}
	var out []string
	for _, w := range strings.Fields(b.String()) {
		switch w {
		case "size", "sizes", "months", "month", "mos", "mo", "m0", "years", "year", "yrs", "yr", "cm", "in", "inches", "chest", "bust", "to", "fit":
		default:
			out = append(out, w)
		}
	}
	return strings.Join(out, "")
}

// sizeLetter is the letters that a size goes by, "l" for "large".
func sizeLetter(key string) string {
	switch key {
	case "xs", "extrasmall", "xsmall":
		return "xs"
	case "s", "small", "sm":
		return "s"
	case "m", "medium", "med":
		return "m"
	case "l", "large", "lg":
		return "l"
	case "xl", "extralarge", "xlarge":
		return "xl"
	case "xxl", "2xl", "2x":
		return "2xl"
	case "xxxl", "3xl", "3x":
		return "3xl"
	}
	return ""
}

// forSize reports whether a row is worked in a size, counted from 0.
func (r *Row) forSize(size int) bool {
	return len(r.only) == 0 || r.only[min(max(size, 0), len(r.only)-1)]
}

// sizesWorking is how many sizes work a row that is for some of them only; 0 where
// all do.
func (r *Row) sizesWorking() int {
	n := 0
	for _, worked := range r.only {
		if worked {
			n++
		}
	}
	return n
}

// sizedLine takes a line, or what is left of one, that is for some sizes only.
func (r *reader) sizedLine(from, to int) bool {
	if after, ok := r.allSizes(from, to); ok && r.only != nil {
		r.closeRow()
		r.flushSetup(false)
		r.only = nil
		r.pat.onlyWords = append(r.pat.onlyWords, Span{int(r.toks[from].start), int(r.toks[after-1].end)})
		if after < to {
			r.lineFrom(after, to)
		}
		return true
	}
	only, after, ok := r.sizesOnly(from, to)
	if !ok {
		return false
	}
	r.closeRow()
	r.flushSetup(false)
	r.pat.onlyWords = append(r.pat.onlyWords, Span{int(r.toks[from].start), int(r.toks[after-1].end)})
	if after >= to {
		r.only = only
		return true
	}
	x := r.scratch(after)
	if x.phrase("skip|sk|miss|go|proceed|continue", "[ahead|on|directly|straight]", "[to]", "row|rnd|round") && x.peek().kind == tNum {
		n := x.peek().num
		r.pat.onlyWords = append(r.pat.onlyWords, Span{int(r.toks[from].start), int(r.toks[to-1].end)})
		r.skips = &skipTo{sizes: only, row: n}
		return true
	}
	was := r.only
	r.only = only
	if l, ok := r.labelAt(after); ok && l.end <= to && r.isLabel(l, after) {
		r.startRow(l, after, to)
	} else {
		r.rowForSizes(after, to)
	}
	r.only = was
	return true
}

// rowForSizes makes a row of words without a label that only some sizes work.
func (r *reader) rowForSizes(from, to int) {
	p := r.currentPiece(from)
	d := &rowDraft{piece: p, unlabelled: true, row: &Row{noLabel: true, only: r.only}}
	d.row.Numbers.Count = Num{N: 1}
	if n := len(p.Rows); n > 0 {
		d.row.Kind = p.Rows[n-1].Kind
	}
	d.row.Span = Span{int(r.toks[from].start), int(r.toks[to-1].end)}
	d.row.labelSpan = Span{d.row.Span.Start, d.row.Span.Start}
	d.body = r.toks[from:to:to]
	r.rows++
	p.Rows = append(p.Rows, d.row)
	r.drafts = append(r.drafts, d)
}

// skipTo is "for size S, skip to Row 9": the rows up to it are for the others.
type skipTo struct {
	sizes []bool
	row   int64
}

// lineFrom takes the rest of a line: a row with its label, or words.
func (r *reader) lineFrom(from, to int) {
	if l, ok := r.labelAt(from); ok && l.end <= to && r.isLabel(l, from) {
		r.startRow(l, from, to)
		return
	}
	r.words(from, to)
}

// onlyFor says for which sizes a row is that begins now under a label.
func (r *reader) onlyFor(l *label, start int) []bool {
	for k := start; k+2 < l.end; k++ {
		if r.toks[k].isMark("([") {
			if only, _, ok := r.sizesOnly(k+1, l.end); ok {
				return only
			}
		}
	}
	if s := r.skips; s != nil && l.numbers.First.N > 0 {
		if l.numbers.First.N >= s.row {
			r.skips = nil
			return r.only
		}
		out := make([]bool, len(s.sizes))
		for i := range out {
			out[i] = !s.sizes[i] && (r.only == nil || r.only[i])
		}
		return out
	}
	return r.only
}

// sizedWords reports whether a sentence that begins at token i of a line is
// for some sizes only, or for all again.
func (r *reader) sizedWords(i, to int) bool {
	if len(r.pat.Sizes) < 2 || !r.toks[i-1].isMark(".)]") || !r.capital(i) {
		return false
	}
	if _, _, ok := r.sizesOnly(i, to); ok {
		return true
	}
	_, ok := r.allSizes(i, to)
	return ok && r.only != nil
}

// allSizesSaid reports whether the pattern says "All sizes" where rows are for
// all again. Where it does not, what is for one size ends with its paragraph.
func (r *reader) allSizesSaid() bool {
	for i := 0; i+1 < len(r.toks); i++ {
		if r.toks[i].is("all") && r.toks[i+1].is("sizes") && (r.toks[i].head || r.toks[max(i-1, 0)].isMark(".)")) {
			return true
		}
	}
	return false
}
