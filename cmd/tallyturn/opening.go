package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"

	"crochet/tallyturn/store"
	"crochet/tallyturn/tui"
)

// What stands on the screen while the basket is only looked at, and after.
const (
	inOtherWindow = "the basket is open in another window; this one takes over when that is closed."
	takenOver     = "The other window has closed: this one keeps your work now."
)

// begin opens the basket and then the first page, or, where the basket was
// damaged, what has become of it before that page.
func (s *shelf) begin(first func(*shelf) (tui.Page, error)) (tui.Page, error) {
	s.opening.Lock()
	defer s.opening.Unlock()
	if s.ended() {
		return nil, nil // the maker has left meanwhile, and nothing is to be opened
	}
	said, err := s.openBasket()
	if err != nil {
		return nil, err
	}
	page, err := first(s)
	if errors.Is(err, store.ErrDamaged) { // which shows only now
		s.inFront(func() (tui.Page, error) { return first(s) })
		said, err = s.mendNow()
		page = nil
	}
	if err != nil {
		return nil, err
	}
	if len(said) > 0 {
		next := s.again
		if opened := page; opened != nil {
			next = func() (tui.Page, error) { return opened, nil }
		}
		page = s.notice(said, next)
	}
	return page, nil
}

// goOn goes on with what is on a screen: from now on it is told what happens.
func (s *shelf) goOn(screen *tui.Screen) {
	s.mu.Lock()
	s.screen = screen
	s.mu.Unlock()
	time.AfterFunc(afterFirstFrame, s.check)
}

// openBasket opens the basket's file in the best way there is: to write to, to
// look at while another window has it, or, where the disk stands in the way,
// to be tried again while the work is kept in memory. Where it was damaged,
// said tells what has become of it.
func (s *shelf) openBasket() (said []string, err error) {
	kept, err := store.OpenSoon(s.file)
	if errors.Is(err, store.ErrDamaged) || errors.Is(err, store.ErrGone) {
		if said, err = rescued(s.file, err); err != nil {
			return nil, err
		}
		kept, err = store.Open(s.file)
	}
	switch {
	case err == nil && len(said) > 0:
		s.useRescued(kept)
		return append(said, s.takeLeftovers(kept)...), nil
	case err == nil:
		s.use(kept, nil)
		return append(said, s.takeLeftovers(kept)...), nil
	case errors.Is(err, store.ErrLocked):
		looked, lookErr := store.Look(s.file)
		if lookErr != nil {
			return nil, fmt.Errorf("%w; leave it there first, or keep another with --data", err)
		}
		s.elsewhere = true
		s.use(looked, nil)
		go s.takeOver()
		return said, nil
	case errors.Is(err, store.ErrNewer), errors.Is(err, store.ErrForeign), errors.Is(err, store.ErrDamaged), isFolder(s.file):
		return nil, fmt.Errorf("%s: %w", s.file, err)
	}
	why := plainly(err)
	looked, _ := store.Look(s.file) // nil where it cannot even be looked at
	s.use(looked, why)
	go s.takeOver()
	return said, nil
}

// check goes through the basket's file behind the first frame, and has damage
// mended that is found. Nothing is written to the file before. Where the file
// cannot be read for now, that is tried again.
func (s *shelf) check() {
	for wait := saveAgain; ; wait = min(2*wait, checkAgainLast) {
		kept := s.kept()
		if kept == nil {
			return
		}
		switch err := kept.Check(); {
		case errors.Is(err, store.ErrClosed):
			return
		case errors.Is(err, store.ErrDamaged):
			s.mend()
			return
		case err != nil:
			s.bar(err)
		default:
			if wait > saveAgain {
				s.bar(nil)
			}
			return
		}
		select {
		case <-s.done:
			return
		case <-time.After(wait):
		}
	}
}

// checkAgainLast is the longest that check waits.
const checkAgainLast = 8 * time.Second

func isFolder(path string) bool {
	info, err := os.Stat(path)
	return err == nil && info.IsDir()
}

// takeOver tries to open the basket until that can be done, and goes on with
// it. Walks that are kept in memory find it by themselves.
func (s *shelf) takeOver() {
	for {
		select {
		case <-s.done:
			return
		case <-time.After(saveAgain):
		}
		kept, err := store.Open(s.file)
		var said []string
		if errors.Is(err, store.ErrDamaged) || errors.Is(err, store.ErrGone) {
			if said, err = rescued(s.file, err); err == nil {
				kept, err = store.Open(s.file)
			}
		}
		if err != nil {
			continue
		}
		if len(said) > 0 {
			s.useRescued(kept)
		} else {
			s.use(kept, nil)
		}
		s.mu.Lock()
		looked := s.elsewhere
		s.elsewhere = false
		s.mu.Unlock()
		if s.ended() {
			return
		}
		if len(said) > 0 {
			s.show(s.notice(said, s.again), "")
			return
		}
		if !looked {
			return
		}
		if page, err := s.again(); err != nil {
			s.show(s.notice([]string{err.Error()}, s.again), "")
		} else {
			s.show(page, takenOver)
		}
		return
	}
}

// mend rescues a basket whose damage has shown only now, and shows what has
// become of it. What is in memory is saved to the new one.
func (s *shelf) mend() {
	if s.ended() {
		return
	}
	said, err := s.mendNow()
	if err != nil {
		said = []string{err.Error()}
		go s.takeOver()
	}
	if len(said) > 0 {
		s.show(s.notice(said, s.again), "")
	}
}

// mendNow rescues the basket and says what has become of it: nothing, where
// somebody else has done so.
func (s *shelf) mendNow() (said []string, err error) {
	s.mending.Lock()
	defer s.mending.Unlock()
	bad := s.kept()
	if bad == nil || bad.Damaged() == nil {
		return nil, nil
	}
	s.use(nil, store.ErrDamaged)
	for _, j := range s.all() {
		if !j.needless() {
			j.drift(store.ErrDamaged)
		}
	}
	_ = bad.Close() // what it could not write is in memory
	if said, err = rescued(s.file, bad.Damaged()); err == nil {
		var kept *store.Store
		if kept, err = store.Open(s.file); err == nil {
			s.useRescued(kept)
			return said, nil
		}
	}
	s.use(nil, err)
	return nil, err
}

// notice is a page that tells what has become of a basket.
func (s *shelf) notice(said []string, next func() (tui.Page, error)) *tui.Notice {
	return tui.NewNotice(tui.NoticeConfig{Title: "About your basket", Lines: said, Look: s.look, Next: next})
}

// rescued makes a new basket of what can be read in a damaged one and in its
// copies, and says what that is.
func rescued(file string, why error) (said []string, err error) {
	r, err := store.Rescue(file)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", file, err)
	}
	first := fmt.Sprintf("%s: %v.", file, why)
	if r.Aside != "" {
		first += " It is kept, as it was, as " + r.Aside + "."
	}
	said = append(said, first)
	switch {
	case r.Copies == 1:
		said = append(said, "A copy of it was read as well.")
	case r.Copies > 1:
		said = append(said, fmt.Sprintf("%d copies of it were read as well.", r.Copies))
	}
	for _, p := range r.Projects {
		said = append(said, saved(p)+".")
	}
	if len(r.Projects) == 0 {
		return append(said, "Nothing in it could be read; the basket is empty now."), nil
	}
	return append(said, "All this is in the basket now."), nil
}

// leftoverFolder is where walks are written that could not be saved when the
// program ended.
func (s *shelf) leftoverFolder() string { return filepath.Join(s.config, "tallyturn") }

// takeLeftovers puts into the basket what could not be saved before.
func (s *shelf) takeLeftovers(kept *store.Store) (said []string) {
	entries, err := os.ReadDir(s.leftoverFolder())
	if err != nil {
		return nil // as a rule there is no such folder
	}
	for _, e := range entries {
		if !strings.HasPrefix(e.Name(), "unsaved-") || !strings.HasSuffix(e.Name(), exportSuffix) {
			continue
		}
		path := filepath.Join(s.leftoverFolder(), e.Name())
		if err := importFile(kept, path); err != nil {
			said = append(said, fmt.Sprintf("%s holds a walk that could not be saved, and could not be taken in now: %v.", path, err))
			continue
		}
		if err := os.Remove(path); err != nil {
			said = append(said, fmt.Sprintf("%s was taken in, and could not be removed: %v.", path, reason(err)))
		}
	}
	return said
}

func importFile(kept *store.Store, path string) error {
	f, err := os.Open(path)
	if err != nil {
		return reason(err)
	}
	defer f.Close() // it is only read
	_, err = kept.Import(f)
	return err
}

// leave saves what is only in memory by whatever means there are, and closes
// the basket.
func (s *shelf) leave() error {
	s.opening.Lock() // where that is still going on
	defer s.opening.Unlock()
	close(s.done)
	var errs []error
	for _, j := range s.all() {
		if n, _ := j.unsaved(); n == 0 {
			continue
		}
		if err := j.save(); err == nil {
			continue
		}
		errs = append(errs, s.writeLeftover(j))
	}
	s.keepSketch()
	s.mu.Lock()
	all := append(s.old, s.store)
	s.mu.Unlock()
	for _, kept := range all {
		if kept != nil {
			errs = append(errs, kept.Close())
		}
	}
	return errors.Join(errs...)
}

// writeLeftover writes a walk that the basket cannot take to the config folder
// or, if that cannot be either, beside the pattern's data.
func (s *shelf) writeLeftover(j *journal) error {
	n, why := j.unsaved()
	var errs []error
	for _, dir := range []string{s.leftoverFolder(), filepath.Dir(s.file)} {
		path := filepath.Join(dir, j.fileName())
		err := os.MkdirAll(dir, 0o700)
		if err == nil {
			err = j.writeTo(path)
		}
		if err == nil {
			return fmt.Errorf("the last %d things you did in %s could not be saved (%w); the walk is in %s, which is taken in at the next start",
				n, j.project.Title, why, path)
		}
		if !errors.Is(err, fs.ErrExist) {
			errs = append(errs, err)
		}
	}
	return errors.Join(append([]error{fmt.Errorf("the last %d things you did in %s are LOST: %w", n, j.project.Title, why)}, errs...)...)
}
