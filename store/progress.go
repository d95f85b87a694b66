package store

import (
	"encoding/binary"

	"go.etcd.io/bbolt"
)

// Progress is how far a project was after so many events. It saves whoever
// lists projects from replaying each: it follows from the pattern and the
// log, and is right as long as the project has no more events than these.
type Progress struct {
	Events      uint64
	Done, Total int64 // stitches
}

// SetProgress keeps how far a project is. A change of its text or its size
// forgets it.
func (s *Store) SetProgress(id string, p Progress) error {
	return s.update(func(tx *bbolt.Tx) error {
		key, err := keyOf(id)
		if err != nil {
			return err
		}
		if tx.Bucket(projectsBucket).Get(key) == nil {
			return ErrNoProject
		}
		b := binary.AppendUvarint(nil, p.Events)
		b = binary.AppendVarint(b, p.Done)
		b = binary.AppendVarint(b, p.Total)
		return tx.Bucket(progressBucket).Put(key, in(progressBucket).seal(key, b))
	})
}

// readProgress reads what was kept, if anything was.
func readProgress(tx *bbolt.Tx, key []byte) (p Progress, err error) {
	sealed := tx.Bucket(progressBucket).Get(key)
	if sealed == nil {
		return p, nil
	}
	b, err := in(progressBucket).unseal(key, sealed)
	if err != nil {
		return p, err
	}
	events, n := binary.Uvarint(b)
	if n > 0 {
		b = b[n:]
		p.Done, n = binary.Varint(b)
	}
	if n > 0 {
		b = b[n:]
		p.Total, n = binary.Varint(b)
	}
	if n <= 0 || n != len(b) {
		return Progress{}, damaged("the progress of project %x cannot be read", key)
	}
	p.Events = events
	return p, nil
}
