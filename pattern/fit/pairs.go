package fit

import (
	"slices"
	"strings"

	"crochet/tallyturn/pattern"
)

// A label of two rows may say "Rows 4 and 5". To be made longer it has to say
// "Rows 4-9". So pairs are spelled as ranges before a pattern is made higher,
// and those that stayed two rows as they were afterwards.

// pair is a label that says "Rows 4 and 5".
type pair struct {
	piece, row int
	between    string // its words between the numbers: " and "
}

// asRange is how a range is spelled.
const asRange = "-"

// pairsAsRanges spells pairs as ranges; the proof as it was where there are
// none, or where it would not read the same.
func pairsAsRanges(proof *pattern.Proof) (*pattern.Proof, []pair) {
	var all []pair
	var spans []pattern.Span
	src := proof.Pattern.Source
	for i, pc := range proof.Pattern.Pieces {
		for k, row := range pc.Rows {
			n := row.Numbers
			sp, ok := betweenNumbers(n)
			if !ok || n.Last.At(0) != n.First.At(0)+1 || n.Every > 0 || len(n.List) > 0 || len(n.First.Sizes)+len(n.Last.Sizes) > 0 {
				continue
			}
			words := src.Slice(sp)
			if w := strings.ToLower(strings.TrimSpace(words)); (w == "and" || w == "&") && afterPlural(src.Text[:n.First.Span.Start]) {
				all, spans = append(all, pair{i, k, words}), append(spans, sp)
			}
		}
	}
	if len(all) == 0 {
		return proof, nil
	}
	text := src.Text
	for _, sp := range slices.Backward(spans) {
		text = text[:sp.Start] + asRange + text[sp.End:]
	}
	now := pattern.Read(text).Prove(pattern.Options{Terms: proof.Terms})
	if same(proof, now) != nil || len(now.Pattern.Pieces) != len(proof.Pattern.Pieces) {
		return proof, nil
	}
	for _, p := range all {
		a, b := proof.Pattern.Pieces[p.piece].Rows, now.Pattern.Pieces[p.piece].Rows
		if len(a) != len(b) || a[p.row].Numbers.Last.At(0) != b[p.row].Numbers.Last.At(0) {
			return proof, nil
		}
	}
	return now, all
}

// afterPlural reports whether a text ends in "Rows" or "Rnds", as a range needs:
// of "4th and 5th row" none is made.
func afterPlural(text string) bool {
	text = strings.ToLower(strings.TrimRight(text, " ."))
	for _, word := range []string{"rows", "rnds", "rounds", "rds"} {
		if strings.HasSuffix(text, word) {
			return true
		}
	}
	return false
}

// betweenNumbers is what stands between the numbers of a label.
func betweenNumbers(n pattern.Numbering) (pattern.Span, bool) {
	sp := pattern.Span{Start: n.First.Span.End, End: n.Last.Span.Start}
	return sp, !n.First.Span.Empty() && !n.Last.Span.Empty() && sp.Start < sp.End
}

// asPairs spells what stayed two rows, in every size, as it was.
func asPairs(text string, all []pair) string {
	if len(all) == 0 {
		return text
	}
	p := pattern.Read(text)
	for _, x := range slices.Backward(all) { // from the end, so that what is before stays where it is
		if x.piece >= len(p.Pieces) || x.row >= len(p.Pieces[x.piece].Rows) {
			continue
		}
		n := p.Pieces[x.piece].Rows[x.row].Numbers
		sp, ok := betweenNumbers(n)
		for size := range max(len(p.Sizes), 1) {
			ok = ok && n.Last.At(size) == n.First.At(size)+1
		}
		if ok && text[sp.Start:sp.End] == asRange {
			text = text[:sp.Start] + x.between + text[sp.End:]
		}
	}
	return text
}
