package pattern

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"
)

// checkClaims holds what the pattern says of itself against what it comes to.
func (pr *prover) checkClaims() {
	broken, miscounted := make(map[*Row]bool), make(map[*Piece]bool)
	for i := range pr.pat.claims {
		c := &pr.pat.claims[i]
		switch c.kind {
		case claimRows, claimSoFar:
			if pr.rowsClaimed(c) {
				broken[c.row], miscounted[c.piece] = true, true
			}
		case claimCopies:
			pr.copiesClaimed(c)
		case claimLeft:
			pr.leftClaimed(c)
		case claimMeshes:
			pr.meshesClaimed(c)
		case claimSum:
			pr.sumClaimed(c)
		case claimPairs:
			pr.pairsClaimed(c)
		case claimLast:
			if pr.lastClaimed(c) {
				broken[c.row] = true
			}
		case claimEnds:
			pr.alongClaimed(c)
		case claimEndOf:
			pr.endOfClaimed(c)
		}
	}
	pr.endsClaimed(miscounted)
	pr.sharesClaimed()
	pr.namedClaimed()
	pr.changesClaimed()
	for i, p := range pr.pat.Pieces {
		for _, row := range p.Rows {
			pr.loopsHeld(row)
		}
		pr.follow(p, broken)
		if i > 0 {
			pr.goesOn(pr.pat.Pieces[i-1], p, broken)
		}
	}
}

// rowsClaimed compares a number of rows with those that the row's label stands
// for, or with those of the piece so far. It reports a difference.
func (pr *prover) rowsClaimed(c *claim) bool {
	w := pr.workOf(c.piece)
	if w == nil {
		return false
	}
	own, sofar, last := 0, 0, 0
	line := pr.pat.Source.lineAt(c.row.Span.Start)
	for _, rp := range w.proof.Rows {
		if rp.Line == line && (rp.Label == c.row.Label || c.row.Label == "") { // of a line with several rows, those of this one
			own += rp.Count()
			sofar, last = rp.Index+rp.Count(), rp.Last
		}
	}
	n := int(c.n.At(pr.size))
	if c.row.Span.End <= c.span.Start && goesOnUntil(pr.pat.Source.Text[c.row.Span.End:c.span.Start]) {
		return false // "repeat them until there are 24 scallops, that is 97 rows"
	}
	if own == 0 || own > maxWorked || n == own || n == sofar || n == last || n == last+1 && w.proof.Rows[0].First == 0 {
		return false
	}
	label := c.row.Label
	if label == "" {
		label = "they"
	}
	rows := "rows"
	if c.row.Kind == Round {
		rows = "rounds"
	}
	msg := fmt.Sprintf("the pattern says %d %s here, and %s %s %d", n, rows, label, isAre(own), own)
	hint := fmt.Sprintf("%d %s, or a label that ends with %d", own, rows, last-own+n)
	if c.kind == claimSoFar {
		msg = fmt.Sprintf("the pattern says %d %s here, and %d are worked so far", n, rows, sofar)
		hint = fmt.Sprintf("change \"%s\" to \"%d %s\", or look for a number of rows that is wrong before it", oneLine(pr.pat.Source.Slice(c.span)), sofar, rows)
	}
	pr.say(Error, CodeRange, c.span, msg, hint)
	return true
}

func isAre(n int) string {
	if n == 1 {
		return "is"
	}
	return "are"
}

// workOf is how a piece was worked.
func (pr *prover) workOf(p *Piece) *pieceWork {
	for _, w := range pr.pieces {
		if w.piece == p {
			return w
		}
	}
	return nil
}

// follow holds the numbers of the rows of a piece against each other: each
// label goes on where the one before it ends. Broken are rows that were found
// wrong by another number already.
func (pr *prover) follow(p *Piece, broken map[*Row]bool) {
	for i := 1; i < len(p.Rows); i++ {
		a, b := p.Rows[i-1], p.Rows[i]
		if !countsOn(a) || !countsOn(b) || broken[a] {
			continue
		}
		end, from := int(a.Numbers.Last.At(pr.size)), int(b.Numbers.First.At(pr.size))
		begin, to := int(a.Numbers.First.At(pr.size)), int(b.Numbers.Last.At(pr.size))
		switch {
		case from == end+1 || from < begin || from == begin:
			continue // it goes on, or begins again
		case from > end+1 && pr.between(a, b, end+1, from-1, i, p):
			continue
		}
		// which of the two is wrong shows in the labels around them
		wrong, lapse := a, lapseOf(b, end, from)
		hint := fmt.Sprintf("%s would end with %d, if none is missing", a.Label, from-1)
		after := i+1 < len(p.Rows) && countsOn(p.Rows[i+1]) && int(p.Rows[i+1].Numbers.First.At(pr.size)) == to+1
		uneven := evenSteps(a.Numbers.Last) && !evenSteps(b.Numbers.First) // in the sizes
		if begin == end || uneven || from == to && len(b.Numbers.First.Sizes) == 0 && i+1 < len(p.Rows) && !after {
			if begin == end && after && i > 1 && countsOn(p.Rows[i-2]) && int(p.Rows[i-2].Numbers.Last.At(pr.size)) != begin-1 {
				continue // the row before was told already
			}
			wrong = b
			hint = fmt.Sprintf("%s would begin with %d, if none is missing", b.Label, end+1)
		}
		pr.say(Error, CodeRange, wrong.labelSpan, fmt.Sprintf("%s comes after %s: %s", b.Label, a.Label, lapse), hint)
		broken[b] = broken[b] || wrong == b
	}
}

// goesOn compares the numbers of two pieces of which the second goes on with
// the rows of the first: it begins with a number past those that the last label
// of the first began with, and not past their end.
func (pr *prover) goesOn(p, q *Piece, broken map[*Row]bool) {
	if len(p.Rows) == 0 || len(q.Rows) == 0 {
		return
	}
	a, b := p.Rows[len(p.Rows)-1], q.Rows[0]
	if !countsOn(a) || !countsOn(b) || broken[a] {
		return
	}
	begin, end, from := int(a.Numbers.First.At(pr.size)), int(a.Numbers.Last.At(pr.size)), int(b.Numbers.First.At(pr.size))
	if from <= begin || from > end {
		return
	}
	pr.say(Error, CodeRange, a.labelSpan, fmt.Sprintf("%s comes after %s: %s", b.Label, a.Label, lapseOf(b, end, from)),
		fmt.Sprintf("%s would end with %d, if none is missing", a.Label, from-1))
}

// lapseOf says what is amiss between a row that ends with a number and the one
// after it.
func lapseOf(b *Row, end, from int) string {
	name := "Row"
	if b.Kind == Round {
		name = "Round"
	}
	switch {
	case from <= end:
		return fmt.Sprintf("%s %d comes twice", name, from)
	case from > end+2:
		return fmt.Sprintf("%ss %d-%d are missing", name, end+1, from-1)
	}
	return fmt.Sprintf("%s %d is missing", name, end+1)
}

// evenSteps reports whether the numbers of the sizes rise by as much each time.
func evenSteps(n Num) bool {
	for i := 2; i < len(n.Sizes); i++ {
		if n.Sizes[i]-n.Sizes[i-1] != n.Sizes[1]-n.Sizes[0] {
			return false
		}
	}
	return true
}

// countsOn reports whether a row has a number, or a range, and is not one of
// those given as a list.
func countsOn(r *Row) bool {
	n := &r.Numbers
	return !r.noLabel && n.First.N > 0 && len(n.List) == 0 && n.Every == 0
}

// between reports whether the numbers from and to, left out between two rows,
// may stand for something: rows whose number only a tape tells, lists of rows,
// words between the two that name such a row.
func (pr *prover) between(a, b *Row, from, to int, at int, p *Piece) bool {
	if r := a.Refer; r != nil && (r.Measure || r.Times.N > 0 || r.Rows.N > 0 || r.Until.N > 0 || r.UntilRow > 0 || r.UntilSts.N > 0) {
		return true
	}
	for _, r := range p.Rows {
		n := &r.Numbers
		if n.Every > 0 || n.First.N == 0 && !r.noLabel {
			return true
		}
		for _, k := range n.List {
			if from <= k && k <= to {
				return true
			}
		}
		if r != a && r != b && countsOn(r) && int(n.First.At(pr.size)) <= to && from <= int(n.Last.At(pr.size)) {
			return true
		}
	}
	// a row may have been taken for words of the one before
	after := a.labelSpan.End
	if a.Refer != nil && a.Refer.Then == nil {
		after = max(after, a.Refer.Span.End) // "Rows 11-15: Repeat Row 10." says which, and no more
	}
	words := pr.pat.Source.Text[min(after, b.Span.Start):b.Span.Start]
	for _, l := range strings.Split(strings.ToLower(words), "\n") {
		head := true
		split := strings.FieldsFunc(l, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
		for i, word := range split {
			switch word {
			case "until", "measure", "measures", "continue", "repeat", "rep", "more", "before":
				return true
			case "row", "rows", "rnd", "rnds", "rounds":
				if !namesOthers(split, i, from, to) {
					return true
				}
			}
			number := strings.TrimLeft(word, "rownds") // "r13"
			if n, err := strconv.Atoi(number); err == nil && from <= n && n <= to && (number != word || head) {
				return true
			}
			head = word == "r"
		}
	}
	return false
}

// namesOthers reports whether the word for rows at i goes with numbers, none of
// which is one of those from and to: "between Rnds 8 and 9", "4 rows".
func namesOthers(words []string, i, from, to int) bool {
	found := false
	other := func(k int) bool {
		if k < 0 || k >= len(words) {
			return true
		}
		n, err := strconv.Atoi(words[k])
		found = found || err == nil
		return err != nil || n < from || n > to
	}
	if i > 1 && words[i-1] == "of" && (words[i-2] == "end" || words[i-2] == "start" || words[i-2] == "beginning") {
		return true // "at the end of Row 8" tells nothing of how it is worked
	}
	for k := i - 1; k <= min(i+3, len(words)-1); k++ {
		if !other(k) {
			return false
		}
	}
	return found
}
