package pattern

import "sort"

// A pattern tells of itself more than its instructions do: "(8 rounds)" behind
// a range, "42 rows in all". Each such number is a claim that can be held
// against what the instructions come to.

// claimKind is what a claim is about.
type claimKind uint8

const (
	claimRows   claimKind = iota // the rows of a label
	claimSoFar                   // the rows of the piece so far
	claimCopies                  // how many of a piece are made
	claimLeft                    // the stitches of the last row
	claimMeshes                  // the meshes of every row of filet
	claimSum                     // what so many in each of so many places come to
	claimPairs                   // the pairs that the last row folds into
	claimEnds                    // the rows that an edge runs along
	claimEndOf                   // the row at whose end there is a total
	claimLast                    // the row that a range of rows ends with
)

// claim is a number that the pattern gives of itself.
type claim struct {
	kind  claimKind
	n     Num
	span  Span
	piece *Piece
	row   *Row   // the row it stands in, or behind
	of    string // what there are so many of
	sum   int64  // what they come to
}

// CountsRows is where words say how many rows there are of a piece so far, or
// along an edge, "in each of the 12 rows down the side", or at the end of which of
// them a total is counted: a number that does not
// follow when the piece is made longer. It is empty where none do.
func (p *Pattern) CountsRows(pc *Piece) Span {
	for i := range p.claims {
		if c := &p.claims[i]; c.kind == claimEnds || (c.kind == claimSoFar || c.kind == claimEndOf) && c.piece == pc {
			return c.span
		}
	}
	return Span{}
}

// claims gathers what the words say of the pattern beside the instructions.
func (r *reader) claims() {
	var rows []*claimRow
	for _, p := range r.pat.Pieces {
		for _, row := range p.Rows {
			rows = append(rows, &claimRow{p, row})
		}
	}
	sort.SliceStable(rows, func(i, j int) bool { return rows[i].row.Span.Start < rows[j].row.Span.Start })
	at := -1
	for i := 1; i+1 < len(r.toks); i++ {
		for at+1 < len(rows) && rows[at+1].row.Span.Start <= int(r.toks[i].start) {
			at++
		}
		if t := &r.toks[i]; at >= 0 && t.kind == tWord && t.isAny("rows", "rounds", "rnds", "rds", "row", "round", "rnd") {
			r.rowClaim(rows[at], i)
			if !r.lastRowClaim(rows[at], i) {
				r.endOfClaim(rows[at], i)
			}
		}
		r.copiesClaim(i)
		r.eachRowClaim(i)
		r.sumClaim(i)
		if at >= 0 {
			r.leftClaim(rows[at], i)
			r.pairsClaim(rows[at], i)
			r.endsClaim(rows[at], i)
		}
	}
}

// claimOf keeps a claim that a row makes: its number, and the tokens of the words that
// tell it, the last included.
func (r *reader) claimOf(kind claimKind, at *claimRow, n, from, to *token) {
	r.pat.claims = append(r.pat.claims, claim{kind: kind, n: Num{N: n.num, Span: n.span()}, span: Span{int(from.start), int(to.end)}, piece: at.piece, row: at.row})
}

// copiesClaim reads how many of a piece there are to be: "sew on the 6 arms",
// "all four flippers".
func (r *reader) copiesClaim(i int) {
	t := &r.toks[i]
	if t.kind != tNum || t.frac || t.big || t.num < 2 || !r.toks[i-1].isAny("the", "all", "these") || r.toks[i+1].kind != tWord {
		return
	}
	r.pat.claims = append(r.pat.claims, claim{kind: claimCopies, n: Num{N: t.num, Span: t.span()}, span: Span{int(t.start), int(r.toks[i+1].end)}, of: r.toks[i+1].text})
}

// claimRow is a row and the piece that it is in.
type claimRow struct {
	piece *Piece
	row   *Row
}

// rowClaim reads a number of rows that ends with the word at i: in a bracket
// with nothing else, "(8 rounds)", or said of the piece so far, "12 rows in
// all", "you should have 42 rows".
func (r *reader) rowClaim(at *claimRow, i int) {
	n := i - 1
	if r.toks[n].isAny("more", "total", "new") && n > 0 {
		n--
	}
	t := &r.toks[n]
	if t.kind != tNum || t.frac || t.big || n == 0 || t.num < 1 || i+1 >= len(r.toks) {
		return
	}
	c := claim{kind: claimRows, n: Num{N: t.num, Span: t.span()}, span: Span{int(t.start), int(r.toks[i].end)}, piece: at.piece, row: at.row}
	inside := int(t.start) < at.row.Span.End
	before, after := &r.toks[n-1], &r.toks[i+1]
	inAll := after.isAny("in", "altogether", "total", "completed", "worked", "done", "made") && (!after.is("in") || r.toks[min(i+2, len(r.toks)-1)].isAny("all", "total"))
	switch {
	case before.isMark("([{") && (after.isMark(")]},") || after.is(".") && r.toks[min(i+2, len(r.toks)-1)].isMark(")]}") || inAll || after.isAny("even", "straight", "plain")):
		if inAll || at.row.Refer != nil {
			c.kind = claimSoFar
		}
	case before.isMark(",.;") && inside && at.row.Numbers.Last.N > at.row.Numbers.First.N && (after.separator() || after.isMark("([") || after.head || after.kind == tEnd):
	case before.isAny("work", "crochet", "do", ":") && inside && t.num > 1 && at.row.Refer == nil && at.row.Numbers.Last.N > at.row.Numbers.First.N && (after.isAny("straight", "even", "plain", "without", "of", "in", "with", "no", "like", "as") || after.separator()):
	case before.isAny("for") && inside && at.row.Refer == nil && at.row.Numbers.Last.N > at.row.Numbers.First.N && (after.separator() || after.isMark("([")):
	case before.isAny("have", "has", "of", "worked", "are") && n > 1 && (inAll || after.separator() && r.toks[n-2].isAny("should", "now", "will", "there", "total")) && at.row.Refer == nil:
		c.kind = claimSoFar
	case inAll && (before.isMark(".,;-=") || before.is("of")) && at.row.Refer == nil && after.isAny("in", "altogether", "total"):
		c.kind = claimSoFar
	case inAll && before.isAny("making", "makes", "make", "giving", "gives", "give", "becomes", "become", "is", "are", "have", "worked", "of", "for") && (after.isAny("in", "altogether", "total") || !before.isAny("is", "are", "of", "for")):
		c.kind = claimSoFar // "thus making 36 rows in all"
	case before.isAny("gives", "makes", "giving", "making") && (after.separator() || after.is("and")) && (r.toks[n-2].isAny("which", "this", "that", "it") || r.toks[n-2].isMark(",.;")):
		c.kind = claimSoFar // "repeat row 2 ten times, which gives 12 rows and 6 ribs"
	case after.separator() && before.is("is") && n > 1 && r.toks[n-2].isAny("that", "which", "this"):
		c.kind = claimSoFar // "that is 97 rows,"
	default:
		return
	}
	r.pat.claims = append(r.pat.claims, c)
}
