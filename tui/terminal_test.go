package tui

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"crochet/tallyturn/counter"
	"crochet/tallyturn/pattern"
	"crochet/tallyturn/tui/ptytest"

	"github.com/creack/pty"
)

// The test program runs itself on a pseudo-terminal; this variable names the
// file for its journal and turns it into a walk.
const inside = "TALLYTURN_TEST_JOURNAL"

func TestMain(m *testing.M) {
	if path := os.Getenv(inside); path != "" {
		os.Exit(runInside(path))
	}
	os.Exit(m.Run())
}

// fileJournal writes events as lines, and breaks down on a word.
type fileJournal struct {
	mu     sync.Mutex
	file   *os.File
	screen *Screen
	n      uint64
}

func (j *fileJournal) Append(e counter.Event) uint64 {
	if os.Getenv("BREAK") != "" && e.Kind == counter.Pause {
		panic("the journal broke")
	}
	j.mu.Lock()
	defer j.mu.Unlock()
	j.n++
	line, _ := json.Marshal(e)
	fmt.Fprintln(j.file, string(line))
	go j.screen.Send(Safe{Walk: "crab", Seq: j.n})
	return j.n
}

func runInside(path string) int {
	file, err := os.Create(path)
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		return 2
	}
	b := harbourCrab()
	j := &fileJournal{file: file}
	w := NewWalk(WalkConfig{
		ID: "crab", Title: "Harbour crab", State: counter.Begin(counter.NewPlan(b.proof)),
		Journal: j, Now: time.Now, Look: FindLook(os.Stdout), Release: func(counter.State) error { return file.Close() },
	})
	w.words = func(r *pattern.RowProof) []pattern.Word { return b.words[r] }
	w.refresh()
	j.screen = NewScreen(w, Options{})
	if err := j.screen.Run(context.Background()); err != nil {
		fmt.Println("error:", err)
		return 1
	}
	fmt.Println("left well")
	return 0
}

// startInside starts the walk on a terminal; it gives the journal's path too.
func startInside(t *testing.T, env ...string) (*ptytest.Terminal, string) {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "journal")
	cmd := exec.Command(self)
	cmd.Env = append([]string{"TERM=xterm-256color", inside + "=" + path}, env...)
	term := ptytest.Start(t, cmd, 80, 24)
	term.WaitFor("stitch 1 of 6", "row 1 of 7")
	return term, path
}

// kindsIn is the kinds of event in a journal.
func kindsIn(t *testing.T, path string) string {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	var kinds []string
	for line := range strings.Lines(string(data)) {
		var e counter.Event
		if err := json.Unmarshal([]byte(line), &e); err != nil {
			t.Fatal(err)
		}
		kinds = append(kinds, e.Kind.String())
	}
	return strings.Join(kinds, " ")
}

// The start must not wait for answers that never come, so nothing is asked:
// no colours, no place of the cursor, no name.
func TestStartAsksNothing(t *testing.T) {
	term, _ := startInside(t)
	raw := term.Raw()
	for _, q := range []string{"\x1b]10;?", "\x1b]11;?", "\x1b[6n", "\x1b[c", "\x1b[>", "\x1b[?u", "\x1bP"} {
		if strings.Contains(raw, q) {
			t.Errorf("the terminal was asked %q", q)
		}
	}
}

// However the program is told to go, everything is kept and the terminal is
// put back.
func TestWaysOut(t *testing.T) {
	for _, c := range []struct {
		name string
		out  func(*ptytest.Terminal)
	}{
		{"q", func(t *ptytest.Terminal) { t.Type("q") }},
		{"ctrl+c", func(t *ptytest.Terminal) { t.Type("\x03") }},
		{"terminate", func(t *ptytest.Terminal) { t.Signal(syscall.SIGTERM) }},
		{"interrupt", func(t *ptytest.Terminal) { t.Signal(syscall.SIGINT) }},
		{"hang-up", func(t *ptytest.Terminal) { t.Signal(syscall.SIGHUP) }},
	} {
		t.Run(c.name, func(t *testing.T) {
			term, path := startInside(t)
			term.Type("  ")
			term.WaitFor("stitch 3 of 6")
			c.out(term)
			if err := term.WaitEnd(); err != nil {
				t.Errorf("ended with %v", err)
			}
			if got, want := kindsIn(t, path), "open tap tap close"; got != want {
				t.Errorf("the journal holds %q, want %q", got, want)
			}
			after := term.Raw()
			for _, s := range []string{"\x1b[?1049l", "\x1b[?25h", "\x1b[?1002l", "left well"} {
				if !strings.Contains(after, s) {
					t.Errorf("the terminal did not get %q", s)
				}
			}
		})
	}
}

// A terminal that is closed takes nothing with it.
func TestTerminalGone(t *testing.T) {
	term, path := startInside(t)
	term.Type(" ")
	term.WaitFor("stitch 2 of 6")
	term.HangUp()
	term.WaitEnd()
	if got, want := kindsIn(t, path), "open tap close"; got != want {
		t.Errorf("the journal holds %q, want %q", got, want)
	}
}

func TestBreakdown(t *testing.T) {
	term, path := startInside(t, "BREAK=1")
	term.Type(" ")
	term.WaitFor("stitch 2 of 6")
	term.Type("p")
	if err := term.WaitEnd(); err == nil {
		t.Error("ended well")
	}
	after := term.Raw()
	for _, s := range []string{"\x1b[?1049l", "\x1b[?25h", "the journal broke", "the screen broke down"} {
		if !strings.Contains(after, s) {
			t.Errorf("the terminal did not get %q", s)
		}
	}
	if got, want := kindsIn(t, path), "open tap close"; got != want {
		t.Errorf("the journal holds %q, want %q", got, want)
	}
}

func TestResizeOnATerminal(t *testing.T) {
	term, _ := startInside(t)
	for _, size := range sizes {
		term.Resize(size.width, size.height)
		screen := term.Wait("the buttons on the last line", func(s string) bool {
			lines := strings.Split(strings.TrimSuffix(s, "\n"), "\n")
			return len(lines) == size.height && strings.Contains(lines[size.height-1], "[Tap]") &&
				strings.Contains(lines[0], "Harbour crab")
		})
		for _, s := range []string{"stitch 1 of 6", "row 1 of 7"} {
			if !strings.Contains(screen, s) {
				t.Errorf("%dx%d does not say %q:\n%s", size.width, size.height, s, screen)
			}
		}
	}
}

// A window that becomes another size before the program listens for it, or on
// a system that does not tell, is fitted with the next beat of the clock.
func TestResizeUntold(t *testing.T) {
	outer, inner, err := pty.Open()
	if err != nil {
		t.Fatal(err)
	}
	defer outer.Close()
	defer inner.Close()
	w, _ := walkOf(t, harbourCrab(), Look{}, 80, 24)
	m := &model{page: w, out: inner}
	for _, c := range []struct {
		width, height int
		ask           bool
	}{{80, 24, false}, {100, 24, true}, {80, 40, true}} {
		if err := pty.Setsize(inner, &pty.Winsize{Cols: 80, Rows: 24}); err != nil {
			t.Fatal(err)
		}
		m.size(c.width, c.height)
		if asked := m.fit() != nil; asked != c.ask {
			t.Errorf("frames of %dx%d on a terminal of 80x24: asked for its size: %v, want %v", c.width, c.height, asked, c.ask)
		}
	}
	m.out = new(strings.Builder)
	if m.fit() != nil {
		t.Error("no terminal was asked for its size")
	}
}

// Bytes that are no key at all are answered too.
func TestStrangeKeys(t *testing.T) {
	for _, keys := range []string{"\x1b[99~", "\xff", "\x1b[5;5;5z", "\x1bx", "\x00"} {
		term, _ := startInside(t)
		term.Type(keys)
		term.WaitFor("does nothing here")
		term.Type(" ")
		term.WaitFor("stitch 2 of 6")
	}
}
