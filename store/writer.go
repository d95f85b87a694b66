package store

import (
	"bytes"
	"fmt"
	"slices"
	"sync"
	"time"

	"go.etcd.io/bbolt"

	"crochet/tallyturn/counter"
)

// A commit that failed is tried again after retryFirst, then after twice as
// long, and so on up to retryLast.
const (
	retryFirst = 50 * time.Millisecond
	retryLast  = 2 * time.Second
)

// Writer takes the events of one project.
type Writer struct {
	store  *Store
	id     string
	notify func(safe uint64, err error)

	mu     sync.Mutex
	queue  []entry // given and not yet safe, in order
	last   uint64  // the last number given
	closed bool

	wake    chan struct{} // something is queued
	closing chan struct{}
	done    chan struct{}
	left    *UnwrittenError // set before done is closed
}

// entry is an event and its number in the log.
type entry struct {
	seq   uint64
	event counter.Event
}

// UnwrittenError is given by Close for events that could not be written. They
// are in order, the first having the number First.
type UnwrittenError struct {
	Project string
	First   uint64
	Events  []counter.Event
	Err     error // why
}

func (e *UnwrittenError) Error() string {
	return fmt.Sprintf("the last %d events of project %s could not be written: %v", len(e.Events), e.Project, e.Err)
}

func (e *UnwrittenError) Unwrap() error { return e.Err }

// Writer begins to write to a project. There is one for a project at a time;
// for a second the error is ErrBusy.
//
// Notify, if not nil, is called whenever events have become safe, and when
// they could not be written: safe is the number of the last event that is on
// disk, err why those after it are not. They stay in memory in their order
// and are tried again, which is notified each time. Notify is called from one
// goroutine at a time and must not call Close.
func (s *Store) Writer(id string, notify func(safe uint64, err error)) (*Writer, error) {
	if notify == nil {
		notify = func(uint64, error) {}
	}
	s.writersMu.Lock()
	defer s.writersMu.Unlock()
	if s.writers == nil {
		return nil, ErrClosed
	}
	if s.looking {
		return nil, ErrLooking
	}
	p, err := s.Project(id)
	if err != nil {
		return nil, err
	}
	if s.writers[id] != nil {
		return nil, ErrBusy
	}
	w := &Writer{
		store: s, id: id, notify: notify, last: p.Events,
		wake: make(chan struct{}, 1), closing: make(chan struct{}), done: make(chan struct{}),
	}
	s.writers[id] = w
	go w.run(p.Events)
	return w, nil
}

// Append takes an event and gives its number in the log, from 1. It never
// waits for the disk; events given while a commit is on its way share the
// next one. After Close it takes nothing, and gives 0.
func (w *Writer) Append(e counter.Event) (seq uint64) {
	w.mu.Lock()
	defer w.mu.Unlock()
	if w.closed {
		return 0
	}
	w.last++
	w.queue = append(w.queue, entry{w.last, e})
	select {
	case w.wake <- struct{}{}:
	default: // it is awake already
	}
	return w.last
}

// Close writes what is left and ends the writer. If that cannot be, the error
// is an UnwrittenError. Closing again does nothing.
func (w *Writer) Close() error {
	w.mu.Lock()
	if w.closed {
		w.mu.Unlock()
		<-w.done
		return nil
	}
	w.closed = true
	close(w.closing)
	w.mu.Unlock()
	<-w.done

	w.store.writersMu.Lock()
	delete(w.store.writers, w.id)
	w.store.writersMu.Unlock()
	if w.left == nil {
		return nil
	}
	return w.left
}

// run writes what is queued until the writer is closed.
func (w *Writer) run(safe uint64) {
	defer close(w.done)
	wait := retryFirst
	for {
		batch, last := w.pending()
		if len(batch) == 0 {
			if last {
				return
			}
			select {
			case <-w.wake:
			case <-w.closing:
			}
			continue
		}
		err := w.write(batch)
		if err == nil {
			safe = batch[len(batch)-1].seq
			w.drop(len(batch))
			w.notify(safe, nil)
			if slices.ContainsFunc(batch, endsRow) {
				w.store.copier.want()
			}
			wait = retryFirst
			continue
		}
		w.store.spareRoom(err)
		w.notify(safe, err)
		if last {
			w.left = unwritten(w.id, batch, err)
			return
		}
		select {
		case <-time.After(wait):
		case <-w.closing:
		}
		wait = min(2*wait, retryLast)
	}
}

func endsRow(en entry) bool {
	return en.event.Kind == counter.Finish || en.event.Kind == counter.Carry
}

// pending is what is queued, and whether nothing more will be.
func (w *Writer) pending() (batch []entry, last bool) {
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.queue[:len(w.queue):len(w.queue)], w.closed
}

// drop takes the first n off the queue.
func (w *Writer) drop(n int) {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.queue = w.queue[n:]
	if len(w.queue) == 0 {
		w.queue = nil // let go of what has been written
	}
}

// write puts entries into the log in one durable commit.
func (w *Writer) write(batch []entry) error {
	return w.store.update(func(tx *bbolt.Tx) error {
		key, err := keyOf(w.id)
		if err != nil {
			return err
		}
		log := tx.Bucket(logsBucket).Bucket(key)
		if log == nil {
			return damaged("the log of project %s is missing", w.id)
		}
		where := in(logsBucket, key)
		log.FillPercent = 1 // it only grows at its end
		for _, en := range batch {
			if err := en.write(log, where); err != nil {
				return err
			}
		}
		return nil
	})
}

// write puts an entry into a log, which lies at where, under its number. A commit that failed may
// have been made all the same, its last sync being what failed: then the entry
// is there already, and is left.
func (en entry) write(log *bbolt.Bucket, where place) error {
	key := number(en.seq)
	value, err := en.event.MarshalBinary()
	if err != nil {
		return err
	}
	value = where.seal(key, value)
	if en.seq <= log.Sequence() {
		if !bytes.Equal(log.Get(key), value) {
			return damaged("another event has the number %d", en.seq)
		}
		return nil
	}
	seq, err := log.NextSequence()
	if err != nil {
		return err
	}
	if seq != en.seq {
		return damaged("event %d would be number %d", en.seq, seq)
	}
	return log.Put(key, value)
}

func unwritten(id string, batch []entry, err error) *UnwrittenError {
	u := &UnwrittenError{Project: id, First: batch[0].seq, Err: err}
	for _, en := range batch {
		u.Events = append(u.Events, en.event)
	}
	return u
}
