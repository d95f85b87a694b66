package tui

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"crochet/tallyturn/counter"
	"crochet/tallyturn/pattern"
)

// scene is all that a frame of the walk shows, in words and numbers ready to
// be set out. It is made from the state whenever something happens; drawing
// only reads it. Its texts are clean.
type scene struct {
	title        string
	piece        string // "" where the pattern names none
	copy, copies int    // from 1

	row, rows int    // the row's place in its piece, from 1
	label     string // what the pattern calls the row
	side      string // "right side", "wrong side", or ""
	done      int64  // stitches worked
	total     int64  // what the row must come to
	known     bool   // whether total is known
	atEnd     bool   // all stitches of the row are worked

	words      wording
	notes      []string // what the pattern says before this row: "Stuff firmly."
	ending     []string // and after the last row of the piece
	from, upto int64    // the instruction in hand makes stitches from+1 to upto
	facts      []string // where in the repeat, where in the instruction
	remark     string   // what is to be known about the row's proof
	closing    string   // what is to be done once the row is full: join, turn
	next       []ahead  // what comes after this row
	behind     string   // a difference that the work carries
	under      string   // what lies under the next tap, where that is more than a stitch
	own        string   // her note on the row
	outlook    string   // how much longer it may take

	paused   bool
	finished bool
}

// ahead is a row to come.
type ahead struct{ label, words string }

// aheadRows is how many rows to come are looked up: as many as a very high
// window has room for.
const aheadRows = 8

// number is the stitch in hand: the one being worked, or the last of a full row.
func (s *scene) number() int64 {
	if s.known {
		return min(s.done+1, s.total)
	}
	return s.done + 1
}

// rowLine and stitchLine are the words by which scripts read the screen.
func (s *scene) rowLine() string { return fmt.Sprintf("row %d of %d", s.row, s.rows) }

func (s *scene) stitchLine() string {
	if !s.known {
		return fmt.Sprintf("stitch %d", s.number())
	}
	return fmt.Sprintf("stitch %d of %d", s.number(), s.total)
}

// pieceLine names the piece and the copy.
func (s *scene) pieceLine() string {
	switch {
	case s.copies > 1 && s.piece != "":
		return fmt.Sprintf("%s, copy %d of %d", s.piece, s.copy, s.copies)
	case s.copies > 1:
		return fmt.Sprintf("copy %d of %d", s.copy, s.copies)
	}
	return s.piece
}

// wordsFunc gives the words of a row, as pattern.Proof.Words does.
type wordsFunc func(*pattern.RowProof) []pattern.Word

// look makes the scene of a state.
func look(title string, s counter.State, words wordsFunc) *scene {
	at, plan := s.At(), s.Plan()
	sc := &scene{
		title: title, paused: s.Paused(), finished: s.Finished(),
		copy: at.Copy + 1, copies: plan.Copies(at.Piece),
		row: at.Row + 1, rows: plan.Rows(at.Piece),
		piece: pieceName(plan, at.Piece),
		done:  s.Stitch(), atEnd: s.AtRowEnd(),
	}
	sc.total, sc.known = s.Expect()
	row, number := s.Proof()
	if row == nil {
		return sc
	}
	sc.label, sc.side = rowLabel(row, number), row.Side.String()
	here := s.Here()
	// Where the proof makes fewer stitches than the row must have, all its
	// words are done before the row is full.
	sc.words = wordsOf(ofOne(words(row), row, number), here, sc.atEnd || row.Trace != nil && here.Step == nil)
	sc.from, sc.upto = sc.done, sc.done
	if here.Step != nil {
		sc.from, sc.upto = sc.done-here.Nth+1, here.InstructionEnd
		sc.facts = whereabouts(here, sc.total)
	}
	if sc.atEnd {
		sc.closing = sc.words.text(wordLead)
	}
	if s.Stride() != 1 && !sc.atEnd {
		sc.from, sc.upto = sc.done, sc.done+s.Reach()
		if parts, _ := s.Under(mostLit); len(parts) > 0 {
			sc.words.light(parts[1:], words(row))
		}
		sc.under = under(s)
	}
	if m := markerFact(s); m != "" {
		sc.facts = append(sc.facts, m)
	}
	sc.own = Clean(s.NoteOn(at.Piece, at.Copy, at.Row))
	sc.notes, sc.ending = pieceNotes(plan, at)
	sc.remark = remark(row, sc.known)
	sc.next = comingRows(s, words)
	sc.behind = behind(s)
	return sc
}

// pieceName is the clean name of a piece; "" where it has none.
func pieceName(plan *counter.Plan, piece int) string {
	if proof := plan.Proof(); proof != nil && piece < len(proof.Pieces) && proof.Pieces[piece].Piece != nil {
		return Clean(proof.Pieces[piece].Piece.Name)
	}
	return ""
}

// rowLabel is what the pattern calls one row: its label, or its number where
// the label speaks of several.
func rowLabel(r *pattern.RowProof, number int) string {
	label := strings.TrimSpace(Clean(r.Label))
	if r.Count() == 1 && label != "" {
		return label
	}
	own := "Row " + strconv.Itoa(number)
	if r.Kind == pattern.Round {
		own = "Rnd " + strconv.Itoa(number)
	}
	if label == "" || label == own {
		return own
	}
	return own + " (" + label + ")"
}

// ofOne is the words of one row of those that a line speaks of. What closes them
// all, fastening off or a change of colour behind the total, stands with the
// last: who reads it sooner does it too soon.
func ofOne(words []pattern.Word, r *pattern.RowProof, number int) []pattern.Word {
	if r.Count() == 1 || number == r.Last {
		return words
	}
	for i, w := range words {
		s := w.Step
		if s == nil || s.Op != pattern.OpFasten && (s.Op != pattern.OpColour || r.Stated == nil || s.Span.Start < r.Stated.Span.End) {
			continue
		}
		if slices.ContainsFunc(words[i:], worked) {
			continue // they close no more than a part of each
		}
		words = slices.Clone(words[:i])
		if i > 0 && words[i-1].Step == nil { // up to the total, or what else is read
			words[i-1].Text = strings.TrimRight(words[i-1].Text, " ,;")
		}
		break
	}
	return words
}

// worked reports words of an instruction that is more than a change of yarn or a
// remark.
func worked(w pattern.Word) bool {
	return w.Step != nil && w.Step.Op != pattern.OpFasten && w.Step.Op != pattern.OpColour && w.Step.Op != pattern.OpNote
}

// whereabouts tells the passes of the repeats, innermost first, and the place
// in an instruction of several stitches.
func whereabouts(here pattern.Here, total int64) []string {
	var facts []string
	for i := len(here.Passes) - 1; i >= 0; i-- {
		p := here.Passes[i]
		if len(facts) == 0 {
			facts = append(facts, fmt.Sprintf("pass %d of %d", p.N, p.Of))
		} else {
			facts = append(facts, fmt.Sprintf("in pass %d of %d", p.N, p.Of))
		}
	}
	if here.Of > 1 && here.Of < total { // else it only says the stitch of the row again
		facts = append(facts, fmt.Sprintf("%d of %d in hand", here.Nth, here.Of))
	}
	return facts
}

// remark says what the maker should know about how a row was proven.
func remark(r *pattern.RowProof, known bool) string {
	switch r.Status {
	case pattern.Unread:
		if !known {
			return "some words were not understood: tap freely, then end it"
		}
		return "not worked out: some words were not understood"
	case pattern.Unstated:
		if !known {
			return "no stitch in it was understood: tap freely, then end it"
		}
	case pattern.Trusted:
		if !known {
			return "only the author knows the number: tap freely, then end it"
		}
		return "the number is the author's own"
	case pattern.Differs:
		if r.Stated != nil {
			return fmt.Sprintf("the pattern says %s, it works out at %d", Clean(r.Stated.Text), r.Made)
		}
	}
	return ""
}

// comingRows looks ahead, as far as the copy goes and to the row after it.
func comingRows(s counter.State, words wordsFunc) []ahead {
	next, more := s.Next()
	if !more {
		return []ahead{{"last row", "after it everything is worked"}}
	}
	var rows []ahead
	plan, at := s.Plan(), s.At()
	for len(rows) < aheadRows && next.Row < plan.Rows(next.Piece) {
		r, number := plan.Row(next.Piece, next.Row)
		label := rowLabel(r, number)
		if next.Piece != at.Piece || next.Copy != at.Copy {
			label = placeName(plan, next) + ", " + label
		}
		rows = append(rows, ahead{label, plainWords(ofOne(words(r), r, number))})
		next.Row++
		at = next // only the first row of another piece says so
	}
	return rows
}

// pieceNotes is what a piece says between its rows that belongs to the row in
// hand: the notes that stand before it and, if it is the last, after it.
func pieceNotes(plan *counter.Plan, at counter.Place) (before, after []string) {
	proof := plan.Proof()
	if proof.Pattern == nil || proof.Pattern.Source == nil {
		return nil, nil
	}
	piece := proof.Pieces[at.Piece]
	row, _ := plan.Row(at.Piece, at.Row)
	if piece.Piece == nil || at.Row > row.Index && at.Row < plan.Rows(at.Piece)-1 {
		return nil, nil // in the middle of a range
	}
	from := 0 // the line of the row before
	if r, _ := plan.Row(at.Piece, row.Index-1); r != nil {
		from = r.Line
	}
	for _, n := range piece.Piece.Notes {
		line, _ := proof.Pattern.Source.Position(n.Span.Start)
		switch {
		case line < row.Line && line >= from && at.Row == row.Index:
			before = append(before, Clean(n.Text))
		case line >= row.Line && at.Row == plan.Rows(at.Piece)-1:
			after = append(after, Clean(n.Text))
		}
	}
	return before, after
}

// placeName names a piece and copy.
func placeName(plan *counter.Plan, at counter.Place) string {
	name := pieceName(plan, at.Piece)
	if name == "" {
		name = fmt.Sprintf("piece %d", at.Piece+1)
	}
	if n := plan.Copies(at.Piece); n > 1 {
		name += fmt.Sprintf(", copy %d of %d", at.Copy+1, n)
	}
	return name
}

// waiting says what has to be made before the piece in hand, with a blank
// before it; "" where nothing has.
func waiting(s counter.State) string {
	on, ok := s.Waits(s.Piece(), s.Copy())
	if !ok {
		return ""
	}
	return fmt.Sprintf(" It is worked onto row %d of %s, which is not made yet.", on.Row+1, placeName(s.Plan(), on))
}

// plainWords is the words of a row as one clean text.
func plainWords(words []pattern.Word) string {
	var b strings.Builder
	for _, w := range words {
		b.WriteString(w.Text)
	}
	return strings.TrimSpace(Clean(b.String()))
}

// behind tells of the last difference, while the maker works on the same copy.
func behind(s counter.State) string {
	m, ok := s.Mismatch()
	if !ok || m.Piece != s.Piece() || m.Copy != s.Copy() {
		return ""
	}
	return fmt.Sprintf("row %d came out %s: %d for %d",
		m.Row+1, overOrShort(m.Counted-m.Expected), m.Counted, m.Expected)
}

// overOrShort puts a difference in words.
func overOrShort(n int64) string {
	if n < 0 {
		return fmt.Sprintf("%d short", -n)
	}
	return fmt.Sprintf("%d over", n)
}

// count puts a number before a noun: "1 row", "2 rows".
func count(n int64, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	if strings.HasSuffix(noun, "ch") {
		return fmt.Sprintf("%d %ses", n, noun)
	}
	return fmt.Sprintf("%d %ss", n, noun)
}

// clockTime is a time of work, from ms: "0:42", "1:02:03".
func clockTime(ms int64) string {
	d := time.Duration(max(ms, 0)) * time.Millisecond
	h, m, s := int(d.Hours()), int(d.Minutes())%60, int(d.Seconds())%60
	if h > 0 {
		return fmt.Sprintf("%d:%02d:%02d", h, m, s)
	}
	return fmt.Sprintf("%d:%02d", m, s)
}

// text joins the words of one state.
func (w wording) text(state wordState) string {
	var parts []string
	for _, word := range w {
		if word.state == state {
			parts = append(parts, strings.Trim(word.text, " ,;."))
		}
	}
	return strings.Join(parts, "; ")
}
