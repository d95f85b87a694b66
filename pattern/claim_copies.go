package pattern

import (
	"fmt"
	"slices"
	"strings"
)

// copiesClaimed compares "the 6 arms" with the pieces of that name: with each
// of them that is made more than once, and with all of them together.
func (pr *prover) copiesClaimed(c *claim) {
	name, plural := strings.CutSuffix(c.of, "s")
	if !plural || len(name) < 3 {
		return
	}
	n, sum := c.n.N, int64(0)
	made := []*Piece(nil)
	for _, p := range pr.pat.Pieces {
		words := strings.FieldsFunc(strings.ToLower(p.Name), func(r rune) bool { return r < 'a' || r > 'z' })
		if !slices.Contains(words, name) && !slices.Contains(words, c.of) {
			continue
		}
		sum += int64(p.Copies)
		if p.Copies == 1 || int64(p.Copies) == n {
			return // pieces that are told one by one may be more than there are headings
		}
		made = append(made, p)
	}
	if len(made) == 0 || n > 1 && sum%n == 0 {
		return // all of them, or an even share: "along the top of each of the 6 motifs" of twelve
	}
	p := made[len(made)-1]
	pr.say(Error, CodeCopies, c.span, fmt.Sprintf("the pattern says %d %s here, and %s is made %d times", n, c.of, p.Name, p.Copies),
		fmt.Sprintf("%d %s here, or \"make %d\" in line %d", sum, c.of, n, p.Line))
}
