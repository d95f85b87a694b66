package pattern

import (
	"strings"
	"testing"
)

// TestDoubt: an error is told where one number, out by a little, explains it. What
// no such number explains is a warning, and so is what follows from a row that
// does not come out. The counts were worked out by hand.
func TestDoubt(t *testing.T) {
	const (
		head = "Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across. (20 sc)\n"
		even = "Ch 1, turn, sc in each sc across. (20 sc)\n"
	)
	for _, c := range []struct {
		name, text string
		errors     int
		warns      string // of a finding that is no error
	}{
		{"a total out by two", head + "Row 2: Ch 1, turn, sc in each sc across. (22 sc)\nRow 3: " + even, 1, ""},
		{"a number out by one, no total near", "Ch 9.\nRow 1: Sc in 2nd ch from hook, sc in next 7 ch.\nRow 2: Ch 1, turn, sc in next 9 sc.\n", 1, ""},
		{"a total twice the row, which stands on one that agrees", head + "Row 2: Ch 1, turn, sc in each sc across. (42 sc)\n", 1, ""},
		{"a total twice the row, on one that states none", "Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across.\nRow 2: Ch 1, turn, sc in each sc across. (42 sc)\n", 0, "may be read amiss"},
		{"a total twice the row, which the next row disowns", head + "Row 2: Ch 1, turn, sc in each sc across. (42 sc)\nRow 3: " + even, 1, ""},
		{"one of two kinds out by more", "UK terms\n\nRnd 1: 3ch (counts as 1tr), 11tr in ring, ss in top of 3ch. [12 tr]\nRnd 2: 3ch, 1tr in same st, 2tr in each st around, ss to join. [24 tr]\nRnd 3: 3ch, 1tr in same st, 2tr in each st around, ss to join. [48 tr]\nRnd 4: 1ch, 1dc in same st, *miss 2 sts, 7tr in next st, miss 2 sts, 1dc in next st; repeat from * around, omitting last dc and joining with ss to first dc. [8 shells with a dc between each = 60 sts]\nRnd 5: 1ch, 1dc in each st around, ss to join.\n", 1, ""},
		{"a chain of the foundation is left", "Ch 10.\nRow 1: Sc in 2nd ch from hook, sc in next 7 ch.\nRow 2: Ch 1, turn, sc in each sc across.\n", 1, ""},
		{"a stitch is left in a row told in numbers", "Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across.\nRow 2: Ch 1, turn, sc in next 8 sc, (sc2tog) twice, sc in next 7 sc.\n", 1, ""},
		{"a row that turns short", "Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across.\nRow 2: Ch 1, sc in next 18 sc, turn.\n", 0, "left unworked"},
		{"a row that leaves half", "Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across.\nRow 2: Ch 1, turn, sc in next 10 sc.\n", 0, "left unworked"},
		{"more than any slip", "Ch 9.\nRow 1: Sc in 2nd ch from hook, sc in next 7 ch.\nRow 2: Ch 1, turn, sc in next 19 sc.\n", 0, "may be read amiss"},
		{"a number out by one, and with it the turning chain is taken the other way", "Ch 4.\nRow 1. 6 dc in 4th ch from hook = 7 dc (the three chs stand for one).\nRow 2. Ch 3 (stands for one), turn, dc in first st, 2 dc in each of next 5 sts = 14 dc.\nRow 3. Ch 1, turn, (sc in next st, 2 sc in next st) 7 times = 21 sc.\n", 1, ""},
		{"one of the times of a repeat is lost", "Ch 26.\nRow 1: Sc in 2nd ch from hook and in each ch across. (25 sc)\nRow 2: Ch 1, turn, sc in first sc, *skip next sc, 3 dc in next sc, skip next sc, sc in next sc; rep from * 4 more times.\n", 1, ""},
		{"half of a row is worked in a repeat", "Ch 9.\nRow 1: Sc in 2nd ch from hook and in each ch across. (8 sc)\nRow 2: Ch 1, turn, (2 sc in next sc, sc in next sc) twice.\n", 0, "left unworked"},
		{"one petal more than the round has places", "Rnd 1: Ch 1, work 5 sc in ring.\nRnd 2: Work 2 sc in each sc.\nRnd 3: *Sl st in next sc, (ch 3, 2 dc, ch 3) in next sc; rep from * 5 more times.\n", 1, ""},
		{"a corner more than the next round works into", "Ch 5, join to form a ring.\nRnd 1: Ch 3 (counts as dc), 2 dc in ring, (ch 3, 3 dc in ring) 4 times, ch 3, sl st in top of ch 3.\nRnd 2: Sl st in next 2 dc, sl st in ch-3 sp, (ch 3, 2 dc, ch 3, 3 dc) in same sp, (ch 1, 3 dc, ch 3, 3 dc in next ch-3 sp) 3 times, ch 1, sl st in top of ch 3. 24 dc, 4 corners.\n", 1, ""},
		{"spaces skipped in words", "Ch 5, join to form a ring.\nRnd 1: Ch 3 (counts as dc), 2 dc in ring, (ch 3, 3 dc in ring) 4 times, ch 3, sl st in top of ch 3.\nRnd 2: Sl st in next 2 dc, sl st in ch-3 sp, ch 1, 3 sc in same sp, skip next ch-3 sp, (3 sc in next ch-3 sp) twice, sl st in first sc.\n", 0, ""},
		{"a turning chain said to count, and a stitch too many", "Ch 27.\nRow 1: Dc in 4th ch from hook (counts as 2 dc) and in each ch. 25 dc.\nRow 2: Ch 3 (counts), turn, dc in next 25 dc.\n", 1, ""},
		{"fewer are skipped at the end than are there", "Rnd 1: 28 sc in ring, join.\nRnd 2: Ch 1, 1 sc in next 14 sc, ch 4, skip last 12 sc, join (14 sc, 4 ch).\nRnd 3: Ch 1, 1 sc in each sc and each ch, join (18 sc).\n", 1, ""},
		{"more are skipped at the end than are there", "Rnd 1: 28 sc in ring, join.\nRnd 2: Ch 1, 1 sc in next 14 sc, ch 4, skip last 15 sc, join (14 sc, 4 ch).\nRnd 3: Ch 1, 1 sc in each sc and each ch, join (18 sc).\n", 1, ""},
		{"so many more rounds are no difference", "Rnd 1: 6 sc in ring. (6)\nRnd 2: 2 sc in each sc. (12)\nRnd 3: (sc in next st, 2 sc in next st) 6 times. (18)\nFour more rounds.\n", 0, ""},
		{"the row after it follows", "Ch 9.\nRow 1: Sc in 2nd ch from hook, sc in next 7 ch.\nRow 2: Ch 1, turn, sc in next 19 sc.\nRow 3: Ch 1, turn, (sc in next 5 sc, 2 sc in next sc) 5 times.\n", 0, "may follow from line 3"},
	} {
		p := Read(c.text).Prove(Options{})
		if n := p.Errors(); n != c.errors {
			t.Errorf("%s: %d errors, want %d: %v", c.name, n, c.errors, p.Findings)
		}
		told := c.warns == ""
		for _, f := range p.Findings {
			told = told || f.Severity == Warning && strings.Contains(f.Message, c.warns)
		}
		if !told {
			t.Errorf("%s: no warning says %q: %v", c.name, c.warns, p.Findings)
		}
	}
}

// TestHookNote: what the chains at the hook count as is told of them, whatever a
// turning chain as long counts as.
func TestHookNote(t *testing.T) {
	p := Read("US terms\nCh 14.\nRow 1: Dc in 4th ch from hook and in each ch across. (11 dc)\nRow 2: Ch 3 (counts as dc), turn, skip first dc, dc in each dc across. (11 dc)\n").Prove(Options{})
	for _, f := range p.Findings {
		if strings.HasSuffix(f.Message, "the 3 chains skipped at the hook counts; under its totals it does not count as a stitch") {
			return
		}
	}
	t.Errorf("%v", p.Findings)
}

func TestSlipOf(t *testing.T) {
	for _, c := range []struct {
		a, b int64
		want bool
	}{{5, 6, true}, {6, 3, true}, {9, 5, false}, {36, 42, true}, {18, 81, true}, {10, 40, false}, {6, 19, false}, {123, 132, true}, {9, 19, true}, {120, 12, true}, {19, 8, false}} {
		if got := slipOf(c.a, c.b); got != c.want {
			t.Errorf("slipOf(%d, %d) = %v", c.a, c.b, got)
		}
	}
}
