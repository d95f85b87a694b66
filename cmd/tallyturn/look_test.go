package main

import (
	"os"
	"os/exec"
	"syscall"
	"testing"

	"crochet/tallyturn/tui/ptytest"
)

// A second window shows where the first one is, says that it only looks, and
// takes no tap. Once the first has gone it takes over, at once and where that
// was.
func TestSecondWindowLooks(t *testing.T) {
	dir := t.TempDir()
	window := func() *ptytest.Terminal {
		c := exec.Command("tallyturn-at-noon", "demo", "buoy", "--walk", "--data", dir)
		c.Env = append(os.Environ(), "TERM=xterm-256color")
		return ptytest.Start(t, c, 80, 24)
	}
	first := window()
	first.WaitFor("stitch 1 of 6", "✓ saved")
	first.Type("  ")
	first.WaitFor("stitch 3 of 6", "✓ saved")

	second := window()
	second.WaitFor("stitch 3 of 6", "only looking")
	second.Type(" ")
	second.WaitFor("stitch 3 of 6", "the basket is open in another window")
	first.Type(" ")
	first.WaitFor("stitch 4 of 6", "✓ saved")
	first.Type("\x03")
	if err := first.WaitEnd(); err != nil {
		t.Errorf("the first window ended with %v", err)
	}
	second.WaitFor("stitch 4 of 6", "✓ saved", "this one keeps your work now")
	second.Type(" ")
	second.WaitFor("stitch 5 of 6", "✓ saved")
	second.Signal(syscall.SIGKILL)
	second.WaitEnd()
	third := window()
	third.WaitFor("stitch 5 of 6", "✓ saved")
}
