package pattern

import (
	"fmt"
	"strings"
)

// endOfClaim reads which row a total is the count of, "having 20 sc at end of Row 8":
// the row word stands at i, inside the words of a total.
func (r *reader) endOfClaim(at *claimRow, i int) {
	t, n := &r.toks[i], &r.toks[i+1]
	total := at.row.Total
	if total == nil || n.kind != tNum || n.frac || n.big || int(t.start) < total.Span.Start || int(n.end) > total.Span.End || at.row.Numbers.First.N == 0 || at.row.Numbers.List != nil || strings.Contains(r.src.Text[t.end:n.start], ".") {
		return
	}
	if !r.toks[i-1].is("of") || i < 2 || !r.toks[i-2].isAny("end", "close") {
		return
	}
	r.claimOf(claimEndOf, at, n, t, n)
}

// endOfClaimed compares it with the last row of the label.
func (pr *prover) endOfClaimed(c *claim) {
	last := c.row.Numbers.Last.At(pr.size)
	if c.n.N == last || c.row.Numbers.Every > 0 || c.row.Numbers.Until > 0 || c.row.Refer != nil && c.row.Numbers.First.N == c.row.Numbers.Last.N {
		return
	}
	row := "Row"
	if c.row.Kind == Round {
		row = "Rnd"
	}
	pr.say(Error, CodeRange, c.span, fmt.Sprintf("the count is said to be that of %s %d, and it stands at the end of %s", row, c.n.N, c.row.Label), fmt.Sprintf("change \"%d\" to \"%d\", or look at the label", c.n.N, last))
}
