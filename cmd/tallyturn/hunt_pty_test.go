package main

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"crochet/tallyturn/tui/ptytest"
)

const bollardCap = `Bollard Cap

US terms

Rnd 1: 6 sc in magic ring. (6)
Rnd 2: 2 sc in each st around. (12)
Rnd 3: (Sc in next st, 2 sc in next st) 6 times. (18)
Rnd 4: (Sc in next 2 sts, 2 sc in next st) 6 times. (24)
Rnds 5-6: Sc in each st around. (24)
`

// TestHuntOnATerminal hunts for a missed increase in the built program, leaves
// it half way and finds the hunt where it was, unravels, takes that back,
// does it again, and goes on with a mended file.
func TestHuntOnATerminal(t *testing.T) {
	program, dir := built(t), t.TempDir()
	file := filepath.Join(dir, "cap.txt")
	if err := os.WriteFile(file, []byte(bollardCap), 0o600); err != nil {
		t.Fatal(err)
	}
	start := func() *ptytest.Terminal { // too narrow for the outline, which stands between words
		term := onScreen(t, program, dir, file)
		term.Resize(80, 30)
		return term
	}
	term := start()
	term.WaitFor("stitch 1 of 6")
	term.Type("sss") // the row at a tap
	term.WaitFor("a tap is the row")
	term.Type("      ") // three rounds, each with its count
	term.WaitFor("row 4 of 6")
	term.Type(" 23\r")
	term.WaitFor("✗ 1 SHORT ✗", "a missed increase in “2 sc in next st”")
	term.Type("h")
	screen := term.WaitFor("count from the beginning of the round")

	// The increase of the fifth pass, stitches 19 and 20, is one stitch.
	answer := func() {
		n, err := strconv.Atoi(byThePattern.FindStringSubmatch(screen)[1])
		if err != nil {
			t.Fatal(err)
		}
		asked := strings.Join(strings.Fields(screen), " ")
		if strings.Contains(asked, "end of pass 4 of 6 to the end of pass 5 of 6") || strings.Contains(asked, "in pass 5 of 6 to the end of pass 5 of 6") {
			n--
		}
		was := screen
		term.Type(fmt.Sprintf("%d\r", n))
		screen = term.Wait("what the answer comes to", func(s string) bool {
			return s != was && (strings.Contains(s, "Unravel to there") || questionOf(s) != questionOf(was))
		})
	}
	answer()
	term.WaitFor("✓ saved")
	term.Type("q")
	if err := term.WaitEnd(); err != nil {
		t.Fatal(err)
	}
	term = start()
	screen = term.WaitFor("Question 2", "It is")
	for i := 0; !strings.Contains(screen, "Unravel to there"); i++ {
		if i > 6 {
			t.Fatalf("the hunt does not end:\n%s", screen)
		}
		answer()
	}
	term.WaitFor("row 4, “2 sc in next st”", "in pass 5 of 6", "It holds 1 stitch")

	term.Type("u")
	term.WaitFor("Unravel to row 4, keeping of it [18]", "This rips 6 stitches")
	term.Type("\r")
	term.WaitFor("stitch 19 of 24", "6 stitches unravelled", "✓ saved")
	term.Type("\x7f")
	term.WaitFor("Unravel to there", "✓ saved") // the hunt is back as well
	term.Type("q")
	if err := term.WaitEnd(); err != nil {
		t.Fatal(err)
	}

	mended := strings.Replace(bollardCap, "Rnds 5-6:", "Rnds 5-8:", 1)
	if err := os.WriteFile(file, []byte(mended), 0o600); err != nil {
		t.Fatal(err)
	}
	term = start()
	term.WaitFor("The file of this pattern has changed: 2 rows.", "No row that is made already")
	term.Type("\r")
	term.WaitFor("row 4 of 8", "✓ saved")
	term.Type("\x7f")
	term.WaitFor("row 4 of 6", "Unravel to there")
	term.Type("\x1b")
	term.WaitFor("The hunt is over")
	term.Type("q")
	if err := term.WaitEnd(); err != nil {
		t.Errorf("ended with %v", err)
	}
}

var byThePattern = regexp.MustCompile(`By the pattern (\d+)`)

// questionOf is the question of a screen, on one line.
func questionOf(screen string) string {
	_, q, _ := strings.Cut(strings.Join(strings.Fields(screen), " "), "count from ")
	q, _, _ = strings.Cut(q, "There are")
	return q
}
