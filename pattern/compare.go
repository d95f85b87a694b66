package pattern

import (
	"fmt"
	"slices"
	"strings"

	"crochet/tallyturn/pattern/stitch"
)

// comparison is a row's count beside its stated total.
type comparison struct {
	agrees bool
	way    string // how the author counts, where it is not the usual way
	made   int64  // the stitches made, as the total counts them; -1 for the usual
	chains bool   // it counts chains as stitches
}

// compareGroups holds a row against how many groups of how many stitches it is said to
// have, "12 groups of 7 dc", "16 pairs of tr". A row of other stitches besides, or
// one that no number of such groups makes, is not said to be them alone.
func (w *pieceWork) compareGroups(rw *rowWork, total *Total) (agrees, known bool) {
	if len(total.Parts) != 1 || total.Parts[0].per < 1 {
		return false, false
	}
	p, t := total.Parts[0], tallyOf(&rw.out)
	made, n := t.stitches, p.N.At(w.pr.size)
	if p.ID != stitch.None {
		made = w.family(t, p.ID)
	}
	alone := made > 0 && made == t.stitches && (p.ID != stitch.None || t.slips == 0 && t.chains == 0)
	switch {
	case made > 0 && n > 0 && made/p.per == n && made%p.per == 0:
		return true, true
	case alone && t.groups == n && t.slips == 0 && t.chains == 0 && made%n == 0:
		return false, true // so many groups, of another number of stitches each
	}
	return false, alone && made%p.per == 0
}

// missesGroups reports whether a row has other groups than its total says.
func (w *pieceWork) missesGroups(rw *rowWork, total *Total) bool {
	agrees, known := w.compareGroups(rw, total)
	return known && !agrees
}

// checkable reports whether any part of a total counts something known.
func checkable(t *Total) bool {
	for _, p := range t.Parts {
		if p.Kind != PartOther {
			return true
		}
	}
	return false
}

// onlySlips reports whether a total counts slip stitches and nothing else: those of a
// seam or a join.
func onlySlips(t *Total) bool {
	return !slices.ContainsFunc(t.Parts, func(p TotalPart) bool { return p.Kind != PartStitch || p.ID != stitch.Slip })
}

// isCompound reports whether a stitch is a cluster of several, or one that the
// pattern defines.
func isCompound(id stitch.ID) bool {
	return stitch.Of(id).Kind == stitch.Compound || id == stitch.Special
}

// otherAgrees reports whether a total in the author's own units ("8 bunches")
// is the number of groups, spaces or clusters that the row has.
func (w *pieceWork) otherAgrees(rw *rowWork, total *Total) bool {
	if len(total.Parts) != 1 {
		return false
	}
	if agrees, known := w.compareGroups(rw, total); known {
		return agrees
	}
	n := total.Parts[0].N.At(w.pr.size)
	return slices.Contains(ownWays(rw), n) || total.Parts[0].Name == "" && n == countOf(&rw.out)
}

// tally is what a row made, sorted for comparing.
type tally struct {
	stitches, slips, chains, spaces, picots, turns int64
	byID                                           map[stitch.ID]int64
	bySize                                         map[int64]int64
	byName                                         map[string]int64
	groups                                         int64
	whole                                          int64 // groups of as many stitches as most have: not the halves at the ends
	clumps                                         int64 // stretches of stitches between spaces, where they are all as long
	apart                                          int64 // the same, where a group behind another begins a stretch too
	outside                                        int64 // stitches that are part of no group
	between                                        int64 // spaces that lie in no group
	blocks                                         int64 // filled meshes, were it filet; -1 where it cannot be
}

func tallyOf(f *fabric) tally {
	t := tally{byID: make(map[stitch.ID]int64), bySize: make(map[int64]int64), byName: make(map[string]int64)}
	for i := range f.runs {
		r := &f.runs[i]
		switch {
		case r.kind == pSpace:
			t.spaces += r.n
			t.chains += r.n * int64(r.size)
			t.bySize[int64(r.size)] += r.n
			if !r.in {
				t.between += r.n
			}
		case r.kind == pPicot:
			t.picots += r.n
			t.byName["picot"] += r.n
		case r.kind == pStitch && r.stitch == stitch.Slip:
			t.slips += r.n
			t.byID[stitch.Slip] += r.n
		case r.counts():
			t.stitches += r.n
			t.byID[r.stitch] += r.n
			if r.turn {
				t.turns += r.n
			}
			if !r.in {
				t.outside += r.n
			}
			if r.name != "" && !r.in {
				t.byName[r.name] += r.n
			}
		}
		if r.first {
			t.groups += r.n
			if r.name != "" {
				t.byName[r.name] += r.n
			}
		}
	}
	if name := begunAs(f); name != "" {
		t.byName[name]++
	}
	t.blocks = blocksOf(f)
	t.whole = wholeGroups(f)
	t.clumps, t.apart = clumpsOf(f, false), clumpsOf(f, true)
	return t
}

// wholeGroups counts the groups of a row that have as many stitches as most of them, and
// of sizes that are as frequent those of the larger: a half shell at an end is no shell
// to an author who counts the whole ones.
func wholeGroups(f *fabric) int64 {
	of := make(map[int64]int64)
	size, open := int64(0), false
	shut := func() {
		if open {
			of[size]++
		}
		size, open = 0, false
	}
	for i := range f.runs {
		r := &f.runs[i]
		if r.first || !r.in {
			shut()
		}
		open = open || r.first
		if open && r.counts() {
			size += r.n
		}
	}
	shut()
	largest, most := int64(0), int64(0)
	for size, n := range of {
		if n > most || n == most && size > largest {
			largest, most = size, n
		}
	}
	return most
}

// clumpsOf counts the stretches of stitches that spaces part, of at least two stitches
// and each as long as the others, or is 0: the groups of a granny square, of which a
// corner has two in one place. A row that begins and ends with stitches may be joined
// between them.
//
// Apart has a group that begins behind another, with no space between them, begin a
// stretch as well.
func clumpsOf(f *fabric, apart bool) int64 {
	n, long, run, first := int64(0), int64(0), int64(0), int64(-1)
	even := true
	shut := func() {
		if first < 0 {
			first = run
		} else if run > 0 {
			n++
			even = even && (long == 0 || run == long)
			long = run
		}
		run = 0
	}
	for i := range f.runs {
		switch r := &f.runs[i]; {
		case r.counts():
			if apart && r.first && run > 0 {
				shut()
			}
			run += r.n
		case r.kind == pSpace:
			shut()
		}
	}
	if first < 0 {
		return 0
	}
	last := run
	if first+last == long || first == long && last == 0 || first == 0 && last == long {
		n++
	} else if first == long && last == long {
		n += 2
	} else {
		even = even && first+last == 0
	}
	if !even || long < 2 {
		return 0
	}
	return n
}

// blocksOf counts the filled meshes of a row of filet: a tall stitch, and three
// more for each of them, between spaces. It is -1 where that does not come out.
func blocksOf(f *fabric) int64 {
	blocks, run := int64(0), int64(0)
	for i := 0; i <= len(f.runs); i++ {
		switch {
		case i < len(f.runs) && f.runs[i].counts():
			run += f.runs[i].n
		case i == len(f.runs) || f.runs[i].kind == pSpace:
			if run%3 != 1 && run > 0 {
				return -1
			}
			blocks += run / 3
			run = 0
		}
	}
	return blocks
}

// compare holds a row's stitches against its total, by kind where the total
// names kinds, in the usual way of counting or in another that print uses.
func (w *pieceWork) compare(rw *rowWork, total *Total) comparison {
	t := tallyOf(&rw.out)
	parts := total.Parts
	if len(parts) == 1 || allStitches(parts) {
		return w.compareOne(rw, t, parts)
	}
	way := ""
	for i, p := range parts {
		if rw.row.Kind == Round && p.Kind == PartOther && figureAmiss(t, p, p.N.At(w.pr.size)) > 0 {
			return comparison{made: -1}
		}
		if w.partAgrees(t, p) || w.otherSpaces(t, parts, i) || w.besideHalves(t, parts, i) {
			continue
		}
		if p.Kind == PartStitches && p.N.At(w.pr.size) == t.stitches+t.spaces && namesSpaces(parts) {
			way = "the total counts chain spaces as well"
			continue // "43 sts: 22 dc and 21 gaps"
		}
		return w.compareSum(rw, t, parts)
	}
	return comparison{agrees: true, made: -1, way: way}
}

// figureAmiss is what all the groups, spaces and clumps of a round agree on, where the petals,
// spokes or pairs that are told of it, "16 pairs, 32 tr", miss that by one or two; else 0.
// Where they differ, or the number is further off, the author may count something else.
func figureAmiss(t tally, p TotalPart, n int64) int64 {
	const slip = 2 // further off is no slip of the pen
	word := strings.ToLower(p.word)
	if word == "" {
		word = strings.ToLower(p.Name)
	}
	if !figureNames[word] || n < 3 {
		return 0
	}
	counts := []int64{t.groups, t.whole, t.clumps, t.spaces}
	if word == "pairs" && t.stitches%2 == 0 {
		counts = append(counts, t.stitches/2)
	}
	there := int64(0)
	for _, c := range counts {
		switch {
		case c == 0:
		case there != 0 && c != there, c%n == 0 || n%c == 0:
			return 0
		default:
			there = c
		}
	}
	if there <= 2 || max(n-there, there-n) > slip {
		return 0
	}
	return there
}

// namesSpaces reports whether a part of a total counts chain spaces.
func namesSpaces(parts []TotalPart) bool {
	for _, p := range parts {
		if p.Kind == PartSpace {
			return true
		}
	}
	return false
}

// besideHalves reports whether a part counts the whole ones of the groups of a row,
// and others the halves at its ends: "21 shells and 2 half shells".
func (w *pieceWork) besideHalves(t tally, parts []TotalPart, i int) bool {
	if parts[i].Kind != PartNamed {
		return false
	}
	all := parts[i].N.At(w.pr.size)
	halves := false
	for _, p := range parts {
		if p.Kind == PartOther && strings.HasPrefix(p.Name, "half ") {
			all += p.N.At(w.pr.size)
			halves = true
		}
	}
	return halves && all == t.groups
}

// otherSpaces reports whether a part counts the spaces that the other parts do
// not: "4 corner spaces, 4 ch-1 spaces".
func (w *pieceWork) otherSpaces(t tally, parts []TotalPart, i int) bool {
	if parts[i].Kind != PartSpace || parts[i].Size > 0 {
		return false
	}
	rest := t.spaces
	for j, p := range parts {
		if j != i && p.Kind == PartSpace {
			rest -= p.N.At(w.pr.size)
		}
	}
	return rest != t.spaces && parts[i].N.At(w.pr.size) == rest
}

// allStitches reports a total such as "18 sts, 18" that only counts stitches.
func allStitches(parts []TotalPart) bool {
	for _, p := range parts {
		if p.Kind != PartStitches {
			return false
		}
	}
	return true
}

// ofBlocks reports whether a part counts the filled meshes of filet.
func (p *TotalPart) ofBlocks() bool {
	switch p.word {
	case "block", "blocks", "blk", "blks", "bl", "bls":
		return true
	}
	return false
}

// ofMeshes reports whether a part counts the meshes of filet.
func (p *TotalPart) ofMeshes() bool { return p.word == "mesh" || p.word == "meshes" }

// compareOne compares a single number, bare or of one kind.
func (w *pieceWork) compareOne(rw *rowWork, t tally, parts []TotalPart) comparison {
	if rw.blocked > 0 && parts[0].ofBlocks() {
		if parts[0].N.At(w.pr.size) == rw.blocked {
			return comparison{agrees: true, made: -1}
		}
		return comparison{made: rw.blocked}
	}
	p := parts[0]
	n := p.N.At(w.pr.size)
	if p.ofMeshes() && (rw.meshes > 0 || t.blocks >= 0 && t.spaces > 0) {
		return comparison{agrees: n == rw.meshes || t.blocks >= 0 && n == t.blocks+t.spaces || rw.meshes == 0 && n == t.spaces, made: -1}
	}
	if p.Kind != PartStitches {
		if w.partAgrees(t, p) {
			return comparison{agrees: true, made: -1}
		}
		if p.Kind == PartSpace || p.Kind == PartChain || p.Kind == PartNamed {
			if p.Kind == PartNamed && (t.groups == n || t.whole == n) {
				return comparison{agrees: true, made: -1}
			}
			return comparison{made: -1}
		}
		// the author names the main stitch and means them all
		if n == t.stitches && (t.byID[p.ID] > 0 || w.family(t, p.ID) > 0) {
			if w.onlyShaped(t, p.ID) {
				return comparison{agrees: true, made: -1}
			}
			return comparison{agrees: true, made: -1, way: fmt.Sprintf("the total of %d counts every stitch of the row, not %s alone", n, p.ID.Name(w.pr.terms))}
		}
	}
	if n == t.stitches {
		return comparison{agrees: true, made: -1}
	}
	if p.Kind == PartStitch && t.byID[p.ID] == 0 && w.family(t, p.ID) == 0 {
		if n != t.stitches {
			return comparison{made: -1}
		}
	}
	ways := []struct {
		n      int64
		made   int64
		chains bool // each chain is a stitch
		way    string
	}{
		{t.stitches + t.slips, t.stitches + t.slips, false, "the total counts slip stitches"},
		{t.stitches + t.chains, -1, true, "the total counts chains as well"},
		{t.stitches + t.spaces, -1, false, "the total counts chain spaces as well"},
		{t.stitches + t.bySize[1], -1, false, "the total counts each ch-1 as a stitch"},
		{t.stitches + t.picots, -1, false, "the total counts picots as well"},
		{t.stitches + t.slips + t.chains, -1, true, "the total counts chains and slip stitches as well"},
	}
	for i, y := range ways {
		if i > 0 && (p.noChains || p.Kind == PartStitch && w.family(t, p.ID) == t.stitches) {
			break // "48 dc" of 36 dc and 12 spaces: chains are no dc
		}
		if y.n == n && y.n != t.stitches {
			return comparison{agrees: true, way: y.way, made: y.made, chains: y.chains}
		}
	}
	return comparison{made: -1}
}

// onlyShaped reports whether a row is all of one family: sc and its
// decreases, say.
func (w *pieceWork) onlyShaped(t tally, id stitch.ID) bool { return w.family(t, id) == t.stitches }

// family counts the stitches that share a base.
func (w *pieceWork) family(t tally, id stitch.ID) int64 {
	n := int64(0)
	for k, v := range t.byID {
		if k.Base() == id.Base() {
			n += v
		}
	}
	return n
}

// partAgrees compares one part of a total that names kinds.
func (w *pieceWork) partAgrees(t tally, p TotalPart) bool {
	n := p.N.At(w.pr.size)
	switch p.Kind {
	case PartStitches:
		return n == t.stitches || n == t.stitches+t.slips
	case PartStitch:
		return n == t.byID[p.ID] || n == w.family(t, p.ID)
	case PartSpace:
		if p.Size > 0 {
			if n == t.bySize[p.Size] {
				return true
			}
			// a loop that a tall stitch closes, or that the turning chain begins
			return n == t.spaces && t.bySize[p.Size] > 0 && t.bySize[p.Size] >= n-2
		}
		if n == t.between && t.between < t.spaces && t.groups > 0 {
			return true // "12 loops" between shells that have a space of their own
		}
		return n == t.spaces || p.ends > 0 && n+p.ends == t.spaces || n == t.groups-1 && t.spaces == 0
	case PartChain:
		return n == t.chains || n == t.spaces
	case PartNamed:
		if p.ofBlocks() && t.blocks == n {
			return true
		}
		if p.ID != stitch.None && (n == t.byID[p.ID] || n == t.byName[stitch.Of(p.ID).USWords]) {
			return true
		}
		for name, v := range t.byName {
			if v == n && sameName(name, p.Name) {
				return true
			}
		}
		if sameName(p.Name, "picot") && t.picots == 0 && n == t.spaces && t.bySize[3]+t.bySize[4]+t.bySize[5] == n {
			return true // short loops that nothing closes
		}
		if n == t.spaces && n > 0 && t.groups == 0 && (t.stitches == 0 || t.stitches == t.spaces) && len(t.byName) == 0 {
			return true // "8 petals", each a loop and what holds it
		}
		compounds := int64(0)
		for id, v := range t.byID {
			if isCompound(id) {
				compounds += v
			}
		}
		return n == compounds && compounds > 0 || len(t.byName) == 0 && (n <= t.groups && t.groups <= n+p.ends && t.groups > 0 || n == t.whole && n > 0 || n > 0 && (n == t.clumps || n == t.apart))
	}
	return true
}

// sameName reports whether two names of a special stitch are one.
func sameName(a, b string) bool {
	return strings.TrimSuffix(a, "s") == strings.TrimSuffix(b, "s") || strings.HasPrefix(a, b) || strings.HasPrefix(b, a)
}

// compareSum accepts a total whose kinds are named loosely when they add up:
// turning chains named apart, bobbles counted with the stitches around them.
func (w *pieceWork) compareSum(rw *rowWork, t tally, parts []TotalPart) comparison {
	sum, other := int64(0), false
	corners := int64(0)
	for _, p := range parts {
		n := p.N.At(w.pr.size)
		if p.word == cornerWord {
			corners += n
		}
		switch p.Kind {
		case PartStitches, PartStitch:
			sum += n
		case PartNamed:
			if v := w.named(t, p); v > 0 && stitch.Of(p.ID).Kind != stitch.Compound && !w.isTop(t, p) {
				other = true
				if v != n {
					return comparison{made: -1}
				}
				continue
			}
			sum += n
		case PartSpace:
			if !w.partAgrees(t, p) {
				return comparison{made: -1}
			}
		case PartChain:
			if !w.partAgrees(t, p) {
				return comparison{made: -1}
			}
		}
	}
	if w.togNamed(t, parts) {
		return comparison{agrees: true, made: -1}
	}
	if sum == t.stitches && !other && !w.kindsNamed(t, parts) {
		return comparison{agrees: true, made: -1, way: "the kinds named in the total add up to the stitches made, though not kind by kind"}
	}
	if apart := t.stitches - sum; corners > 0 && apart > 0 && apart%corners == 0 && apart/corners <= maxCorner && (sum > 0 || slices.ContainsFunc(parts, func(p TotalPart) bool { return p.share })) {
		return comparison{agrees: true, made: -1, way: "the stitches of the corners are counted apart"}
	}
	if sum == t.stitches+t.slips && t.slips > 0 {
		return comparison{agrees: true, made: sum, way: "the total counts slip stitches"}
	}
	if other {
		// "(4 shells, 5 sc)": the stitches outside the shells
		if sum == t.outside {
			return comparison{agrees: true, made: -1}
		}
	}
	return comparison{made: -1}
}

// togNamed reports whether a total calls stitches worked together clusters,
// "(5 clusters, 6 sc)" for dc3tog and sc, and is right in each part.
func (w *pieceWork) togNamed(t tally, parts []TotalPart) bool {
	rest, clusters := t.stitches, int64(0)
	for _, p := range parts {
		n := p.N.At(w.pr.size)
		switch {
		case p.Kind == PartNamed && clusters == 0 && w.named(t, p) == 0 && (sameName(p.Name, "cluster") || sameName(p.Name, "cl")):
			clusters = n
		case p.Kind == PartStitch && w.partAgrees(t, p):
			rest -= n
		case (p.Kind == PartSpace || p.Kind == PartChain || p.Kind == PartNamed) && w.partAgrees(t, p):
		default:
			return false
		}
	}
	return clusters > 0 && clusters == rest
}

// kindsNamed reports whether each kind named is one the row has, so that a
// wrong split among them is a slip and no manner of speaking.
func (w *pieceWork) kindsNamed(t tally, parts []TotalPart) bool {
	for _, p := range parts {
		if p.Kind == PartStitch && w.family(t, p.ID) == 0 {
			return false
		}
	}
	return true
}

func (w *pieceWork) named(t tally, p TotalPart) int64 {
	if v, ok := t.byName[p.Name]; ok {
		return v
	}
	best := "" // of several names alike the first, so that it is always the same
	for name := range t.byName {
		if sameName(name, p.Name) && (best == "" || name < best) {
			best = name
		}
	}
	return t.byName[best]
}

// isTop reports whether what a total names is a stitch with one top.
func (w *pieceWork) isTop(t tally, p TotalPart) bool {
	return p.ID != stitch.None && t.byID[p.ID] > 0
}

// totalOf is the number of stitches that a total states, where it does.
func (w *pieceWork) totalOf(t *Total) (int64, bool) {
	if t == nil {
		return 0, false
	}
	sum, any := int64(0), false
	for _, p := range t.Parts {
		switch p.Kind {
		case PartStitches, PartStitch:
			sum += p.N.At(w.pr.size)
			any = true
			if p.Kind == PartStitches {
				return p.N.At(w.pr.size), true
			}
		case PartNamed:
			if p.ID != stitch.None {
				sum += p.N.At(w.pr.size)
				any = true
			}
		}
	}
	return sum, any
}

// wholeTotal is totalOf for a total that tells of the whole row: one that counts its
// bobbles alone, "4 bobbles", says nothing of the stitches between them.
func (w *pieceWork) wholeTotal(t *Total) (int64, bool) {
	n, ok := w.totalOf(t)
	return n, ok && slices.ContainsFunc(t.Parts, func(p TotalPart) bool { return p.Kind != PartNamed })
}

// statedTotal is the total with its number for the size proven.
func (w *pieceWork) statedTotal(t *Total) *Total {
	c := *t
	c.N, _ = w.totalOf(t)
	c.Text = w.statedWords(t)
	return &c
}

// statedWords says a total in plain words, for the size proven.
func (w *pieceWork) statedWords(t *Total) string {
	var out []string
	for _, p := range t.Parts {
		n := itoa(p.N.At(w.pr.size))
		switch {
		case p.Kind == PartStitch:
			out = append(out, n+" "+p.ID.Name(w.pr.terms))
		case p.Kind == PartSpace && p.Size > 0:
			out = append(out, n+" ch-"+itoa(p.Size)+" sp")
		case p.Kind == PartSpace:
			out = append(out, n+" sp")
		case p.Name != "":
			out = append(out, n+" "+p.Name)
		default:
			out = append(out, n)
		}
	}
	return strings.Join(out, ", ")
}

// madeWords says what a row made, by kind where that matters.
func (w *pieceWork) madeWords(o outcome) string {
	kinds := kindsOf(&o.rw.out, w.pr.terms)
	if len(kinds) == 0 {
		return "no stitches"
	}
	var out []string
	for i, k := range kinds {
		if i > 4 {
			out = append(out, "more")
			break
		}
		out = append(out, itoa(k.N)+" "+k.Name)
	}
	s := strings.Join(out, ", ")
	if len(kinds) > 1 {
		s = countWords(o.made, "stitch", "stitches") + " (" + s + ")"
	}
	return s
}
