package store

import (
	"encoding/binary"
	"errors"
	"fmt"
	"io/fs"
	"os"

	"go.etcd.io/bbolt"
)

// migrations bring a file from the layout before theirs to their own. A file
// that each version has left is in testdata/store.
var migrations = map[uint64]func(*bbolt.Tx) error{
	2: nameAll,
	3: forgetProgress,
	4: forgetProgress,
}

// forgetProgress: layout 3 keeps times with the progress, and layout 4 the rows
// of no known number. It is worked out again where it is missing. The heads of
// layout 2 are read as they are.
func forgetProgress(tx *bbolt.Tx) error {
	if err := tx.DeleteBucket(progressBucket); err != nil {
		return err
	}
	_, err := tx.CreateBucket(progressBucket)
	return err
}

// nameAll: layout 2 names the basket, and each project among all there are.
func nameAll(tx *bbolt.Tx) error {
	if err := putIdentity(tx); err != nil {
		return err
	}
	heads := tx.Bucket(projectsBucket)
	changed := map[string][]byte{} // a bucket must not be changed while it is gone through
	err := heads.ForEach(func(key, sealed []byte) error {
		b, err := in(projectsBucket).unseal(key, sealed)
		if err != nil {
			return err
		}
		p, err := readHead(b)
		if err != nil {
			return err
		}
		p.UID = olderUID(binary.BigEndian.Uint64(key), p.Created)
		changed[string(key)] = in(projectsBucket).seal(key, appendHead(nil, p))
		return nil
	})
	if err != nil {
		return err
	}
	for key, head := range changed {
		if err := heads.Put([]byte(key), head); err != nil {
			return err
		}
	}
	return nil
}

// migrate brings the file to the layout of today in one step, all or nothing.
// Before that it is copied, under its name with ".layout" and the version.
func (s *Store) migrate() error {
	var from uint64
	if err := s.peek(func(tx *bbolt.Tx) (err error) {
		from, err = layoutOf(tx)
		return err
	}); err != nil || from == schema {
		return err
	}
	if err := s.copyTo(fmt.Sprintf("%s.layout%d", s.path, from)); err != nil && !errors.Is(err, fs.ErrExist) {
		return fmt.Errorf("keep a copy of the basket as it was: %w", err)
	}
	return s.update(func(tx *bbolt.Tx) error {
		for v := from + 1; v <= schema; v++ {
			if err := migrations[v](tx); err != nil {
				return err
			}
		}
		return stamp(tx, schema)
	})
}

// copyTo makes a copy of the file as it is at the moment, checks it, and only
// then gives it its name, which must be free.
func (s *Store) copyTo(name string) error {
	fresh, err := s.copyBeside()
	if err != nil {
		return err
	}
	defer os.Remove(fresh)
	return giveName(fresh, name)
}
