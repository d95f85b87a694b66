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

// taken is what came of taking a pattern up: its project and what the heading
// of its walk adds.
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
	if again.ID != first.ID || note != "" || again.Events != 1 {
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

func TestShelfFollowsAMendedFile(t *testing.T) {
	for _, test := range []struct {
		name, text string
		note       string
		follows    bool
	}{
		{"mended ahead of the hook", mended, "", true},
		{"another piece of work", reworked, asBegun, false},
	} {
		t.Run(test.name, func(t *testing.T) {
			x := newShelfTest(t)
			p, _ := x.taken(x.write("mat.txt", mat))
			x.work(p, tap(6), finish(6), tap(2))
			p, note := x.taken(x.write("mat.txt", test.text))
			if note != test.note {
				t.Errorf("note %q, want %q", note, test.note)
			}
			if follows := p.Text == test.text; follows != test.follows {
				t.Errorf("goes on with the mended text: %v, want %v", follows, test.follows)
			}
			_, events, err := x.store.Load(p.ID)
			if err != nil {
				t.Fatal(err)
			}
			state, refused := counter.Replay(counter.NewPlan(provenAgain(p)), events)
			if at := (counter.Place{Row: 1, Stitch: 2}); len(refused) > 0 || state.At() != at {
				t.Errorf("the place is %v (%d events refused), want %v", state.At(), len(refused), at)
			}
		})
	}
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
	if again.ID != p.ID || again.Text != mat || note != "" {
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
