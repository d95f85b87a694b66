package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"crochet/tallyturn/tui/ptytest"
)

// A report is coloured on a terminal, but not under NO_COLOR, not where the
// terminal cannot, and not for programs.
func TestCheckColour(t *testing.T) {
	file := filepath.Join(t.TempDir(), "slip.txt")
	if err := os.WriteFile(file, []byte("Ch 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (11 sc)\n"), 0o666); err != nil {
		t.Fatal(err)
	}
	for _, test := range []struct {
		name     string
		args     []string
		env      []string
		coloured bool
	}{
		{"a terminal", nil, []string{"TERM=xterm"}, true},
		{"a terminal, NO_COLOR set to nothing", nil, []string{"TERM=xterm", "NO_COLOR="}, true},
		{"NO_COLOR", nil, []string{"TERM=xterm", "NO_COLOR=1"}, false},
		{"a dumb terminal", nil, []string{"TERM=dumb"}, false},
		{"JSON", []string{"--json"}, []string{"TERM=xterm"}, false},
	} {
		t.Run(test.name, func(t *testing.T) {
			c := exec.Command("tallyturn", append([]string{"check", file}, test.args...)...)
			c.Env = append([]string{"PATH=" + os.Getenv("PATH")}, test.env...)
			term := ptytest.Start(t, c, 120, 40)
			term.WaitEnd()
			raw := term.Raw()
			if !strings.Contains(raw, "total-differs") {
				t.Fatalf("the finding is not there:\n%s", raw)
			}
			if got := strings.Contains(raw, "\x1b[1;31merror\x1b[0m"); got != test.coloured {
				t.Errorf("coloured: %v, want %v:\n%q", got, test.coloured, raw)
			}
			if !test.coloured && strings.Contains(raw, "\x1b") {
				t.Errorf("there are control sequences in it:\n%q", raw)
			}
		})
	}
}

// The report is as wide as the window it is read in.
func TestCheckFitsTheWindow(t *testing.T) {
	file := filepath.Join(t.TempDir(), "long.txt")
	row := "Ch 11.\nRow 1: Sc in 2nd ch from hook, " + strings.Repeat("sc in next ch, ", 9) + "turn. (999 sc)\n"
	if err := os.WriteFile(file, []byte(row), 0o666); err != nil {
		t.Fatal(err)
	}
	c := exec.Command("tallyturn", "check", file)
	c.Env = append(os.Environ(), "NO_COLOR=1")
	term := ptytest.Start(t, c, 60, 40)
	term.WaitEnd()
	for _, line := range strings.Split(term.Raw(), "\r\n") {
		if strings.Contains(line, "(999 sc)") {
			if n := len([]rune(line)); n > 60 || !strings.Contains(line, "…") {
				t.Errorf("%d columns in a window of 60: %q", n, line)
			}
			return
		}
	}
	t.Errorf("the words meant are not shown:\n%s", term.Raw())
}
