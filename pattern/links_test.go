package pattern

import (
	"fmt"
	"io/fs"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"crochet/tallyturn/pattern/stitch"
)

// Rows of single crochet, increases and decreases have exactly the bases that
// counting on paper gives: the model below knows nothing of the prover.
func TestLinksOfPlainRows(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		round := rapid.Bool().Draw(t, "round")
		n := rapid.IntRange(2, 40).Draw(t, "n")
		var text strings.Builder
		if round {
			fmt.Fprintf(&text, "Rnd 1: %d sc in magic ring. (%d)\n", n, n)
		} else {
			fmt.Fprintf(&text, "Ch %d.\nRow 1: Sc in 2nd ch from hook and in each ch across. (%d)\n", n+1, n)
		}
		want := [][][]int{nil} // of each row, of each stitch, the stitches below in the order met
		below := n
		for row := 2; row <= rapid.IntRange(2, 6).Draw(t, "rows"); row++ {
			var parts []string
			var made [][]int
			for at := 0; at < below; {
				switch k := rapid.IntRange(0, 3).Draw(t, "kind"); {
				case k == 0:
					parts = append(parts, "2 sc in next st")
					made = append(made, []int{at}, []int{at})
					at++
				case k == 1 && below-at >= 2:
					parts = append(parts, "sc2tog")
					made = append(made, []int{at, at + 1})
					at += 2
				case k == 2 && below-at >= 3:
					parts = append(parts, "sc3tog")
					made = append(made, []int{at, at + 1, at + 2})
					at += 3
				default:
					run := rapid.IntRange(1, below-at).Draw(t, "run")
					parts = append(parts, fmt.Sprintf("sc in next %d sts", run))
					for i := range run {
						made = append(made, []int{at + i})
					}
					at += run
				}
			}
			if round {
				fmt.Fprintf(&text, "Rnd %d: %s. (%d)\n", row, strings.Join(parts, ", "), len(made))
			} else {
				for _, m := range made { // turned: the stitch made last is met first
					for i := range m {
						m[i] = below - 1 - m[i]
					}
				}
				fmt.Fprintf(&text, "Row %d: Ch 1, turn, %s. (%d)\n", row, strings.Join(parts, ", "), len(made))
			}
			want = append(want, made)
			below = len(made)
		}
		p := Read(text.String()).Prove(Options{})
		links := unfolded(p.Links(0, 10_000))
		if len(links) != len(want) {
			t.Fatalf("%d rows, want %d\n%s", len(links), len(want), &text)
		}
		for i, r := range links[1:] {
			if !r.Known || r.Turned == round {
				t.Fatalf("row %d: known %v, turned %v\n%s", i+2, r.Known, r.Turned, &text)
			}
			var got [][]int
			for _, l := range r.Made {
				var at []int
				for _, b := range l.Bases {
					if b.Kind != BaseRow {
						t.Fatalf("row %d: a base of kind %d", i+2, b.Kind)
					}
					at = append(at, b.At)
				}
				got = append(got, at)
			}
			if !slices.EqualFunc(got, want[i+1], func(a, b []int) bool { return slices.Equal(a, b) }) {
				t.Fatalf("row %d stands in %v, want %v\n%s", i+2, got, want[i+1], &text)
			}
		}
	})
}

// unfolded gives each row links of its own.
func unfolded(rs []RowLinks) []RowLinks {
	var out []RowLinks
	for _, r := range rs {
		for n := r.First; n <= r.Last; n++ {
			one := r
			one.First, one.Last = n, n
			out = append(out, one)
		}
	}
	return out
}

// Over all patterns that are kept as tests: every row walked is told of, no
// base lies outside the row below, and the places stood in are as many as the
// proof says are taken, for these are counted apart.
func TestLinksOfTheCorpus(t *testing.T) {
	rows := 0
	eachKept(t, func(name string, p *Proof) {
		for i, pc := range p.Pieces {
			next, below, wrong := 0, -1, false
			for _, r := range p.Links(i, 2000) {
				where := name + " " + pc.Piece.Name + " " + r.Row.Label
				if r.First != next || r.Last < r.First {
					t.Errorf("%s: rows %d to %d follow row %d", where, r.First, r.Last, next-1)
				}
				next = r.Last + 1
				if !r.Known {
					if r.Row.Trace != nil && r.Row.Available < 2000 && r.Row.Made < 2000 {
						t.Errorf("%s: worked out, and not told of", where)
					}
					below = -1
					continue
				}
				rows++
				stood := make(map[Base]bool)
				for _, l := range r.Made {
					for _, b := range l.Bases {
						if b.Kind == BaseRow && below >= 0 && (b.At < 0 || b.At >= below) ||
							b.Kind == BaseChain && (b.At < 0 || b.At >= r.Chain) ||
							b.Kind == BaseSelf && (b.At < 0 || b.At >= len(r.Earlier)) {
							t.Errorf("%s: stands in %v, and the row below has %d", where, b, below)
						}
						if l.Kind == LinkStitch && !(l.Turn && b.Kind == BaseChain && atHook(p, r.Row)) && b.Kind != BaseUnknown && b.Kind != BaseRing && b.Kind != BaseOwn {
							stood[b] = true
						}
					}
				}
				if int64(len(stood)) != r.Row.Taken && r.Row.Status != Differs && !wrong && len(r.Earlier) == 0 && !takesUnseen(p, r.Row) {
					t.Errorf("%s: stands in %d places, and takes %d: %s", where, len(stood), r.Row.Taken, p.Pattern.Source.Slice(r.Row.Row.Span))
				}
				below, wrong = len(r.Made), r.Row.Status == Differs
			}
			if next != pc.Len() {
				t.Errorf("%s %s: %d rows told of, of %d", name, pc.Piece.Name, next, pc.Len())
			}
		}
	})
	if rows < 500 {
		t.Errorf("only %d rows were looked at", rows)
	}
}

var block = regexp.MustCompile(`\b(bls?|blks?|blocks?|os|sps\., turn|\d+ sps? (more|between)|(all|row of) spaces|spaces all)\b`) // of filet

// takesUnseen reports whether a row takes places that no stitch stands in: an
// open mesh goes over a space, and places of earlier rows count as taken too.
func takesUnseen(p *Proof, r *RowProof) bool {
	words := strings.ToLower(p.Pattern.Source.Slice(r.Row.Span))
	return slices.ContainsFunc(r.Row.Steps, func(s *Step) bool { return s.isMesh() || s.isBlock() }) || strings.Contains(words, "mesh") || block.MatchString(words) || strings.Contains(words, "unworked")
}

// atHook reports whether the chains at the start of a row are those skipped.
func atHook(p *Proof, r *RowProof) bool {
	return strings.Contains(p.Pattern.Source.Slice(r.Row.Span), "hook") || r.Row.Kind == FlatRow
}

func eachKept(t *testing.T, f func(name string, p *Proof)) {
	t.Helper()
	for _, dir := range []string{"../testdata", "demo"} {
		repo := os.DirFS(dir)
		err := fs.WalkDir(repo, ".", func(path string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() || !strings.HasSuffix(path, ".txt") && !strings.HasSuffix(path, ".case") {
				return err
			}
			text, err := fs.ReadFile(repo, path)
			if err != nil {
				return err
			}
			words, _, _ := strings.Cut(string(text), "=== want")
			f(path, Read(words).Prove(Options{}))
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
}

func TestLinksOf(t *testing.T) {
	for _, test := range []struct {
		name, text string
		row        int
		want       string
	}{
		{"a ring", "Rnd 1: Ch 1, 3 sc in magic ring.", 0, "sc ring, sc ring, sc ring"},
		{"a chain that counts", "Ch 8.\nRow 1: Dc in 4th ch from hook and in each ch across. (6 dc)", 0, "dc* 5, dc 4, dc 3, dc 2, dc 1, dc 0"},
		{"a shell", "Ch 6.\nRow 1: Sc in 2nd ch from hook and in each ch across.\nRow 2: Ch 1, turn, sc in first st, skip 1 st, 3 dc in next st, skip 1 st, sc in last st.", 1, "sc 4, dc 2, dc 2, dc 2, sc 0"},
		{"spaces", "Ch 6.\nRow 1: Sc in 2nd ch from hook and in each ch across.\nRow 2: Ch 1, turn, sc in first st, ch 2, skip 3 sts, sc in last st.\nRow 3: Ch 1, turn, sc in first st, 3 sc in ch-2 sp, sc in last st.", 2, "sc 2, sc 1, sc 1, sc 1, sc 0"},
		{"a space's neighbours", "Ch 6.\nRow 1: Sc in 2nd ch from hook and in each ch across.\nRow 2: Ch 1, turn, sc in first st, ch 2, skip 3 sts, sc in last st.", 1, "sc 4, sp2 4+0, sc 0"},
		{"crossed", "Ch 5.\nRow 1: Sc in 2nd ch from hook and in each ch across.\nRow 2: Ch 1, turn, sc in first st, skip next st, dc in next st, dc in skipped st, sc in last st.", 1, "sc 3, dc 1, dc 2, sc 0"},
		{"loops", "Ch 4.\nRow 1: Sc in 2nd ch from hook and in each ch across.\nRow 2: Ch 1, turn, sc in blo of next st, sc in flo of next st, sc in next st.", 1, "sc-b 2, sc-f 1, sc 0"},
		{"posts", "Ch 5.\nRow 1: Dc in 4th ch from hook and in last ch.\nRow 2: Ch 2, turn, fpdc around next st, bpdc around last st.", 1, "fpdc 1, bpdc 0"},
		{"an oval", "Ch 4.\nRnd 1: Sc in 2nd ch from hook, sc in next ch, 3 sc in last ch; working along opposite side of ch, sc in next ch, 2 sc in last ch.", 0, "sc 2, sc 1, sc 0, sc 0, sc 0, sc u0, sc u1, sc u1"},
	} {
		t.Run(test.name, func(t *testing.T) {
			p := Read(test.text).Prove(Options{})
			rs := unfolded(p.Links(0, 1000))
			got := linkWords(rs[test.row].Made)
			if got != test.want {
				t.Errorf("got  %s\nwant %s", got, test.want)
			}
		})
	}
}

func linkWords(ls []Link) string {
	var out []string
	for _, l := range ls {
		w := l.Stitch.Name(stitch.US)
		switch {
		case l.Kind == LinkSpace:
			w = fmt.Sprint("sp", l.Chains)
		case l.Kind == LinkPicot:
			w = fmt.Sprint("picot", l.Chains)
		case l.Turn:
			w += "*"
		}
		w += [...]string{"", "-b", "-f"}[l.Loop] + " "
		for i, b := range l.Bases {
			if i > 0 {
				w += "+"
			}
			switch b.Kind {
			case BaseRing:
				w += "ring"
			case BaseUnknown:
				w += "?"
			case BaseOther:
				w += fmt.Sprint("u", b.At)
			default:
				w += fmt.Sprint(b.At)
			}
		}
		out = append(out, w)
	}
	return strings.Join(out, ", ")
}
