package store

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"

	"go.etcd.io/bbolt"
)

// create makes an empty file. Where two processes do so at once, the first
// wins and the other uses its file.
func create(path string) error {
	if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
		return err
	}
	fresh, err := makeFile(path, func(*bbolt.Tx) error { return nil })
	if err != nil {
		return err
	}
	defer os.Remove(fresh)
	if err := giveName(fresh, path); err != nil && !errors.Is(err, fs.ErrExist) {
		return err
	}
	return nil
}

// giveName gives a file that is whole its name, durably, or fs.ErrExist where
// another has it. Its old name may be left; the caller removes it.
func giveName(fresh, name string) error {
	err := os.Link(fresh, name)
	if err != nil && !errors.Is(err, fs.ErrExist) {
		// Some file systems have no links. Rename would replace a file that
		// has come since, so the gap is kept as short as can be.
		if _, err := os.Lstat(name); err == nil {
			return fs.ErrExist
		}
		err = os.Rename(fresh, name)
	}
	if err != nil {
		return err
	}
	return syncDir(name)
}

// makeFile makes a file beside path that has all buckets, and is filled. It
// is given its own name by the caller when it is whole, so that no half of
// one is ever found.
func makeFile(path string, fill func(*bbolt.Tx) error) (name string, err error) {
	f, err := os.CreateTemp(filepath.Dir(path), filepath.Base(path)+".new-*") // mode 0600
	if err != nil {
		return "", err
	}
	name = f.Name()
	defer func() {
		if err != nil {
			os.Remove(name)
		}
	}()
	if err := f.Close(); err != nil {
		return "", err
	}
	db, err := openFile(name, false)
	if err != nil {
		return "", err
	}
	err = db.Update(func(tx *bbolt.Tx) error {
		if err := layOut(tx); err != nil {
			return err
		}
		return fill(tx)
	})
	return name, errors.Join(err, db.Close())
}

// layOut makes the buckets of an empty file, and names the basket.
func layOut(tx *bbolt.Tx) error {
	for _, name := range buckets {
		if _, err := tx.CreateBucket(name); err != nil {
			return err
		}
	}
	if err := putIdentity(tx); err != nil {
		return err
	}
	return stamp(tx, schema)
}

// syncDir makes the name of a file durable, where the system can.
func syncDir(path string) error {
	d, err := os.Open(filepath.Dir(path))
	if err != nil {
		return err
	}
	_ = d.Sync() // not all systems can, and none can do more
	return d.Close()
}
