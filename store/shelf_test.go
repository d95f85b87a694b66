package store_test

import (
	"bytes"
	"errors"
	"strings"
	"testing"

	"crochet/tallyturn/store"
)

// TestShelves puts projects into each part of the basket and gives them names.
// Both last, come out in an export and in again, and what is taken out is
// found no more by its pattern.
func TestShelves(t *testing.T) {
	path := file(t)
	s := open(t, path)
	want := map[string]store.Project{}
	for i, shelf := range []store.Shelf{store.InWork, store.SetAside, store.Completed, store.TakenOut} {
		p := create(t, s, store.Project{Title: "Limpet", Text: "Rnd 1: 6 sc in ring (6)\n", Created: int64(i)})
		p.Name, p.Shelf = "Limpet "+strings.Repeat("霧", i), shelf
		if err := s.Update(p); err != nil {
			t.Fatal(err)
		}
		want[p.UID] = p
	}
	last := create(t, s, store.Project{Title: "Net", Text: "Row 1: Ch 3.\n", Created: 9})
	last.Shelf = store.TakenOut
	if err := s.Update(last); err != nil {
		t.Fatal(err)
	}
	if _, err := s.Find("", last.Text); !errors.Is(err, store.ErrNoProject) {
		t.Errorf("what is taken out is found: %v", err)
	}
	if p, err := s.Find("", "Rnd 1: 6 sc in ring (6)\n"); err != nil || p.Shelf != store.Completed {
		t.Errorf("found %+v, %v; want the last that is not taken out", p, err)
	}
	last.Shelf = 99
	if err := s.Update(last); err == nil {
		t.Error("there is a shelf 99")
	}
	shut(t, s)

	s = open(t, path)
	defer shut(t, s)
	lines := export(t, s)
	elsewhere := open(t, file(t))
	defer shut(t, elsewhere)
	if _, err := elsewhere.Import(bytes.NewReader(lines)); err != nil {
		t.Fatal(err)
	}
	for _, in := range []*store.Store{s, elsewhere} {
		all, err := in.Projects()
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range all {
			if w, ok := want[p.UID]; ok && (p.Name != w.Name || p.Shelf != w.Shelf || p.Called() != w.Name) {
				t.Errorf("project %s is %q on shelf %d, want %q on %d", p.UID, p.Name, p.Shelf, w.Name, w.Shelf)
			}
		}
	}
	if !bytes.Equal(lines, export(t, elsewhere)) {
		t.Error("imported and exported again it is not the same")
	}
}
