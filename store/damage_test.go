package store_test

import (
	"bytes"
	"encoding/binary"
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

// basket is a file with a project of many events, one of few, one of none,
// and one whose text fills pages; and free pages among them.
func basket(t *testing.T) (data []byte, logs map[string][]counter.Event) {
	t.Helper()
	path := file(t)
	s := open(t, path)
	logs = map[string][]counter.Event{}
	for i, n := range []int{3000, 5, 0, 700} {
		p := limpet
		if i == 3 {
			p.Text = strings.Repeat(p.Text, 500)
		}
		p = create(t, s, p)
		for range 3 {
			tap(t, s, p.ID, n/3)
		}
		_, logs[p.ID] = load(t, s, p.ID)
	}
	shut(t, s)
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return data, logs
}

// hold opens a file that may be damaged, reads all and writes to all. What it
// gives out must be right, and a file that is found out must not be changed.
// It makes no difference whether the logs are gone through before the file is
// used or while it is.
func hold(t fataler, path string, data []byte, logs map[string][]counter.Event) (found bool) {
	t.Helper()
	found = holdBy(t, store.Open, path, data, logs)
	if soon := holdBy(t, store.OpenSoon, path, data, logs); soon != found {
		t.Fatalf("found: %v, and where it is opened soon: %v", found, soon)
	}
	return found
}

func holdBy(t fataler, begin func(string) (*store.Store, error), path string, data []byte, logs map[string][]counter.Event) (found bool) {
	t.Helper()
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	s, err := begin(path)
	if err == nil {
		_, err = s.Projects()
		for id, want := range logs {
			_, got, loadErr := s.Load(id)
			if loadErr == nil && !slices.Equal(got, want) {
				t.Fatalf("project %s has another log", id)
			}
			err = errors.Join(err, loadErr)
		}
		for id := range logs {
			w, writerErr := s.Writer(id, nil)
			if writerErr == nil {
				w.Append(counter.Event{Kind: counter.Tap, N: 1})
				writerErr = w.Close()
			}
			if err != nil && writerErr == nil {
				t.Fatalf("written to in spite of %v", err)
			}
			err = errors.Join(err, writerErr)
		}
		err = errors.Join(err, s.Close())
	}
	if err != nil {
		if !errors.Is(err, store.ErrDamaged) {
			t.Fatalf("not said to be damaged: %v", err)
		}
		after, readErr := os.ReadFile(path)
		if readErr != nil || !bytes.Equal(after, data) {
			t.Fatalf("changed, though %v", err)
		}
		return true
	}
	s = open(t, path)
	for id, want := range logs {
		if _, got := load(t, s, id); len(got) != len(want)+1 || !slices.Equal(got[:len(want)], want) {
			t.Fatalf("project %s has another log after writing", id)
		}
	}
	shut(t, s)
	return false
}

func TestDamage(t *testing.T) {
	data, logs := basket(t)
	dir := t.TempDir()
	if hold(t, filepath.Join(dir, "whole"), data, logs) {
		t.Fatal("a whole file is said to be damaged")
	}
	page := os.Getpagesize()
	found := 0
	for i := 0; i < len(data)/page; i++ {
		broken := bytes.Clone(data)
		clear(broken[i*page : (i+1)*page])
		if hold(t, filepath.Join(dir, "zero"), broken, logs) {
			found++
		} else if i < 2 {
			t.Errorf("head page %d is zero, and nothing is found", i)
		}
	}
	t.Logf("%d of %d pages matter", found, len(data)/page)
	for _, n := range []int{0, 1, 100, 4096, 8191, 8192, 16384, len(data) / 2} {
		if !hold(t, filepath.Join(dir, "short"), data[:n], logs) {
			t.Errorf("cut to %d bytes, and nothing is found", n)
		}
	}
	if !hold(t, filepath.Join(dir, "text"), []byte(strings.Repeat("Rnd 1: 6 sc in ring (6)\n", 1000)), logs) {
		t.Error("a text is taken for a basket")
	}
}

func TestDamageAtRandom(t *testing.T) {
	data, logs := basket(t)
	path := filepath.Join(t.TempDir(), "broken")
	found, tried := 0, 0
	rapid.Check(t, func(rt *rapid.T) {
		broken := bytes.Clone(data)
		for range rapid.IntRange(1, 4).Draw(rt, "places") {
			at := rapid.IntRange(0, len(broken)-1).Draw(rt, "at")
			if rapid.Bool().Draw(rt, "head of page") {
				at = at&^4095 + rapid.IntRange(0, 100).Draw(rt, "offset")
			}
			garbage := rapid.SliceOfN(rapid.Byte(), 1, 16).Draw(rt, "bytes")
			copy(broken[min(at, len(broken)-1):], garbage)
		}
		tried++
		if hold(rt, path, broken, logs) {
			found++
		}
	})
	t.Logf("%d of %d found", found, tried)
}

// A file that shrinks while it is open makes the processor fault where it was
// mapped into memory.
func TestFileShrinksWhileOpen(t *testing.T) {
	data, logs := basket(t)
	path := filepath.Join(t.TempDir(), "shrinks")
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	s := open(t, path)
	var heard said
	w, err := s.Writer("1", heard.notify)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.Truncate(path, 8192); err != nil {
		t.Fatal(err)
	}
	if _, _, err := s.Load("1"); !errors.Is(err, store.ErrDamaged) {
		t.Errorf("load: %v", err)
	}
	seq := w.Append(numbered(1))
	var u *store.UnwrittenError
	if err := s.Close(); !errors.As(err, &u) || !errors.Is(err, store.ErrDamaged) || u.First != seq || len(u.Events) != 1 {
		t.Errorf("close: %v", err)
	}
	if len(heard.errs) == 0 || !errors.Is(heard.errs[0], store.ErrDamaged) || heard.safe[0] != uint64(len(logs["1"])) {
		t.Errorf("notified %v %v", heard.safe, heard.errs)
	}
	if info, err := os.Stat(path); err != nil || info.Size() != 8192 {
		t.Errorf("written to: %v, %v", info.Size(), err)
	}
}

// A list of free pages that has one in use would have it written over.
func TestPageFreeAndInUse(t *testing.T) {
	data, logs := basket(t)
	native, page := binary.NativeEndian, uint64(os.Getpagesize())
	meta := data[16:]
	if newer := data[page+16:]; native.Uint64(newer[48:]) > native.Uint64(meta[48:]) {
		meta = newer
	}
	list := data[page*native.Uint64(meta[32:]):]
	var free []uint64
	for i := range int(native.Uint16(list[10:])) {
		free = append(free, native.Uint64(list[16+8*i:]))
	}
	// One of the full pages in the middle of a log, which a tap leaves alone.
	const leaf = 2
	used := uint64(2)
	for slices.Contains(free, used) || native.Uint16(data[page*used+8:]) != leaf || native.Uint16(data[page*used+10:]) < 80 {
		used++
	}
	native.PutUint16(list[10:], 1)
	native.PutUint64(list[16:], used)
	if !hold(t, filepath.Join(t.TempDir(), "broken"), data, logs) {
		t.Error("nothing is found")
	}
}

func TestMissingParts(t *testing.T) {
	for _, bucket := range []string{"projects", "texts", "paths", "hashes", "logs"} {
		path := file(t)
		s := open(t, path)
		create(t, s, limpet)
		tap(t, s, create(t, s, limpet).ID, 3)
		shut(t, s)
		rewrite(t, path, func(tx *bbolt.Tx) error {
			b := tx.Bucket([]byte(bucket))
			key, _ := b.Cursor().Last()
			if bucket == "logs" {
				return b.DeleteBucket(key)
			}
			return b.Delete(key)
		})
		refused(t, path, store.ErrDamaged)
	}
	// The end of a log.
	path := file(t)
	s := open(t, path)
	tap(t, s, create(t, s, limpet).ID, 3)
	shut(t, s)
	rewrite(t, path, func(tx *bbolt.Tx) error {
		log := tx.Bucket([]byte("logs")).Bucket(binary.BigEndian.AppendUint64(nil, 1))
		return log.Delete(binary.BigEndian.AppendUint64(nil, 3))
	})
	refused(t, path, store.ErrDamaged)
}
