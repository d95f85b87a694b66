package store_test

import (
	"bytes"
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"crochet/tallyturn/counter"
	"crochet/tallyturn/store"
)

func export(t fataler, s *store.Store) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := s.Export(&b); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func drawEvent(t *rapid.T) counter.Event {
	return counter.Event{
		Kind: counter.Kind(rapid.IntRange(1, 255).Draw(t, "kind")), At: rapid.Int64().Draw(t, "at"), N: rapid.Int64().Draw(t, "n"),
		Piece: rapid.Int().Draw(t, "piece"), Copy: rapid.Int().Draw(t, "copy"), Row: rapid.Int().Draw(t, "row"),
		Text: drawText(t, "text"),
	}
}

// drawText draws any bytes, text or not.
func drawText(t *rapid.T, label string) string {
	if rapid.Bool().Draw(t, label+" is text") {
		return rapid.String().Draw(t, label)
	}
	return string(rapid.SliceOfN(rapid.Byte(), 0, 20).Draw(t, label))
}

// What is exported and imported is exported again to the last byte, whatever
// is in it; importing it once more changes nothing.
func TestOutAndIn(t *testing.T) {
	dir, files := t.TempDir(), 0
	fresh := func(t fataler) *store.Store {
		files++
		return open(t, fmt.Sprintf("%s/%d/tallyturn.db", dir, files))
	}
	rapid.Check(t, func(t *rapid.T) {
		s := fresh(t)
		defer shut(t, s)
		for range rapid.IntRange(0, 4).Draw(t, "projects") {
			p := create(t, s, store.Project{Title: drawText(t, "title"), Size: drawText(t, "size"), Text: drawText(t, "text"), Created: rapid.Int64().Draw(t, "created")})
			w, err := s.Writer(p.ID, nil)
			if err != nil {
				t.Fatal(err)
			}
			for range rapid.IntRange(0, 5).Draw(t, "events") {
				w.Append(drawEvent(t))
			}
			if err := w.Close(); err != nil {
				t.Fatal(err)
			}
			for range rapid.IntRange(0, 2).Draw(t, "changes") {
				p.Title = drawText(t, "new title")
				if err := s.Update(p); err != nil {
					t.Fatal(err)
				}
			}
		}
		first := export(t, s)
		other := fresh(t)
		defer shut(t, other)
		for range 2 {
			if _, err := other.Import(bytes.NewReader(first)); err != nil {
				t.Fatal(err)
			}
			if second := export(t, other); !bytes.Equal(first, second) {
				t.Fatalf("exported\n%s\nand again\n%s", first, second)
			}
		}
		if i := bytes.IndexFunc(first, func(r rune) bool { return r != '\n' && (r < ' ' || r >= 0x7f && r < 0xa0) }); i >= 0 {
			t.Fatalf("a control character at byte %d of\n%q", i, first)
		}
	})
}

// Two baskets that have a project in common and go on with it apart come to
// hold the same once each has taken from the other, and neither loses a tap.
func TestMergeIsTheSameEverywhere(t *testing.T) {
	dir, files := t.TempDir(), 0
	rapid.Check(t, func(t *rapid.T) {
		var both [2]*store.Store
		for i := range both {
			files++
			both[i] = open(t, fmt.Sprintf("%s/%d/tallyturn.db", dir, files))
			defer shut(t, both[i])
		}
		create(t, both[0], limpet)
		create(t, both[0], store.Project{Title: "Buoy"})
		taps := func(s *store.Store, id string, label string) {
			w, err := s.Writer(id, nil)
			if err != nil {
				t.Fatal(err)
			}
			for range rapid.IntRange(0, 3).Draw(t, label) {
				w.Append(counter.Event{Kind: counter.Tap, At: rapid.Int64Range(0, 2).Draw(t, "at"), N: 1})
			}
			if err := w.Close(); err != nil {
				t.Fatal(err)
			}
		}
		taps(both[0], "1", "common")
		take := func(to, from int) {
			if _, err := both[to].Import(bytes.NewReader(export(t, both[from]))); err != nil {
				t.Fatal(err)
			}
		}
		take(1, 0)
		for range rapid.IntRange(1, 3).Draw(t, "rounds") {
			var logs [][]counter.Event
			for i, s := range both {
				all, err := s.Projects()
				if err != nil {
					t.Fatal(err)
				}
				for _, p := range all {
					taps(s, p.ID, "apart")
					if rapid.Bool().Draw(t, "renamed") {
						p.Title, p.Text = rapid.SampledFrom([]string{"A", "B"}).Draw(t, "title"), limpet.Text
						if err := s.Update(p); err != nil {
							t.Fatal(err)
						}
					}
					_, log := load(t, both[i], p.ID)
					logs = append(logs, log)
				}
			}
			take(0, 1)
			take(1, 0)
			a, b := export(t, both[0]), export(t, both[1])
			if !bytes.Equal(a, b) {
				t.Fatalf("one has another than the other:\n%s", cmp.Diff(string(a), string(b)))
			}
			all, err := both[0].Projects()
			if err != nil {
				t.Fatal(err)
			}
			for _, log := range logs {
				if !slices.ContainsFunc(all, func(p store.Project) bool {
					_, got := load(t, both[0], p.ID)
					return len(got) >= len(log) && slices.Equal(got[:len(log)], log)
				}) {
					t.Fatalf("nobody has the log %v", log)
				}
			}
		}
	})
}

func TestImportRefuses(t *testing.T) {
	s := open(t, file(t))
	p := create(t, s, limpet)
	tap(t, s, p.ID, 3)
	lines := strings.SplitAfter(string(export(t, s)), "\n")
	lines = lines[:len(lines)-1]
	shut(t, s)
	if len(lines) != 6 {
		t.Fatalf("%d lines: %q", len(lines), lines)
	}
	with := func(i int, old, new string) []string {
		changed := slices.Clone(lines)
		changed[i] = strings.Replace(changed[i], old, new, 1)
		if changed[i] == lines[i] {
			t.Fatalf("no %q in %q", old, lines[i])
		}
		return changed
	}
	for _, test := range []struct {
		name  string
		lines []string
		line  int
		err   error
	}{
		{"nothing", nil, 1, store.ErrBadExport},
		{"another text", []string{"Rnd 1: 6 sc in ring (6)\n"}, 1, store.ErrBadExport},
		{"cut after a line", lines[:4], 5, store.ErrBadExport},
		{"cut in a line", []string{lines[0], lines[1][:9]}, 2, store.ErrBadExport},
		{"no end", lines[:5], 6, store.ErrBadExport},
		{"a changed number", with(3, `"n":1`, `"n":2`), 4, store.ErrBadExport},
		{"a changed text", with(1, "sc in ring", "dc in ring"), 2, store.ErrBadExport},
		{"a changed sum", with(1, `"sum":"`, `"sum":"f`), 2, store.ErrBadExport},
		{"a line lost", slices.Delete(slices.Clone(lines), 2, 3), 3, store.ErrBadExport},
		{"a line twice", slices.Insert(slices.Clone(lines), 2, lines[2]), 4, store.ErrBadExport},
		{"more at the end", append(slices.Clone(lines), "\n"), 7, store.ErrBadExport},
	} {
		t.Run(test.name, func(t *testing.T) {
			path := file(t)
			s := open(t, path)
			tap(t, s, create(t, s, limpet).ID, 1)
			before := export(t, s)
			_, err := s.Import(strings.NewReader(strings.Join(test.lines, "")))
			var at *store.LineError
			if !errors.As(err, &at) || at.Line != test.line || !errors.Is(err, test.err) {
				t.Errorf("line %d, %v; want line %d", at.Line, err, test.line)
			}
			if !bytes.Equal(before, export(t, s)) {
				t.Error("something was taken all the same")
			}
			shut(t, s)
		})
	}
}

// Lines whose sums are right may still say what cannot be.
func TestImportReadsStrictly(t *testing.T) {
	const head = `{"tallyturn":"basket","version":1`
	uid := strings.Repeat("0f", 16)
	for _, test := range []struct {
		lines []string
		line  int
	}{
		{[]string{`{"tallyturn":"basket","version":2`}, 1},
		{[]string{`{"tallyturn":"pattern","version":1`}, 1},
		{[]string{head, `{"project":"x","title":"","created":0,"events":0,"text":""`}, 2},
		{[]string{head, `{"project":"` + uid + `","title":3,"created":0,"events":0,"text":""`}, 2},
		{[]string{head, `{"project":"` + uid + `","title":"","wool":1,"created":0,"events":0,"text":""`}, 2},
		{[]string{head, `{"project":"` + uid + `","title":"","created":0,"events":1,"text":""`, `{"kind":"knit","at":0`}, 3},
		{[]string{head, `{"project":"` + uid + `","title":"","created":0,"events":1,"text":""`, `{"kind":1,"at":0`}, 3},
		{[]string{head, `{"project":"` + uid + `","title":"","created":0,"events":1,"text":""`, `{"at":0`}, 3},
		{[]string{head, `{"project":"` + uid + `","title":"","created":0,"events":1,"text":""`, `{"end":"basket","projects":1,"events":0`}, 3},
		{[]string{head, `{"project":"` + uid + `","title":"","created":0,"events":0,"text":""`, `{"project":"` + uid + `","title":"","created":0,"events":0,"text":""`}, 3},
		{[]string{head, `{"end":"basket","projects":1,"events":0`}, 2},
	} {
		s := open(t, file(t))
		_, err := s.Import(strings.NewReader(store.WithSums(test.lines)))
		var at *store.LineError
		if !errors.As(err, &at) || at.Line != test.line {
			t.Errorf("%q: %v, want line %d", test.lines, err, test.line)
		}
		shut(t, s)
	}
}

// FuzzImport: whatever is imported is refused with a line, or comes out again
// as it came in.
func FuzzImport(f *testing.F) {
	s := open(f, file(f))
	create(f, s, limpet)
	tap(f, s, create(f, s, store.Project{Title: "\x1b[2J\xff"}).ID, 2)
	whole := export(f, s)
	shut(f, s)
	f.Add(whole, true)
	f.Add(whole[:len(whole)/2], false)
	var bare []string
	for line := range bytes.Lines(whole) {
		bare = append(bare, string(line[:bytes.LastIndex(line, []byte(`,"sum"`))]))
	}
	f.Add([]byte(strings.Join(bare, "\n")), true)
	s = open(f, file(f))
	f.Cleanup(func() { shut(f, s) })
	f.Fuzz(func(t *testing.T, data []byte, sums bool) {
		if sums {
			data = []byte(store.WithSums(strings.Split(string(data), "\n")))
		}
		merged, err := s.Import(bytes.NewReader(data))
		var at *store.LineError
		if err != nil && !errors.As(err, &at) {
			t.Fatal(err)
		}
		for _, m := range merged {
			if _, events := load(t, s, m.ID); uint64(len(events)) < m.Added {
				t.Errorf("%d events of %d", len(events), m.Added)
			}
		}
		if err == nil {
			if _, err := s.Import(bytes.NewReader(export(t, s))); err != nil {
				t.Errorf("its own export: %v", err)
			}
		}
	})
}
