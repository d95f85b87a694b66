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
	Millis      int64 // of work so far
	Low, High   int64 // ms of work to come, from and to; High 0 where nobody can know
	Unknown     int64 // rows to come whose stitches nobody knows, and Total has not
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
		for _, n := range p.numbers() {
			b = binary.AppendVarint(b, *n)
		}
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
	for i, v := range p.numbers() {
		if n == len(b) && (i == 2 || i == 5) {
			return Progress{}, nil // of layout 2, which knew of no times, or of 3
		}
		if n <= 0 {
			break
		}
		b = b[n:]
		*v, n = binary.Varint(b)
	}
	if n <= 0 || n != len(b) {
		return Progress{}, damaged("the progress of project %x cannot be read", key)
	}
	p.Events = events
	return p, nil
}

// numbers are what is kept besides Events, in the order it is written.
func (p *Progress) numbers() []*int64 {
	return []*int64{&p.Done, &p.Total, &p.Millis, &p.Low, &p.High, &p.Unknown}
}
