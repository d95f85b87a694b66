package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"crochet/tallyturn/counter"
	"crochet/tallyturn/store"
)

// mat is a pattern with two sizes and two rows.
const mat = `Mat
Sizes: S (L)
Ch 7 (11).
Row 1: Sc in 2nd ch from hook and in each ch across. (6 (10) sc)
Row 2: Ch 1, turn, sc in each st across. (6 (10) sc)
Row 3: Ch 1, turn, sc in each st across. (6 (10) sc)
`

// mended is mat with its last row mended, reworked is another piece of work.
var (
	mended   = strings.Replace(mat, "Row 3: Ch 1, turn, sc in each st across. (6 (10) sc)", "Row 3: Ch 1, turn, hdc in each st across. (6 (10) hdc)", 1)
	reworked = "Mat\nSizes: S (L)\nCh 4 (5).\nRow 1: Sc in 2nd ch from hook and in each ch across. (3 (4) sc)\n"
)

// shelfTest is a shelf with a folder of pattern files.
type shelfTest struct {
	*testing.T
	*shelf
	dir   string
	clock time.Time
}

func newShelfTest(t *testing.T) *shelfTest {
	dir := t.TempDir()
	kept, err := store.Open(filepath.Join(dir, "basket", "tallyturn.db"))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := kept.Close(); err != nil {
			t.Error(err)
		}
	})
	x := &shelfTest{T: t, dir: dir, clock: time.UnixMilli(1_000_000)}
	x.shelf = &shelf{store: kept, now: func() time.Time { return x.clock }}
	return x
}

// write puts a pattern into a file and names it as the command line would.
func (x *shelfTest) write(name, text string) origin {
	x.Helper()
	path := filepath.Join(x.dir, name)
	if err := os.WriteFile(path, []byte(text), 0o666); err != nil {
		x.Fatal(err)
	}
	return origin{name: name, path: path, text: text}
}

// taken is what came of taking a pattern up: its project and what its file
// says by now.
func (x *shelfTest) taken(o origin) (store.Project, string) {
	x.Helper()
	proof, err := choice{size: o.size}.prove(o.name, o.text)
	if err != nil {
		x.Fatal(err)
	}
	p, note, err := x.take(o, proof)
	if err != nil {
		x.Fatal(err)
	}
	return p, note
}

// work adds events to a project, a second apart.
func (x *shelfTest) work(p store.Project, events ...counter.Event) {
	x.Helper()
	w, err := x.store.Writer(p.ID, nil)
	if err != nil {
		x.Fatal(err)
	}
	for _, e := range events {
		x.clock = x.clock.Add(time.Second)
		e.At = x.clock.UnixMilli()
		w.Append(e)
	}
	if err := w.Close(); err != nil {
		x.Fatal(err)
	}
}

func tap(n int64) counter.Event    { return counter.Event{Kind: counter.Tap, N: n} }
func finish(n int64) counter.Event { return counter.Event{Kind: counter.Finish, N: n} }

func TestShelfFindsTheSameWalk(t *testing.T) {
	x := newShelfTest(t)
	first, note := x.taken(x.write("mat.txt", mat))
	if note != "" || first.Title != "Mat" || first.Size != "S" {
		t.Fatalf("begun as %q, size %q, note %q", first.Title, first.Size, note)
	}
	x.work(first, tap(4))
	again, note := x.taken(x.write("mat.txt", mat))
	if again.ID != first.ID || note != mat || again.Events != 1 {
		t.Errorf("taken up again: project %s with %d events, note %q; want project %s with 1", again.ID, again.Events, note, first.ID)
	}
}

func TestShelfKeepsSizesApart(t *testing.T) {
	x := newShelfTest(t)
	small := x.write("mat.txt", mat)
	large := small
	large.size = "l"
	s, _ := x.taken(small)
	l, _ := x.taken(large)
	if s.ID == l.ID || l.Size != "L" {
		t.Fatalf("projects %s (%s) and %s (%s), want two sizes", s.ID, s.Size, l.ID, l.Size)
	}
	x.work(l, tap(1))
	if p, _ := x.taken(small); p.ID != l.ID {
		t.Error("without a size it is not the one touched last")
	}
	small.size = "S"
	if p, _ := x.taken(small); p.ID != s.ID {
		t.Error("the size asked for is not taken up")
	}
}

func TestShelfBeginsAnew(t *testing.T) {
	x := newShelfTest(t)
	o := x.write("mat.txt", mat)
	first, _ := x.taken(o)
	o.anew = true
	if p, _ := x.taken(o); p.ID == first.ID {
		t.Error("asked for a new walk, got the one in progress")
	}
}

func TestShelfFollowsARenamedFile(t *testing.T) {
	x := newShelfTest(t)
	old := x.write("mat.txt", mat)
	first, _ := x.taken(old)
	copied := x.write("copy.txt", mat)
	if p, _ := x.taken(copied); p.ID == first.ID {
		t.Error("a copy beside its original is taken for the same work")
	}
	if err := os.Remove(old.path); err != nil {
		t.Fatal(err)
	}
	x.work(first, tap(1)) // touched last of the two with this text
	moved := x.write("rug.txt", mat)
	p, _ := x.taken(moved)
	if p.ID != first.ID || p.Path != moved.path {
		t.Errorf("renamed: project %s at %s, want %s at %s", p.ID, p.Path, first.ID, moved.path)
	}
}

func TestShelfTellsOfAChangedFile(t *testing.T) {
	for name, text := range map[string]string{"mended ahead of the hook": mended, "another piece of work": reworked} {
		t.Run(name, func(t *testing.T) {
			x := newShelfTest(t)
			p, _ := x.taken(x.write("mat.txt", mat))
			x.work(p, tap(6), finish(6), tap(2))
			o := x.write("mat.txt", text)
			p, says := x.taken(o)
			if says != text || p.Text != mat {
				t.Errorf("the file says %q, the text kept is %q", says, p.Text)
			}
			at := counter.Place{Row: 1, Stitch: 2}
			if state := x.state(p); state.At() != at || state.Plan().Text() != mat {
				t.Errorf("the place is %v, want %v", state.At(), at)
			}
			// She goes on with the new: the log alone knows it from then on.
			x.work(p, counter.Event{Kind: counter.Rewrite, Text: text})
			p, says = x.taken(o)
			if state := x.state(p); says != text || state.Plan().Text() != text {
				t.Errorf("the walk goes on with %q", state.Plan().Text())
			}
			// And the file is known by that text when it is renamed.
			if err := os.Remove(o.path); err != nil {
				t.Fatal(err)
			}
			if renamed, _ := x.taken(x.write("rug.txt", text)); renamed.ID != p.ID {
				t.Errorf("renamed: project %s, want %s", renamed.ID, p.ID)
			}
		})
	}
}

func TestShelfBringsNotesToTheNextMaking(t *testing.T) {
	x := newShelfTest(t)
	o := x.write("mat.txt", mat)
	first, _ := x.taken(o)
	x.work(first, tap(6), counter.Event{Kind: counter.Note, Row: 2, Text: "use the smaller hook"})
	o.anew = true
	again, _ := x.taken(o)
	if state := x.state(again); again.ID == first.ID || state.NoteOn(0, 0, 2) != "use the smaller hook" || state.Stitch() != 0 {
		t.Errorf("the note of the next making is %q", state.NoteOn(0, 0, 2))
	}
}

// state is where the log of a project leads.
func (x *shelfTest) state(p store.Project) counter.State {
	x.Helper()
	p, events, err := x.store.Load(p.ID)
	if err != nil {
		x.Fatal(err)
	}
	state, refused := counter.Replay(counter.NewPlan(provenAgain(p)), events)
	if len(refused) > 0 {
		x.Fatalf("refused: %+v", refused)
	}
	return state
}

func TestShelfTakesUpATextThatWasLost(t *testing.T) {
	x := newShelfTest(t)
	o := x.write("mat.txt", mat)
	p, _ := x.taken(o)
	x.work(p, tap(6), finish(6), tap(2))
	p.Text = ""
	if err := x.store.Update(p); err != nil {
		t.Fatal(err)
	}
	again, note := x.taken(o)
	if again.ID != p.ID || again.Text != mat || note != mat {
		t.Errorf("project %s with %d bytes of text, note %q", again.ID, len(again.Text), note)
	}
}

func TestHeading(t *testing.T) {
	for _, test := range []struct {
		p     store.Project
		notes []string
		want  string
	}{
		{store.Project{Title: "Mat"}, nil, "Mat"},
		{store.Project{Title: "Mat"}, []string{""}, "Mat"},
		{store.Project{Title: "Mat", Size: "L"}, []string{asBegun}, "Mat, size L (as it was when begun)"},
		{store.Project{Title: "Mat"}, []string{"", "check finds 2 wrong"}, "Mat (check finds 2 wrong)"},
		{store.Project{Title: "Mat"}, []string{checkPlace, "check finds 2 wrong"}, "Mat (check your place; check finds 2 wrong)"},
	} {
		if got := heading(test.p, test.notes...); got != test.want {
			t.Errorf("got %q, want %q", got, test.want)
		}
	}
}
