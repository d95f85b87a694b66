package pattern

import "fmt"

// eachRowClaim reads how many meshes every row of filet is said to have: "Each
// row has 19 sqs", "There are 15 meshes in every row", "Every row measures 13
// meshes, blocks and spaces taken together".
func (r *reader) eachRowClaim(i int) {
	t := &r.toks[i]
	if !r.pat.filet || !t.isAny("each", "every", "all") || !r.toks[i+1].isAny("row", "rows") {
		return
	}
	is := func(k int) bool {
		return k > 0 && k < len(r.toks) && (r.toks[k].in(blockWords) || r.toks[k].in(meshWords) || r.toks[k].isAny("square", "squares", "sq", "sqs"))
	}
	at := 0
	for k := i + 2; k < min(i+8, len(r.toks)-1) && !r.toks[k].isMark(".;:") && !r.toks[k].blank; k++ {
		if r.counts(k) && is(k+1) {
			at = k
			break
		}
		if !r.toks[k].isAny("has", "have", "is", "are", "of", "measures", "measure", "contains", "contain", "made", "makes", "consists", "counts", "exactly", "a", "total", "up", "to", "always", "will", "should", "comes") {
			break
		}
	}
	if at == 0 { // "15 meshes in every row"
		k := i - 1
		for k > 0 && r.toks[k].isAny("in", "to", "on", "across") {
			k--
		}
		if k < i-1 && is(k) && r.counts(k-1) && (k < 2 || !r.toks[k-2].isAny("first", "last", "next", "skip", "of", "the")) {
			at = k - 1
		}
	}
	if at == 0 {
		return
	}
	n := &r.toks[at]
	r.pat.claims = append(r.pat.claims, claim{kind: claimMeshes, n: Num{N: n.num, Span: n.span()}, span: Span{int(n.start), int(r.toks[at+1].end)}})
}

// meshesClaimed holds that number against the rows told in meshes: where all of
// them have another, it is the claim that is wrong, and else they are.
func (pr *prover) meshesClaimed(c *claim) {
	want := c.n.At(pr.size)
	told, same := int64(0), true
	var others []*RowProof
	agree := 0
	for _, w := range pr.pieces {
		seen := make(map[*Row]bool)
		for _, rp := range w.proof.Rows {
			n, out, ok := pr.meshesTold(rp.Row)
			if !ok || seen[rp.Row] {
				continue
			}
			seen[rp.Row] = true
			switch {
			case out > 0 || rp.Row.Numbers.First.N == 0:
				return // it is shaped: every row is a manner of speaking
			case n == want:
				agree++
			default:
				same = same && (told == 0 || told == n)
				told = n
				others = append(others, rp)
			}
		}
	}
	switch {
	case agree == 0 && len(others) > 1 && same:
		pr.say(Error, CodeTotal, c.span, fmt.Sprintf("every row is said to have %d meshes, and the rows tell of %d", want, told), "change the number, if the rows are right")
	case agree > 0 && len(others) < agree:
		for _, rp := range others {
			if n, _, _ := pr.meshesTold(rp.Row); rp.Status != Differs && rp.Status != Unread && !pr.errsIn(rp.Row, 0) {
				pr.say(Error, CodeTotal, rp.Row.labelSpan, fmt.Sprintf("%s tells of %s, and every row is said to have %d", rp.Label, countWords(n, "mesh", "meshes"), want), "")
				rp.Status = Differs
			}
		}
	}
}
