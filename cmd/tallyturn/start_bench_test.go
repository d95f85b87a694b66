package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"crochet/tallyturn/counter"
	"crochet/tallyturn/pattern/demo"
	"crochet/tallyturn/store"
	"crochet/tallyturn/tui/ptytest"
)

// A large basket: a thousand projects, and a log of a million taps.
const (
	manyProjects = 1000
	manyTaps     = 1_000_000
)

// largeBasket makes one in a folder. The first project has all the taps but
// is not the one touched last.
func largeBasket(b *testing.B, dir string) {
	b.Helper()
	kept, err := store.Open(filepath.Join(dir, "tallyturn.db"))
	if err != nil {
		b.Fatal(err)
	}
	text := demo.All()[0].Text
	at := time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC).UnixMilli()
	path := filepath.Join(dir, "taps.txt")
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		b.Fatal(err)
	}
	for i := range manyProjects {
		p, err := kept.Create(store.Project{Title: fmt.Sprintf("Pennant %d", i), Text: text, Path: path, Created: at + int64(i)})
		path = "" // the first alone is of a file
		if err != nil {
			b.Fatal(err)
		}
		events := uint64(0)
		if i == 0 {
			w, err := kept.Writer(p.ID, nil)
			if err != nil {
				b.Fatal(err)
			}
			for n := range manyTaps / 2 {
				w.Append(counter.Event{Kind: counter.Tap, At: at + int64(2*n), N: 1})
				w.Append(counter.Event{Kind: counter.Back, At: at + int64(2*n) + 1})
			}
			if err := w.Close(); err != nil {
				b.Fatal(err)
			}
			events = manyTaps
		}
		if err := kept.SetProgress(p.ID, store.Progress{Events: events, Done: 20, Total: 135}); err != nil {
			b.Fatal(err)
		}
	}
	if err := kept.Close(); err != nil {
		b.Fatal(err)
	}
}

// BenchmarkStart is the time from starting the program to its first frame, on
// a terminal that never answers what it is asked. "of-bare" is that by the time
// of a bare program with the same library, on one whose name keeps the library
// from asking.
func BenchmarkStart(b *testing.B) {
	dir := b.TempDir()
	program, bare := filepath.Join(dir, "tallyturn"), filepath.Join(dir, "bare")
	for to, from := range map[string]string{program: ".", bare: "./testdata/bare"} {
		if out, err := exec.Command("go", "build", "-o", to, from).CombinedOutput(); err != nil {
			b.Fatalf("%v\n%s", err, out)
		}
	}
	data := filepath.Join(dir, "data")
	largeBasket(b, data)
	first := func(name, kind, says, end string, args ...string) time.Duration {
		c := exec.Command(name, args...)
		c.Env = []string{"TERM=" + kind, "HOME=" + dir}
		begun := time.Now()
		term := ptytest.Start(b, c, 100, 30)
		term.WaitFor(says)
		took := time.Since(begun)
		term.Type(end)
		if err := term.WaitEnd(); err != nil {
			b.Fatal(err)
		}
		return took
	}
	start := func() time.Duration {
		return first(program, "xterm-256color", "1000 in progress", "q", "--data", data)
	}
	cold := start() // with no list left by a start before: it leaves one
	var ours, theirs []time.Duration
	for b.Loop() {
		theirs = append(theirs, first(bare, "screen-256color", "bare", "x"))
		ours = append(ours, start())
	}
	slices.Sort(ours)
	slices.Sort(theirs)
	our, their := ours[len(ours)/2], theirs[len(theirs)/2]
	// The pattern with the million taps, by its name: the first time its log is
	// gone through before anything is seen.
	walk := func(says string) time.Duration {
		return first(program, "xterm-256color", says, "q", "--data", data, filepath.Join(data, "taps.txt"))
	}
	coldWalk := walk("stitch 1 of 20")
	var walks []time.Duration
	for range 5 {
		walks = append(walks, walk("stitch 1 of 20"))
	}
	slices.Sort(walks)
	b.ReportMetric(float64(coldWalk)/float64(time.Millisecond), "ms-walk-without-place")
	b.ReportMetric(float64(walks[len(walks)/2])/float64(time.Millisecond), "ms-walk-p50")
	b.ReportMetric(float64(cold)/float64(time.Millisecond), "ms-without-list")
	b.ReportMetric(float64(our)/float64(time.Millisecond), "ms-p50")
	b.ReportMetric(float64(their)/float64(time.Millisecond), "bare-ms-p50")
	b.ReportMetric(float64(our)/float64(their), "of-bare")
}
