package store

import (
	"errors"

	"go.etcd.io/bbolt"
)

// ErrNotOut is given for a project that is to be erased and was not taken out
// of the basket before.
var ErrNotOut = errors.New("only what was taken out of the basket can be erased")

// Erase takes a project that was taken out of the basket off the disk, with
// everything that happened in it. Nothing brings it back but a copy of the
// file that was made before, or an export. While somebody writes to it the
// error is ErrBusy.
func (s *Store) Erase(id string) error {
	if s.writing(id) {
		return ErrBusy
	}
	return s.update(func(tx *bbolt.Tx) error {
		key, err := keyOf(id)
		if err != nil {
			return err
		}
		p, err := get(tx, key)
		if err != nil {
			return err
		}
		if p.Shelf != TakenOut {
			return ErrNotOut
		}
		if err := unindex(tx, key, p); err != nil {
			return err
		}
		for _, name := range [][]byte{projectsBucket, textsBucket, progressBucket} {
			if err := tx.Bucket(name).Delete(key); err != nil {
				return err
			}
		}
		return tx.Bucket(logsBucket).DeleteBucket(key)
	})
}
