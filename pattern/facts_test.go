package pattern

import (
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// facts reads a table of figures: fields parted by tabs, the first line the
// names of the columns; lines that begin with # name the sources.
func facts(t *testing.T, name string) []map[string]string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("..", "testdata", "facts", name))
	if err != nil {
		t.Fatal(err)
	}
	var head []string
	var out []map[string]string
	for line := range strings.Lines(string(text)) {
		line = strings.TrimRight(line, "\n")
		if line == "" || line[0] == '#' {
			continue
		}
		fields := strings.Split(line, "\t")
		if head == nil {
			head = fields
			continue
		}
		f := make(map[string]string)
		for i, h := range head {
			if i >= len(fields) {
				t.Fatalf("%s: short line %q", name, line)
			}
			f[h] = fields[i]
		}
		out = append(out, f)
	}
	if len(out) == 0 {
		t.Fatalf("%s is empty", name)
	}
	return out
}

func ints(t *testing.T, s string) []int64 {
	t.Helper()
	var out []int64
	for _, f := range strings.Fields(s) {
		n, err := strconv.ParseInt(f, 10, 64)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, n)
	}
	return out
}

// provesTo reads and proves a pattern and holds its rows against counts,
// which are stated as totals too; nothing may be found amiss.
func provesTo(t *testing.T, name, text string, want []int64) {
	t.Helper()
	proof := Read(text).Prove(Options{})
	for _, f := range proof.Findings {
		if f.Severity > Note {
			line, _ := proof.Pattern.Source.Position(f.Span.Start)
			t.Errorf("%s: line %d: %s: %s\n%s", name, line, f.Severity, f.Message, proof.Pattern.Source.Line(line))
		}
	}
	if len(proof.Pieces) != 1 {
		t.Errorf("%s: %d pieces\n%s", name, len(proof.Pieces), text)
		return
	}
	pc := proof.Pieces[0]
	if pc.Len() != len(want) {
		t.Errorf("%s: %d rows, want %d\n%s", name, pc.Len(), len(want), text)
		return
	}
	for i, n := range want {
		r, number := pc.At(i)
		if n >= 0 && (r.Made != n || r.Status == Differs || r.Status == Unread || r.Status == Trusted) {
			t.Errorf("%s: row %d makes %d, %s; want %d", name, number, r.Made, r.Status, n)
		}
	}
}

// Sources: the booklets named in testdata/facts/booklets.tsv.
func TestBooklets(t *testing.T) {
	type booklet struct {
		title, text string
		want        []int64
	}
	var all []*booklet
	for _, f := range facts(t, "booklets.tsv") {
		if f["title"] != "" {
			all = append(all, &booklet{title: f["title"], text: "US terms\n\n"})
		}
		b := all[len(all)-1]
		b.text += f["words"]
		counts := ints(t, strings.ReplaceAll(f["stitches"], "-", ""))
		switch {
		case strings.HasPrefix(f["words"], "Ch "):
		case len(counts) == 0:
			b.want = append(b.want, -1)
		case len(counts) == 1:
			b.text += fmt.Sprintf(" (%d sts)", counts[0])
		}
		b.want = append(b.want, counts...)
		b.text += "\n"
	}
	for _, b := range all {
		provesTo(t, b.title, b.text, b.want)
	}
}

// rounds writes rounds that go from each count to the next by increases or
// decreases in equal sections, in one stitch.
func rounds(stitch string, counts []int64) string {
	var b strings.Builder
	b.WriteString("US terms\n\n")
	fmt.Fprintf(&b, "Rnd 1: %d %s in magic ring. (%d)\n", counts[0], stitch, counts[0])
	for i := 1; i < len(counts); i++ {
		a, n := counts[i-1], counts[i]
		fmt.Fprintf(&b, "Rnd %d: ", i+1)
		switch by := n - a; {
		case by == 0:
			fmt.Fprintf(&b, "%s in each st around", stitch)
		case by == a:
			fmt.Fprintf(&b, "2 %s in each st around", stitch)
		case by > 0 && a%by == 0:
			fmt.Fprintf(&b, "(%s in next %d sts, 2 %s in next st) %d times", stitch, a/by-1, stitch, by)
		case by < 0 && a == -2*by:
			fmt.Fprintf(&b, "%s2tog %d times", stitch, -by)
		case by < 0 && a%-by == 0:
			fmt.Fprintf(&b, "(%s in next %d sts, %s2tog) %d times", stitch, a/-by-2, stitch, -by)
		case by > 0:
			fmt.Fprintf(&b, "%s around, increasing %d sts evenly", stitch, by)
		default:
			fmt.Fprintf(&b, "%s around, decreasing %d sts evenly", stitch, -by)
		}
		fmt.Fprintf(&b, ". (%d)\n", n)
	}
	return b.String()
}

// cornered writes a square worked in rounds from its first count.
func cornered(stitch string, counts []int64) string {
	var b strings.Builder
	b.WriteString("US terms\n\n")
	if stitch == "sc" {
		b.WriteString("Rnd 1: 8 sc in magic ring. (8)\nRnd 2: (Sc in next st, 3 sc in next st) 4 times. (16)\n")
		for i := 2; i < len(counts); i++ {
			side := counts[i-1]/4 - 1
			fmt.Fprintf(&b, "Rnd %d: (Sc in next %d sts, 3 sc in next st, sc in next %d sts) 4 times. (%d)\n", i+1, side-1, 1, counts[i])
		}
		return b.String()
	}
	b.WriteString("Ch 4, join with sl st in first ch to form ring.\nRnd 1: Ch 3 (counts as dc), 11 dc in ring, join with sl st in top of beg ch-3. (12 dc)\n")
	b.WriteString("Rnd 2: Ch 3 (counts as dc), dc in next dc, [(2 dc, ch 2, 2 dc) in next dc, dc in next 2 dc] 3 times, (2 dc, ch 2, 2 dc) in next dc, join with sl st in top of beg ch-3. (24 dc)\n")
	for i := 2; i < len(counts); i++ {
		fmt.Fprintf(&b, "Rnd %d: Ch 3 (counts as dc), dc in each dc and (2 dc, ch 2, 2 dc) in each ch-2 sp around, join with sl st in top of beg ch-3. (%d dc)\n", i+1, counts[i])
	}
	return b.String()
}

// granny writes a granny square: groups of three, two groups in each corner.
func granny(counts []int64) string {
	var b strings.Builder
	b.WriteString("US terms\n\nCh 4, join with sl st in first ch to form ring.\n")
	b.WriteString("Rnd 1: Ch 3 (counts as dc), 2 dc in ring, (ch 2, 3 dc in ring) 3 times, ch 2, join with sl st in top of beg ch-3. (12 dc)\n")
	for i := 1; i < len(counts); i++ {
		side := strings.Repeat(", ch 1, 3 dc in next ch-1 sp", i-1)
		fmt.Fprintf(&b, "Rnd %d: [(3 dc, ch 2, 3 dc) in next ch-2 sp%s, ch 1] 4 times, join with sl st in first dc. (%d dc)\n", i+1, side, counts[i])
	}
	return b.String()
}

// Sources: those named in testdata/facts/circles.tsv.
func TestCirclesAndBalls(t *testing.T) {
	for _, f := range facts(t, "circles.tsv") {
		counts := ints(t, f["counts"])
		name := f["case"] + " of " + f["stitch"] + " " + f["counts"]
		switch f["case"] {
		case "flat circle", "ball":
			provesTo(t, name, rounds(f["stitch"], counts), counts)
		case "square":
			provesTo(t, name, cornered(f["stitch"], counts), counts)
		case "granny square":
			provesTo(t, name, granny(counts), counts)
		case "oval of 40 chains":
			provesTo(t, name, fmt.Sprintf(`US terms

Ch 40.
Rnd 1: 3 sc in 2nd ch from hook, sc in next 37 ch, 3 sc in last ch, working along other side of ch, sc in next 37 ch. (%d sc)
Rnd 2: (2 sc in each of next 3 sc, sc in next 37 sc) twice. (%d sc)
Rnd 3: [(2 sc in next sc, sc in next sc) 3 times, sc in next 37 sc] twice. (92 sc)
`, counts[0], counts[1]), []int64{counts[0], counts[1], counts[1] + 6})
		case "oval of 26 chains, fast corners":
			provesTo(t, name, fmt.Sprintf(`US terms

Ch 26.
Rnd 1: 3 sc in 2nd ch from hook, sc in next 23 ch, 3 sc in last ch, working along other side of ch, sc in next 23 ch. (%d sc)
Rnd 2: (3 sc in next sc, sc in next sc, 3 sc in next sc, sc in next 23 sc) twice. (%d sc)
`, counts[0], counts[1]), counts)
		default:
			t.Errorf("nothing is made of %q", f["case"])
		}
	}
}

// A flat disc of +6 comes to 3R(R+1) stitches, one of +12 to 6R(R+1), a granny
// square to 6R(R+1), a square of sc to 4R(R+1), a ball of m rounds to its
// widest to 12m². Plain arithmetic.
func TestSums(t *testing.T) {
	series := func(first, by, n int64) []int64 {
		var out []int64
		for i := range n {
			out = append(out, first+by*i)
		}
		return out
	}
	ball := func(m int64) []int64 {
		out := series(6, 6, m)
		for range m {
			out = append(out, 6*m)
		}
		for i := m - 1; i > 0; i-- {
			out = append(out, 6*i)
		}
		return out
	}
	for _, test := range []struct {
		name, text string
		want       int64
	}{
		{"disc of +6, 10 rounds", rounds("sc", series(6, 6, 10)), 3 * 10 * 11},
		{"disc of +12, 5 rounds", rounds("dc", series(12, 12, 5)), 6 * 5 * 6},
		{"granny square, 5 rounds", granny(series(12, 12, 5)), 6 * 5 * 6},
		{"square of sc, 7 rounds", cornered("sc", series(8, 8, 7)), 4 * 7 * 8},
		{"ball of 36", rounds("sc", ball(6)), 12 * 6 * 6},
		{"ball of 60", rounds("sc", ball(10)), 12 * 10 * 10},
	} {
		proof := Read(test.text).Prove(Options{})
		if got := proof.Implied(); got.Stitches != test.want || proof.Errors() > 0 {
			t.Errorf("%s: %d stitches, want %d; %d errors", test.name, got.Stitches, test.want, proof.Errors())
		}
	}
}

// Sources: those named in testdata/facts/mathematics.tsv.
func TestMathematics(t *testing.T) {
	for _, f := range facts(t, "mathematics.tsv") {
		counts := ints(t, f["counts"])
		n := ints(t, f["n"])[0]
		var b strings.Builder
		b.WriteString("US terms\n\n")
		name := f["case"] + " " + f["n"]
		switch {
		case f["case"] == "hyperbolic plane":
			fmt.Fprintf(&b, "Ch %d.\nRow 1: Sc in 2nd ch from hook and in each ch across. (%d sc)\n", counts[0]+1, counts[0])
			for i := 1; i < len(counts); i++ {
				times, rest := counts[i-1]/n, counts[i-1]%n
				plain := fmt.Sprintf("sc in next %d sts", n-1)
				if n == 2 {
					plain = "sc in next st"
				}
				fmt.Fprintf(&b, "Row %d: Ch 1, turn, (%s, 2 sc in next st) %d times", i+1, plain, times)
				if rest > 0 {
					fmt.Fprintf(&b, ", sc in next %d sts", rest)
				}
				fmt.Fprintf(&b, ". (%d sc)\n", counts[i])
			}
		case f["case"] == "doubling rounds", f["case"] == "even-angle ball":
			b.Reset()
			b.WriteString(rounds("sc", counts))
		case f["case"] == "triangle":
			b.WriteString("Ch 2.\nRow 1: Sc in 2nd ch from hook. (1 sc)\nRow 2: Ch 1, turn, 3 sc in next st. (3 sc)\n")
			for i := 2; i < len(counts); i++ {
				fmt.Fprintf(&b, "Row %d: Ch 1, turn, 2 sc in first st, sc in each st to last st, 2 sc in last st. (%d sc)\n", i+1, counts[i])
			}
		case strings.HasPrefix(f["case"], "filet, open"):
			fmt.Fprintf(&b, "Ch %d.\nRow 1: Dc in 8th ch from hook, *ch 2, skip 2 ch, dc in next ch; rep from * across. (%d dc, %d ch-2 sps)\n", 3*n+5, n+1, n)
		case strings.HasPrefix(f["case"], "filet, block"):
			fmt.Fprintf(&b, "Ch %d.\nRow 1: Dc in 4th ch from hook and in each ch across. (%d dc)\n", 3*n+3, 3*n+1)
		default:
			t.Errorf("nothing is made of %q", f["case"])
		}
		provesTo(t, name, b.String(), counts)
	}
}

// The chains of filet: 3 for each mesh and 5 more where it opens with an open
// mesh, 3 more where it opens with a block. Three booklet starts bear it out.
func TestFiletChains(t *testing.T) {
	for m := int64(2); m < 40; m++ {
		open := Read(fmt.Sprintf("US terms\n\nCh %d.\nRow 1: Dc in 8th ch from hook, *ch 2, skip 2 ch, dc in next ch; rep from * across.\n", 3*m+5)).Prove(Options{})
		block := Read(fmt.Sprintf("US terms\n\nCh %d.\nRow 1: Dc in 4th ch from hook, dc in next 2 ch, *ch 2, skip 2 ch, dc in next ch; rep from * across.\n", 3*m+3)).Prove(Options{})
		for name, p := range map[string]*Proof{"open": open, "block": block} {
			for _, f := range p.Findings {
				if f.Severity > Note {
					t.Errorf("%d meshes, %s first: %s", m, name, f.Message)
				}
			}
			want := m + 1
			if name == "block" {
				want = m - 1 + 4
			}
			if r := p.Pieces[0].Rows[0]; r.Made != want {
				t.Errorf("%d meshes, %s first: %d dc, want %d", m, name, r.Made, want)
			}
			if c := p.Implied().Pieces[0].Chain; c == nil || c.Of != 3 {
				t.Errorf("%d meshes, %s first: %v", m, name, c)
			}
		}
	}
}
