package store_test

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"go.etcd.io/bbolt"
	"pgregory.net/rapid"

	"crochet/tallyturn/counter"
	"crochet/tallyturn/store"
)

// salvage rescues a file and checks that what came over is right.
func salvage(t fataler, path string, data []byte, logs map[string][]counter.Event) store.Rescued {
	t.Helper()
	forget(t, path)
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	r, err := store.Rescue(path)
	if err != nil {
		t.Fatal(err)
	}
	if aside, err := os.ReadFile(r.Aside); err != nil || !bytes.Equal(aside, data) {
		t.Fatalf("the file set aside is not the damaged one: %v", err)
	}
	if err := os.Remove(r.Aside); err != nil {
		t.Fatal(err)
	}
	s := open(t, path)
	defer shut(t, s)
	all, err := s.Projects()
	if err != nil || len(all) != len(r.Projects) {
		t.Fatalf("%d projects of %d, %v", len(all), len(r.Projects), err)
	}
	for i, found := range r.Projects {
		if found.Project != all[i] {
			t.Fatalf("said to be %+v, is %+v", found.Project, all[i])
		}
		p, events := load(t, s, found.ID)
		want := logs[found.ID]
		if len(events) > len(want) || !slices.Equal(events, want[:len(events)]) {
			t.Fatalf("project %s has another log", found.ID)
		}
		if !found.NoHead && (p.Title != limpet.Title || p.Path != limpet.Path) || !found.NoText && !strings.HasPrefix(p.Text, limpet.Text) {
			t.Fatalf("project %s is now %+v", found.ID, p)
		}
		if found.Whole() && len(events) != len(want) {
			t.Fatalf("project %s has %d of %d events, and is said to be whole", found.ID, len(events), len(want))
		}
		tap(t, s, found.ID, 1)
	}
	return r
}

// forget removes the copies of a file.
func forget(t fataler, path string) {
	t.Helper()
	for _, name := range store.Copies(path) {
		if err := os.Remove(name); err != nil {
			t.Fatal(err)
		}
	}
}

func whole(r store.Rescued) (n int) {
	for _, p := range r.Projects {
		if p.Whole() {
			n++
		}
	}
	return n
}

func TestRescue(t *testing.T) {
	data, logs := basket(t)
	path := filepath.Join(t.TempDir(), "broken")
	page := os.Getpagesize()
	for _, test := range []struct {
		name  string
		spoil func([]byte) []byte
		whole int
	}{
		{"not at all", func(b []byte) []byte { return b }, 4},
		{"both heads", func(b []byte) []byte { clear(b[:2*page]); return b }, 4},
		{"cut to nothing", func(b []byte) []byte { return nil }, 0},
		{"a text", func(b []byte) []byte { return bytes.Repeat([]byte("ch 3, turn. "), 5000) }, 0},
	} {
		t.Run(test.name, func(t *testing.T) {
			if r := salvage(t, path, test.spoil(bytes.Clone(data)), logs); whole(r) != test.whole {
				t.Errorf("%d projects are whole, want %d: %+v", whole(r), test.whole, r)
			}
		})
	}
	// A page is of one log, or of the small ones, or of what is not a log.
	for i := range len(data) / page {
		broken := bytes.Clone(data)
		clear(broken[i*page : (i+1)*page])
		r, complete := salvage(t, path, broken, logs), 0
		for _, p := range r.Projects {
			if p.Events == uint64(len(logs[p.ID])) {
				complete++
			}
		}
		if complete < len(logs)-1 {
			t.Errorf("without page %d, %d of %d logs are complete: %+v", i, complete, len(logs), r.Projects)
		}
	}
}

// TestRescueOfACutFile: what stands in a file that is cut off may be older than
// what was cut, so no project of it is said to be whole; nor is one where the file
// ends within a page, and both heads are gone.
func TestRescueOfACutFile(t *testing.T) {
	data, logs := basket(t)
	path := filepath.Join(t.TempDir(), "broken")
	page := os.Getpagesize()
	end := len(bytes.TrimRight(data, "\x00")) / page * page // the last page that was written begins here
	for name, broken := range map[string][]byte{
		"at a page":                     data[:end],
		"within a page":                 data[:end+7],
		"within a page, without a head": append(make([]byte, 2*page), data[2*page:len(data)-9]...),
		"one head is left":              append(make([]byte, page), data[page:end]...),
	} {
		if r := salvage(t, path, bytes.Clone(broken), logs); whole(r) != 0 || len(r.Projects) == 0 {
			t.Errorf("%s: %d of %d projects are said to be whole", name, whole(r), len(r.Projects))
		}
	}
}

func TestRescueAtRandom(t *testing.T) {
	data, logs := basket(t)
	path := filepath.Join(t.TempDir(), "broken")
	rapid.Check(t, func(rt *rapid.T) {
		broken := bytes.Clone(data)
		for range rapid.IntRange(1, 20).Draw(rt, "places") {
			at := rapid.IntRange(0, len(broken)-1).Draw(rt, "at")
			copy(broken[at:], rapid.SliceOfN(rapid.Byte(), 1, 64).Draw(rt, "bytes"))
		}
		salvage(rt, path, broken[:rapid.IntRange(0, len(broken)).Draw(rt, "cut")], logs)
	})
}

// What was changed comes over as it was last, though the pages that it was on
// before are still there.
func TestRescueTakesTheLast(t *testing.T) {
	path := file(t)
	s := open(t, path)
	p := create(t, s, limpet)
	for _, name := range []string{"One", "Two", "Three"} {
		p.Title, p.Text = name, name+" "+strings.Repeat("sc ", 2000)
		if err := s.Update(p); err != nil {
			t.Fatal(err)
		}
	}
	shut(t, s)
	if _, err := store.Rescue(path); err != nil {
		t.Fatal(err)
	}
	s = open(t, path)
	defer shut(t, s)
	if got, _ := load(t, s, p.ID); got != p {
		t.Errorf("rescued %s, %.10s", got.Title, got.Text)
	}
}

func TestRescueRefuses(t *testing.T) {
	path := file(t)
	if _, err := store.Rescue(path); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("no file: %v", err)
	}
	s := open(t, path)
	if _, err := store.Rescue(path); !errors.Is(err, store.ErrLocked) {
		t.Errorf("open: %v", err)
	}
	shut(t, s)
	rewrite(t, path, setVersion(store.Schema+1))
	if _, err := store.Rescue(path); !errors.Is(err, store.ErrNewer) {
		t.Errorf("newer: %v", err)
	}
	other := file(t)
	rewrite(t, other, func(tx *bbolt.Tx) error { _, err := tx.CreateBucket([]byte("x")); return err })
	if _, err := store.Rescue(other); !errors.Is(err, store.ErrForeign) {
		t.Errorf("foreign: %v", err)
	}
	if left, _ := filepath.Glob(path + "*"); len(left) != 1 {
		t.Errorf("files: %v", left)
	}
}

func TestNamesOfFilesSetAside(t *testing.T) {
	path := file(t)
	for _, want := range []string{".damaged", ".damaged-2", ".damaged-3"} {
		shut(t, open(t, path))
		if r, err := store.Rescue(path); err != nil || r.Aside != path+want {
			t.Errorf("set aside as %s, %v; want %s", r.Aside, err, want)
		}
	}
}
