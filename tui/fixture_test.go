package tui

import (
	"testing"
	"time"

	"crochet/tallyturn/counter"
	"crochet/tallyturn/pattern"
)

// A pattern built by hand, so that the screens are tested by themselves.

// bit is a part of a row: text to be read, an instruction that makes n
// stitches, or a repeat of bits.
type bit struct {
	text  string
	n     int64
	step  bool
	times int64
	body  []bit
}

func read(text string) bit             { return bit{text: text} }
func do(text string, n int64) bit      { return bit{text: text, n: n, step: true} }
func rep(times int64, body ...bit) bit { return bit{times: times, body: body} }
func words(b ...bit) []bit             { return b }
func (b bit) group() bool              { return b.body != nil }
func sum(ts []*pattern.Trace) (n int64) { // stitches of a sequence
	for _, t := range ts {
		if t.Kids != nil {
			n += t.Times * t.Stitches
		} else {
			n += t.Stitches
		}
	}
	return n
}

// book is a proof with the words of its rows.
type book struct {
	proof *pattern.Proof
	words map[*pattern.RowProof][]pattern.Word
}

func newBook() *book {
	return &book{&pattern.Proof{Pattern: &pattern.Pattern{}}, map[*pattern.RowProof][]pattern.Word{}}
}

func (b *book) piece(name string, copies int) *pattern.PieceProof {
	p := &pattern.PieceProof{Piece: &pattern.Piece{Name: name, Copies: copies}}
	b.proof.Pieces = append(b.proof.Pieces, p)
	return p
}

// row adds rows first to last of a piece, all alike.
func (b *book) row(p *pattern.PieceProof, label string, first, last int, kind pattern.RowKind, side pattern.Side, bits []bit) *pattern.RowProof {
	var ws []pattern.Word
	var lay func([]bit) []*pattern.Trace
	lay = func(bits []bit) (ts []*pattern.Trace) {
		for _, x := range bits {
			switch {
			case x.group():
				g := &pattern.Step{Op: pattern.OpGroup}
				kids := lay(x.body)
				ts = append(ts, &pattern.Trace{Step: g, Times: x.times, First: 1, Of: x.times, Stitches: sum(kids), Kids: kids})
			case x.step:
				s := &pattern.Step{Op: pattern.OpWork}
				ws = append(ws, pattern.Word{Text: x.text, Step: s})
				ts = append(ts, &pattern.Trace{Step: s, Times: 1, Stitches: x.n})
			default:
				ws = append(ws, pattern.Word{Text: x.text})
			}
		}
		return ts
	}
	kids := lay(bits)
	r := &pattern.RowProof{Row: &pattern.Row{}, Label: label, Kind: kind, Side: side, First: first, Last: last,
		Index: p.Len(), Made: sum(kids), Status: pattern.Agrees,
		Trace: &pattern.Trace{Times: 1, Stitches: sum(kids), Kids: kids}}
	p.Rows = append(p.Rows, r)
	b.words[r] = ws
	return r
}

// harbourCrab is a small pattern with all that the screens must show: rounds
// and rows, repeats in repeats, two copies, ranges, a row nobody could read
// and one without a number.
func harbourCrab() *book {
	b := newBook()
	body := b.piece("Body", 1)
	b.row(body, "Rnd 1", 1, 1, pattern.Round, pattern.RightSide, words(
		do("6 sc in magic ring", 6), read(". (6)")))
	b.row(body, "Rnd 2", 2, 2, pattern.Round, pattern.RightSide, words(
		rep(6, do("2 sc in next st", 2)), read(" around. (12)")))
	b.row(body, "Rnd 3", 3, 3, pattern.Round, pattern.RightSide, words(
		read("*"), rep(6, do("sc in next st", 1), read(", "), do("2 sc in next st", 2)),
		read("; rep from * around. (18)")))
	b.row(body, "Rnd 4", 4, 4, pattern.Round, pattern.RightSide, words(
		do("ch 1", 0), read(", *"), rep(6, do("sc in next 2 sts", 2), read(", "), do("2 sc in next st", 2)),
		read("; rep from * 5 times more, "), do("join with sl st in first sc", 0), read(". (24 sc)")))
	b.row(body, "Rnds 5-7", 5, 7, pattern.Round, pattern.RightSide, words(
		do("sc in each st around", 24), read(". (24)")))
	claw := b.piece("Claw", 2)
	b.row(claw, "Row 1", 1, 1, pattern.FlatRow, pattern.WrongSide, words(
		do("Ch 9", 0), read(". "), do("Sc in 2nd ch from hook", 1), read(" and "), do("in each of next 7 ch", 7), read(", "), do("turn", 0), read(". (8 sc)")))
	b.row(claw, "Row 2", 2, 2, pattern.FlatRow, pattern.RightSide, words(
		do("ch 1", 0), read(", "), rep(2, rep(2, do("sc in next st", 1)), read(", "), do("sc2tog", 1)), read(", "), do("turn", 0), read(". (6 sc)")))
	unread := b.row(claw, "Row 3", 3, 3, pattern.FlatRow, pattern.WrongSide, words(
		read("Ch 1, flombulate in each st across, turn. (6 sts)")))
	unread.Trace, unread.Made, unread.Status = nil, -1, pattern.Unread
	unread.Stated = &pattern.Total{N: 6, Text: "6 sts"}
	free := b.row(claw, "Edging", 4, 4, pattern.FlatRow, pattern.SideUnsaid, words(
		read("With A, sc evenly along the edge.")))
	free.Trace, free.Made, free.Status = nil, -1, pattern.Trusted
	return b
}

// shelf is a journal in memory.
type shelf struct{ events []counter.Event }

func (s *shelf) Append(e counter.Event) uint64 {
	s.events = append(s.events, e)
	return uint64(len(s.events))
}

// noon is when the tests take place.
var noon = time.Date(2026, time.March, 14, 12, 0, 0, 0, time.UTC)

// pinned is a clock that goes on a second at every look.
type pinned struct{ at time.Time }

func (p *pinned) now() time.Time { p.at = p.at.Add(time.Second); return p.at }

// walkOf makes a walk through a book, of a size, with its journal.
func walkOf(t testing.TB, b *book, look Look, width, height int) (*Walk, *shelf) {
	t.Helper()
	s := &shelf{}
	clock := &pinned{noon}
	w := NewWalk(WalkConfig{
		ID: "crab", Title: "Harbour crab", State: counter.Begin(counter.NewPlan(b.proof)),
		Journal: s, Now: clock.now, Look: look,
	})
	w.words = func(r *pattern.RowProof) []pattern.Word { return b.words[r] }
	w.resize(width, height)
	w.refresh()
	w.open()
	return w, s
}
