package store

import (
	"errors"
	"path/filepath"
	"testing"

	"crochet/tallyturn/counter"
)

// TestCheckAgain: a file that cannot be read for a moment is gone through once
// it can be, and what waited for that is written. Damage is damage for good.
func TestCheckAgain(t *testing.T) {
	path := filepath.Join(t.TempDir(), "tallyturn.db")
	s, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	p, err := s.Create(Project{Title: "Limpet", Created: 1})
	if err != nil {
		t.Fatal(err)
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	if s, err = OpenSoon(path); err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	unread, whole, times := errors.New("input/output error"), s.whole, 0
	s.whole = func() error {
		if times++; times <= 2 {
			return unread
		}
		return whole()
	}
	if _, _, err := s.Load(p.ID); !errors.Is(err, unread) {
		t.Errorf("while the file cannot be read, a log is read with %v", err)
	}
	if err := s.SetProgress(p.ID, Progress{}); !errors.Is(err, unread) {
		t.Errorf("while the file cannot be read, it is written to with %v", err)
	}
	w, err := s.Writer(p.ID, nil)
	if err != nil {
		t.Fatal(err)
	}
	w.Append(counter.Event{Kind: counter.Tap, N: 1, At: 2})
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	if _, events, err := s.Load(p.ID); err != nil || len(events) != 1 || times != 3 {
		t.Errorf("then it has %d events, %v, and was gone through %d times", len(events), err, times)
	}
}

func TestDamageIsNotCheckedAgain(t *testing.T) {
	path := filepath.Join(t.TempDir(), "tallyturn.db")
	s, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	if s, err = OpenSoon(path); err != nil {
		t.Fatal(err)
	}
	times := 0
	s.whole = func() error { times++; return damaged("a page is odd") }
	for range 3 {
		if err := s.Check(); !errors.Is(err, ErrDamaged) {
			t.Errorf("it is %v", err)
		}
	}
	if times != 1 {
		t.Errorf("a damaged file was gone through %d times", times)
	}
	_ = s.Close()
	if err := s.Check(); !errors.Is(err, ErrDamaged) {
		t.Errorf("when it is closed it is %v", err)
	}
}
