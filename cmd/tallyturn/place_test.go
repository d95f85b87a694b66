package main

import (
	"math/rand/v2"
	"path/filepath"
	"reflect"
	"slices"
	"syscall"
	"testing"

	"crochet/tallyturn/counter"
	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/demo"
	"crochet/tallyturn/store"
	"crochet/tallyturn/tui"
)

// wander is a log of events as a maker gives them, some of them refused.
func wander(seed uint64, plan *counter.Plan, n int) []counter.Event {
	r := rand.New(rand.NewPCG(seed, 1))
	s := counter.Begin(plan)
	var log []counter.Event
	for range n {
		at := s.At()
		e := counter.Event{Kind: counter.Tap, N: 1 + r.Int64N(3)}
		switch want, known := s.Expect(); {
		case s.AtRowEnd() && r.IntN(9) > 0:
			e = counter.Event{Kind: counter.Finish, N: want}
		case known && r.IntN(20) == 0:
			e = counter.Event{Kind: counter.Carry, N: want + 1}
		case r.IntN(6) == 0:
			e = []counter.Event{
				{Kind: counter.Back}, {Kind: counter.Redo}, {Kind: counter.SetStride, N: r.Int64N(5)}, {Kind: counter.Pause}, {Kind: counter.Resume},
				{Kind: counter.Mark, Piece: at.Piece, Copy: at.Copy, Row: at.Row, N: at.Stitch}, {Kind: counter.Note, Piece: at.Piece, Copy: at.Copy, Row: at.Row, Text: "loosely"},
				{Kind: counter.Jump, Piece: at.Piece, Copy: at.Copy, Row: 0, N: 2}, {Kind: counter.Open}, {Kind: counter.Close},
			}[r.IntN(10)]
		}
		e.At = int64(len(log)+1) * 900
		if next, err := s.Apply(e); err == nil {
			s, log = next, append(log, e)
		}
	}
	return log
}

// TestPlaceIsWhereTheLogLeads: a place that is kept leads to the same row in
// hand as the log, through the bytes it is kept as. And not too few are kept.
func TestPlaceIsWhereTheLogLeads(t *testing.T) {
	kept, all := 0, 0
	for _, d := range demo.All() {
		plan := counter.NewPlan(pattern.Read(d.Text).Prove(pattern.Options{}))
		for seed := range uint64(40) {
			log := wander(seed, plan, int(seed)*5)
			state, refused := counter.Replay(plan, log)
			if len(refused) > 0 {
				t.Fatalf("%s, %d: refused are %v", d.Name, seed, refused)
			}
			all++
			at, ok := placeOf(store.Project{ID: "7", Path: "/p.txt", Size: "M"}, d.Title, uint64(len(log)), state)
			if !ok {
				continue
			}
			kept++
			_, _, places, ok := readSketch(appendSketch(nil, nil, []leftAt{at, at}))
			if !ok || len(places) != 2 || !reflect.DeepEqual(places[1], at) {
				t.Fatalf("%s, %d: %+v is read as %+v (%v)", d.Name, seed, at, places, ok)
			}
			reached, refused := counter.Replay(plan, places[0].lead)
			if len(refused) > 0 || reached.At() != state.At() || reached.Stride() != state.Stride() || reached.Paused() != state.Paused() {
				t.Errorf("%s, %d: it leads to %+v and not to %+v (%v)", d.Name, seed, reached.At(), state.At(), refused)
			}
			if places[0].rowMillis != state.RowMillis(state.LastEvent()) {
				t.Errorf("%s, %d: %d ms on the row, want %d", d.Name, seed, places[0].rowMillis, state.RowMillis(state.LastEvent()))
			}
		}
	}
	if kept < all/2 {
		t.Errorf("%d of %d places are kept", kept, all)
	}
}

// TestPlaceThatIsOdd: one that is cut short, of another version, of another
// text, or leads nowhere is not shown.
func TestPlaceThatIsOdd(t *testing.T) {
	d := demo.All()[0]
	proof := pattern.Read(d.Text).Prove(pattern.Options{})
	plan := counter.NewPlan(proof)
	state, _ := counter.Replay(plan, []counter.Event{{Kind: counter.Tap, N: 3, At: 1}})
	at, ok := placeOf(store.Project{ID: "7", Path: "/pennant.txt"}, d.Title, 1, state)
	if !ok {
		t.Fatal("the place of a plain walk is not kept")
	}
	b := appendSketch(nil, []tui.Item{{ID: "7", Title: d.Title}}, []leftAt{at})
	whole := len(appendSketch(nil, []tui.Item{{ID: "7", Title: d.Title}}, nil))
	for i := range b {
		if _, _, places, ok := readSketch(b[:i]); ok && (i != whole || len(places) > 0) {
			t.Errorf("cut to %d of %d bytes it is read", i, len(b))
		}
	}
	for version := range 256 {
		other := slices.Clone(b)
		other[0] = byte(version)
		if _, _, _, ok := readSketch(other); ok != (version == sketchVersion) {
			t.Errorf("version %d is read: %v", version, ok)
		}
	}
	o := origin{name: "pennant.txt", path: "/pennant.txt", text: d.Text}
	shows := func(at leftAt, o origin) bool {
		x := newShelfTest(t)
		x.places = []leftAt{at}
		return x.placeSketch(o, proof) != nil
	}
	if !shows(at, o) {
		t.Error("the place of a walk is not shown")
	}
	nowhere := at
	nowhere.lead = []counter.Event{{Kind: counter.Jump, Row: 1e6}}
	rewritten, moved, anew, sized := o, o, o, o
	rewritten.text += "\n"
	moved.path = "/elsewhere.txt"
	anew.anew = true
	sized.size = "M"
	other := at
	other.size = "L"
	for name, shown := range map[string]bool{
		"a place that is not in the pattern": shows(nowhere, o), "a file that says something else": shows(at, rewritten),
		"another file": shows(at, moved), "a walk begun anew": shows(at, anew), "another size": shows(other, sized),
	} {
		if shown {
			t.Error(name, "is shown")
		}
	}
}

// TestPlacesOfNow: a place is kept as long as the walk has no more events and
// is the one that its file leads to.
func TestPlacesOfNow(t *testing.T) {
	x := newShelfTest(t)
	o := x.write("mat.txt", mat)
	p, _ := x.taken(o)
	x.work(p, tap(1))
	leave := func(p store.Project) {
		p, events, err := x.store.Load(p.ID)
		if err != nil {
			t.Fatal(err)
		}
		state, _ := counter.Replay(counter.NewPlan(provenAgain(p)), events)
		x.left(placeOf(p, p.Title, uint64(len(events)), state))
	}
	ids := func() (all []string) {
		for _, l := range x.placesNow() {
			all = append(all, l.id)
		}
		return all
	}
	leave(p)
	if got := ids(); !slices.Equal(got, []string{p.ID}) {
		t.Fatalf("kept are %q", got)
	}
	x.work(p, tap(1))
	if got := ids(); len(got) > 0 {
		t.Errorf("with another tap in the log, kept are %q", got)
	}
	leave(p)
	o.anew = true
	newer, _ := x.taken(o)
	x.work(newer, tap(1))
	if got := ids(); len(got) > 0 {
		t.Errorf("with a newer walk of the file, kept are %q", got)
	}
	leave(newer)
	if got := ids(); !slices.Equal(got, []string{newer.ID}) {
		t.Errorf("of two walks of the file, kept are %q", got)
	}
	newer.Shelf = store.TakenOut
	if err := x.store.Update(newer); err != nil {
		t.Fatal(err)
	}
	if got := ids(); !slices.Equal(got, []string{p.ID}) {
		t.Errorf("with the newer one taken out, kept are %q", got)
	}
}

// TestStartAtThePlace: a key that is pressed before the log was gone through
// counts, and a program that was killed leaves no place that is wrong.
func TestStartAtThePlace(t *testing.T) {
	program, data := built(t), t.TempDir()
	file := filepath.Join(data, "tallyturn.db")
	args := []string{"demo", "buoy", "--walk"}
	term := onScreen(t, program, data, args...)
	term.WaitFor("✓ saved")
	term.Type("  ")
	term.WaitFor("stitch 3 of 6", "✓ saved")
	term.Type("q")
	if err := term.WaitEnd(); err != nil {
		t.Fatal(err)
	}
	if _, _, places, ok := readSketch(store.Glance(file)); !ok || len(places) != 1 || places[0].lead[0].N != 2 {
		t.Fatalf("the place is kept as %+v (%v)", places, ok)
	}
	term = onScreen(t, program, data, args...)
	term.Type(" ")
	term.WaitFor("stitch 4 of 6", "✓ saved")
	term.Signal(syscall.SIGKILL)
	if err := term.WaitEnd(); err == nil {
		t.Error("a program that was killed ends well")
	}
	if g := store.Glance(file); g != nil {
		t.Error("of a walk that was killed there is a place")
	}
	term = onScreen(t, program, data, args...)
	term.WaitFor("stitch 4 of 6", "✓ saved")
	term.Type("q")
	if err := term.WaitEnd(); err != nil {
		t.Fatal(err)
	}
}
