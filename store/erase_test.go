package store_test

import (
	"errors"
	"path/filepath"
	"testing"

	"crochet/tallyturn/counter"
	"crochet/tallyturn/store"
)

func TestErase(t *testing.T) {
	path := filepath.Join(t.TempDir(), "tallyturn.db")
	s, err := store.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	const text = "Row 1: Ch 5. (5)"
	gone, err := s.Create(store.Project{Title: "Limpet", Text: text, Path: "/patterns/limpet.txt", Created: 1})
	if err != nil {
		t.Fatal(err)
	}
	kept, err := s.Create(store.Project{Title: "Whelk", Text: text, Created: 2})
	if err != nil {
		t.Fatal(err)
	}
	w, err := s.Writer(gone.ID, nil)
	if err != nil {
		t.Fatal(err)
	}
	w.Append(counter.Event{Kind: counter.Tap, N: 1, At: 3})
	if err := s.Erase(gone.ID); !errors.Is(err, store.ErrBusy) {
		t.Errorf("while it is written to, erasing gives %v", err)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	if err := s.SetProgress(gone.ID, store.Progress{Events: 1, Total: 5}); err != nil {
		t.Fatal(err)
	}
	for _, shelf := range []store.Shelf{store.InWork, store.SetAside, store.Completed} {
		gone.Shelf = shelf
		if err := s.Update(gone); err != nil {
			t.Fatal(err)
		}
		if err := s.Erase(gone.ID); !errors.Is(err, store.ErrNotOut) {
			t.Errorf("on shelf %d, erasing gives %v", shelf, err)
		}
	}
	gone.Shelf = store.TakenOut
	if err := s.Update(gone); err != nil {
		t.Fatal(err)
	}
	if err := s.Erase(gone.ID); err != nil {
		t.Fatal(err)
	}
	if err := s.Erase(gone.ID); !errors.Is(err, store.ErrNoProject) {
		t.Errorf("erased twice, it gives %v", err)
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}

	// What is left is whole, and is all there is.
	if s, err = store.Open(path); err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	if err := s.Check(); err != nil {
		t.Fatal(err)
	}
	all, err := s.Projects()
	if err != nil || len(all) != 1 || all[0].ID != kept.ID {
		t.Errorf("left are %+v, %v", all, err)
	}
	if p, err := s.Find("/patterns/limpet.txt", text); err != nil || p.ID != kept.ID {
		t.Errorf("by its path is found %+v, %v", p, err)
	}
	if fresh, err := s.Create(store.Project{Title: "Cockle", Created: 4}); err != nil || fresh.ID == gone.ID {
		t.Errorf("a new one has the number of the erased: %+v, %v", fresh, err)
	}
}
