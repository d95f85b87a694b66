//go:build unix

package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"crochet/tallyturn/tui/ptytest"
)

// putBack are what the terminal must get on every way out: the first screen,
// the cursor, and no more mouse.
var putBack = []string{"\x1b[?1049l", "\x1b[?25h", "\x1b[?1002l"}

// However the program is told to go, every tap is kept and the terminal is put
// back as it was.
func TestWaysOut(t *testing.T) {
	for _, c := range []struct {
		name string
		out  func(*ptytest.Terminal)
		gone bool // the terminal is
	}{
		{"q", func(t *ptytest.Terminal) { t.Type("q") }, false},
		{"terminate", func(t *ptytest.Terminal) { t.Signal(syscall.SIGTERM) }, false},
		{"interrupt", func(t *ptytest.Terminal) { t.Signal(syscall.SIGINT) }, false},
		{"hang-up", func(t *ptytest.Terminal) { t.Signal(syscall.SIGHUP) }, false},
		{"window closed", func(t *ptytest.Terminal) {
			t.HangUp()
			// Where the clock stands nothing is drawn, and whoever reads the
			// terminal does not notice yet that it is closed.
			t.Signal(syscall.SIGWINCH)
		}, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			data, config := t.TempDir(), t.TempDir()
			term := inBasket(t, data, config, "")
			term.WaitFor("stitch 1 of 6")
			term.Type("  ")
			term.WaitFor("stitch 3 of 6")
			c.out(term)
			if err := term.WaitEnd(); err != nil && !c.gone {
				t.Errorf("ended with %v", err)
			}
			if after := term.Raw(); !c.gone {
				for _, s := range putBack {
					if !strings.Contains(after, s) {
						t.Errorf("the terminal did not get %q", s)
					}
				}
			}
			if n := eventsOf(t, data); len(n) != 1 || n[0] != 4 { // opened, two taps, closed
				t.Errorf("events %v", n)
			}
		})
	}
}

// Ctrl+Z lays the program aside with the terminal as the shell had it, and fg
// brings it back where it was.
func TestLaidAside(t *testing.T) {
	data, config := t.TempDir(), t.TempDir()
	c := exec.Command("bash", "--norc", "--noprofile", "-i")
	c.Env = append(os.Environ(), "TERM=xterm-256color", "PS1=harbour> ", "XDG_CONFIG_HOME="+config, "HOME="+config, "HISTFILE=")
	term := ptytest.Start(t, c, 120, 24)
	term.WaitFor("harbour>")
	term.Type("tallyturn-at-noon demo buoy --walk --data " + data + "\n")
	term.WaitFor("stitch 1 of 6")
	term.Type("  ")
	term.WaitFor("stitch 3 of 6", "✓ saved")
	term.Type("\x1a")
	term.WaitFor("Stopped")
	after := term.Raw()
	for _, s := range putBack {
		if !strings.Contains(after, s) {
			t.Errorf("the terminal did not get %q", s)
		}
	}
	term.Type("echo $((40 + 2)) shells\n")
	term.WaitFor("42 shells") // the shell reads and shows what is typed
	term.Type("fg\n")
	term.WaitFor("stitch 3 of 6", "✓ saved")
	term.Type(" ")
	term.WaitFor("stitch 4 of 6", "✓ saved")
	term.Type("q")
	term.WaitFor("harbour>")
	term.Type("exit\n")
	term.WaitEnd()
	if n := eventsOf(t, data); len(n) != 1 || n[0] != 5 {
		t.Errorf("events %v", n)
	}
}

// A mistake of the program's own puts the terminal back, keeps every tap and
// names a report.
func TestBreakdown(t *testing.T) {
	data := t.TempDir()
	c := exec.Command("tallyturn-breaks", "demo", "buoy", "--walk", "--data", data)
	breaker := filepath.Join(t.TempDir(), "break")
	c.Env = append(os.Environ(), "TERM=xterm-256color", "BREAK="+breaker)
	term := ptytest.Start(t, c, 120, 24)
	term.WaitFor("stitch 1 of 6")
	term.Type("  ")
	term.WaitFor("stitch 3 of 6")
	if err := os.WriteFile(breaker, nil, 0o600); err != nil { // at the next tick or tap
		t.Fatal(err)
	}
	if err := term.WaitEnd(); err == nil {
		t.Error("ended well")
	}
	after := term.Raw()
	for _, s := range append(putBack, "the screen broke down: the clock fell off the wall", "what happened is written in "+data) {
		if !strings.Contains(after, s) {
			t.Errorf("the terminal did not get %q", s)
		}
	}
	reports, err := filepath.Glob(filepath.Join(data, "breakdown-*.txt"))
	if err != nil || len(reports) != 1 {
		t.Fatalf("reports %v, %v", reports, err)
	}
	if text, err := os.ReadFile(reports[0]); err != nil || !strings.Contains(string(text), "the clock fell off the wall") || !strings.Contains(string(text), "tui.(*Walk)") {
		t.Errorf("the report says %q, %v", text, err)
	}
	if n := eventsOf(t, data); len(n) != 1 || n[0] < 3 { // opened, two taps
		t.Errorf("events %v", n)
	}
}
