package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"crochet/tallyturn/counter"
	"crochet/tallyturn/store"
	"crochet/tallyturn/tui/ptytest"
)

// A second window shows where the first one is, says that it only looks, and
// takes no tap.
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
	second.WaitFor("stitch 3 of 6", "another window has the basket open")
	second.Type("\x03")
	if err := second.WaitEnd(); err != nil {
		t.Errorf("the second window ended with %v", err)
	}

	first.Type(" ")
	first.WaitFor("stitch 4 of 6", "✓ saved")
	first.Type("\x03")
	if err := first.WaitEnd(); err != nil {
		t.Errorf("the first window ended with %v", err)
	}
	third := window()
	third.WaitFor("stitch 4 of 6", "✓ saved")
}

// A look while the other window writes is a whole one, of one moment or
// another, and leaves nothing behind.
func TestLookAtABusyBasket(t *testing.T) {
	t.Setenv("TMPDIR", t.TempDir())
	file := filepath.Join(t.TempDir(), "tallyturn.db")
	busy, err := store.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	defer busy.Close()
	p, err := busy.Create(store.Project{Title: "Buoy", Text: "Rnd 1: 6 sc in magic ring. (6)"})
	if err != nil {
		t.Fatal(err)
	}
	w, err := busy.Writer(p.ID, nil)
	if err != nil {
		t.Fatal(err)
	}
	const taps = 3000
	written := make(chan error)
	go func() {
		for at := range int64(taps) {
			w.Append(counter.Event{Kind: counter.Tap, N: 1, At: at})
		}
		written <- w.Close()
	}()
	look := func() int {
		kept, done, err := lookAt(file)
		if err != nil {
			return -1 // it never stood still, and the maker is told so
		}
		_, events, err := kept.Load(p.ID)
		if err != nil {
			t.Errorf("what was looked at cannot be read: %v", err)
		}
		if err := done(); err != nil {
			t.Error(err)
		}
		return len(events)
	}
	for range 5 {
		look()
	}
	if err := <-written; err != nil {
		t.Fatal(err)
	}
	if n := look(); n != taps {
		t.Errorf("a look at it at rest shows %d events, want %d", n, taps)
	}
	if left, err := os.ReadDir(os.Getenv("TMPDIR")); err != nil || len(left) > 0 {
		t.Errorf("left behind: %v (%v)", left, err)
	}
}
