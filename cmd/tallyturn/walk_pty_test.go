package main

import (
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"syscall"
	"testing"

	"crochet/tallyturn/pattern/demo"
	"crochet/tallyturn/tui/ptytest"
)

// The built program on a real terminal, with the basket on a real disk.

// built is the program, built once for all tests that run it.
func built(t *testing.T) string {
	t.Helper()
	program := filepath.Join(t.TempDir(), "tallyturn")
	if out, err := exec.Command("go", "build", "-o", program, ".").CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	return program
}

// onScreen starts the program with its basket in a folder.
func onScreen(t *testing.T, program, data string, args ...string) *ptytest.Terminal {
	t.Helper()
	cmd := exec.Command(program, append(args, "--data", data)...)
	cmd.Env = []string{"TERM=xterm-256color", "HOME=" + data}
	return ptytest.Start(t, cmd, 100, 30)
}

var (
	rowWords    = regexp.MustCompile(`row (\d+) of (\d+)`)
	stitchWords = regexp.MustCompile(`stitch (\d+) of (\d+)`)
)

// place is where the screen says the maker is.
type place struct{ row, rows, stitch, stitches int }

func readPlace(screen string) (p place, ok bool) {
	r, s := rowWords.FindStringSubmatch(screen), stitchWords.FindStringSubmatch(screen)
	if r == nil || s == nil {
		return p, false
	}
	for i, to := range []*int{&p.row, &p.rows} {
		*to, _ = strconv.Atoi(r[i+1])
	}
	for i, to := range []*int{&p.stitch, &p.stitches} {
		*to, _ = strconv.Atoi(s[i+1])
	}
	return p, true
}

// TestWalkEveryDemo taps through every demo from the first stitch to the last.
func TestWalkEveryDemo(t *testing.T) {
	program := built(t)
	for _, d := range demo.All() {
		t.Run(d.Name, func(t *testing.T) {
			term := onScreen(t, program, t.TempDir(), "demo", d.Name, "--walk")
			screen := term.WaitFor("row 1 of", "stitch 1 of")
			for rows := 0; !strings.Contains(screen, "finished"); rows++ {
				if rows > 1000 {
					t.Fatalf("no end:\n%s", screen)
				}
				p, ok := readPlace(screen)
				if !ok {
					t.Fatalf("no place on the screen:\n%s", screen)
				}
				if rows == 0 { // the first row one by one, each seen
					for k := p.stitch; k < p.stitches; k++ {
						term.Type(" ")
						term.WaitFor(fmt.Sprintf("stitch %d of %d", k+1, p.stitches))
					}
					p.stitch = p.stitches
				}
				if !strings.Contains(screen, "You count") {
					term.Type(strings.Repeat(" ", p.stitches-p.stitch+1))
				}
				asked := term.WaitFor(fmt.Sprintf("You count [%d]", p.stitches))
				term.Type(" ")
				screen = term.Wait("the next row", func(s string) bool {
					return s != asked && (strings.Contains(s, "finished") || strings.Contains(s, "is kept:") || strings.Contains(s, "is worked. Now"))
				})
			}
			if strings.Contains(screen, "differ") || !strings.Contains(screen, "every row agrees") {
				t.Errorf("not every row agrees:\n%s", screen)
			}
			term.WaitFor("✓ saved")
			term.Type("q")
			if err := term.WaitEnd(); err != nil {
				t.Errorf("ended with %v", err)
			}
		})
	}
}

// TestStartWaitsForNothing: the walk is there before the terminal, which never
// answers, has said anything; and it is asked for nothing but its ground.
func TestStartWaitsForNothing(t *testing.T) {
	term := onScreen(t, built(t), t.TempDir(), "demo", demo.All()[0].Name, "--walk")
	term.WaitFor("row 1 of", "stitch 1 of")
	for _, q := range []string{"\x1b]10;?", "\x1b[6n", "\x1b[c"} {
		if strings.Contains(term.Raw(), q) {
			t.Errorf("the terminal was asked %q", q)
		}
	}
}

// TestKilledAtAnyTap kills the program fifty times in the middle of tapping.
// Each time it comes back at the last tap that the screen showed as safe or,
// where more had reached the disk, after it; never before it, and never
// further than was tapped.
func TestKilledAtAnyTap(t *testing.T) {
	const stitches, rows, kills = 7, 400, 50
	program, dir := built(t), t.TempDir()
	file := filepath.Join(dir, "mat.txt")
	text := fmt.Sprintf("Quay Mat\nUS terms\n\nMat\nCh %d.\nRow 1: Sc in 2nd ch from hook and in each ch across. (%d sc)\n"+
		"Rows 2-%d: Ch 1, turn, sc in each st across. (%d sc)\n", stitches+1, stitches, rows, stitches)
	if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	// taps is how many taps lead to a screen: a row takes one for each stitch
	// and one for its count.
	taps := func(screen string) (int, bool) {
		p, ok := readPlace(screen)
		done := p.stitch - 1
		if strings.Contains(screen, "You count") && p.stitch == p.stitches {
			done = p.stitches
		}
		return (p.row-1)*(stitches+1) + done, ok
	}
	random := rand.New(rand.NewPCG(1, 2))
	atLeast, atMost := 0, 0
	for kill := range kills {
		term := onScreen(t, program, dir, file)
		screen := term.WaitFor("row ", "stitch ", "✓ saved")
		at, ok := taps(screen)
		if !ok || at < atLeast || at > atMost {
			t.Fatalf("after kill %d the walk comes back after %d taps; %d were shown as safe, %d were made:\n%s",
				kill, at, atLeast, atMost, screen)
		}
		safe := at
		term.Watch(func(screen string) {
			if n, ok := taps(screen); ok && strings.Contains(screen, "✓ saved") {
				safe = max(safe, n)
			}
		})
		n := 1 + random.IntN(40)
		for made := 0; made < n; {
			some := min(1+random.IntN(3), n-made)
			term.Type(strings.Repeat(" ", some))
			made += some
			if wait := random.IntN(3); wait > 0 {
				// Some kills come with everything safe, most in the thick of it.
				want := at + made
				term.Wait("the taps", func(s string) bool {
					got, ok := taps(s)
					return ok && got >= want && (wait == 1 || strings.Contains(s, "✓ saved"))
				})
			}
		}
		term.Signal(syscall.SIGKILL)
		term.WaitEnd()
		atLeast, atMost = safe, at+n
	}
	if atLeast < kills {
		t.Errorf("only %d taps came through %d kills", atLeast, kills)
	}
}
