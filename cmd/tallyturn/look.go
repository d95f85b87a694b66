package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"crochet/tallyturn/store"
)

// inOtherWindow is why a walk can only be looked at.
const inOtherWindow = "another window has the basket open."

// lookAt opens a copy of a basket that another window has open, as it is at
// this moment. Done takes the copy away.
func lookAt(file string) (kept *store.Store, done func() error, err error) {
	dir, err := os.MkdirTemp("", "tallyturn-")
	if err != nil {
		return nil, nil, err
	}
	copied := filepath.Join(dir, filepath.Base(file))
	// The other window may write while the copy is made. It writes only when
	// something is tapped, so one of a few tries falls between.
	const tries = 20
	for try := 1; ; try++ {
		if err = copyBetweenWrites(file, copied); err == nil {
			kept, err = store.Open(copied)
		}
		if err == nil {
			break
		}
		if busy := errors.Is(err, errWritten) || errors.Is(err, store.ErrDamaged); !busy || try == tries {
			return nil, nil, errors.Join(fmt.Errorf("%w; a look at it failed: %v", store.ErrLocked, err), os.RemoveAll(dir))
		}
	}
	return kept, func() error { return errors.Join(kept.Close(), os.RemoveAll(dir)) }, nil
}

var errWritten = errors.New("it is being written to")

// copyBetweenWrites copies a file, and fails with errWritten if that changed
// meanwhile.
func copyBetweenWrites(from, to string) error {
	src, err := os.Open(from)
	if err != nil {
		return err
	}
	defer src.Close()
	before, err := src.Stat()
	if err != nil {
		return err
	}
	dst, err := os.OpenFile(to, os.O_WRONLY|os.O_CREATE|os.O_TRUNC, 0o600)
	if err != nil {
		return err
	}
	_, err = io.Copy(dst, src)
	if err := errors.Join(err, dst.Close()); err != nil {
		return err
	}
	after, err := src.Stat()
	if err != nil {
		return err
	}
	if !after.ModTime().Equal(before.ModTime()) || after.Size() != before.Size() {
		return errWritten
	}
	return nil
}
