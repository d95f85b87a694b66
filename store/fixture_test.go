package store_test

import (
	"bytes"
	"compress/gzip"
	"encoding/binary"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"crochet/tallyturn/counter"
	"crochet/tallyturn/store"
)

var update = flag.Bool("update", false, "write the file of today's layout that TestOldFiles will read for ever")

// oldProjects is what the files of all layouts hold.
var oldProjects = []struct {
	store.Project
	log []counter.Event
}{
	{store.Project{
		ID: "1", Title: "Limpet", Path: "/harbour/limpet.txt", Text: "Rnd 1: 6 sc in ring (6)\n", Size: "large",
		Created: 1_700_000_000_000, Touched: 1_700_000_900_000, Events: 5,
		Name: "Limpet for the bollard", Shelf: store.SetAside,
		Progress: store.Progress{Events: 5, Done: 6, Total: 6, Millis: 899_500, Low: 1, High: 2, Unknown: 3},
	}, []counter.Event{
		{Kind: counter.Open, At: 1_700_000_000_500},
		{Kind: counter.Tap, At: 1_700_000_004_000, N: 1},
		{Kind: counter.Jump, At: 1_700_000_009_000, Piece: 1, Copy: 2, Row: 3, N: 4},
		{Kind: counter.Finish, At: 1_700_000_800_000, N: counter.NotCounted, Text: "no kind has a text yet"},
		{Kind: counter.Close, At: 1_700_000_900_000},
	}},
	{store.Project{
		ID: "2", Title: "Buoy", Text: strings.Repeat("Rnds 2-9: sc around (24)\n", 300),
		Created: 1_700_001_000_000, Touched: 1_700_001_000_000 + 1499, Events: 1500,
	}, manyTaps(1500)},
	{store.Project{ID: "3", Created: -1, Touched: -1}, nil},
}

// layout1UIDs are those that projects without any are given.
var layout1UIDs = []string{
	"4e147b10c623fd147a7abc249c6f7fba", "04c9cc0637be7ff90e99e9153c9f7981", "23847b1332774862dce25307e88d7149",
}

func manyTaps(n int) (log []counter.Event) {
	for i := range n {
		log = append(log, counter.Event{Kind: counter.Tap, At: 1_700_001_000_000 + int64(i), N: int64(i)})
	}
	return log
}

func writeOld(t *testing.T, path string) {
	s := open(t, path)
	defer shut(t, s)
	for _, old := range oldProjects {
		p := create(t, s, old.Project)
		if old.Progress != (store.Progress{}) {
			if err := s.SetProgress(p.ID, old.Progress); err != nil {
				t.Fatal(err)
			}
		}
		w, err := s.Writer(p.ID, nil)
		if err != nil {
			t.Fatal(err)
		}
		for _, e := range old.log {
			w.Append(e)
		}
		if err := w.Close(); err != nil {
			t.Fatal(err)
		}
	}
}

// TestOldFiles reads a file of every layout there has been.
func TestOldFiles(t *testing.T) {
	if binary.NativeEndian.Uint16([]byte{1, 0}) != 1 {
		t.Skip("the files are of machines of the other byte order")
	}
	dir := filepath.Join("..", "testdata", "store")
	if *update {
		path := file(t)
		writeOld(t, path)
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		var b bytes.Buffer
		z := gzip.NewWriter(&b)
		if _, err := z.Write(data); err != nil {
			t.Fatal(err)
		}
		if err := z.Close(); err != nil {
			t.Fatal(err)
		}
		if err := os.MkdirAll(dir, 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(dir, fmt.Sprintf("layout%d.db.gz", store.Schema)), b.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	for version := 1; version <= store.Schema; version++ {
		path := file(t)
		unpackLayout(t, version, path)
		s := open(t, path)
		defer shut(t, s)
		all, err := s.Projects()
		if err != nil || len(all) != len(oldProjects) {
			t.Fatalf("%d projects, %v", len(all), err)
		}
		for i, want := range oldProjects {
			p, events := load(t, s, want.ID)
			want.UID = layout1UIDs[i] // the same wherever it is read
			if version > 1 {
				want.UID = p.UID
			}
			if version < 3 {
				want.Name, want.Shelf = "", store.InWork
			}
			if version < 4 {
				want.Progress = store.Progress{}
			}
			if diff := cmp.Diff(want.Project, p); diff != "" {
				t.Errorf("layout %d (-want +got):\n%s", version, diff)
			}
			if !slices.Equal(events, want.log) {
				t.Errorf("layout %d: project %s has another log", version, want.ID)
			}
		}
		asItWas(t, path, version)
	}
}

// asItWas looks for the copy that was made before a file was changed to the
// layout of today.
func asItWas(t *testing.T, path string, version int) {
	t.Helper()
	name := fmt.Sprintf("%s.layout%d", path, version)
	if version == store.Schema {
		if _, err := os.Stat(name); err == nil {
			t.Errorf("%s: a file of today's layout was copied", name)
		}
		return
	}
	l, err := store.Look(name)
	if err != nil {
		t.Fatal(err)
	}
	defer shut(t, l)
	if got := l.Layout(); got != uint64(version) {
		t.Errorf("the copy has layout %d, want %d", got, version)
	}
	for i, want := range oldProjects {
		if p, events := load(t, l, want.ID); version == 1 && p.UID != layout1UIDs[i] || !slices.Equal(events, want.log) {
			t.Errorf("the copy of layout %d has another project %s", version, want.ID)
		}
	}
}

// A change of layout that cannot be made leaves the file as it was.
func TestMigrationNeedsItsCopy(t *testing.T) {
	path := file(t)
	unpackLayout(t, 1, path)
	before, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	// A copy from an earlier try is there already, so nothing stands in the way.
	if err := os.WriteFile(path+".layout1", before, 0o600); err != nil {
		t.Fatal(err)
	}
	shut(t, open(t, path))
	if after, err := os.ReadFile(path + ".layout1"); err != nil || !bytes.Equal(before, after) {
		t.Errorf("the earlier copy was changed: %v", err)
	}
	if os.Geteuid() == 0 {
		return // whom no mode stops
	}
	unpackLayout(t, 1, path)
	if err := os.Chmod(filepath.Dir(path), 0o500); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { os.Chmod(filepath.Dir(path), 0o700) })
	if s, err := store.Open(path); err == nil {
		shut(t, s)
		t.Error("opened without a copy")
	}
	if after, err := os.ReadFile(path); err != nil || !bytes.Equal(before, after) {
		t.Errorf("the file was changed: %v", err)
	}
}

// unpackLayout puts the fixture of a layout at path.
func unpackLayout(t *testing.T, version int, path string) {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "testdata", "store", fmt.Sprintf("layout%d.db.gz", version)))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	z, err := gzip.NewReader(f)
	if err != nil {
		t.Fatal(err)
	}
	data, err := io.ReadAll(z)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
}

// TestOldExports takes in an export of every version there has been. What the
// fixtures of the layouts hold is what they hold.
func TestOldExports(t *testing.T) {
	golden := filepath.Join("..", "testdata", "store", "export1.jsonl")
	path := file(t)
	unpackLayout(t, 1, path)
	old := open(t, path)
	defer shut(t, old)
	got := export(t, old)
	if *update {
		if err := os.WriteFile(golden, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), string(got)); diff != "" {
		t.Errorf("the export of layout 1 (-want +got):\n%s", diff)
	}
	s := open(t, file(t))
	defer shut(t, s)
	if _, err := s.Import(bytes.NewReader(want)); err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), string(export(t, s))); diff != "" {
		t.Errorf("imported and exported (-want +got):\n%s", diff)
	}
	for _, p := range oldProjects {
		all, err := s.Projects()
		if err != nil {
			t.Fatal(err)
		}
		if !slices.ContainsFunc(all, func(q store.Project) bool {
			_, events := load(t, s, q.ID)
			return q.Title == p.Title && q.Created == p.Created && slices.Equal(events, p.log)
		}) {
			t.Errorf("project %q is not among what was imported", p.Title)
		}
	}
}
