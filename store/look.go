package store

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"go.etcd.io/bbolt"
)

// lookTries is how often a copy is made of a file that is being written to:
// one in which two commits fell is not whole.
const lookTries = 20

// Look opens the file at path for looking only, whoever has it open: it gives
// what was in it at that moment. What would change it gives ErrLooking. The
// file itself is not held, and not touched.
func Look(path string) (*Store, error) {
	db, err := lookOpen(path)
	if err != nil {
		return nil, err
	}
	s := &Store{path: path, db: db, looking: true, writers: map[string]*Writer{}}
	if err := s.view(checkSchema); err != nil {
		return nil, errors.Join(err, s.Close())
	}
	return s, nil
}

// Layout is the version of the layout that the file has; 0 where that cannot
// be read. Only a file that is looked at can have an older one.
func (s *Store) Layout() (v uint64) {
	_ = s.view(func(tx *bbolt.Tx) (err error) {
		v, err = layoutOf(tx)
		return err
	})
	return v
}

// Looking reports whether the store was opened by Look.
func (s *Store) Looking() bool { return s.looking }

func lookOpen(path string) (db *bbolt.DB, err error) {
	for range lookTries {
		name, err := copyBytes(path)
		if err != nil {
			// The folder may be one that cannot be written to. Then nobody
			// else writes to it either, or is told that it is locked.
			return openWhole(path)
		}
		db, err = openWhole(name)
		// Open files without a name live on where the system lets them;
		// elsewhere the copy is left until the next one replaces it.
		_ = os.Remove(name)
		if !errors.Is(err, ErrDamaged) {
			return db, err
		}
	}
	// It is damaged, or taps come in too fast: a copy will do.
	for _, c := range copiesOf(path) {
		if db, err := openWhole(c.path); err == nil {
			return db, nil
		}
	}
	return nil, damaged("it cannot be looked at")
}

func openWhole(path string) (*bbolt.DB, error) {
	if err := inspect(path); err != nil {
		return nil, err
	}
	var file *os.File
	db, err := openBy(func(name string, flag int, mode fs.FileMode) (f *os.File, err error) {
		file, err = os.OpenFile(name, flag, mode)
		return file, err
	}, path, true)
	if err != nil {
		return nil, err
	}
	// Whoever can write to it may: a look holds nobody up, nor this process
	// itself once it can.
	return db, unlock(file)
}

// copyBytes copies a file beside itself as it is, from its head on: what the
// head speaks of is overwritten two commits later at the soonest.
func copyBytes(path string) (name string, err error) {
	from, err := os.Open(path)
	if err != nil {
		return "", err
	}
	defer from.Close()                                                          // it was only read
	to, err := os.CreateTemp(filepath.Dir(path), filepath.Base(path)+".look-*") // mode 0600
	if err != nil {
		return "", fmt.Errorf("copy the basket: %w", err)
	}
	_, err = io.Copy(onlyWriter{to}, from)
	if err = errors.Join(err, to.Close()); err != nil {
		os.Remove(to.Name())
		return "", err
	}
	return to.Name(), nil
}

// onlyWriter hides the shortcuts that the system has for copying files: they
// do not say in which order they read.
type onlyWriter struct{ io.Writer }
