package pattern

import (
	"fmt"
	"strings"
	"testing"
)

// TestClaims holds what a pattern says of itself beside its instructions
// against what they come to: each text is right as it stands, and has one error
// once the words are changed. Common practice, no source.
func TestClaims(t *testing.T) {
	const ball = "Rnd 1: 6 sc in magic ring (6)\nRnd 2: 2 sc in each st around (12)\nRnds 3-7: sc in each st around (12)%s\nRnd 8: (sc in next st, sc2tog) 4 times (8)\n"
	const band = "Ch 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10 sc)\nRow 2: Ch 1, turn, sc in each st across. (10 sc)\nRow 3: Ch 2, turn, hdc in each st across. (10 hdc)\n%s"
	for _, c := range []struct {
		text, from, to string
		line           int
	}{
		{fmt.Sprintf(ball, " [5 rounds]"), "5 rounds", "6 rounds", 3},
		{fmt.Sprintf(ball, " (five rounds)"), "3-7", "3-6", 3},
		{fmt.Sprintf(ball, ""), "3-7", "3-6", 3},
		{fmt.Sprintf(ball, ""), "3-7", "3-8", 3},
		{fmt.Sprintf(ball, "") + "Rnd 9: sc in each st around (8)\n", "Rnd 8", "Rnd 7", 4},
		{fmt.Sprintf(ball, " (5 rounds in all)"), "5 rounds", "4 rounds", 3},
		{fmt.Sprintf(ball, "") + "You should have 8 rounds.\n", "have 8", "have 9", 5},
		{fmt.Sprintf(band, "Rows 4-9: Rep Rows 2 and 3 three times.\n"), "three", "four", 5},
		{fmt.Sprintf(band, "Rows 4-9: Rep Rows 2 and 3, 3 times more.\n"), "4-9", "4-8", 5},
		{fmt.Sprintf(band, "Rows 4-9: With white, rep Row 3 for 6 rows.\n"), "6 rows", "5 rows", 5},
		{fmt.Sprintf(band, "Rows 4-9: Rep Row 3, having 10 hdc at end of Row 9.\n"), "of Row 9", "of Row 8", 5},
		{fmt.Sprintf(ball, "") + "Cut the yarn. Draw the remaining 8 sts together.\n", "8 sts", "7 sts", 5},
		{fmt.Sprintf(band, "Rep Rows 2 and 3, 3 times more. (9 rows.)\nFasten off.\n"), "9 rows", "10 rows", 5},
		{fmt.Sprintf(band, "Rep Rows 2 and 3, 3 times more. (9 rows.)\nFasten off.\n"), "3 times", "4 times", 5},
		{fmt.Sprintf(band, "Rows 4-10: Rep Rows 2 and 3, 3 times more, then Row 2 once.\n"), "4-10", "4-11", 5},
		{fmt.Sprintf(band, "Rows 4-10: Rep Rows 2 and 3, 3 times more, then Row 2 once.\n"), "3 times", "4 times", 5},
		{fmt.Sprintf(band, "Rep 2nd and 3rd rows 3 times more, followed by 2nd row. (10 rows.)\n"), "10 rows", "9 rows", 5},
		{fmt.Sprintf(band, "Rows 4-7: Rep Rows 2 and 3.\nRow 8: Ch 1, turn, sc in each st across. 8 rows in all.\n"), "8 rows", "6 rows", 6},
		{fmt.Sprintf(band, "Repeat Rows 2 and 3, 3 times more, thus making 9 rows in all.\nFasten off.\n"), "3 times", "4 times", 5},
		{fmt.Sprintf(band, "Repeat Rows 2 and 3, 3 times more; that is 9 rows.\nFasten off.\n"), "9 rows", "11 rows", 5},
		{fmt.Sprintf(band, "Rep Rows 2 and 3, 3 times more, which gives 9 rows altogether.\nFasten off.\n"), "9 rows", "8 rows", 5},
		{fmt.Sprintf(band, "Fold the last row in half and slip st the 5 pairs of sts together.\n"), "5 pairs", "4 pairs", 5},
		{fmt.Sprintf(band, "Fold it with the right sides together and whip stitch the five pairs of stitches tog for the heel.\n"), "five", "six", 5},
		{fmt.Sprintf(band, "Rows 4-12: Rep Row 2.\n\nEdge\nRnd 1: Ch 1, sc in the end of each of the 12 rows down one side, 3 sc in the corner, sc in the end of each of the 12 rows up the other side, join.\n"), "4-12", "4-13", 8},
		{fmt.Sprintf(band, "Rows 4-12: Rep Row 2.\n\nEdge\nRnd 1: Ch 1, 2 sc in the side of each of the 12 rows, turn.\n"), "the 12", "the 14", 8},
		{fmt.Sprintf(band, "Rows 4-12: Rep Row 2.\n\nEdge\nRnd 1: Ch 1, 1 sc into the end of each row along one edge of the band, join. (12 sc)\n"), "(12 sc)", "(10 sc)", 8},
		{"Arm (make 4)\n" + fmt.Sprintf(ball, "") + "\nAssembly\nSew the 4 arms to the body.\n", "the 4", "the 6", 8},
		{"Arm (make 4)\n" + fmt.Sprintf(ball, "") + "\nAssembly\nSew all four arms on.\n", "make 4", "make 3", 8},
		{"Front leg (make 2)\n" + fmt.Sprintf(ball, "") + "\nBack leg (make 2)\n" + fmt.Sprintf(ball, "") + "\nAssembly\nSew on the 4 legs.\n", "4 legs", "5 legs", 14},
		{fmt.Sprintf(band, "Rows 4-9: Rep Rows 2 and 3.\n"), "sc in each st across", "sc in next 11 sts", 3},
		{fmt.Sprintf(ball, "\nPut the eyes in between Rnds 5 and 6, with 4 rows of space."), "3-7", "3-6", 3},
		{fmt.Sprintf(ball, "") + "\nFlap\nRow 9: Sc in next 4 sts, turn, leaving the rest. (4)\nRow 10: Ch 1, sc in each st across. (4)\n", "Rnd 8", "Rnd 7", 3},
		{"Base\nRnd 1: 6 sc in magic ring (6)\nRnds 2-4: sc in each st around (6)\n\nSides\nRnd 5: 2 sc in each st around (12)\n", "2-4", "2-5", 3},
		{"Rnd 1: 6 sc in magic ring (6)\nRnd 2: 2 sc in each st around (12)\nRnds 3-7: sc in each st around (12)\nRow 8: Ch 1, turn, sc in next 6 sts, leaving the rest. (6)\n", "3-7", "3-8", 3},
	} {
		if n := Read(c.text).Prove(Options{}).Errors(); n != 0 {
			t.Errorf("%d errors in the right text\n%s", n, c.text)
			continue
		}
		wrong := strings.Replace(c.text, c.from, c.to, 1)
		lines := errorLines(Read(wrong).Prove(Options{}))
		if len(lines) != 1 || lines[0] != c.line {
			t.Errorf("%q for %q: errors in lines %v, want one in line %d\n%s", c.to, c.from, lines, c.line, wrong)
		}
	}
}

// TestRowsThatMayBeMissing holds labels that leave out numbers and are right.
func TestRowsThatMayBeMissing(t *testing.T) {
	const head = "Ch 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10 sc)\nRow 2: Ch 1, turn, sc in each st across. (10 sc)\n"
	for _, rest := range []string{
		"Rep Row 2 until piece measures 10 cm.\nRow 20: Ch 1, turn, sc in each st across. (10 sc)\n",
		"Row 3: Rep Row 2, 5 times more.\nRow 8: Ch 1, turn, sc in each st across. (10 sc)\n",
		"Continue to work even until there are 9 in all.\nRow 10: Ch 1, turn, sc in each st across. (10 sc)\n",
		"Rows 3, 5 and 7: Ch 1, turn, sc in each st across. (10 sc)\nRows 4, 6 and 8: Ch 2, turn, hdc in each st across. (10 hdc)\n",
		"Row 3 and all odd rows: Ch 1, turn, sc in each st across. (10 sc)\nRow 4: Ch 2, turn, hdc in each st across. (10 hdc)\nRow 6: Ch 2, turn, hdc in each st across. (10 hdc)\n",
		"Next row: Ch 1, turn, sc in each st across. (10 sc)\nRow 6: Ch 2, turn, hdc in each st across. (10 hdc)\n",
		"Row 3: Ch 1, turn, sc in each st across. There are 3 row ends on each side. (10 sc)\n",
	} {
		if p := Read(head + rest).Prove(Options{}); p.Errors() != 0 {
			t.Errorf("%v in\n%s", p.Findings, head+rest)
		}
	}
}

// TestOneWayOfRepeating holds repeats that come out only when their number is
// read against the way of the rest of the pattern: then the number is wrong.
// Common practice, no source.
func TestOneWayOfRepeating(t *testing.T) {
	const inAll = "Rnd 1: 6 sc in magic ring (6)\nRnd 2: inc in each st around (12)\nRnd 3: *sc 1, inc* repeat 6 times (18)\nRnd 4: *sc 2, inc* repeat 6 times\nRnd 5: *sc 3, inc* repeat 6 times (30)\nRnd 6: *sc 3, dec* repeat 6 times (24)\n"
	const more = "Rnd 1: 6 sc in magic ring (6)\nRnd 2: inc in each st around (12)\nRnd 3: *sc 1, inc; rep from * 5 times (18)\nRnd 4: *sc 2, inc; rep from * 5 times\nRnd 5: *sc 3, inc; rep from * 5 times (30)\nRnd 6: *sc 3, dec; rep from * 5 times (24)\n"
	for _, c := range []struct {
		text, from, to string
		line           int
	}{
		{inAll, "sc 2, inc* repeat 6", "sc 2, inc* repeat 5", 4},
		{inAll, "sc 3, inc* repeat 6", "sc 3, inc* repeat 5", 5},
		{more, "sc 3, dec; rep from * 5", "sc 3, dec; rep from * 6", 6},
		{strings.ReplaceAll(more, "* 5", "* 6"), "sc 3, dec; rep from * 6", "sc 3, dec; rep from * 5", 6},
	} {
		if n := Read(c.text).Prove(Options{}).Errors(); n != 0 {
			t.Errorf("%d errors in the right text\n%s", n, c.text)
			continue
		}
		wrong := strings.Replace(c.text, c.from, c.to, 1)
		if lines := errorLines(Read(wrong).Prove(Options{})); len(lines) == 0 || lines[0] != c.line {
			t.Errorf("%q for %q: errors in lines %v, want the first in line %d\n%s", c.to, c.from, lines, c.line, wrong)
		}
	}
}

// TestRoundsCloseOverAll: a round told in numbers that leaves a stitch or two of
// the one below has a wrong number in it, or that has, whatever total it states.
// Common practice, no source.
func TestRoundsCloseOverAll(t *testing.T) {
	for _, inc := range []string{"", "Abbreviations\ninc - 2 sc in one stitch\n\nBall\n"} {
		text := inc + "Rnd 1: 5 sc in magic ring\nRnd 2: inc 5 times (10)\nRnd 3: sc in each st around (10)\n"
		if n := Read(text).Prove(Options{}).Errors(); n != 0 {
			t.Errorf("%d errors in the right text\n%s", n, text)
		}
		wrong := strings.Replace(text, "5 sc in magic", "6 sc in magic", 1)
		if p := Read(wrong).Prove(Options{}); p.Errors() != 1 {
			t.Errorf("%v, want one error\n%s", p.Findings, wrong)
		}
	}
}

// TestRowsOfAPart reads labels that begin with the name of their part, and rows
// repeated by it: none of them is passed over. Worked out by hand.
func TestRowsOfAPart(t *testing.T) {
	p := Read("Cap\n\nSizes: S (M)\n\nCROWN\nRound 1: 12 (14) dc in magic ring. (12 (14))\n\nRIBBED BRIM\nBrim Round 1 – Ch 1, sc in each st around, join to first sc. [12 (14) sc]\nBrim Round 2 – Ch 2, *fpdc around next st, bpdc around next st; rep from * 5 (6) more times; join.\nBrim Rounds 3 – 4 – Repeat Brim Round 2.\n").Prove(Options{Others: true})
	if len(p.Pieces) != 2 || p.Pieces[1].Len() != 4 || p.Errors() != 0 {
		t.Fatalf("%d pieces, %v", len(p.Pieces), p.Findings)
	}
	for _, r := range p.Pieces[1].Rows {
		if r.Made != 12 || r.Status != Agrees && r.Status != Unstated {
			t.Errorf("%s makes %d, %v", r.Label, r.Made, r.Status)
		}
	}
}

// TestCountedRowEnds holds work along edges, told in numbers, against the total.
// Each row is worked out by hand. Common practice, no source.
func TestCountedRowEnds(t *testing.T) {
	for _, c := range []struct{ row, from, to string }{
		{"Ch 1, sc in the end of each of the 12 rows down the first side, sc in the 6 stitches you left at the toe, sc in the end of each of the 12 rows back up, join. 30 sc.", "the 12 rows down", "the 11 rows down"},
		{"Ch 1, *3 sc along the edge of each of the 7 blocks, ch 2 for the corner; rep from * 3 more times, sl st to first sc. (84 sc)", "*3 sc", "*4 sc"},
		{"Ch 1, *25 sc across the edge, ch 2, 21 sc down the row ends (1 in each row), ch 2; rep from * once more, sl st to first sc. (92 sc)", "(92", "(94"},
		{"Attach white at heel seam, work 1 sc in end of each of the 18 rows along side, sc in the 8 free sc at instep, 1 sc in end of each of the 18 rows along other side. Join with sl st in first sc. (44)", "8 free", "9 free"},
	} {
		text := "Ch 9.\nRow 1: Sc in 2nd ch from hook and in each ch across. (8)\n\nCuff\nRnd 1: " + c.row + "\n"
		for _, wrong := range []bool{false, true} {
			want := Agrees
			if wrong {
				text, want = strings.Replace(text, c.from, c.to, 1), Differs
			}
			p := Read(text).Prove(Options{})
			if r := p.Pieces[1].Rows[0]; r.Status != want || p.Errors() != map[bool]int{true: 1}[wrong] {
				t.Errorf("%v, want %v: %v\n%s", r.Status, want, p.Findings, text)
			}
		}
	}
}

// TestNumbersNotPassedOver holds numbers that are easily passed over against
// the error that each wrong one makes. Common practice, no source.
func TestNumbersNotPassedOver(t *testing.T) {
	const ball = "Rnd 1: 6 sc in magic ring (6)\nRnd 2: 2 sc in each st around (12)\nRnd 3: (sc, inc) 6 times (18)\n"
	const flat = "Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across. (20 sc)\n"
	for _, c := range []struct {
		text, from, to string
		line           int
	}{
		{ball + "Rnd 4: *sc 2, inc* repeat 6 times (24)\n", "6 times (24)", "8 times (24)", 4},
		{ball + "Rnd 4: *sc 2, inc*, rep 5 times more (24)\n", "5 times", "6 times", 4},
		{ball + "Rnd 4: (sc 2, inc) 6 times\nRnd 5: (sc 3, inc) 6 times (30)\n", "sc 2, inc) 6", "sc 2, inc) 5", 4},
		{ball + "Rnd 4: ch 3 (counts as dc), dc in next 2 sts, ch 1, (dc in next 3 sts, ch 1) 5 times, join (18 dc)\n", "(18 dc)", "(24 dc)", 4},
		{"Ch 8.\nRnd 1: Sc in 2nd ch from hook, sc in next 5 ch, 3 sc in last ch; working along the other side, sc in next 5 ch, 2 sc in last ch. (16 sc)\n", "Ch 8", "Ch 9", 2},
		{"Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across. (20 sc)\nRow 2: Ch 1, turn, sc in next 19 sts, 2 sc in last st. (21 sc)\n", "next 19", "next 18", 3},
		// a number of stitches that are left
		{flat + "Row 2: Ch 1, turn, sc in next 12 sts, leave remaining 8 sts unworked.\n", "remaining 8", "remaining 6", 3},
		{flat + "Row 2: Ch 1, turn, sc in next 12 sts. Leave the other 8 alone.\n", "other 8", "other 9", 3},
		{flat + "Row 2: Ch 1, turn, sc in next 12 sts, ch 1, turn, leaving 8 sc free for the heel.\n", "12", "14", 3},
		{flat + "Row 2: Ch 1, turn, sc in first 5 sts, ch 4, skip next 6 sts, sc in remaining 9 sts.\n", "remaining 9", "remaining 8", 3},
		{flat + "Row 2: Ch 1, turn, sc in each of the 20 sc across.\n", "the 20", "the 18", 3},
		{ball + "Rnd 4: sc2tog around (9)\nCut the yarn, weave through the last 9 sts and draw up.\n", "last 9", "last 8", 5},
		{ball + "Rnd 4: sc2tog around.\nStuff firmly. Gather the remaining 9 stitches. Fasten off.\n", "remaining 9", "remaining 6", 5},
		{flat + "Rows 2-12: Ch 1, turn, sc in each st across. (20 sc)\n\nEdge\nRow 1: Ch 1, 2 sc in the end of each row, turn. (24 sc)\n", "(24 sc)", "(22 sc)", 6},
		{ball + "Rnds 4-9: Work 6 rnds straight.\n", "Work 6", "Work 5", 4},
		{ball + "Rnd 4: Increase in every third stitch. (24)\n", "third", "fourth", 4},
		{ball + "Rnd 4: Decrease every 2nd and 3rd st together. (12)\n", "2nd and 3rd", "3rd and 4th", 4},
		{flat + "Row 2: Ch 1, turn, sc in next 12 sts, turn, leaving 8 sc for front.\n", "leaving 8", "leaving 7", 3},
		{"Head\n" + ball + "\nBody\nRnds 1-3: as for head\nRnd 4: (2 sc, inc) x 6 (24)\n", "(24)", "(22)", 8},
		// a total that Markdown slants
		{ball + "Rnd 4: sc in each st around. *(18 sts)*\n", "*(18", "*(16", 4},
		{ball + "Rnd 4: sc in each st around. *18 sts*\n", "*18", "*16", 4},
		{ball + "Rnd 4: (sc 2, inc) 6 times, join. _[24 sc]_\n", "[24", "[22", 4},
		{"**R1:** 6 sc in magic ring *(6)*\n**R2:** 2 sc in each st around *(12)*\n", "*(12)", "*(14)", 2},
		// all that remain
		{flat + "Row 2: Ch 1, turn, skip first st, sc in each of the 19 remaining.\n", "the 19", "the 18", 3},
		{flat + "Row 2: Ch 1, turn, sc in first 5 sts, sc in each of the 15 sts remaining, turn.\n", "15 sts", "14 sts", 3},
		{flat + "Row 2: Ch 1, turn, sc in next 6 sts. Fasten off.\n\nOther side\nSkip the centre 8 sts of Row 1, join yarn in next st, ch 1, sc in same st, sc in each of remaining 5 sts.\n", "remaining 5", "remaining 4", 6},
		// sides that are told in a share of the round alone
		{"Rnd 1: Ch 4, join; (3 dc, ch 2) 4 times in ring, join. (12 dc)\nRnd 2: *(2 dc, ch 2, 2 dc) in corner space, dc in next 3 sts; rep from * on the other three sides, join. (28 dc, 7 on each side)\nRnd 3: Sc in each st around (the top of a dc is one st), 3 sc in each corner space, join. (10 sc on each side)\n", "(10 sc", "(12 sc", 3},
		{"Rnd 1: Ch 4, join; (3 dc, ch 2) 4 times in ring, join. (12 dc)\nRnd 2: *dc in next 3 dc, (2 dc, ch 2, 2 dc) in next ch-2 sp; rep from * for all 4 sides, join. (28 dc)\n", "all 4 sides", "all 3 sides", 2},
		// a repeat over rows that state no total
		{ball + "Rnd 4: (sc 2, inc) around\nRnd 5: (sc 3, inc) around\n", "sc 3", "sc 4", 5},
		{ball + "Rnd 4: (sc 2, inc) 6 times\nRnd 5: *sc 3, inc* x 6\nRnd 6: *sc 3, dec* x 6\n", "*sc 3, dec", "*sc 4, dec", 6},
		{ball + "Rnd 4: 18 sc\n", "18 sc\n", "20 sc\n", 4},
		// print that sets its totals behind a long dash
		{"US terms\nRnd 1: Ch 9, sc in 2nd ch from hook and in next 6 ch, 3 sc in last ch; working on opposite side of ch, sc in next 6 ch, 2 sc in last ch\u201418 sc.\n", "\u201418", "\u201416", 2},
	} {
		if n := Read(c.text).Prove(Options{}).Errors(); n != 0 {
			t.Errorf("%d errors in the right text\n%s", n, c.text)
			continue
		}
		lines := errorLines(Read(strings.Replace(c.text, c.from, c.to, 1)).Prove(Options{}))
		if len(lines) != 1 || lines[0] != c.line {
			t.Errorf("%q for %q: errors in lines %v, want one in line %d", c.to, c.from, lines, c.line)
		}
	}
}

// errorLines are the lines in which a proof finds errors, one for each.
func errorLines(p *Proof) []int {
	var lines []int
	for _, f := range p.Findings {
		if f.Severity == Error {
			line, _ := p.Pattern.Source.Position(f.Span.Start)
			lines = append(lines, line)
		}
	}
	return lines
}
