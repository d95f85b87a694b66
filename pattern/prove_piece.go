package pattern

import (
	"fmt"
	"slices"
	"strings"

	"crochet/tallyturn/pattern/stitch"
)

// newPiece is a piece of which nothing is worked yet.
func (pr *prover) newPiece(p *Piece) *pieceWork {
	return &pieceWork{pr: pr, piece: p, proof: &PieceProof{Piece: p}, stated: -1, said: make(map[int64]bool)}
}

// workPiece works all rows of a piece.
func (pr *prover) workPiece(p *Piece) *pieceWork {
	w := pr.newPiece(p)
	for _, r := range p.Rows {
		for _, s := range r.Steps {
			w.turnNamed = w.turnNamed || namesTurn(s)
		}
	}
	items := pr.sequence(p)
	w.mends = &mending{items: items}
	var last *slipped
	for i, it := range items {
		w.mends.begin(w, i)
		said, asked := len(pr.out), len(w.mends.asks)
		follows := w.repeatsWrong(it)
		w.workItem(it, nextOf(items, i))
		if e, ok := pr.given[it.row]; ok {
			w.onGiven(it, e, nextOf(items, i))
			continue
		}
		if errorsIn(pr.out[said:]) == 0 {
			if last == nil || i-last.at > onAhead {
				last = w.slip(i, asked, Warning)
			}
			continue
		}
		if follows {
			for k := range pr.out[said:] { // it was told where the row is written
				if pr.out[said+k].Code != CodeRange { // its own numbers are its own
					pr.out[said+k].Severity = min(pr.out[said+k].Severity, Note)
				}
			}
			continue
		}
		if last != nil && !pr.plain && i-last.at <= onAhead && w.mendOn(last, i) {
			pr.out[w.mends.asks[last.ask].finding].Severity = Error // of a warning too, now it is known
			continue
		}
		last = w.slip(i, asked, Error)
		if w.wrong == nil {
			w.wrong = make(map[*Row]bool)
		}
		w.wrong[it.row] = true
	}
	w.closeHost()
	return w
}

// repeatsWrong reports whether an item works a row again that has an error.
func (w *pieceWork) repeatsWrong(it item) bool {
	if it.row.Refer == nil || len(w.wrong) == 0 {
		return false
	}
	quiet := w.pr.quiet
	w.pr.quiet = true
	rows := w.resolve(it.row, it)
	w.pr.quiet = quiet
	return slices.ContainsFunc(rows, func(r *Row) bool { return w.wrong[r] })
}

// workItem works a label's rows: the row itself so many times, or the rows it
// says to repeat.
func (w *pieceWork) workItem(it item, next int) {
	row := it.row
	if w.pr.exhausted() {
		w.tooMuch(row, it)
		return
	}
	own := len(row.Steps) > 0 && stepsMake(row.Steps)
	block := []*Row{row}
	count := it.count()
	if row.Refer != nil {
		ref := w.resolve(row, it)
		then := w.thenRows(row, it)
		if own {
			if n := &row.Numbers; n.First.N == 0 && len(n.First.Sizes) == 0 {
				count = max(1, capped(n.Count.At(w.pr.size))) // the others are those repeated
			}
			w.repeatRows([]*Row{row}, it.from, count, row, row.Total)
			if len(ref) > 0 {
				n := w.referCount(row, ref, it, 0, 0)
				w.repeatRows(ref, it.from+count, n, row, nil)
				w.repeatThen(then, it.from+count+n, row, nil)
			}
			return
		}
		if len(ref) == 0 {
			w.unknownRow(row, it)
			return
		}
		block = ref
		count = w.referCount(row, ref, it, next, rowsOf(then))
		if len(then) > 0 && count > 0 {
			w.repeatRows(block, it.from, count, row, nil)
			w.repeatThen(then, it.from+count, row, row.Total)
			return
		}
	}
	if row.Refer == nil {
		block = w.changing(row, count)
		if n := row.until.At(w.pr.size); n > 0 {
			count = -capped(n)
		}
	}
	w.repeatRows(block, it.from, count, row, row.Total)
}

func stepsMake(steps []*Step) bool {
	for _, s := range steps {
		if makesStitches(s) {
			return true
		}
	}
	return false
}

// referCount is how many rows "Rep Rows 2-5 ..." comes to under its label, where
// so many are told to follow them.
func (w *pieceWork) referCount(row *Row, block []*Row, it item, next, then int) int {
	r, pr := row.Refer, w.pr
	n := it.count() - then
	if then > 0 && n <= 0 {
		n = 1 // its label leaves no room for them
	}
	times := capped(r.Times.At(pr.size))
	blockLen := min(len(block), r.blockLen(pr.size)) // rows that grow are all of them told
	counted := row.Numbers.Count.At(pr.size) > 1     // "Next 3 rows: Rep Dec row"
	labelled := (row.Numbers.First.N != 0 || counted) && next >= 0 && len(row.Numbers.List) == 0 && row.Numbers.Every == 0
	own := stepsMake(row.Steps)
	switch {
	case labelled && !own && (n > 1 || then > 0):
		if times > 0 && times*blockLen != n && !((times+1)*blockLen == n && takesItself(row, it)) && r.Rows.N == 0 {
			also := ""
			if then > 0 {
				also = ", and " + countWords(int64(then), "more", "more")
			}
			pr.say(Error, CodeRange, row.labelSpan, fmt.Sprintf("%s are %d rows, and %d repeats of %s are %d%s", row.Label, it.count(), times, countWords(int64(blockLen), "row", "rows"), times*blockLen, also),
				fmt.Sprintf("the last of them would be Row %d", it.from+times*blockLen+then-1))
		} else if rows := capped(r.Rows.At(pr.size)); times == 0 && then == 0 && rows > 0 && rows != n {
			pr.say(Error, CodeRange, row.labelSpan, fmt.Sprintf("%s are %d rows, and the words behind it tell of %d", row.Label, n, rows), fmt.Sprintf("the last of them would be Row %d", it.from+rows-1))
		} else if times == 0 && r.EndRow > 0 && blockLen > 1 {
			if last := block[(n-1)%blockLen]; r.EndRow < last.Numbers.First.N || r.EndRow > max(last.Numbers.First.N, last.Numbers.Last.N) {
				pr.say(Error, CodeRange, row.labelSpan, fmt.Sprintf("%s are %d rows, and the last of them is %s, not Row %d", row.Label, n, last.Label, r.EndRow), "")
			}
		} else if times == 0 && n%blockLen != 0 && blockLen > 1 && !referEnds(row) {
			pr.say(Warning, CodeRange, row.labelSpan, fmt.Sprintf("%s are %d rows, and the %d rows to repeat do not go into them evenly", row.Label, n, blockLen),
				fmt.Sprintf("to come out whole they would end with Row %d or Row %d", it.from+n-n%blockLen-1, it.from+n-n%blockLen+blockLen-1))
		}
		return n
	case r.Rows.N > 0:
		return capped(r.Rows.At(pr.size))
	case r.Until.N > 0:
		return max(0, capped(r.Until.At(pr.size))-it.from+1-ownRows(own))
	case r.UntilRow > 0:
		return max(0, capped(r.UntilRow)-it.from+1-ownRows(own))
	case times > 0:
		return times * blockLen
	case labelled && !own && blockLen > 1 && next > it.from && (next-it.from)%blockLen == 0:
		return next - it.from
	case r.UntilSts.N > 0:
		return -capped(r.UntilSts.At(pr.size))
	case r.Measure:
		pr.say(Note, CodeMeasure, r.Span, "the maker ends these rows by hand; they are worked out once", "")
		return blockLen
	case !labelled || own:
		return blockLen
	}
	return max(n, 1)
}

// takesItself reports whether the first of the rows to repeat stands under the
// label itself: "Rows 4-9: ... rep Rows 4-6 once more".
func takesItself(row *Row, it item) bool {
	return row.Refer.First >= it.from && row.Refer.First <= it.to
}

func ownRows(own bool) int {
	if own {
		return 1
	}
	return 0
}

func referEnds(row *Row) bool { return row.Refer.Measure }

// resolve finds the rows that a row refers to.
func (w *pieceWork) resolve(row *Row, it item) []*Row { return w.referred(row, row.Refer, it) }

// referred is resolve for a reference of the row.
func (w *pieceWork) referred(row *Row, r *Refer, it item) []*Row {
	pr := w.pr
	sized := *r.sized(pr.size)
	r = &sized
	p := pr.pieceCalled(r.Piece, w.piece)
	if r.LastRows > 0 || r.Named != "" {
		out := w.rowsNamed(row, r.Named)
		if r.LastRows > 0 {
			out = w.lastRows(row, r.LastRows)
		}
		if len(out) == 1 {
			r.Edits = w.unlessChanged(out[0], r.Edits)
		}
		for i := range out {
			if len(r.Edits) > 0 && out[i] != row {
				out[i] = edited(out[i], r.Edits)
			}
		}
		return rowsEnding(growing(out, row, r, w.pr.size), row, r.Edits, w.pr.size)
	}
	var out []*Row
	for _, n := range r.numbers() {
		found := pr.rowNumbered(p, n, row)
		if found == nil && p == w.piece {
			// numbers of the piece before, where this one is its second half
			for i := len(pr.pieces) - 1; i >= 0 && found == nil; i-- {
				found = pr.rowNumbered(pr.pieces[i].piece, n, nil)
			}
		}
		if found == row && !stepsMake(row.Steps) {
			pr.say(Error, CodeNoRow, r.Span, fmt.Sprintf("%s is said to repeat itself", row.Label), "")
			return nil
		}
		if found == nil {
			sure := Warning
			if p == w.piece && r.Last > r.First && n > r.First && goOnTo(p, row, n) {
				sure = Error
			}
			pr.say(sure, CodeNoRow, r.Span, fmt.Sprintf("there is no Row %d to repeat", n), "the numbers of the rows to repeat, or of the label before")
			return nil
		}
		if p == w.piece && it.from > 0 && n >= it.from && found != row && n > it.to {
			pr.say(Warning, CodeNoRow, r.Span, fmt.Sprintf("Row %d is to be repeated here, and comes only later", n), "")
			return nil
		}
		out = append(out, endedAt(pr.plainRow(p, found, n, 0), found, n)...)
	}
	if len(out) == 1 {
		r.Edits = w.unlessChanged(out[0], r.Edits)
	}
	return rowsEnding(growing(editedAll(out, r.Edits), row, r, pr.size), row, r.Edits, pr.size)
}

// goOnTo reports whether the labels of a piece above a row go on from the first to the
// n-th without a gap, so that nothing hides the row that follows them.
func goOnTo(p *Piece, row *Row, n int) bool {
	last := int64(0)
	for _, r := range p.Rows {
		if r == row {
			return last == int64(n)-1
		}
		if !countsOn(r) || r.Numbers.First.Sizes != nil || r.Numbers.Last.Sizes != nil || r.Numbers.First.N != last+1 {
			return false
		}
		last = r.Numbers.Last.N
	}
	return false
}

// pieceCalled is the last piece of a name, or the one given where there is none
// or no name.
func (pr *prover) pieceCalled(name string, or *Piece) *Piece {
	if name != "" {
		for _, q := range pr.pat.Pieces {
			if q.Name == name {
				or = q
			}
		}
	}
	return or
}

// plainRow follows references from Row n until it comes to a row with words of its
// own. The row given is the one whose label has that number.
func (pr *prover) plainRow(p *Piece, r *Row, n, depth int) []*Row {
	if r.Refer == nil || stepsMake(r.Steps) || depth > 20 {
		return []*Row{r}
	}
	ref := r.Refer.sized(pr.size)
	if ref.Piece != "" && ref.LastRows == 0 && ref.Named == "" {
		p = pr.pieceCalled(ref.Piece, p)
	} else if ref.LastRows > 0 || ref.Named != "" {
		if ref.LastRows == 1 {
			for i := range p.Rows {
				if p.Rows[i] == r && i > 0 {
					return editedAll(pr.plainRow(p, p.Rows[i-1], int(p.Rows[i-1].Numbers.Last.At(pr.size)), depth+1), ref.Edits)
				}
			}
		}
		return []*Row{r}
	}
	to := ref.workedAs(r, n, pr.size)
	if f := pr.rowNumbered(p, to, r); f != nil && f != r {
		return editedAll(pr.plainRow(p, f, to, depth+1), ref.Edits)
	}
	return []*Row{r}
}

// lastRows gives the rows worked last, in order.
func (w *pieceWork) lastRows(row *Row, n int) []*Row {
	if stepsMake(row.Steps) {
		n-- // "…; repeat last 2 rows" in the second of them
	}
	var out []*Row
	for i := len(w.rows) - 1; i >= 0 && n > 0; i-- {
		same := 1 // rows that go on alike are kept once
		if i > 0 && w.rows[i-1].number > 0 {
			same = max(1, w.rows[i].number-w.rows[i-1].number)
		}
		for ; same > 0 && n > 0; same, n = same-1, n-1 {
			out = append(out, w.rows[i].row)
		}
	}
	slices.Reverse(out)
	if stepsMake(row.Steps) {
		out = append(out, row)
	}
	if len(out) == 0 {
		w.pr.say(Warning, CodeNoRow, row.Refer.Span, "there are no rows before this one to repeat", "")
	}
	return out
}

// rowsNamed finds the row before this one whose label has the word: "Rnd 11
// (dec rnd)" or "Inc row".
func (w *pieceWork) rowsNamed(row *Row, word string) []*Row {
	var found *Row
	if word == "" {
		return nil
	}
	for _, r := range w.piece.Rows {
		if r == row {
			break
		}
		if r.Refer == nil && strings.Contains(strings.ToLower(r.Label), word[:min(3, len(word))]) {
			found = r
		}
	}
	if found == nil {
		w.pr.say(Warning, CodeNoRow, row.Refer.Span, "no row before this one is called so", "")
		return nil
	}
	return []*Row{found}
}

// unknownRow keeps a row whose rows to repeat are not to be found.
func (w *pieceWork) unknownRow(row *Row, it item) {
	rp := w.newProof(row, row, it.from, it.to)
	rp.Status = Unread
	rp.Made = -1
	if n, ok := w.totalOf(row.Total.last()); ok {
		rp.Stated = w.statedTotal(row.Total.last())
		rp.Made = n
		w.below = uniform(n, stitch.SC)
	} else if w.below != nil {
		f := *w.below
		w.below = &f
		rp.Made = w.madeLast
	}
	w.add(rp, row)
}

// repeatRows works a block of rows until count rows are done. A negative
// count is a number of stitches to stop at.
func (w *pieceWork) repeatRows(block []*Row, from, count int, label *Row, total *Total) {
	pr := w.pr
	until, fewer := int64(0), true
	if count < 0 {
		until, count = int64(-count), maxWorked
		fewer = w.madeLast >= until
	}
	for k := 0; k < count; k++ {
		if w.trial != nil && w.trial.done {
			return
		}
		row := block[k%len(block)]
		if k > 0 && pr.exhausted() {
			w.tooMuch(label, item{row: label, from: from + k, to: from + count - 1})
			return
		}
		if pr.worked++; pr.worked > 6*maxWorked || k > maxWorked {
			pr.say(Error, CodeTooLarge, label.labelSpan, fmt.Sprintf("more than %d rows that all differ: the rest of %s is not worked out", maxWorked, label.Label), "")
			return
		}
		before := w.orient(row)
		mine := total
		switch {
		case total == nil || count == 1:
			mine = total.last()
		case total.rows:
			mine = total.ofRow(k)
		case k < count-1 && !w.settles(block, before):
			mine = nil // on rows that change the total is the last row's
		}
		rp := w.workRow(row, label, before, w.asCarried(mine), from+k)
		w.add(rp, row)
		w.carryOn()
		if until > 0 && (fewer && w.madeLast <= until || !fewer && w.madeLast >= until) {
			return
		}
		// rows that go on alike are proven once
		if len(block) == 1 && k+1 < count && (total == nil || !total.rows) && !w.differsWithin(count-1-k) && w.fixed(row, before) {
			same := *rp
			same.First, same.Last = from+k+1, from+count-1
			same.Index = rp.Index + 1
			w.links.again(w, row, count-1-k)
			w.fold(&same)
			w.belowNumber = from + count - 1
			w.note(row, from+count-1)
			return
		}
	}
}

// settles reports whether the rows of a block leave the count as it is, so
// that a total on the range holds for each: it is tried on the row at hand.
func (w *pieceWork) settles(block []*Row, before *fabric) bool {
	if len(block) != 1 {
		return false
	}
	quiet := w.pr.quiet
	w.pr.quiet = true
	asked := len(w.pr.asked)
	save := *w
	rw := w.attempt(block[0], before, 0)
	*w = save
	w.pr.quiet = quiet
	w.pr.asked = w.pr.asked[:max(asked, 0)]
	a, b := countOf(&rw.out), int64(0)
	if before != nil {
		b = countOf(before)
	}
	return a == b || before == nil
}

func countOf(f *fabric) int64 {
	n := int64(0)
	for i := range f.runs {
		if f.runs[i].counts() {
			n += f.runs[i].n
		}
	}
	return n
}

// fixed reports whether the row just worked offers what it was offered, with
// the same chain carried over, so that the next one like it is its equal.
func (w *pieceWork) fixed(row *Row, before *fabric) bool {
	if before == nil || w.below == nil || w.guess != nil {
		return false
	}
	carry := w.carry
	next := w.orient(row)
	w.carry = carry
	return next.equal(before)
}

// newProof begins the proof of a row.
func (w *pieceWork) newProof(row, label *Row, from, to int) *RowProof {
	rp := &RowProof{Row: row, Label: label.Label, Kind: label.Kind, Side: row.Side, First: from, Last: to, Made: -1}
	if label != row && label.Side != SideUnsaid {
		rp.Side = label.Side
	}
	rp.Line = w.pr.pat.Source.lineAt(label.Span.Start)
	if rp.Label == "" {
		rp.Label = fmt.Sprintf("Row %d", from)
		if label.Kind == Round {
			rp.Label = fmt.Sprintf("Rnd %d", from)
		}
		if from == 0 {
			rp.Label = "Foundation" // "Rnd 1" stands after it
		}
	}
	rp.Index = w.proof.Len()
	return rp
}

// add puts a row into the proof; equal neighbours become one.
func (w *pieceWork) add(rp *RowProof, row *Row) {
	w.fold(rp)
	w.belowNumber = rp.Last
	w.note(row, rp.Last)
}

// note keeps what a row left, for rows and pieces that come back to it.
func (w *pieceWork) note(row *Row, number int) {
	f := w.below
	if f == nil {
		f = &fabric{}
	}
	w.pr.kept += int64(len(f.runs))
	w.rows = append(w.rows, workedRow{number: number, fabric: f, row: row})
}

func (w *pieceWork) fold(rp *RowProof) {
	defer w.links.upTo(w)
	rows := w.proof.Rows
	if n := len(rows); n > 0 && rows[n-1].Last+1 == rp.First && alike(rows[n-1], rp) {
		rows[n-1].Last = rp.Last
		return
	}
	rp.Index = w.proof.Len()
	w.proof.Rows = append(rows, rp)
}

// alike reports whether two proofs of neighbouring rows say the same.
func alike(a, b *RowProof) bool {
	if a.Row != b.Row || a.Label != b.Label || a.Line != b.Line || a.Available != b.Available || a.Taken != b.Taken || a.Skipped != b.Skipped ||
		a.Left != b.Left || a.Made != b.Made || a.Status != b.Status || a.on != b.on || len(a.ByKind) != len(b.ByKind) || (a.Stated == nil) != (b.Stated == nil) {
		return false
	}
	for i := range a.ByKind {
		if a.ByKind[i] != b.ByKind[i] {
			return false
		}
	}
	return a.Stated == nil || a.Stated.Text == b.Stated.Text
}

// uniform is a fabric of n stitches of one kind.
func uniform(n int64, id stitch.ID) *fabric {
	f := &fabric{bare: true}
	f.add(place{stitch: id}, n)
	return f
}

// orient gives the fabric below as a row meets it: the other way round after
// a turn.
func (w *pieceWork) orient(row *Row) *fabric {
	if w.below == nil || w.below.ring && len(w.below.runs) == 0 || w.below.chain {
		return w.below
	}
	flat := row.Kind == FlatRow && !w.belowJoined && !joinsRound(row.Steps)
	turned, stay := w.belowTurned, false
	for _, s := range row.Steps {
		if s.Op == OpTurn {
			turned = true
		}
		if s.Op == OpStay {
			stay = true
		}
		if makesStitches(s) {
			break
		}
	}
	for _, s := range w.carry {
		turned = turned || s.Op == OpTurn
	}
	if turned || flat && !stay && w.pr.pat.conv.turning >= 0 {
		return w.below.reversed()
	}
	return w.below
}

func joinsRound(steps []*Step) bool {
	for _, s := range steps {
		if s.Op == OpJoin || s.ending != nil && joinsRound(s.ending.Body) {
			return true
		}
	}
	return false
}

// splitTail parts from a row what stands after its last stitch and belongs to
// the next row: "Ch 3, turn."
func splitTail(steps []*Step, kind RowKind) (body, tail []*Step) {
	for i, s := range steps {
		if s.Op == OpNote && s.implicit && stepsMake(steps[:i]) {
			steps = steps[:i] // what follows "repeat Row 2" comes after those rows
			break
		}
	}
	i := len(steps)
	turn, chain := false, false
	for i > 0 {
		s := steps[i-1]
		if s.Op == OpTurn {
			turn = true
		} else if s.Op == OpChain && !chain {
			chain = true
		} else if s.Op == OpNote || s.Op == OpColour || s.Op == OpStay {
		} else {
			break
		}
		i--
	}
	if i == 0 || !turn && !chain {
		return steps, nil
	}
	last := steps[i-1]
	if last.Op == OpFasten || last.Op == OpAttach || last.Op == OpRing {
		return steps, nil
	}
	if !stepsMake(steps[:i]) {
		return steps, nil
	}
	if chain && !turn && last.Op != OpJoin && kind == Round {
		return steps, nil // the last space of a spiral
	}
	return steps[:i], steps[i:]
}
