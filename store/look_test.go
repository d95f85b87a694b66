package store_test

import (
	"errors"
	"os"
	"path/filepath"
	"testing"

	"crochet/tallyturn/counter"
	"crochet/tallyturn/store"
)

func TestLook(t *testing.T) {
	path := file(t)
	s := open(t, path)
	defer shut(t, s)
	p := create(t, s, limpet)
	tap(t, s, p.ID, 10)
	l, err := store.Look(path)
	if err != nil {
		t.Fatal(err)
	}
	defer shut(t, l)
	tap(t, s, p.ID, 5) // which whoever looked before does not see
	if _, events := load(t, l, p.ID); len(events) != 10 {
		t.Errorf("%d events", len(events))
	}
	if _, err := l.Create(limpet); !errors.Is(err, store.ErrLooking) {
		t.Errorf("create: %v", err)
	}
	if err := l.Update(p); !errors.Is(err, store.ErrLooking) {
		t.Errorf("update: %v", err)
	}
	if err := l.SetProgress(p.ID, store.Progress{}); !errors.Is(err, store.ErrLooking) {
		t.Errorf("progress: %v", err)
	}
	if _, err := l.Writer(p.ID, nil); !errors.Is(err, store.ErrLooking) {
		t.Errorf("writer: %v", err)
	}
	if left, _ := filepath.Glob(path + ".look-*"); len(left) > 0 {
		t.Errorf("left %v", left)
	}
	if _, err := store.Look(file(t)); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("no file: %v", err)
	}
}

// Whoever looks while taps are coming in sees some moment of it.
func TestLookWhileWriting(t *testing.T) {
	path := file(t)
	s := open(t, path)
	p := create(t, s, limpet)
	w, err := s.Writer(p.ID, nil)
	if err != nil {
		t.Fatal(err)
	}
	stop, stopped := make(chan struct{}), make(chan struct{})
	go func() {
		defer close(stopped)
		for n := int64(1); ; n++ {
			select {
			case <-stop:
				return
			default:
				w.Append(counter.Event{Kind: counter.Tap, N: n})
			}
			if n%5000 == 0 {
				w.Append(counter.Event{Kind: counter.Finish, N: n + 1})
				n++
			}
		}
	}()
	seen := 0
	for range 30 {
		l, err := store.Look(path)
		if errors.Is(err, store.ErrDamaged) {
			continue // far faster than any finger, and no copy yet
		}
		if err != nil {
			t.Fatal(err)
		}
		_, events := load(t, l, p.ID)
		for i, e := range events {
			if e.N != int64(i+1) {
				t.Fatalf("event %d is number %d", i+1, e.N)
			}
		}
		seen++
		shut(t, l)
	}
	close(stop)
	<-stopped
	shut(t, s)
	if seen == 0 {
		t.Error("nothing was ever seen")
	}
	t.Logf("%d of 30 looks", seen)
}

// A folder that cannot be written to can be looked at.
func TestLookWhereNothingMayBeWritten(t *testing.T) {
	if os.Geteuid() == 0 {
		t.Skip("no mode stops root")
	}
	path := file(t)
	s := open(t, path)
	tap(t, s, create(t, s, limpet).ID, 3)
	shut(t, s)
	for name, mode := range map[string]os.FileMode{path: 0o400, filepath.Dir(path): 0o500} {
		if err := os.Chmod(name, mode); err != nil {
			t.Fatal(err)
		}
	}
	t.Cleanup(func() { os.Chmod(filepath.Dir(path), 0o700) })
	if _, err := store.Open(path); !errors.Is(err, os.ErrPermission) {
		t.Errorf("opened: %v", err)
	}
	l, err := store.Look(path)
	if err != nil {
		t.Fatal(err)
	}
	defer shut(t, l)
	if _, events := load(t, l, "1"); len(events) != 3 {
		t.Errorf("%d events", len(events))
	}
}
