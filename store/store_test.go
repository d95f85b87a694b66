package store_test

import (
	"encoding/binary"
	"errors"
	"flag"
	"os"
	"path/filepath"
	"runtime"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"go.etcd.io/bbolt"

	"crochet/tallyturn/counter"
	"crochet/tallyturn/store"
)

// A child of a test of crashes or of full disks is this program again; see
// crash_test.go.
func TestMain(m *testing.M) {
	if run, ok := children[os.Getenv(childVariable)]; ok {
		if err := run(os.Getenv(fileVariable)); err != nil {
			os.Stderr.WriteString(err.Error() + "\n")
			os.Exit(1)
		}
		return
	}
	flag.Parse()
	os.Exit(m.Run())
}

type fataler interface {
	Helper()
	Fatal(args ...any)
	Fatalf(format string, args ...any)
}

func open(t fataler, path string) *store.Store {
	t.Helper()
	s, err := store.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func shut(t fataler, s *store.Store) {
	t.Helper()
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
}

func create(t fataler, s *store.Store, p store.Project) store.Project {
	t.Helper()
	p, err := s.Create(p)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func load(t fataler, s *store.Store, id string) (store.Project, []counter.Event) {
	t.Helper()
	p, events, err := s.Load(id)
	if err != nil {
		t.Fatal(err)
	}
	return p, events
}

// tap appends n taps, numbered by their At, and waits until they are safe.
func tap(t fataler, s *store.Store, id string, n int) {
	t.Helper()
	w, err := s.Writer(id, nil)
	if err != nil {
		t.Fatal(err)
	}
	for range n {
		w.Append(counter.Event{Kind: counter.Tap, N: 1})
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
}

func file(t testing.TB) string { return filepath.Join(t.TempDir(), "tallyturn.db") }

var limpet = store.Project{Title: "Limpet", Path: "/harbour/limpet.txt", Text: "Rnd 1: 6 sc in ring (6)", Size: "large", Created: 1_700_000_000_000}

func TestProjectIsKept(t *testing.T) {
	path := file(t)
	s := open(t, path)
	p := create(t, s, limpet)
	want := limpet
	want.ID, want.UID, want.Touched = "1", p.UID, want.Created
	if diff := cmp.Diff(want, p); diff != "" {
		t.Fatalf("created (-want +got):\n%s", diff)
	}
	w, err := s.Writer(p.ID, nil)
	if err != nil {
		t.Fatal(err)
	}
	log := []counter.Event{
		{Kind: counter.Open, At: 1_700_000_001_000},
		{Kind: counter.Tap, At: 1_700_000_002_000, N: 6},
		{Kind: counter.Finish, At: 1_700_000_003_000, N: counter.NotCounted},
		{Kind: 77, At: 1_700_000_002_500, Text: "of a later version"},
	}
	for i, e := range log {
		if seq := w.Append(e); seq != uint64(i+1) {
			t.Errorf("event %d has number %d", i, seq)
		}
	}
	shut(t, s)

	s = open(t, path)
	defer shut(t, s)
	got, events := load(t, s, p.ID)
	want.Touched, want.Events = 1_700_000_002_500, 4
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("project (-want +got):\n%s", diff)
	}
	if diff := cmp.Diff(log, events); diff != "" {
		t.Errorf("log (-want +got):\n%s", diff)
	}
	all, err := s.Projects()
	want.Text = ""
	if diff := cmp.Diff([]store.Project{want}, all); diff != "" || err != nil {
		t.Errorf("projects (-want +got):\n%s%v", diff, err)
	}
	if runtime.GOOS != "windows" {
		info, err := os.Stat(path)
		if err != nil || info.Mode().Perm() != 0o600 {
			t.Errorf("mode %v, %v", info.Mode(), err)
		}
	}
	if len(p.UID) != 32 {
		t.Errorf("the UID is %q", p.UID)
	}
	// The log has a finished row, so there is a copy.
	shut(t, s)
	if left, err := filepath.Glob(filepath.Join(filepath.Dir(path), "*")); len(left) != 1+len(store.Copies(path)) {
		t.Errorf("files: %v, %v", left, err)
	}
}

func TestFind(t *testing.T) {
	s := open(t, file(t))
	defer shut(t, s)
	add := func(path, text string, created int64) string {
		return create(t, s, store.Project{Path: path, Text: text, Created: created}).ID
	}
	first := add("/a/limpet.txt", "one", 10)
	second := add("/a/limpet.txt", "two", 20)
	third := add("/a/limpet", "two", 15)
	pasted := add("", "three", 5)

	tests := []struct{ path, text, want string }{
		{"/a/limpet.txt", "one", second}, // the path comes first, then the latest
		{"/a/../a/limpet.txt", "other", second},
		{"/b/moved.txt", "one", first},
		{"/b/moved.txt", "two", second},
		{"/a/limpet", "one", third},
		{"/b/copy.txt", "three", pasted},
		{"", "three", pasted},
		{"", "four", ""},
		{"/a/limp", "four", ""},
	}
	for _, test := range tests {
		p, err := s.Find(test.path, test.text)
		if p.ID != test.want || (err != nil) != (test.want == "") {
			t.Errorf("%q, %q: project %q, %v; want %q", test.path, test.text, p.ID, err, test.want)
		}
		if err != nil && !errors.Is(err, store.ErrNoProject) {
			t.Errorf("%q, %q: %v", test.path, test.text, err)
		}
	}

	// The one touched last is taken, whenever it was begun.
	w, err := s.Writer(first, nil)
	if err != nil {
		t.Fatal(err)
	}
	w.Append(counter.Event{Kind: counter.Tap, At: 30, N: 1})
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	if p, err := s.Find("/a/limpet.txt", ""); p.ID != first || p.Text != "one" {
		t.Errorf("found %+v, %v", p, err)
	}

	// A project that is changed is found by what it is now.
	p, err := s.Project(third)
	if err != nil {
		t.Fatal(err)
	}
	p.Path, p.Text, p.Title, p.Size, p.Created = "/c/new.txt", "five", "New", "S", 99
	if err := s.Update(p); err != nil {
		t.Fatal(err)
	}
	if _, err := s.Find("/a/limpet", ""); !errors.Is(err, store.ErrNoProject) {
		t.Errorf("old path: %v", err)
	}
	p.Created = 15
	if got, err := s.Find("/c/new.txt", ""); !cmp.Equal(got, p) {
		t.Errorf("new path (-want +got):\n%s%v", cmp.Diff(p, got), err)
	}
	if got, err := s.Find("", "five"); !cmp.Equal(got, p) {
		t.Errorf("new text (-want +got):\n%s%v", cmp.Diff(p, got), err)
	}
}

func TestNoSuchProject(t *testing.T) {
	s := open(t, file(t))
	defer shut(t, s)
	create(t, s, limpet)
	for _, id := range []string{"", "2", "01", "+1", "-1", "x", "99999999999999999999"} {
		_, err := s.Project(id)
		_, _, err2 := s.Load(id)
		_, err3 := s.Writer(id, nil)
		err4 := s.Update(store.Project{ID: id})
		err5 := s.SetProgress(id, store.Progress{})
		for _, err := range []error{err, err2, err3, err4, err5} {
			if !errors.Is(err, store.ErrNoProject) {
				t.Errorf("%q: %v", id, err)
			}
		}
	}
}

func TestProgress(t *testing.T) {
	path := file(t)
	s := open(t, path)
	p := create(t, s, limpet)
	want := store.Progress{Events: 3, Done: 1 << 40, Total: -1}
	set := func() {
		t.Helper()
		if err := s.SetProgress(p.ID, want); err != nil {
			t.Fatal(err)
		}
	}
	check := func(want store.Progress) {
		t.Helper()
		if all, err := s.Projects(); err != nil || all[0].Progress != want {
			t.Errorf("progress %+v, %v; want %+v", all[0].Progress, err, want)
		}
	}
	check(store.Progress{})
	set()
	shut(t, s)
	s = open(t, path)
	defer func() { shut(t, s) }()
	check(want)
	for _, test := range []struct {
		change func()
		stays  bool
	}{
		{func() { p.Title, p.Path = "Other", "/elsewhere" }, true},
		{func() { p.Text = "Rnd 1: 8 sc in ring (8)" }, false},
		{func() { p.Size = "small" }, false},
	} {
		set()
		test.change()
		if err := s.Update(p); err != nil {
			t.Fatal(err)
		}
		if test.stays {
			check(want)
		} else {
			check(store.Progress{})
		}
	}
}

func TestLocked(t *testing.T) {
	path := file(t)
	s := open(t, path)
	begun := time.Now()
	if _, err := store.Open(path); !errors.Is(err, store.ErrLocked) {
		t.Errorf("opened twice: %v", err)
	}
	t.Logf("told after %v", time.Since(begun))
	shut(t, s)
	shut(t, open(t, path))
}

func TestOneWriter(t *testing.T) {
	s := open(t, file(t))
	defer shut(t, s)
	p := create(t, s, limpet)
	w, err := s.Writer(p.ID, nil)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := s.Writer(p.ID, nil); !errors.Is(err, store.ErrBusy) {
		t.Errorf("a second writer: %v", err)
	}
	w.Append(counter.Event{Kind: counter.Tap, N: 1})
	for range 2 {
		if err := w.Close(); err != nil {
			t.Errorf("close: %v", err)
		}
	}
	if seq := w.Append(counter.Event{Kind: counter.Tap, N: 1}); seq != 0 {
		t.Errorf("a closed writer took event %d", seq)
	}
	w, err = s.Writer(p.ID, nil)
	if err != nil {
		t.Fatal(err)
	}
	if seq := w.Append(counter.Event{Kind: counter.Tap, N: 1}); seq != 2 {
		t.Errorf("goes on with event %d", seq)
	}
}

func TestClosed(t *testing.T) {
	s := open(t, file(t))
	p := create(t, s, limpet)
	shut(t, s)
	shut(t, s)
	_, err := s.Projects()
	_, err2 := s.Create(limpet)
	_, err3 := s.Writer(p.ID, nil)
	for _, err := range []error{err, err2, err3} {
		if !errors.Is(err, store.ErrClosed) {
			t.Errorf("after closing: %v", err)
		}
	}
}

// rewrite changes a file behind the back of the package.
func rewrite(t *testing.T, path string, change func(*bbolt.Tx) error) {
	t.Helper()
	db, err := bbolt.Open(path, 0o600, nil)
	if err != nil {
		t.Fatal(err)
	}
	if err := errors.Join(db.Update(change), db.Close()); err != nil {
		t.Fatal(err)
	}
}

// refused checks that a file is refused and not touched.
func refused(t *testing.T, path string, want error) {
	t.Helper()
	before, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if s, err := store.OpenSoon(path); err == nil {
		if err := s.Check(); !errors.Is(err, want) {
			t.Errorf("opened soon: %v, want %v", err, want)
		}
		shut(t, s)
	} else if !errors.Is(err, want) {
		t.Errorf("opened soon: %v, want %v", err, want)
	}
	if s, err := store.Open(path); !errors.Is(err, want) {
		t.Errorf("error %v, want %v", err, want)
		if err == nil {
			shut(t, s)
		}
	}
	after, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if string(before) != string(after) {
		t.Error("the file was changed")
	}
}

func setVersion(n uint64) func(*bbolt.Tx) error {
	return func(tx *bbolt.Tx) error {
		key, bucket := []byte("schema"), []byte("tallyturn")
		return tx.Bucket(bucket).Put(key, store.Seal(bucket, key, binary.BigEndian.AppendUint64(nil, n)))
	}
}

func TestVersions(t *testing.T) {
	path := file(t)
	shut(t, open(t, path))
	rewrite(t, path, setVersion(store.Schema+1))
	refused(t, path, store.ErrNewer)
	rewrite(t, path, setVersion(1<<63))
	refused(t, path, store.ErrNewer)
	rewrite(t, path, setVersion(0))
	refused(t, path, store.ErrDamaged)
	rewrite(t, path, setVersion(store.Schema))
	shut(t, open(t, path))
	rewrite(t, path, func(tx *bbolt.Tx) error { return tx.DeleteBucket([]byte("logs")) })
	refused(t, path, store.ErrDamaged)
}

func TestForeign(t *testing.T) {
	path := file(t)
	rewrite(t, path, func(tx *bbolt.Tx) error {
		_, err := tx.CreateBucket([]byte("somebody else's"))
		return err
	})
	refused(t, path, store.ErrForeign)
}

func TestDefaultPath(t *testing.T) {
	home := func() string { return filepath.FromSlash("/home/data") }
	for env, want := range map[string]string{
		"":         "/home/data/tallyturn/tallyturn.db",
		"/mnt/own": "/mnt/own/tallyturn.db",
	} {
		got := store.DefaultPath(func(name string) string {
			if name == "TALLYTURN_DATA" {
				return env
			}
			return "unasked"
		}, home)
		if got != filepath.FromSlash(want) {
			t.Errorf("%q: %s, want %s", env, got, want)
		}
	}
}
