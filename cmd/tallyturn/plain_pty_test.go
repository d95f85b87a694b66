package main

import (
	"os/exec"
	"strings"
	"testing"

	"crochet/tallyturn/tui/ptytest"
)

// TestPlainMode prints lines on a terminal that obeys nothing: no byte of what
// is written is a command.
func TestPlainMode(t *testing.T) {
	program := built(t)
	for name, start := range map[string][]string{"by its name": {"TERM=dumb"}, "by the flag": {"TERM=xterm-256color", "FLAG=--plain"}} {
		home := t.TempDir()
		cmd := exec.Command(program, "--data", home)
		if len(start) > 1 {
			cmd.Args = append(cmd.Args, strings.TrimPrefix(start[1], "FLAG="))
		}
		cmd.Env = []string{start[0], "HOME=" + home}
		term := ptytest.Start(t, cmd, 80, 40)
		term.WaitFor("row 1 of 3, Row 1 (RS): With navy", "stitch 1 of 20")
		term.Type(" ")
		term.WaitFor("stitch 2 of 20, 1 of 19 in hand, in each ch across")
		term.Type("b")
		term.WaitFor("The basket, in work: 5", "1: Harbour Pennant, 1 of 135")
		term.Type("q")
		if err := term.WaitEnd(); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		if raw := term.Raw(); strings.Contains(raw, "\x1b") {
			t.Errorf("%s: it sends commands: %q", name, raw)
		}
	}
}

// TestGroundIsAsked: the first frame does not wait for the answer, and once it
// has come the screen is that of a light ground; keys around it count.
func TestGroundIsAsked(t *testing.T) {
	program, home := built(t), t.TempDir()
	cmd := exec.Command(program, "--data", home)
	cmd.Env = []string{"TERM=xterm-256color", "COLORTERM=truecolor", "HOME=" + home}
	term := ptytest.Start(t, cmd, 80, 24)
	term.WaitFor("stitch 1 of 20", "✓ saved")
	term.Wait("asking", func(string) bool { return strings.Contains(term.RawNow(), "\x1b]11;?") })
	const dark, light = "48;2;16;24;31m", "48;2;251;247;238m"
	if raw := term.Raw(); !strings.Contains(raw, dark) || strings.Contains(raw, light) {
		t.Error("before the answer the ground is not dark")
	}
	term.Type(" \x1b]11;rgb:ffff/ffff/ffff\x1b\\ ")
	term.Wait("a light ground", func(screen string) bool {
		return strings.Contains(screen, "stitch 3 of 20") && strings.Contains(term.RawNow(), light)
	})
	term.Type("q")
	if err := term.WaitEnd(); err != nil {
		t.Error(err)
	}
}
