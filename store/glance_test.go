package store

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"crochet/tallyturn/counter"
)

// TestGlance: a glance is there as long as the file is what it was made of,
// and is never asked for twice.
func TestGlance(t *testing.T) {
	path := filepath.Join(t.TempDir(), "tallyturn.db")
	s, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	made := 0
	keep := func(b string) {
		t.Helper()
		if err := s.KeepGlance(func() ([]byte, error) { made++; return []byte(b), nil }); err != nil {
			t.Fatal(err)
		}
	}
	if g := Glance(path); g != nil {
		t.Errorf("a new file has the glance %q", g)
	}
	keep("one crab")
	keep("two crabs") // of the same file: nothing is asked for
	if g := Glance(path); string(g) != "one crab" || made != 1 {
		t.Errorf("the glance is %q, made %d times; want one crab, once", g, made)
	}
	p, err := s.Create(Project{Title: "Crab", Text: "Crab", Created: 1})
	if err != nil {
		t.Fatal(err)
	}
	if g := Glance(path); g != nil {
		t.Errorf("the file was written to, and has the glance %q still", g)
	}
	// What puts something right while the glance is made is made once more.
	put := false
	err = s.KeepGlance(func() ([]byte, error) {
		if !put {
			put = true
			return []byte("wrong"), s.SetProgress(p.ID, Progress{Total: 3})
		}
		return []byte("right"), nil
	})
	if g := Glance(path); err != nil || string(g) != "right" {
		t.Errorf("the glance is %q (%v), want right", g, err)
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	if g := Glance(path); string(g) != "right" {
		t.Errorf("closing the file left the glance %q", g)
	}
	if info, err := os.Stat(path + glanceSuffix); err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("the glance has the mode %v (%v), want 0600", info.Mode(), err)
	}
	// One tap makes it useless.
	s, err = Open(path)
	if err != nil {
		t.Fatal(err)
	}
	w, err := s.Writer(p.ID, nil)
	if err != nil {
		t.Fatal(err)
	}
	w.Append(counter.Event{Kind: counter.Tap, N: 1})
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	if g := Glance(path); g != nil {
		t.Errorf("after a tap the glance is %q", g)
	}
}

// TestGlanceOdd: a glance with any byte wrong, one cut short, and one of
// another file are none.
func TestGlanceOdd(t *testing.T) {
	path := filepath.Join(t.TempDir(), "tallyturn.db")
	s, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := s.KeepGlance(func() ([]byte, error) { return []byte("a crab"), nil }); err != nil {
		t.Fatal(err)
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	whole, err := os.ReadFile(path + glanceSuffix)
	if err != nil {
		t.Fatal(err)
	}
	write := func(b []byte) {
		t.Helper()
		if err := os.WriteFile(path+glanceSuffix, b, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	for i := range whole {
		b := bytes.Clone(whole)
		b[i] ^= 0x10
		write(b)
		if g := Glance(path); g != nil {
			t.Errorf("with byte %d wrong it is %q", i, g)
		}
		write(whole[:i])
		if g := Glance(path); g != nil {
			t.Errorf("cut to %d bytes it is %q", i, g)
		}
	}
	write(whole)
	if g := Glance(path); string(g) != "a crab" {
		t.Fatalf("whole, it is %q", g)
	}
	other := filepath.Join(t.TempDir(), "tallyturn.db")
	s, err = Open(other)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := s.Create(Project{Title: "Whelk", Text: "Whelk"}); err != nil {
		t.Fatal(err)
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	if err := os.Rename(other, path); err != nil {
		t.Fatal(err)
	}
	if g := Glance(path); g != nil {
		t.Errorf("of another file it is %q", g)
	}
	if err := os.Remove(path); err != nil {
		t.Fatal(err)
	}
	if g := Glance(path); g != nil {
		t.Errorf("of no file it is %q", g)
	}
}
