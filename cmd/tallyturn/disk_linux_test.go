package main

import (
	"fmt"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

// A disk of its own that fills up, is made larger, and is made read-only.
func TestSmallDisk(t *testing.T) {
	data, config := t.TempDir(), t.TempDir()
	mount := func(options string, flags uintptr) error {
		return syscall.Mount("tallyturn-test", data, "tmpfs", flags, options)
	}
	if err := mount("size=128k", 0); err != nil {
		t.Skipf("no disk can be mounted here: %v", err)
	}
	t.Cleanup(func() { syscall.Unmount(data, syscall.MNT_DETACH) })
	term := inBasket(t, data, config, "")
	term.WaitFor("stitch 1 of 6", "✓ saved")
	term.Type(strings.Repeat("  \x7f\x7f", 600))
	term.WaitFor("NOT SAVED", "the disk is full")
	if err := mount("size=8m", syscall.MS_REMOUNT); err != nil {
		t.Fatal(err)
	}
	term.WaitFor("✓ saved", "stitch 1 of 6")
	term.Type("q")
	if err := term.WaitEnd(); err != nil {
		t.Errorf("ended with %v", err)
	}
	if n := eventsOf(t, data); fmt.Sprint(n) != "[2402]" {
		t.Errorf("events %v", n)
	}

	// Read-only from the start. It can be looked at, so the walk goes on from
	// where it was.
	term = inBasket(t, data, config, "")
	term.Type("  ")
	term.WaitFor("✓ saved", "stitch 3 of 6")
	term.Type("q")
	term.WaitEnd()
	if err := mount("", syscall.MS_REMOUNT|syscall.MS_RDONLY); err != nil {
		t.Fatal(err)
	}
	term = inBasket(t, data, config, "")
	term.WaitFor("NOT SAVED", "the disk is read-only", "stitch 3 of 6")
	term.Type(" ")
	term.WaitFor("NOT SAVED", "stitch 4 of 6")
	if err := mount("size=8m", syscall.MS_REMOUNT); err != nil {
		t.Fatal(err)
	}
	term.WaitFor("✓ saved", "stitch 4 of 6")
	term.Type("q")
	term.WaitEnd()
	if n := eventsOf(t, data); fmt.Sprint(n) != "[2409]" { // a run of four events more, and one of three
		t.Errorf("events %v", n)
	}
	if left, _ := filepath.Glob(filepath.Join(config, "tallyturn", "*")); len(left) > 0 {
		t.Errorf("left %v", left)
	}
}
