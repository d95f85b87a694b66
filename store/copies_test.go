package store_test

import (
	"bytes"
	"errors"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"testing"
	"time"

	"crochet/tallyturn/counter"
	"crochet/tallyturn/store"
)

// walkRows works rows of a few taps in a project, and some taps of one more.
func walkRows(t *testing.T, s *store.Store, id string, rows, more int) {
	t.Helper()
	w, err := s.Writer(id, nil)
	if err != nil {
		t.Fatal(err)
	}
	for range rows {
		for range 1 + rand.IntN(9) {
			w.Append(counter.Event{Kind: counter.Tap, N: rand.Int64N(100)})
		}
		w.Append(counter.Event{Kind: counter.Finish, N: counter.NotCounted})
	}
	for range more {
		w.Append(counter.Event{Kind: counter.Tap, N: rand.Int64N(100)})
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
}

func upToLastRow(log []counter.Event) int {
	for n := len(log); n > 0; n-- {
		if log[n-1].Kind == counter.Finish {
			return n
		}
	}
	return 0
}

// Whatever happens to the file, no more is lost than what came after the last
// finished row.
func TestLossIsBounded(t *testing.T) {
	path := file(t)
	s := open(t, path)
	var ids []string
	for i := range 3 {
		p := limpet
		p.Path = ""
		p.Text = strings.Repeat(p.Text, 1+200*i)
		ids = append(ids, create(t, s, p).ID)
	}
	for range 4 {
		for _, id := range ids {
			walkRows(t, s, id, rand.IntN(30), 0)
		}
	}
	for _, id := range ids {
		walkRows(t, s, id, 1, 0)
	}
	if err := s.WaitForCopies(); err != nil {
		t.Fatal(err)
	}
	for _, id := range ids {
		walkRows(t, s, id, 0, rand.IntN(50))
	}
	logs := map[string][]counter.Event{}
	for _, id := range ids {
		_, logs[id] = load(t, s, id)
	}
	shut(t, s)
	kept := readAll(t, filepath.Dir(path))
	data := kept[filepath.Base(path)]

	trials := 150
	if !testing.Short() {
		trials = max(trials, *damages)
	}
	lost, most := 0, 0
	for trial := range trials {
		dir := t.TempDir()
		at := filepath.Join(dir, filepath.Base(path))
		for name, b := range kept {
			write(t, filepath.Join(dir, name), b)
		}
		broken := spoil(slices.Clone(data), trial)
		if broken == nil {
			if err := os.Remove(at); err != nil {
				t.Fatal(err)
			}
			if _, err := store.Open(at); !errors.Is(err, store.ErrGone) {
				t.Fatalf("opened what is gone: %v", err)
			}
		} else {
			write(t, at, broken)
			// Whoever opens it is told, and it is left as it is.
			if s, err := store.Open(at); err == nil {
				shut(t, s) // what is damaged is not in use, or shows only when it is read
				broken = nil
			} else if after, _ := os.ReadFile(at); !errors.Is(err, store.ErrDamaged) || !bytes.Equal(after, broken) {
				t.Fatalf("opened with %v, and changed: %v", err, !bytes.Equal(after, broken))
			}
		}
		r, err := store.Rescue(at)
		if err != nil {
			t.Fatal(err)
		}
		if aside, err := os.ReadFile(r.Aside); broken != nil && (err != nil || !bytes.Equal(aside, broken)) {
			t.Fatalf("the file set aside is another: %v", err)
		}
		s := open(t, at)
		for _, id := range ids {
			p, events := load(t, s, id)
			least := upToLastRow(logs[id])
			if len(events) < least || !slices.Equal(events, logs[id][:len(events)]) || !strings.HasPrefix(p.Text, limpet.Text) {
				t.Fatalf("trial %d: project %s has %d events, %d are up to its last finished row: %+v", trial, id, len(events), least, r)
			}
			if gone := len(logs[id]) - len(events); gone > 0 {
				lost++
				most = max(most, gone)
			}
		}
		shut(t, s)
	}
	t.Logf("%d trials with 3 projects each: taps since the last finished row were lost in %d, at most %d taps", trials, lost, most)
}

// spoil damages a file in one of many ways; nil is for taking it away.
func spoil(b []byte, trial int) []byte {
	page := os.Getpagesize()
	pages := len(b) / page
	some := func() []byte { i := rand.IntN(pages); return b[i*page : (i+1)*page] }
	switch trial % 8 {
	case 0:
		return nil
	case 1:
		return b[:0]
	case 2:
		return b[:rand.IntN(len(b))]
	case 3:
		for range 1 + rand.IntN(100) {
			b[rand.IntN(len(b))] ^= byte(1 << rand.IntN(8))
		}
	case 4:
		for range 1 + rand.IntN(4) {
			clear(some())
		}
	case 5:
		one, other := some(), some()
		was := slices.Clone(one)
		copy(one, other)
		copy(other, was)
	case 6:
		for i := range b {
			b[i] = byte(rand.Uint32())
		}
	case 7:
		clear(b[:2*page])
		copy(some(), some())
	}
	return b
}

func readAll(t *testing.T, dir string) map[string][]byte {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	all := map[string][]byte{}
	for _, e := range entries {
		if all[e.Name()], err = os.ReadFile(filepath.Join(dir, e.Name())); err != nil {
			t.Fatal(err)
		}
	}
	return all
}

func write(t *testing.T, path string, data []byte) {
	t.Helper()
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
}

func TestCopiesRoll(t *testing.T) {
	path := file(t)
	s := open(t, path)
	id := create(t, s, limpet).ID
	for range 8 {
		walkRows(t, s, id, 1, 0)
		if err := s.WaitForCopies(); err != nil {
			t.Fatal(err)
		}
	}
	shut(t, s)
	if names := store.Copies(path); len(names) != 3 || !strings.HasSuffix(names[0], ".copy-000008") {
		t.Errorf("copies %v", names)
	}
	// The first start of a day adds one of its own kind, the second none.
	shut(t, open(t, path))
	shut(t, open(t, path))
	names := store.Copies(path)
	if len(names) != 4 || !strings.HasSuffix(names[0], ".copy-000009-day") {
		t.Fatalf("copies %v", names)
	}
	for _, age := range []time.Duration{25 * time.Hour, -time.Hour, 49 * time.Hour} { // one is of a clock that was set back
		at := time.Now().Add(-age)
		for _, name := range store.Copies(path) {
			if err := os.Chtimes(name, at, at); err != nil {
				t.Fatal(err)
			}
		}
		shut(t, open(t, path))
	}
	if names := store.Copies(path); len(names) != 5 || !strings.HasSuffix(names[0], ".copy-000012-day") {
		t.Errorf("copies %v", names)
	}
	for _, name := range store.Copies(path) {
		l, err := store.Look(name)
		if err != nil {
			t.Fatal(err)
		}
		if _, events := load(t, l, id); len(events) == 0 {
			t.Errorf("%s is empty", name)
		}
		shut(t, l)
	}
}

// Copies of another basket that was at the same place are no help: its
// projects have the same numbers.
func TestRescueKnowsItsCopies(t *testing.T) {
	path := file(t)
	s := open(t, path)
	walkRows(t, s, create(t, s, limpet).ID, 9, 0)
	shut(t, s)
	if err := os.Remove(path); err != nil {
		t.Fatal(err)
	}
	other := file(t)
	s = open(t, other)
	tap(t, s, create(t, s, limpet).ID, 3)
	shut(t, s)
	if err := os.Rename(other, path); err != nil {
		t.Fatal(err)
	}
	r, err := store.Rescue(path)
	if err != nil {
		t.Fatal(err)
	}
	if r.Copies != 0 || len(r.Projects) != 1 || r.Projects[0].Events != 3 {
		t.Errorf("rescued %+v", r)
	}
}

// A copy that cannot be made is no reason to stop.
func TestCopyThatCannotBeMade(t *testing.T) {
	path := file(t)
	s := open(t, path)
	id := create(t, s, limpet).ID
	if err := os.Mkdir(path+".copy-000001", 0o700); err != nil { // its name is taken
		t.Fatal(err)
	}
	walkRows(t, s, id, 1, 3)
	if err := s.WaitForCopies(); err != nil && !errors.Is(err, fs.ErrExist) {
		t.Fatal(err)
	}
	shut(t, s)
	s = open(t, path)
	defer shut(t, s)
	if _, events := load(t, s, id); len(events) < 5 {
		t.Errorf("%d events", len(events))
	}
}

func TestWhatTheKilledLeave(t *testing.T) {
	path := file(t)
	old := time.Now().Add(-2 * time.Hour)
	for name, at := range map[string]time.Time{
		path + ".new-1": old, path + ".look-2": old, path + ".new-3": time.Now(), path + ".note": old,
	} {
		write(t, name, nil)
		if err := os.Chtimes(name, at, at); err != nil {
			t.Fatal(err)
		}
	}
	shut(t, open(t, path))
	left, err := filepath.Glob(path + "*")
	if err != nil || !slices.Equal(left, []string{path, path + ".new-3", path + ".note"}) {
		t.Errorf("left %v, %v", left, err)
	}
}

// Copies must not be what stands in the way of the next tap.
func TestCopiesMakeRoom(t *testing.T) {
	path := file(t)
	s := open(t, path)
	defer shut(t, s)
	id := create(t, s, limpet).ID
	for range 3 {
		walkRows(t, s, id, 1, 0)
		if err := s.WaitForCopies(); err != nil {
			t.Fatal(err)
		}
	}
	full := true
	s.FailCommits(func(commit func() error) error {
		if full = full && len(store.Copies(path)) > 1; full {
			return syscall.ENOSPC
		}
		return commit()
	})
	heard := make(chan error, 100)
	w, err := s.Writer(id, func(safe uint64, err error) { heard <- err })
	if err != nil {
		t.Fatal(err)
	}
	w.Append(numbered(1))
	for err := range heard {
		if err == nil {
			break
		}
	}
	if names := store.Copies(path); len(names) != 1 || full {
		t.Errorf("copies %v", names)
	}
}

// A basket that was only just begun has no copy of the day, however late the
// copier gets to ask: what it holds by then came after the start.
func TestNoDayOfAFreshBasket(t *testing.T) {
	for range 20 {
		path := file(t)
		s := open(t, path)
		create(t, s, limpet)
		shut(t, s)
		if names := store.Copies(path); len(names) > 0 {
			t.Fatalf("copies %v", names)
		}
	}
}
