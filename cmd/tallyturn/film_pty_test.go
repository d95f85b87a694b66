package main

import (
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

// TestKilledInATake films in the built program, kills it in mid-take and finds
// the take ended at its last mark, with that said, and the next one numbered
// after it.
func TestKilledInATake(t *testing.T) {
	program, dir := built(t), t.TempDir()
	file := filepath.Join(dir, "cap.txt")
	if err := os.WriteFile(file, []byte(bollardCap), 0o600); err != nil {
		t.Fatal(err)
	}
	term := onScreen(t, program, dir, file)
	term.WaitFor("stitch 1 of 6")
	term.Type("v")
	term.WaitFor("no take is on")
	term.Type("k")
	term.Wait("the slate gone", func(s string) bool { return strings.Contains(s, "take 1 0:") })
	term.Type("   ")
	term.WaitFor("stitch 4 of 6", "✓ saved")
	term.Signal(syscall.SIGKILL)
	term.WaitEnd()

	term = onScreen(t, program, dir, file)
	term.WaitFor("stitch 4 of 6", "Take 1 broke off when the program went away: it ends at its last mark")
	term.Type("v")
	term.WaitFor("no take is on, 1 so far")
	term.Type("k")
	term.Wait("the second take", func(s string) bool { return strings.Contains(s, "take 2 0:") })
	term.Type("k")
	term.WaitFor("no take is on, 2 so far")
	term.Type("q")
	if err := term.WaitEnd(); err != nil {
		t.Fatal(err)
	}
}
