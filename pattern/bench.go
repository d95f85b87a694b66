package pattern

import "sync"

// bench is what a text is read on: the words of it, and of the row in hand.
// Nothing of it is left in what was read, so that it serves the next text too.
type bench struct {
	toks []token   // of the whole text
	row  []token   // of the row being read, and the end
	hand rowReader // reads them
}

var benches = sync.Pool{New: func() any { return new(bench) }}

func newBench() *bench { return benches.Get().(*bench) }

// maxBench is how many words a bench may have had room for to be used again.
const maxBench = 1 << 18

// clear puts the bench back, with nothing on it that would keep a text alive.
func (b *bench) clear() {
	if cap(b.toks) > maxBench || cap(b.row) > maxBench {
		return
	}
	clear(b.toks)
	clear(b.row[:cap(b.row)])
	marks, closed := b.hand.marks[:0], b.hand.closed
	clear(closed[:cap(closed)])
	b.toks, b.row, b.hand = b.toks[:0], b.row[:0], rowReader{marks: marks, closed: closed[:0]}
	benches.Put(b)
}

// lex cuts a text into its words.
func (b *bench) lex(smoothed string) []token {
	b.toks = lexInto(b.toks, smoothed)
	return b.toks
}

// rowReaderFor reads tokens gathered for a row. The words are copied to a place
// that every row is read in; the row read before is done with it.
func (r *reader) rowReaderFor(toks []token, row *Row) *rowReader {
	end := token{kind: tEnd, head: true}
	if n := len(toks); n > 0 {
		end.start, end.end = toks[n-1].end, toks[n-1].end
	}
	if r.bench == nil {
		r.bench = new(bench)
	}
	b := r.bench
	b.row = append(append(b.row[:0], toks...), end)
	b.hand = rowReader{src: r.src, ts: b.row, lex: r.lex, other: r.other, pat: r.pat, names: r.names, row: row,
		marks: b.hand.marks[:0], closed: b.hand.closed[:0]}
	return &b.hand
}
