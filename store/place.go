package store

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// A file that is open can be taken away, with its folder or without, and all
// that is written to it from then on goes nowhere, without an error. So after
// each commit it is looked whether the file is still the one that its path
// leads to.

// whereabouts says whether the file is where it was: ErrAway or ErrReplaced
// where it is not.
func (s *Store) whereabouts() error {
	file := s.file.Load()
	if file == nil {
		return nil
	}
	switch now, err := os.Stat(s.path); {
	case errors.Is(err, fs.ErrNotExist):
		return fmt.Errorf("%w: there is no %s", ErrAway, s.path)
	case err != nil:
		return fmt.Errorf("%w: %w", ErrAway, err)
	case !os.SameFile(*file, now):
		return ErrReplaced
	}
	return nil
}

// putBack puts a file that was taken away where it was: all that is in it can
// still be read from what is open. A file that is there by now is left alone.
func (s *Store) putBack() error {
	if err := s.whereabouts(); !errors.Is(err, ErrAway) {
		return err
	}
	s.mu.RLock()
	closed := s.closed
	s.mu.RUnlock()
	if closed {
		return ErrClosed
	}
	if err := os.MkdirAll(filepath.Dir(s.path), 0o700); err != nil {
		return fmt.Errorf("%w: %w", ErrAway, err)
	}
	fresh, err := s.copyBeside()
	if err != nil {
		return fmt.Errorf("%w: %w", ErrAway, err)
	}
	defer os.Remove(fresh)
	if err := giveName(fresh, s.path); err != nil {
		return fmt.Errorf("%w: %w", ErrAway, err)
	}
	return s.reopen()
}

// reopen goes on with the file that is at the path now.
func (s *Store) reopen() error {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.closed {
		return ErrClosed
	}
	db, err := openFile(s.path, false)
	if err != nil {
		return err
	}
	info, err := os.Stat(s.path)
	if err != nil {
		return errors.Join(err, db.Close())
	}
	old := s.db
	s.db = db
	s.file.Store(&info)
	return guard(old.Close)
}
