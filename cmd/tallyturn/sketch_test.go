package main

import (
	"path/filepath"
	"reflect"
	"testing"
	"time"

	"crochet/tallyturn/store"
	"crochet/tallyturn/tui"
)

// TestSketchIsReadAsWritten: and whatever else is read, or cut short, is none.
func TestSketchIsReadAsWritten(t *testing.T) {
	items := []tui.Item{
		{ID: "1", Title: "Limpet, size M", Name: "Limpet", Done: 3, Total: 9, Millis: 1e12, Low: 1, High: 2, Touched: time.UnixMilli(1)},
		{ID: "2", Title: "Whelk", Part: tui.SetAside, Total: 4, Unknown: 3},
		{ID: "demo buoy", Title: "海の\x1b", Total: 12, Demo: true},
		{ID: "4", Title: "Net", Part: tui.TakenOut},
	}
	b := appendSketch(nil, items, nil)
	got, counts, _, ok := readSketch(b)
	if want := []tui.Item{items[0], items[2]}; !ok || !reflect.DeepEqual(got, want) {
		t.Errorf("got %v (%v), want %v", got, ok, want)
	}
	if want := []int{1, 1, 0, 1}; !reflect.DeepEqual(counts, want) {
		t.Errorf("counted %v, want %v", counts, want)
	}
	for i := range b {
		if short, _, _, ok := readSketch(b[:i]); ok && len(short) > 1 {
			t.Errorf("cut to %d of %d bytes it still has %v", i, len(b), short)
		}
	}
	if _, _, _, ok := readSketch(nil); ok {
		t.Error("nothing is taken for a sketch")
	}
}

// TestStartFromSketch: what is left is sketched, the next start shows it, keys
// pressed at once reach the list itself, and a sketch of what was is not shown.
func TestStartFromSketch(t *testing.T) {
	program, data := built(t), t.TempDir()
	file := filepath.Join(data, "tallyturn.db")
	term := onScreen(t, program, data, "demo", "buoy", "--walk")
	term.Type(" ")
	term.WaitFor("✓ saved")
	term.Type("q")
	if err := term.WaitEnd(); err != nil {
		t.Fatal(err)
	}
	left := store.Glance(file)
	if items, counts, _, ok := readSketch(left); !ok || counts[tui.InWork] != 1 || items[0].Title != "Mooring Buoy" || items[0].Done != 1 {
		t.Fatalf("what was left is sketched as %v, %v (%v)", items, counts, ok)
	}
	term = onScreen(t, program, data)
	term.Type("r, the red one\r")
	term.WaitFor("Mooring Buoy, the red one", "1 in progress")
	term.Type("q")
	if err := term.WaitEnd(); err != nil {
		t.Fatal(err)
	}
	if items, _, _, ok := readSketch(store.Glance(file)); !ok || items[0].Title != "Mooring Buoy, the red one" {
		t.Errorf("renamed, it is sketched as %v (%v)", items, ok)
	}
	// Somebody else writes to the basket, and leaves no sketch of it.
	kept, err := store.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := kept.Create(store.Project{Title: "Whelk", Text: "Whelk\n\nRow 1: Ch 4. (4)", Path: filepath.Join(data, "whelk.txt"), Created: 1}); err != nil {
		t.Fatal(err)
	}
	if err := kept.Close(); err != nil {
		t.Fatal(err)
	}
	if g := store.Glance(file); g != nil {
		t.Errorf("of a basket that was written to there is still the sketch %q", g)
	}
	term = onScreen(t, program, data)
	term.WaitFor("2 in progress", "Whelk")
	term.Type("q")
	if err := term.WaitEnd(); err != nil {
		t.Fatal(err)
	}
}
