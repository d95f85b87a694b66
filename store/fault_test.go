package store_test

import (
	"errors"
	"slices"
	"sync"
	"testing"

	"pgregory.net/rapid"

	"crochet/tallyturn/counter"
	"crochet/tallyturn/store"
)

var errDisk = errors.New("no space left on device")

// said keeps what a writer notified.
type said struct {
	mu   sync.Mutex
	safe []uint64
	errs []error
}

func (s *said) notify(safe uint64, err error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.safe, s.errs = append(s.safe, safe), append(s.errs, err)
}

func numbered(n int) counter.Event { return counter.Event{Kind: counter.Tap, N: int64(n)} }

func TestFailedCommitIsTriedAgain(t *testing.T) {
	for _, test := range []struct {
		name string
		made bool // the commit fails and is made all the same
	}{{"not made", false}, {"made", true}} {
		t.Run(test.name, func(t *testing.T) {
			s := open(t, file(t))
			defer shut(t, s)
			p := create(t, s, limpet)
			attempts, again := 0, make(chan bool)
			s.FailCommits(func(commit func() error) error {
				attempts++
				switch attempts {
				case 1:
					if test.made {
						if err := commit(); err != nil {
							t.Error(err)
						}
					}
					return errDisk
				case 2:
					close(again)
				}
				return commit()
			})
			var heard said
			w, err := s.Writer(p.ID, heard.notify)
			if err != nil {
				t.Fatal(err)
			}
			w.Append(numbered(1))
			<-again
			w.Append(numbered(2))
			if err := w.Close(); err != nil {
				t.Fatal(err)
			}
			_, events := load(t, s, p.ID)
			if want := []counter.Event{numbered(1), numbered(2)}; !slices.Equal(events, want) {
				t.Errorf("log %+v", events)
			}
			if !slices.Equal(heard.safe, []uint64{0, 1, 2}) || !errors.Is(heard.errs[0], errDisk) || heard.errs[1] != nil || heard.errs[2] != nil {
				t.Errorf("notified %v %v", heard.safe, heard.errs)
			}
		})
	}
}

func TestCloseGivesBackWhatIsNotWritten(t *testing.T) {
	path := file(t)
	s := open(t, path)
	p, other := create(t, s, limpet), create(t, s, limpet)
	tap(t, s, p.ID, 1)
	s.FailCommits(func(func() error) error { return errDisk })
	for _, id := range []string{other.ID, p.ID} {
		w, err := s.Writer(id, nil)
		if err != nil {
			t.Fatal(err)
		}
		w.Append(numbered(2))
		w.Append(numbered(3))
	}
	err := s.Close()
	var u *store.UnwrittenError
	if !errors.As(err, &u) || !errors.Is(err, errDisk) {
		t.Fatalf("closed: %v", err)
	}
	if u.Project != p.ID || u.First != 2 || !slices.Equal(u.Events, []counter.Event{numbered(2), numbered(3)}) {
		t.Errorf("unwritten: %+v", u)
	}
	s = open(t, path)
	defer shut(t, s)
	if _, events := load(t, s, p.ID); len(events) != 1 {
		t.Errorf("%d events", len(events))
	}
}

func TestCommitsAreShared(t *testing.T) {
	s := open(t, file(t))
	defer shut(t, s)
	p := create(t, s, limpet)
	commits, begun, goOn := 0, make(chan bool, 10), make(chan bool)
	s.FailCommits(func(commit func() error) error {
		commits++
		begun <- true
		<-goOn
		return commit()
	})
	var heard said
	w, err := s.Writer(p.ID, heard.notify)
	if err != nil {
		t.Fatal(err)
	}
	w.Append(numbered(1))
	<-begun
	for i := range 1000 { // none of them waits
		w.Append(numbered(i + 2))
	}
	close(goOn)
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	if commits != 2 || !slices.Equal(heard.safe, []uint64{1, 1001}) {
		t.Errorf("%d commits, safe %v", commits, heard.safe)
	}
}

// Whatever commits fail, in whichever way, the log is what was appended, and
// what could not be written comes back.
func TestFaults(t *testing.T) {
	dir := t.TempDir()
	rapid.Check(t, func(rt *rapid.T) {
		path := dir + "/" + rapid.StringMatching(`[a-z]{12}`).Draw(rt, "name")
		s := open(rt, path)
		p := create(rt, s, limpet)
		given := 0
		for range rapid.IntRange(1, 4).Draw(rt, "runs") {
			fates := rapid.SliceOfN(rapid.SampledFrom([]string{"works", "fails", "fails but is made"}), 0, 3).Draw(rt, "fates")
			rest := rapid.SampledFrom([]string{"works", "fails"}).Draw(rt, "rest")
			s.FailCommits(func(commit func() error) error {
				fate := rest
				if len(fates) > 0 {
					fate, fates = fates[0], fates[1:]
				}
				if fate == "fails" {
					return errDisk
				}
				if err := commit(); err != nil || fate == "works" {
					return err
				}
				return errDisk
			})
			var heard said
			w, err := s.Writer(p.ID, heard.notify)
			if err != nil {
				rt.Fatal(err)
			}
			for range rapid.IntRange(0, 5).Draw(rt, "events") {
				given++
				if seq := w.Append(numbered(given)); seq != uint64(given) {
					rt.Fatalf("event %d has number %d", given, seq)
				}
			}
			err = w.Close()
			var u *store.UnwrittenError
			if errors.As(err, &u) {
				for i, e := range u.Events {
					if e.N != int64(u.First)+int64(i) || i == len(u.Events)-1 && e.N != int64(given) {
						rt.Fatalf("unwritten from %d: %+v", u.First, u.Events)
					}
				}
			} else if err != nil {
				rt.Fatal(err)
			}
			shut(rt, s)
			s = open(rt, path)
			_, events := load(rt, s, p.ID)
			for i, e := range events {
				if e.N != int64(i+1) {
					rt.Fatalf("event %d is number %d", i+1, e.N)
				}
			}
			for i, safe := range heard.safe {
				if safe > uint64(len(events)) || i > 0 && safe < heard.safe[i-1] {
					rt.Fatalf("%d events; safe were %v", len(events), heard.safe)
				}
			}
			if u == nil && len(events) != given || u != nil && uint64(len(events)) < u.First-1 {
				rt.Fatalf("%d of %d events, unwritten: %v", len(events), given, u)
			}
			given = len(events)
		}
		shut(rt, s)
	})
}
