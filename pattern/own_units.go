package pattern

import (
	"fmt"
	"slices"
	"strings"
)

// ownWays lists what an author may count in a row under a name of her own: its groups,
// its spaces, its clusters. Each stands at a place of its own, and one that the row has
// none of is -1.
func ownWays(rw *rowWork) []int64 {
	t := tallyOf(&rw.out)
	clusters := int64(0)
	for id, v := range t.byID {
		if isCompound(id) {
			clusters += v
		}
	}
	out := []int64{t.groups, t.whole, t.clumps, t.spaces, t.spaces - t.between, clusters, t.picots}
	for i, n := range out {
		if n <= 0 {
			out[i] = -1
		}
	}
	return out
}

// ownUnit is a row's count in the author's own unit, beside what the row has that the
// unit may be.
type ownUnit struct {
	row  *Row
	part TotalPart
	has  []int64 // see ownWays
	miss int64   // what the groups and spaces of the round all come to, where the number misses it narrowly; 0 otherwise
}

// noteOwn keeps what a row states in a unit of the author's own.
func (w *pieceWork) noteOwn(rp *RowProof, o outcome, total *Total) {
	if total == nil || len(total.Parts) != 1 || total.Parts[0].Kind != PartOther || total.Parts[0].share || total.Parts[0].per > 0 || o.fatal != nil || o.left > 0 || rp.Status != Agrees && rp.Status != Unstated {
		return
	}
	u := ownUnit{row: rp.Row, part: total.Parts[0], has: ownWays(o.rw)}
	if rp.Row.Kind == Round {
		u.miss = figureAmiss(tallyOf(&o.rw.out), u.part, u.part.N.At(w.pr.size))
	}
	w.own = append(w.own, u)
}

// how tells what shows the number that a row has.
func (u *ownUnit) how() string {
	if u.miss > 0 {
		return ", as its groups and spaces show"
	}
	return ", counted as in the other rows"
}

// noun is what a unit is called, in the singular.
func (u *ownUnit) noun() string {
	first := ""
	for _, word := range strings.Fields(strings.ToLower(u.part.Name)) {
		word = strings.Trim(word, ".,;:()")
		if one := oneOfThem(word); one != word {
			return one // "31 little boxes"
		}
		if first == "" {
			first = word
		}
	}
	return first
}

// ownUnits holds the counts in one unit of the author's own against one another. What
// such a unit is, another row of the piece shows, whose count is what it has; then a row
// that has one or two more or fewer of them than it says is wrong.
func (pr *prover) ownUnits(w *pieceWork, found int) {
	for i := range w.own {
		u := &w.own[i]
		n := u.part.N.At(pr.size)
		if u.noun() == "" || slices.Contains(u.has, n) {
			continue
		}
		has := u.miss
		if has == 0 {
			has = pr.ownAsElsewhere(w, u, n)
		}
		if has > 0 && !pr.errsIn(u.row, found) {
			pr.say(Error, CodeTotal, u.part.Span, fmt.Sprintf("the row states %d %s, and has %d%s", n, u.part.Name, has, u.how()), strings.TrimSpace(fmt.Sprintf("the total should read %d %s", has, u.part.Name)))
			w.differs(func(r *RowProof) bool { return r.Row == u.row })
		}
	}
}

// differs marks rows as not as they say, where they state no total that is compared.
func (w *pieceWork) differs(which func(*RowProof) bool) {
	for _, r := range w.proof.Rows {
		if r.Status == Unstated && which(r) {
			r.Status = Differs
		}
	}
}

// ownAsElsewhere is how many of a unit a row has, counted as the rows are that agree; 0
// where none shows how, or where it is further from what the row says than a slip is.
func (pr *prover) ownAsElsewhere(w *pieceWork, u *ownUnit, n int64) int64 {
	for i := range w.own {
		v := &w.own[i]
		if v.row == u.row || v.noun() != u.noun() {
			continue
		}
		for way, has := range v.has {
			if has == v.part.N.At(pr.size) && u.has[way] > 0 && max(n-u.has[way], u.has[way]-n) <= doubtBy {
				return u.has[way]
			}
		}
	}
	return 0
}
