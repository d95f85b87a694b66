package store

import (
	"cmp"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"sync"
	"syscall"
	"time"

	"go.etcd.io/bbolt"
)

// Beside the file lie copies of it, for the day on which it is damaged or
// gone: one of the first start in a day, and one after each finished row.
// They are numbered on, and the newest of each kind are kept. A copy is gone
// through as the file is when it is opened before it gets its name.
//
//	tallyturn.db.copy-000017-day
//	tallyturn.db.copy-000018
const (
	keepRows = 3
	keepDays = 2

	copyInfix = ".copy-"
	daySuffix = "-day"
	freshDay  = 24 * time.Hour
)

// copyFile is a copy by its name.
type copyFile struct {
	path   string
	number int
	day    bool
}

// copiesOf lists the copies of a file, the newest first. Where the folder
// cannot be read there are none.
func copiesOf(path string) []copyFile {
	entries, err := os.ReadDir(filepath.Dir(path))
	if err != nil {
		return nil
	}
	var all []copyFile
	for _, e := range entries {
		rest, ours := strings.CutPrefix(e.Name(), filepath.Base(path)+copyInfix)
		rest, day := strings.CutSuffix(rest, daySuffix)
		if n, err := strconv.Atoi(rest); ours && err == nil && n > 0 {
			all = append(all, copyFile{filepath.Join(filepath.Dir(path), e.Name()), n, day})
		}
	}
	slices.SortFunc(all, func(a, b copyFile) int {
		return cmp.Or(b.number-a.number, strings.Compare(a.path, b.path))
	})
	return all
}

// copier makes the copies, aside from all else.
type copier struct {
	store  *Store
	wanted chan struct{} // holds one: wishes that come while a copy is made share the next
	done   chan struct{}

	mu      sync.Mutex
	stopped bool
	made    int   // how many copies there have been
	err     error // of the last that failed
	news    *sync.Cond
	asked   int // how many wishes there have been, and
	served  int // how many of them are in a copy
}

func startCopier(s *Store) *copier {
	c := &copier{store: s, wanted: make(chan struct{}, 1), done: make(chan struct{})}
	c.news = sync.NewCond(&c.mu)
	go c.run()
	return c
}

func (c *copier) run() {
	defer close(c.done)
	if <-c.store.checked; c.store.unsound != nil {
		return // it was closed before, or is damaged
	}
	if c.dayDue() {
		c.make(daySuffix)
	}
	for range c.wanted {
		c.make("")
	}
}

// dayDue tells whether a day has gone by since the last copy of its kind. A
// clock that was set back makes one more.
func (c *copier) dayDue() bool {
	if c.store.fresh { // what is in it by now came after the start
		return false
	}
	if n, err := c.store.Projects(); err != nil || len(n) == 0 {
		return false
	}
	for _, f := range copiesOf(c.store.path) {
		info, err := os.Stat(f.path)
		if f.day && err == nil {
			age := time.Since(info.ModTime())
			return age < 0 || age > freshDay
		}
	}
	return true
}

// want asks for a copy. It does not wait.
func (c *copier) want() {
	if c == nil {
		return
	}
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.stopped {
		return
	}
	c.asked++
	select {
	case c.wanted <- struct{}{}:
	default:
	}
}

// stop waits for the copies that were asked for.
func (c *copier) stop() {
	if c == nil {
		return
	}
	c.mu.Lock()
	if !c.stopped {
		c.stopped = true
		close(c.wanted)
	}
	c.mu.Unlock()
	<-c.done
}

// make makes one copy and drops those that are too many.
func (c *copier) make(suffix string) {
	c.mu.Lock()
	asked := c.asked
	c.mu.Unlock()
	err := guard(func() error {
		if p := c.store.damage.Load(); p != nil {
			return *p
		}
		if err := c.store.whereabouts(); err != nil {
			return err // its copies would be those of nothing
		}
		return c.store.copyNext(suffix)
	})
	c.mu.Lock()
	defer c.mu.Unlock()
	c.err = err
	if err == nil {
		c.made++
		c.served = asked
	}
	c.news.Broadcast()
}

// copyNext makes a copy under the next number.
func (s *Store) copyNext(suffix string) error {
	next := 1
	if all := copiesOf(s.path); len(all) > 0 {
		next = all[0].number + 1
	}
	if err := s.copyTo(fmt.Sprintf("%s%s%06d%s", s.path, copyInfix, next, suffix)); err != nil {
		return err
	}
	rows, days := 0, 0
	for _, f := range copiesOf(s.path) {
		n, most := &rows, keepRows
		if f.day {
			n, most = &days, keepDays
		}
		if *n++; *n > most {
			if err := os.Remove(f.path); err != nil {
				return err
			}
		}
	}
	return nil
}

// copyBeside writes the file as it is at the moment to a new one beside it,
// and checks that.
func (s *Store) copyBeside() (name string, err error) {
	f, err := os.CreateTemp(filepath.Dir(s.path), filepath.Base(s.path)+".new-*") // mode 0600
	if err != nil {
		return "", err
	}
	name = f.Name()
	defer func() {
		if err != nil {
			os.Remove(name)
		}
	}()
	err = s.view(func(tx *bbolt.Tx) error {
		_, err := tx.WriteTo(f)
		return err
	})
	if err = errors.Join(err, f.Sync(), f.Close()); err != nil {
		return "", err
	}
	return name, inspect(name)
}

// spareRoom gives up all copies but the newest where a commit found the disk
// full: they must not be what stands in its way.
func (s *Store) spareRoom(err error) {
	if !strings.Contains(err.Error(), syscall.ENOSPC.Error()) && !strings.Contains(err.Error(), syscall.EDQUOT.Error()) {
		return
	}
	for i, f := range copiesOf(s.path) {
		if i > 0 {
			_ = os.Remove(f.path) // what cannot be removed takes no room that we could have
		}
	}
}

// leftFor is how old a file that was being made must be to be one of a process
// that is gone.
const leftFor = time.Hour

// sweep removes what processes that were killed have left half made.
func sweep(path string) {
	entries, err := os.ReadDir(filepath.Dir(path))
	if err != nil {
		return
	}
	for _, e := range entries {
		rest, ours := strings.CutPrefix(e.Name(), filepath.Base(path))
		if !ours || !strings.HasPrefix(rest, ".new-") && !strings.HasPrefix(rest, ".look-") {
			continue
		}
		if info, err := e.Info(); err == nil && time.Since(info.ModTime()) > leftFor {
			_ = os.Remove(filepath.Join(filepath.Dir(path), e.Name())) // it is in nobody's way
		}
	}
}
