package store

import (
	"errors"
	"fmt"
	"runtime/debug"

	"go.etcd.io/bbolt"
)

// guard runs what reads or writes the file. bbolt maps the file into memory
// and panics where it does not hold together; where the file is shorter than
// it says, the processor faults. Both come out as ErrDamaged.
func guard(work func() error) (err error) {
	defer debug.SetPanicOnFault(debug.SetPanicOnFault(true))
	defer func() {
		if p := recover(); p != nil {
			err = fmt.Errorf("%w: %v", ErrDamaged, p)
		}
	}()
	return work()
}

// view reads the file, without writers in the way, once it was gone through.
func (s *Store) view(read func(*bbolt.Tx) error) error {
	if err := s.Check(); err != nil {
		return err
	}
	return s.peek(read)
}

// peek reads what a glance has seen: anything but the logs, and of these the
// length and the end.
func (s *Store) peek(read func(*bbolt.Tx) error) error {
	s.mu.RLock()
	defer s.mu.RUnlock()
	if s.closed {
		return ErrClosed
	}
	return s.watch(guard(func() error { return s.db.View(read) }))
}

// update changes the file, durably. It refuses once damage has been seen.
func (s *Store) update(write func(*bbolt.Tx) error) error {
	if s.looking {
		return ErrLooking
	}
	if err := s.Check(); err != nil {
		return err
	}
	if err := s.putBack(); err != nil {
		return err
	}
	s.mu.RLock()
	defer s.mu.RUnlock()
	if s.closed {
		return ErrClosed
	}
	if p := s.damage.Load(); p != nil {
		return *p
	}
	if err := s.watch(guard(func() error { return s.commit(write) })); err != nil {
		return err
	}
	// What was written to a file that nobody will find again is not safe.
	return s.whereabouts()
}

// Damaged is the first damage seen, or nil.
func (s *Store) Damaged() error {
	if p := s.damage.Load(); p != nil {
		return *p
	}
	return nil
}

// watch remembers the first damage seen.
func (s *Store) watch(err error) error {
	if errors.Is(err, ErrDamaged) {
		s.damage.CompareAndSwap(nil, &err)
	}
	return err
}
