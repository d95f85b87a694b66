package pattern

import (
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// Each pattern has one slip planted in it, and must give the one hint that
// takes it out again.
func TestMend(t *testing.T) {
	for _, test := range []struct{ name, text, hint string }{
		{"total of the first row", `
Ch 20.
Row 1: Sc in 2nd ch from hook and in each ch across. (20 sc)
Row 2: Ch 1, turn, sc in each st across. (19 sc)`, `the total should read (19 sc): the next row agrees with 19`},
		{"foundation one short", `
Ch 20.
Row 1: Sc in 2nd ch from hook and in each ch across. (20 sc)
Row 2: Ch 1, turn, sc in each st across. (20 sc)`, `change "Ch 20" to "Ch 21": then 20 agrees here and in the next row`},
		{"foundation two long", `
Ch 23.
Row 1: Sc in 2nd ch from hook and in each ch across. (20 sc)
Row 2: Ch 1, turn, (sc in next 4 sts, 2 sc in next st) 4 times. (24 sc)`, `change "Ch 23" to "Ch 21": then 20 agrees here, and the next row comes out too`},
		{"foundation of double crochet", `
Ch 21.
Row 1: Dc in 4th ch from hook and in each ch across. (20 dc)
Row 2: Ch 3 (counts as dc), turn, dc in next 19 sts. (20 dc)`, `change "Ch 21" to "Ch 22": then 20 agrees here and in the next row`},
		{"repeat once too often", `
Rnd 1: 6 sc in magic ring. (6)
Rnd 2: 2 sc in each st around. (12)
Rnd 3: (Sc in next st, 2 sc in next st) 7 times. (18)
Rnd 4: (Sc in next 2 sts, 2 sc in next st) 6 times. (24)`, `change "7 times" to "6 times": then 18 agrees here, and the next row comes out too`},
		{"repeat once too few", `
Rnd 1: 6 sc in magic ring. (6)
Rnd 2: 2 sc in each st around. (12)
Rnd 3: (Sc in next st, 2 sc in next st) 5 times. (18)
Rnd 4: (Sc in next 2 sts, 2 sc in next st) 6 times. (24)`, `change "5 times" to "6 times": then 18 agrees here, and the next row comes out too`},
		{"stitches between increases", `
Rnd 1: 6 sc in magic ring. (6)
Rnd 2: 2 sc in each st around. (12)
Rnd 3: (Sc in next st, 2 sc in next st) 6 times. (18)
Rnd 4: (Sc in next 3 sts, 2 sc in next st) around. (24)`, `change "Sc in next 3 sts" to "Sc in next 2 sts": then 24 agrees`},
		{"one stitch between increases", `
Rnd 1: 6 sc in magic ring. (6)
Rnd 2: 2 sc in each st around. (12)
Rnd 3: (Sc in next st, 2 sc in next st) 6 times. (18)
Rnd 4: (Sc in next st, 2 sc in next st) around. (24)
Rnd 5: Sc in each st around. (24)`, `change the 1st "in next st" to "in next 2 sts": then 24 agrees here and in the next row`},
		{"total of a round", `
Rnd 1: 6 sc in magic ring. (6)
Rnd 2: 2 sc in each st around. (14)
Rnd 3: (Sc in next st, 2 sc in next st) 6 times. (18)`, `the total should read (12): the next row agrees with 12`},
		{"the last total", `
Rnd 1: 6 sc in magic ring. (6)
Rnd 2: 2 sc in each st around. (13)`, `the total should read (12)`},
		{"into the ring", `
Rnd 1: 5 sc in magic ring. (6)
Rnd 2: 2 sc in each st around. (12)`, `change "5 sc in magic ring" to "6 sc in magic ring": then 6 agrees here, and the next row comes out too`},
		{"stitches in each", `
Rnd 1: 6 sc in magic ring. (6)
Rnd 2: 3 sc in each st around. (12)
Rnd 3: (Sc in next st, 2 sc in next st) 6 times. (18)`, `change "3 sc in each st around" to "2 sc in each st around": then 12 agrees here, and the next row comes out too`},
		{"total in words", `
Ch 11.
Row 1: Sc in 2nd ch from hook and in each ch across. (eleven sc)
Row 2: Ch 1, turn, sc in each st across. (10 sc)`, `the total should read (ten sc): the next row agrees with 10`},
		{"number in words", `
Ch 13.
Row 1: Sc in 2nd ch from hook and in each ch across. (12 sc)
Row 2: Ch 1, turn, (sc in next two sts, sc2tog) four times. (9 sc)`, `change "four times" to "three times": then 9 agrees`},
		{"twice", `
Ch 13.
Row 1: Sc in 2nd ch from hook and in each ch across. (12 sc)
Row 2: Ch 1, turn, (sc in next 4 sts, 2 sc in next st) twice, sc in next 7 sts. (14 sc)`, `change "sc in next 7 sts" to "sc in next 2 sts": then 14 agrees`},
		{"the same words twice", `
Ch 19.
Row 1: Sc in 2nd ch from hook and in each ch across. (18 sc)
Row 2: Ch 1, turn, sc in next 5 sts, hdc in next 6 sts, sc in next 5 sts. (12 sc, 6 hdc)
Row 3: Ch 1, turn, sc in each st across. (18 sc)`, `change the 1st "sc in next 5 sts" to "sc in next 7 sts": then 18 agrees here and in the next row`},
		{"by kind", `
Ch 19.
Row 1: Sc in 2nd ch from hook and in each ch across. (18 sc)
Row 2: Ch 1, turn, (sc in next st, hdc in next 2 sts) 6 times. (12 sc, 6 hdc)`, `the total should read (6 sc, 12 hdc)`},
		{"kind of space", `
Ch 21.
Row 1: Sc in 2nd ch from hook and in each ch across. (20 sc)
Row 2: Ch 1, turn, (sc in next st, ch 2, sk next st) 9 times, sc in last 2 sts. (11 sc, 9 ch-1 sps)`, `the total should read (11 sc, 9 ch-2 sps)`},
		{"to last so many", `
Ch 23.
Row 1: Sc in 2nd ch from hook and in each ch across. (22 sc)
Row 2: Ch 1, turn, sc in each st to last 3 sts, sc2tog. (21 sc)
Row 3: Ch 1, turn, sc in next 21 sts. (21 sc)`, `change "sc in each st to last 3 sts" to "sc in each st to last 2 sts": then 21 agrees here and in the next row`},
		{"forgotten increase", `
Ch 21.
Row 1: Sc in 2nd ch from hook and in each ch across. (20 sc)
Row 2: Ch 1, turn, 2 sc in first st, sc in each st across. (22 sc)
Row 3: Ch 1, turn, sc in next 22 sts. (22 sc)`, `end with "2 sc in last st": then 22 agrees here and in the next row`},
		{"forgotten decrease", `
Ch 21.
Row 1: Sc in 2nd ch from hook and in each ch across. (20 sc)
Row 2: Ch 1, turn, sc2tog, sc in each st across. (18 sc)
Row 3: Ch 1, turn, sc in next 18 sts. (18 sc)`, `end with "sc2tog over last 2 sts": then 18 agrees here and in the next row`},
		{"a stitch too many", `
Ch 11.
Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)
Row 2: Ch 1, turn, sc2tog, sc in next 6 sts, sc2tog, sc in next st. (8 sc)
Row 3: Ch 1, turn, sc in next 8 sts. (8 sc)`, `change "sc in next 6 sts" to "sc in next 5 sts": then 8 agrees here and in the next row`},
		{"joined past the end", `
Ch 21.
Row 1: Sc in 2nd ch from hook and in each ch across. (20 sc)
Row 2: Ch 1, turn, sc in each st across. (20 sc)
Row 3: Join yarn in 16th st of Row 2, sc in same st and in next 6 sts. (7 sc)`, `change "Join yarn in 16th st of Row 2" to "Join yarn in 14th st of Row 2": then 7 agrees`},
		{"loops", `
Ch 10, join with sl st in first ch to form ring.
Rnd 1: Ch 1, 16 sc in ring, join. (16 sc)
Rnd 2: Ch 1, (sc in next st, ch 3, sk next st) 9 times, join. (8 sc, 8 ch-3 sps)`, `change "9 times" to "8 times": then 8 agrees`},
		{"transposed figures", `
Ch 82.
Row 1: Sc in 2nd ch from hook and in each ch across. (81 sc)
Row 2: Ch 1, turn, sc in next 18 sts. (81 sc)
Row 3: Ch 1, turn, sc in next 81 sts. (81 sc)`, `change "sc in next 18 sts" to "sc in next 81 sts": then 81 agrees here and in the next row`},
		{"a huge number", `
Ch 11.
Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)
Row 2: Ch 1, turn, (sc in next st, ch 1) 1000000000000 times. (10 sc)`, `change "1000000000000 times" to "10 times": then 10 agrees`},
		{"one size of three", `
Sizes: S (M, L)
Ch 21 (25, 29).
Row 1: Sc in 2nd ch from hook and in each ch across. (20 (25, 28) sc)
Row 2: Ch 1, turn, sc in each st across. (20 (24, 28) sc)`, `the total should read (20 (24, 28) sc): the next row agrees with 24`},
		{"rows that repeat it", `
Ch 21.
Row 1: Sc in 2nd ch from hook and in each ch across. (21 sc)
Rows 2-9: Ch 1, turn, sc in each st across. (20 sc)`, `the total should read (20 sc): the next row agrees with 20`},
		{"a range of rows", `
Ch 11.
Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)
Rows 2-5: Ch 1, turn, 2 sc in first st, sc in each st across. (15 sc)
Row 6: Ch 1, turn, sc in each st across. (14 sc)`, `the total should read (14 sc): the next row agrees with 14`},
		{"UK terms", `
UK terms
Ch 20.
Row 1: Dc in 2nd ch from hook and in each ch across. (20 dc)
Row 2: 1 ch, turn, dc in each st across. (20 dc)`, `change "Ch 20" to "Ch 21": then 20 agrees here and in the next row`},
		{"dash before the total", `
Rnd 1: 6 sc in magic ring - 6 sts
Rnd 2: 2 sc in each st around - 11 sts
Rnd 3: (Sc in next st, inc) 6 times - 18 sts`, `the total should read 12 sts: the next row agrees with 12`},
		{"decreases", `
Ch 31.
Row 1: Sc in 2nd ch from hook and in each ch across. (30 sc)
Row 2: Ch 1, turn, (sc in next 3 sts, sc2tog) 5 times. (24 sc)
Row 3: Ch 1, turn, (sc in next 2 sts, sc2tog) 6 times. (18 sc)`, `change "5 times" to "6 times": then 24 agrees here, and the next row comes out too`},
		{"a stitch left, no totals", `
Ch 21.
Row 1: Sc in 2nd ch from hook and in each ch across.
Row 2: Ch 1, turn, sc2tog, sc in each st to last 3 sts, sc2tog.
Row 3: Ch 1, turn, sc in each st across.`, `if that is meant, write "leave remaining sts unworked"; if not, change "sc in each st to last 3 sts" to "sc in each st to last 2 sts": then none is left`},
		{"two left, no totals", `
Ch 21.
Row 1: Sc in 2nd ch from hook and in each ch across.
Row 2: Ch 1, turn, sc in next 18 sts.`, `if that is meant, write "leave remaining sts unworked"; if not, change "sc in next 18 sts" to "sc in next 20 sts": then none is left`},
		{"repeat from the star", `
Ch 25.
Row 1: Sc in 2nd ch from hook and in each ch across. (24 sc)
Row 2: Ch 1, turn, *sc in next 3 sts, 2 sc in next st; rep from * 6 more times. (30 sc)
Row 3: Ch 1, turn, sc in each st across. (30 sc)`, `change "6 more times" to "5 more times": then 30 agrees here and in the next row`},
	} {
		t.Run(test.name, func(t *testing.T) {
			p := Read(test.text)
			size := ""
			if len(p.Sizes) > 1 {
				size = p.Sizes[1]
			}
			proof := p.Prove(Options{Size: size})
			got := "no hint"
			for _, f := range proof.Findings {
				if f.Severity > Note {
					got = f.Hint
					break
				}
			}
			if got != test.hint {
				t.Errorf("\n got %s\nwant %s", got, test.hint)
			}
			for _, bad := range applied(t, proof, size) {
				t.Error(bad)
			}
		})
	}
}

var changeWords = regexp.MustCompile(`^change (?:the ([0-9]+)(?:st|nd|rd|th) )?"(.*?)" to "(.*?)"`)

// applied carries out the first mend offered that is a change of words or of
// the total, and gives every way in which its row then still fails.
func applied(t testing.TB, proof *Proof, size string) (bad []string) {
	t.Helper()
	for _, f := range proof.Findings {
		if f.Severity == Note {
			continue
		}
		var row *RowProof
		for _, pc := range proof.Pieces {
			for _, r := range pc.Rows {
				if line, _ := proof.Pattern.Source.Position(r.Row.Span.Start); r.Row.Span.Contains(f.Span) && r.Line == line {
					row = r
				}
			}
		}
		if row == nil {
			continue
		}
		text := proof.Pattern.Source.Text
		if m := changeWords.FindStringSubmatch(f.Hint); m != nil {
			from := row.Row.Span.Start
			if len(row.Row.Setup) > 0 {
				from = min(from, row.Row.Setup[0].Span.Start)
			}
			n, _ := strconv.Atoi(m[1])
			at := from
			for ; ; n-- {
				i := strings.Index(text[at:], m[2])
				if i < 0 {
					return append(bad, "the words to change are not there: "+f.Hint)
				}
				if at += i; n <= 1 {
					break
				}
				at++
			}
			text = text[:at] + m[3] + text[at+len(m[2]):]
		} else if rest, ok := strings.CutPrefix(f.Hint, "the total should read "); ok && row.Stated != nil {
			rest, _, _ = strings.Cut(rest, ":")
			rest, _, _ = strings.Cut(rest, ", if the row")
			sp := row.Stated.Span
			old := text[sp.Start:sp.End]
			at := sp.Start + max(0, strings.IndexAny(old, "([{<0123456789"))
			text = text[:at] + rest + text[sp.End:]
		} else {
			continue
		}
		again := Read(text).Prove(Options{Size: size})
		if readingsOf(again) != readingsOf(proof) {
			continue // of several slips one mended may turn the reading of the rest
		}
		for _, pc := range again.Pieces {
			for _, r := range pc.Rows {
				if r.Line == row.Line && r.First == row.First && r.Status == Differs {
					bad = append(bad, "after the mend \""+f.Hint+"\" the row still differs")
				}
			}
		}
	}
	return bad
}

// readingsOf gathers what a proof says of how it was read.
func readingsOf(p *Proof) string {
	var b strings.Builder
	for _, f := range p.Findings {
		if f.Code == CodeReading {
			b.WriteString(f.Message)
		}
	}
	return b.String()
}

// Every mend offered anywhere can be carried out as it is worded, and its row
// then agrees.
func TestMendsHold(t *testing.T) {
	n := 0
	for _, dir := range []string{"cases", "corpus/modern", "corpus/booklet"} {
		files, _ := filepath.Glob(filepath.Join("..", "testdata", dir, "*.case"))
		for _, f := range files {
			c := readCase(t, f)
			n++
			for _, w := range c.wants {
				for _, b := range applied(t, Read(c.text).Prove(Options{Size: w.size}), w.size) {
					t.Errorf("%s: %s", filepath.Base(f), b)
				}
			}
		}
	}
	if n == 0 {
		t.Fatal("no cases")
	}
}

// Looking for a mend leaves the proof as it was.
func TestMendIsQuiet(t *testing.T) {
	for _, f := range []string{"002-one-slip-one-finding", "005-repeat-that-does-not-fit", "011-fins-worked-onto-a-panel"} {
		c := readCase(t, filepath.Join("..", "testdata", "cases", f+".case"))
		a := Read(c.text).Prove(Options{})
		p := Read(c.text)
		p.Prove(Options{})
		b := p.Prove(Options{})
		if len(a.Findings) != len(b.Findings) {
			t.Errorf("%s: %d findings, then %d", f, len(a.Findings), len(b.Findings))
		}
		for i := range a.Findings {
			if a.Findings[i] != b.Findings[i] {
				t.Errorf("%s: %v, then %v", f, a.Findings[i], b.Findings[i])
			}
		}
	}
}

func BenchmarkMend(b *testing.B) {
	var text strings.Builder
	text.WriteString("Rnd 1: 6 sc in magic ring. (6)\n")
	for i := 2; i < 200; i++ {
		text.WriteString("Rnd " + strconv.Itoa(i) + ": Sc in next 5 sts, 2 sc in next st, sc in each st around. (3)\n")
	}
	p := Read(text.String())
	for b.Loop() {
		p.Prove(Options{})
	}
}

// A foundation chain that is numbered as a row is still what the next row is
// worked into, however often that row is tried.
func TestFoundationNumberedAsRow(t *testing.T) {
	for text, want := range map[string]string{
		"Row 1: Ch 26.\nRow 2: Sc in 2nd ch from hook and in each ch across. (25 sc)\n":       "",
		"Row 1: Ch 26.\nRow 2: Ch 1, sc in 2nd ch from hook and in each ch across. (26 sc)\n": "",
		"Row 1: Ch 26.\nRow 2: Ch 1, sc in 2nd ch from hook and in each ch across. (27 sc)\n": "the total should read (26 sc)",
	} {
		got := ""
		for _, f := range Read(text).Prove(Options{}).Findings {
			if f.Severity > Note {
				got = f.Hint
			}
		}
		if got != want {
			t.Errorf("%s%q, want %q", text, got, want)
		}
	}
}
