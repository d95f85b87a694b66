package pattern

import (
	"fmt"
	"hash/fnv"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// TestSlipsAreCaught plants single wrong numbers in patterns that are right,
// one at a time, and proves what comes of it. It holds three shares: how many
// slips are caught, an error at the row or the one after it; how many of those
// are told in one error and no more; and how many of them have the mend that
// restores the number. SLIPS=all in the environment plants every slip there is
// and lists those that are missed.
//
// Not every changed number is a slip that a reader could notice. By rule, not
// by list, a slip is left out where
//   - neither its row nor the next one states a total, so that the text is
//     another pattern and perhaps a right one;
//   - it makes no difference: its row makes the same stitches and spaces, uses
//     as much of the row below and leaves as much, as with the first of
//     "sc in next 5 sts, sc in each st across";
//   - it is the length of a turning chain, or of a chain between stitches that
//     neither its total nor the next row names by its length;
//   - it ends a range of rows, and the next label does not go on from there;
//   - the row has no count of its own to hold against, since only the author
//     knows it or its words are not understood.
func TestSlipsAreCaught(t *testing.T) {
	all := os.Getenv("SLIPS") == "all"
	kinds := []string{"total", "count", "repeat", "per", "chain", "foundation", "hook", "nth", "bound", "rows"}
	sums := make(map[string]*slipSum)
	for _, k := range kinds {
		sums[k] = new(slipSum)
	}
	whole := new(slipSum)
	right := rightPatterns(t)
	names := slices.Sorted(maps.Keys(right))
	for _, name := range names {
		text := right[name]
		base := Read(text).Prove(Options{})
		if base.Errors() > 0 {
			continue
		}
		for _, s := range slipsOf(base, text) {
			if !all && slipHash(name, s)%17 != 0 {
				continue
			}
			got := s.prove(base, text)
			if !got.counts {
				continue
			}
			whole.add(got)
			sums[s.kind].add(got)
			if all && (!got.caught || got.more > 0 || !got.mended) {
				t.Logf("%s: %s", name, got.say(s, text))
			}
		}
	}
	for _, k := range kinds {
		t.Logf("%-10s %s", k, sums[k])
	}
	t.Logf("%-10s %s", "in all", whole)
	if whole.planted < 300 {
		t.Errorf("only %d slips planted", whole.planted)
	}
	if c, o, m := whole.shares(); c < floorCaught || o < floorAlone || m < floorMended {
		t.Errorf("caught %.1f%%, alone %.1f%%, mended %.1f%%; want at least %.1f%%, %.1f%%, %.1f%%", c, o, m, floorCaught, floorAlone, floorMended)
	}
}

// What the shares must not sink under, in per cent.
const (
	floorCaught = 93.0
	floorAlone  = 94.0
	floorMended = 72.0
)

// slipSum counts slips.
type slipSum struct{ planted, caught, alone, mended int }

func (s *slipSum) add(g slipProof) {
	s.planted++
	if g.caught {
		s.caught++
		if g.more == 0 {
			s.alone++
		}
		if g.mended {
			s.mended++
		}
	}
}

// shares gives those caught of those planted, and those told in one error and
// those mended of the caught, in per cent.
func (s *slipSum) shares() (caught, alone, mended float64) {
	of := func(a, b int) float64 { return 100 * float64(a) / float64(max(b, 1)) }
	return of(s.caught, s.planted), of(s.alone, s.caught), of(s.mended, s.caught)
}

func (s *slipSum) String() string {
	c, a, m := s.shares()
	return fmt.Sprintf("%5d planted, %5.1f%% caught; of these %5.1f%% in one error, %5.1f%% with the right mend", s.planted, c, a, m)
}

// wrongNumber is one wrong number.
type wrongNumber struct {
	kind     string
	at       Span
	from, to int64
	piece    int
	row      *Row
	next     *Row // the row after it in the piece, or nil
}

// slipProof is what came of a slip.
type slipProof struct {
	counts, caught, mended bool
	more                   int // errors beyond the first
	finds                  []Finding
	src                    *Source
}

func (g slipProof) say(s wrongNumber, text string) string {
	what := "missed"
	switch {
	case g.caught && g.more > 0:
		what = fmt.Sprintf("cascade of %d", g.more)
	case g.caught:
		what = "not mended"
	}
	var b strings.Builder
	fmt.Fprintf(&b, "%s, %s: %d for %d in %q", what, s.kind, s.to, s.from, oneLine(text[s.row.Span.Start:s.row.Span.End]))
	for _, f := range g.finds {
		if f.Severity >= Warning {
			line, _ := g.src.Position(f.Span.Start)
			fmt.Fprintf(&b, "\n      %d %s %s: %s; %s", line, f.Severity, f.Code, f.Message, f.Hint)
		}
	}
	return b.String()
}

func slipHash(name string, s wrongNumber) uint32 {
	h := fnv.New32a()
	fmt.Fprintf(h, "%s %d %d", name, s.at.Start, s.to)
	return h.Sum32()
}

// slipsOf lists the wrong numbers that can be planted in a pattern: each
// number off by one either way, and by more.
func slipsOf(p *Proof, text string) []wrongNumber {
	var out []wrongNumber
	for i, pc := range p.Pattern.Pieces {
		for j, r := range pc.Rows {
			var next *Row
			if j+1 < len(pc.Rows) {
				next = pc.Rows[j+1]
			}
			seen := map[Span]bool{}
			add := func(kind string, sp Span, least int64) {
				if seen[sp] || sp.Empty() {
					return
				}
				seen[sp] = true
				sp.End = sp.Start + len(text[sp.Start:sp.End]) - len(strings.TrimLeft(text[sp.Start:sp.End], "0123456789"))
				n, err := strconv.ParseInt(text[sp.Start:sp.End], 10, 64)
				if err != nil || n > 100_000 {
					return
				}
				for _, by := range []int64{-1, 1, 3 + n/4} {
					if n+by >= least {
						out = append(out, wrongNumber{kind: kind, at: sp, from: n, to: n + by, piece: i, row: r, next: next})
					}
				}
			}
			if r.Total != nil {
				for _, part := range r.Total.Parts {
					if part.Kind != PartOther {
						add("total", part.N.Span, 1)
					}
				}
			}
			if n := r.Numbers; n.Last.N > n.First.N && len(n.List) == 0 && n.Every == 0 {
				add("rows", n.Last.Span, n.First.N)
			}
			first := firstMade(r.Steps)
			take := func(s *Step, n numAt) {
				kind, least := "count", int64(1)
				switch n.role {
				case roleTimes:
					kind = "repeat"
				case rolePer:
					kind = "per"
				case roleChain:
					kind = "chain"
					if (j == 0 || hasHook(r.Steps)) && n.num.Span.Start < first && n.num.N > 6 {
						kind = "foundation"
					}
					if s.Op != OpChain {
						return
					}
				case roleHook:
					kind, least = "hook", 2
				case roleNth:
					kind = "nth"
				case roleBound:
					kind = "bound"
				}
				if n.implied.Empty() {
					add(kind, n.num.Span, least)
				}
			}
			eachNumber(r.Setup, 0, take)
			eachNumber(r.Steps, 0, take)
		}
	}
	return out
}

// prove proves the pattern with the slip in it.
func (s wrongNumber) prove(base *Proof, text string) slipProof {
	fresh, rest := strconv.FormatInt(s.to, 10), text[s.at.End:]
	if len(rest) > 2 && slices.Contains([]string{"st", "nd", "rd", "th"}, rest[:2]) && (s.kind == "hook" || s.kind == "nth") {
		fresh, rest = ordinal(s.to), rest[2:]
	}
	changed := text[:s.at.Start] + fresh + rest
	proof := Read(changed).Prove(Options{})
	g := slipProof{src: proof.Pattern.Source, finds: proof.Findings}
	g.counts = s.noticeable(base, proof, text)
	by := len(changed) - len(text)
	to := s.row.Span.End
	if s.next != nil {
		to = s.next.Span.End
	}
	errors := 0
	for _, f := range proof.Findings {
		// a row of no total of its own is amiss by what it leaves
		here := f.Span.Start >= s.row.Span.Start && f.Span.Start <= to+by
		switch {
		case f.Severity == Error:
			errors++
			if here {
				g.caught = true
				g.mended = g.mended || s.restores(f.Hint)
			}
		case f.Severity == Warning && here && s.row.Total == nil && !hadFinding(base, f):
			g.caught = true
			g.mended = g.mended || s.restores(f.Hint)
		}
	}
	g.more = max(0, errors-1)
	return g
}

func hadFinding(p *Proof, f Finding) bool {
	for _, o := range p.Findings {
		if o.Code == f.Code && o.Message == f.Message {
			return true
		}
	}
	return false
}

var hintNumber = regexp.MustCompile(`\d+`)

// restores reports whether a hint has the number that stood there: in what the
// total should read, or in what is to be written in place of the words there.
func (s wrongNumber) restores(hint string) bool {
	_, to, ok := strings.Cut(hint, "\" to \"")
	if !ok {
		_, to, ok = strings.Cut(hint, "should read ")
	}
	if !ok {
		return false
	}
	to, _, _ = strings.Cut(to, ": ")
	return slices.Contains(hintNumber.FindAllString(to, -1), strconv.FormatInt(s.from, 10)) || s.from == 1 && !strings.Contains(to, strconv.FormatInt(s.to, 10))
}

// noticeable is the rule that the test tells.
func (s wrongNumber) noticeable(base, proof *Proof, text string) bool {
	if s.kind == "total" {
		return !s.loose(base)
	}
	if s.row.Total == nil && (s.next == nil || s.next.Total == nil) {
		return false
	}
	if s.loose(base) {
		return false
	}
	if s.kind == "rows" {
		return s.next != nil && s.next.Numbers.First.N == s.from+1
	}
	if s.kind == "chain" {
		// by its length, in its own total or in a row that works into it
		size := regexp.MustCompile(fmt.Sprintf(`(?i)ch(ain)?[- ]?%d[- ](sp|lp|loop)|%d[- ]ch[- ](sp|lp|loop)`, s.from, s.from))
		said := ""
		if s.row.Total != nil {
			said = text[s.row.Total.Span.Start:s.row.Total.Span.End]
		}
		if s.next != nil {
			said += " " + text[s.next.Span.Start:s.next.Span.End]
		}
		if s.at.Start < firstMade(s.row.Steps) || !size.MatchString(said) {
			return false
		}
	}
	return !s.same(base, proof)
}

// loose reports whether the row is one that cannot be counted.
func (s wrongNumber) loose(base *Proof) bool {
	n := 0
	for _, r := range base.Pieces[s.piece].Rows {
		if r.Label == s.row.Label && (r.Row == s.row || r.Line == base.Pattern.Source.lineAt(s.row.Span.Start)) {
			n++
			if r.Status == Trusted || r.Status == Unread {
				return true
			}
		}
	}
	return n == 0
}

// same reports whether the rows of the piece come out alike but for what they
// say.
func (s wrongNumber) same(base, proof *Proof) bool {
	if len(base.Pieces) != len(proof.Pieces) {
		return false
	}
	a, b := base.Pieces[s.piece].Rows, proof.Pieces[s.piece].Rows
	return slices.EqualFunc(a, b, func(x, y *RowProof) bool {
		return x.Made == y.Made && x.Taken == y.Taken && x.Left == y.Left && x.First == y.First && x.Last == y.Last &&
			x.Status == y.Status && slices.Equal(x.ByKind, y.ByKind)
	})
}

// rightPatterns are the patterns at hand that are marked right.
func rightPatterns(t *testing.T) map[string]string {
	t.Helper()
	out := make(map[string]string)
	for _, dir := range []string{"cases", "corpus/modern", "corpus/booklet", "corpus/loose"} {
		files, _ := filepath.Glob(filepath.Join("..", "testdata", filepath.FromSlash(dir), "*.case"))
		if len(files) == 0 {
			t.Errorf("no cases in %s", dir)
		}
	files:
		for _, f := range files {
			c := readCase(t, f)
			for _, w := range c.wants {
				for _, x := range w.finds {
					if x.severity == Error {
						continue files
					}
				}
				for _, r := range w.rows {
					if r.status == Differs.String() {
						continue files
					}
				}
			}
			if len(c.text) < 20_000 {
				out[dir+"/"+filepath.Base(f)] = c.text
			}
		}
	}
	index, err := os.ReadFile(filepath.Join("..", "testdata", "dialects", "index.tsv"))
	if err != nil {
		t.Fatal(err)
	}
	for _, line := range strings.Split(strings.TrimSpace(string(index)), "\n")[1:] {
		f := strings.Split(line, "\t")
		if strings.Contains(f[1], "planted") {
			continue
		}
		text, err := os.ReadFile(filepath.Join("..", "testdata", "dialects", f[0]+".txt"))
		if err != nil {
			t.Fatal(err)
		}
		out["dialects/"+f[0]] = string(text)
	}
	return out
}
