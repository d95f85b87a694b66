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
		Progress: store.Progress{Events: 5, Done: 6, Total: 6},
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
		f, err := os.Open(filepath.Join(dir, fmt.Sprintf("layout%d.db.gz", version)))
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
		path := file(t)
		if err := os.WriteFile(path, data, 0o600); err != nil {
			t.Fatal(err)
		}
		s := open(t, path)
		defer shut(t, s)
		all, err := s.Projects()
		if err != nil || len(all) != len(oldProjects) {
			t.Fatalf("%d projects, %v", len(all), err)
		}
		for _, want := range oldProjects {
			p, events := load(t, s, want.ID)
			if diff := cmp.Diff(want.Project, p); diff != "" {
				t.Errorf("layout %d (-want +got):\n%s", version, diff)
			}
			if !slices.Equal(events, want.log) {
				t.Errorf("layout %d: project %s has another log", version, want.ID)
			}
		}
	}
}
