package store_test

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"sync"
	"testing"
	"time"

	"crochet/tallyturn/counter"
	"crochet/tallyturn/pattern"
)

// BenchmarkTap is the time from a tap until it is safe.
func BenchmarkTap(b *testing.B) {
	s := open(b, file(b))
	defer shut(b, s)
	p := create(b, s, limpet)
	safe := make(chan bool)
	w, err := s.Writer(p.ID, func(uint64, error) { safe <- true })
	if err != nil {
		b.Fatal(err)
	}
	var all []time.Duration
	e := counter.Event{Kind: counter.Tap, At: 1_700_000_000_000, N: 1}
	for b.Loop() {
		begun := time.Now()
		w.Append(e)
		<-safe
		all = append(all, time.Since(begun))
	}
	slices.Sort(all)
	b.ReportMetric(float64(all[len(all)/2].Microseconds()), "µs-p50")
	b.ReportMetric(float64(all[len(all)*99/100].Microseconds()), "µs-p99")
}

// BenchmarkFsync is what the disk itself needs: as many bytes, appended and
// synced.
func BenchmarkFsync(b *testing.B) {
	f, err := os.Create(filepath.Join(b.TempDir(), "raw"))
	if err != nil {
		b.Fatal(err)
	}
	defer f.Close()
	line := make([]byte, 22)
	for b.Loop() {
		if _, err := f.Write(line); err != nil {
			b.Fatal(err)
		}
		if err := f.Sync(); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkAppend is how long a tap holds up the one who taps, while the disk
// is busy with those before it.
func BenchmarkAppend(b *testing.B) {
	s := open(b, file(b))
	defer shut(b, s)
	p := create(b, s, limpet)
	w, err := s.Writer(p.ID, nil)
	if err != nil {
		b.Fatal(err)
	}
	e := counter.Event{Kind: counter.Tap, At: 1_700_000_000_000, N: 1}
	for b.Loop() {
		w.Append(e)
	}
}

var vast = struct {
	sync.Once
	dir, path string
}{}

const (
	vastProjects = 1000
	vastEvents   = 1_000_000
)

// vastBasket is a file of a thousand projects, the first with a million taps
// in rows of thirty.
func vastBasket(b *testing.B) string {
	vast.Do(func() {
		dir, err := os.MkdirTemp("", "tallyturn-bench-")
		if err != nil {
			b.Fatal(err)
		}
		vast.dir, vast.path = dir, filepath.Join(dir, "tallyturn.db")
		s := open(b, vast.path)
		defer shut(b, s)
		for i := range vastProjects {
			p := limpet
			p.Path = fmt.Sprintf("/harbour/%d.txt", i)
			p.Text = fmt.Sprintf("%d\n%3000d", i, i)
			p = create(b, s, p)
			if i > 0 {
				tap(b, s, p.ID, 20)
			}
		}
		w, err := s.Writer("1", nil)
		if err != nil {
			b.Fatal(err)
		}
		at := int64(1_700_000_000_000)
		for i := range vastEvents {
			at += 2000
			e := counter.Event{Kind: counter.Tap, At: at, N: 1}
			if i%31 == 30 {
				e = counter.Event{Kind: counter.Finish, At: at, N: 30}
			}
			w.Append(e)
			if i%1000 == 0 {
				time.Sleep(time.Millisecond) // so that commits are not all one
			}
		}
	})
	return vast.path
}

func vastPlan() *counter.Plan {
	return counter.NewPlan(&pattern.Proof{Pieces: []*pattern.PieceProof{{
		Piece: &pattern.Piece{Copies: 1},
		Rows:  []*pattern.RowProof{{First: 1, Last: vastEvents, Made: 30}},
	}}})
}

func BenchmarkVast(b *testing.B) {
	path := vastBasket(b)
	b.Cleanup(func() { os.RemoveAll(vast.dir) })
	info, err := os.Stat(path)
	if err != nil {
		b.Fatal(err)
	}
	b.Run("open", func(b *testing.B) {
		b.ReportMetric(float64(info.Size())/1e6, "MB")
		for b.Loop() {
			shut(b, open(b, path))
		}
	})
	s := open(b, path)
	defer shut(b, s)
	b.Run("projects", func(b *testing.B) {
		for b.Loop() {
			if all, err := s.Projects(); err != nil || len(all) != vastProjects {
				b.Fatal(len(all), err)
			}
		}
	})
	b.Run("find", func(b *testing.B) {
		for b.Loop() {
			if _, err := s.Find("/harbour/500.txt", ""); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("load", func(b *testing.B) {
		for b.Loop() {
			load(b, s, "1")
		}
	})
	b.Run("resume", func(b *testing.B) { // all it takes to go on where one was
		plan := vastPlan()
		for b.Loop() {
			_, events := load(b, s, "1")
			if _, refused := counter.Replay(plan, events); refused != nil {
				b.Fatal(refused[0])
			}
		}
	})
}
