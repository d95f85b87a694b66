package main

import (
	"os"
	"path/filepath"
	"slices"
	"testing"

	"crochet/tallyturn/counter"
	"crochet/tallyturn/store"
	"crochet/tallyturn/tui"
)

// TestBasketIsKept does everything to the things of a basket from its screen
// and finds it so at the next start.
func TestBasketIsKept(t *testing.T) {
	program, data := built(t), t.TempDir()
	if err := os.WriteFile(filepath.Join(data, "mat.txt"), []byte(mat), 0o666); err != nil {
		t.Fatal(err)
	}
	term := onScreen(t, program, data)
	term.WaitFor("stitch 1 of 20", "✓ saved")
	term.Type("   b")
	term.WaitFor("[Harbour Pennant]", "3 of 135")
	term.Type("r for the pier\r")
	term.Type("m")
	term.WaitFor("[Harbour Pennant for the pier, no. 2]", "In work 2")
	term.Type("n~/mat.txt\r")
	term.WaitFor("stitch 1 of 6", "✓ saved")
	term.Type("      \rb")
	term.WaitFor("[Mat, size S]", "6 of 18", "In work 3")
	term.Type("s")
	term.WaitFor("Aside 1", "is set aside")
	term.Type("/no. 2")
	term.WaitFor("find [no. 2]", "[Harbour Pennant for the pier, no. 2]")
	term.Type("\x1b")
	term.WaitFor("Harbour Pennant for the pier ", "Enter take up")
	term.Type("\x1b[Hx") // the first
	term.WaitFor("Out 1")
	term.Type("f")
	term.WaitFor("Finished 1", "nothing in progress")
	term.Type("\x7f")
	term.WaitFor("In work 1")
	term.Type("q")
	if err := term.WaitEnd(); err != nil {
		t.Fatal(err)
	}

	term = onScreen(t, program, data)
	term.WaitFor("Harbour Pennant for the pier", "In work 1", "Aside 1", "Out 1")
	term.Type("\t")
	term.WaitFor("[Mat, size S]")
	term.Type("\r")
	term.WaitFor("row 2 of 3", "✓ saved")
	term.Type("b") // it was taken up, so it is in work
	term.WaitFor("In work 2")
	term.Type("q")
	if err := term.WaitEnd(); err != nil {
		t.Fatal(err)
	}
}

// TestBasketAcrossScreens takes something out, walks something else, comes back
// and takes that back; and then erases it, which is for good.
func TestBasketAcrossScreens(t *testing.T) {
	program, data := built(t), t.TempDir()
	term := onScreen(t, program, data)
	term.WaitFor("stitch 1 of 20", "✓ saved")
	term.Type("   b")
	term.WaitFor("[Harbour Pennant]", "3 of 135")
	term.Type("mx") // another is made and taken out
	term.WaitFor("Out 1", "[Harbour Pennant]")
	term.Type("\r")
	term.WaitFor("stitch 4 of 20")
	term.Type("b")
	term.WaitFor("Out 1", "[Harbour Pennant]")
	term.Type("\x7f")
	term.WaitFor("In work 2", "Taken back", "no. 2")
	term.Type("x\x1b[D")
	term.WaitFor("[Out 1]", "[Harbour Pennant, no. 2]", "e erase for good")
	term.Type("e")
	term.WaitFor("Erase Harbour Pennant, no. 2 for good", "Nothing brings it back.")
	term.Type("\rerase\r")
	term.WaitFor("is erased for good", "Nothing is taken out.")
	term.Type("\x7f")
	term.WaitFor("Nothing was changed in the basket that could be taken back.")
	term.Type("q")
	if err := term.WaitEnd(); err != nil {
		t.Fatal(err)
	}
	s, err := store.Open(filepath.Join(data, "tallyturn.db"))
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	if all, err := s.Projects(); err != nil || len(all) != 1 || all[0].Called() != "Harbour Pennant" {
		t.Errorf("left are %+v, %v", all, err)
	}
}

// TestPartsAreShelves: the screen and the file number the parts alike.
func TestPartsAreShelves(t *testing.T) {
	for part, shelf := range map[tui.Part]store.Shelf{
		tui.InWork: store.InWork, tui.SetAside: store.SetAside, tui.Completed: store.Completed, tui.TakenOut: store.TakenOut,
	} {
		if uint8(part) != uint8(shelf) {
			t.Errorf("part %v is shelf %d", part, shelf)
		}
	}
}

func TestTakenOutIsBegunAnew(t *testing.T) {
	x := newShelfTest(t)
	o := x.write("mat.txt", mat)
	first, _ := x.taken(o)
	x.work(first, counter.Event{Kind: counter.Tap, N: 1})
	it, err := x.item(first)
	if err != nil {
		t.Fatal(err)
	}
	it.Part = tui.TakenOut
	if _, err := x.change(it); err != nil {
		t.Fatal(err)
	}
	if again, _ := x.taken(o); again.ID == first.ID {
		t.Error("what was taken out of the basket is taken up by its file")
	}
}

// TestProgressOfUnknownRows: where the rows that are left have no number that
// anybody knows, a walk is not said to be all done before it is.
func TestProgressOfUnknownRows(t *testing.T) {
	const text = "Kelp\n\nUS terms\nCh 6.\nRow 1: Sc in 2nd ch from hook and in each ch across. (5 sc)\nRow 2: Flombulate across.\nRow 3: Flombulate across.\n"
	p := store.Project{Text: text}
	events := []counter.Event{tap(5), finish(5)}
	how := progressOf(p, events)
	if how.Done != 5 || how.Total != 7 || how.Unknown != 2 {
		t.Errorf("with two such rows left %d of %d are done", how.Done, how.Total)
	}
	events = append(events, tap(3), finish(3))
	if how = progressOf(p, events); how.Unknown != 1 {
		t.Errorf("after one of them %d are to come", how.Unknown)
	}
	events = append(events, tap(3), finish(3))
	if how = progressOf(p, events); how.Done != how.Total || how.Unknown != 0 {
		t.Errorf("at the end %d of %d are done", how.Done, how.Total)
	}
}

func TestMakingAgain(t *testing.T) {
	x := newShelfTest(t)
	first, _ := x.taken(x.write("mat.txt", mat))
	x.work(first,
		counter.Event{Kind: counter.Note, Text: "loosely"},
		counter.Event{Kind: counter.Rewrite, Text: mended})
	it, err := x.item(first)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for range 3 {
		if it, err = x.remake(it); err != nil {
			t.Fatal(err)
		}
		names = append(names, it.Name)
	}
	if want := []string{"Mat, no. 2", "Mat, no. 3", "Mat, no. 4"}; !slices.Equal(names, want) {
		t.Errorf("made again it is called %q, want %q", names, want)
	}
	p, events, err := x.store.Load(it.ID)
	if err != nil {
		t.Fatal(err)
	}
	if p.Text != mended || p.Size != first.Size || p.Path != first.Path {
		t.Errorf("another pattern is made again: %q", p.Text)
	}
	if len(events) != 1 || events[0].Kind != counter.Note || events[0].Text != "loosely" {
		t.Errorf("the notes did not come along: %+v", events)
	}
}
