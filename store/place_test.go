package store_test

import (
	"errors"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"crochet/tallyturn/counter"
	"crochet/tallyturn/store"
)

// What is taken away under the program is put back with all that was in it.
func TestFileTakenAway(t *testing.T) {
	for name, away := range map[string]func(path string) error{
		"file":   os.Remove,
		"folder": func(path string) error { return os.RemoveAll(filepath.Dir(path)) },
		"moved":  func(path string) error { return os.Rename(path, path+".moved") },
	} {
		t.Run(name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "data", "tallyturn.db")
			s := open(t, path)
			p := create(t, s, limpet)
			tap(t, s, p.ID, 100)
			if err := away(path); err != nil {
				t.Fatal(err)
			}
			tap(t, s, p.ID, 2)
			tap(t, s, p.ID, 2) // and in the file that was put back
			shut(t, s)
			s = open(t, path)
			defer shut(t, s)
			if _, events := load(t, s, p.ID); len(events) != 104 {
				t.Errorf("%d events of 104", len(events))
			}
		})
	}
}

// Events are not safe in a file that is gone and cannot be put back; they are
// once it can.
func TestFileAwayForAWhile(t *testing.T) {
	parent := t.TempDir()
	path := filepath.Join(parent, "data", "tallyturn.db")
	s := open(t, path)
	p := create(t, s, limpet)
	heard := make(chan error, 1000)
	w, err := s.Writer(p.ID, func(safe uint64, err error) { heard <- err })
	if err != nil {
		t.Fatal(err)
	}
	if err := os.RemoveAll(filepath.Dir(path)); err != nil {
		t.Fatal(err)
	}
	write(t, filepath.Dir(path), nil) // a file where the folder was
	w.Append(numbered(1))
	if err := <-heard; !errors.Is(err, store.ErrAway) {
		t.Errorf("told %v", err)
	}
	w.Append(numbered(2))
	if err := os.Remove(filepath.Dir(path)); err != nil {
		t.Fatal(err)
	}
	for err := range heard {
		if err == nil {
			break
		}
	}
	shut(t, s)
	s = open(t, path)
	defer shut(t, s)
	if _, events := load(t, s, p.ID); !slices.Equal(events, []counter.Event{numbered(1), numbered(2)}) {
		t.Errorf("events %v", events)
	}
}

// Another file in its place is left alone.
func TestFileReplaced(t *testing.T) {
	path := file(t)
	s := open(t, path)
	p := create(t, s, limpet)
	w, err := s.Writer(p.ID, nil)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.Remove(path); err != nil {
		t.Fatal(err)
	}
	write(t, path, []byte("not a basket"))
	w.Append(numbered(1))
	var u *store.UnwrittenError
	if err := s.Close(); !errors.Is(err, store.ErrReplaced) || !errors.As(err, &u) || len(u.Events) != 1 {
		t.Errorf("closed: %v", err)
	}
	if data, err := os.ReadFile(path); string(data) != "not a basket" {
		t.Errorf("the other file is now %q, %v", data, err)
	}
}
