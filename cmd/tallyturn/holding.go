package main

import (
	"errors"
	"fmt"

	"crochet/tallyturn/counter"
	"crochet/tallyturn/store"
	"crochet/tallyturn/tui"
)

// The basket that a shelf holds can change while it is shown: it is opened at
// last, or rescued. So it is asked for each time it is used.

// kept is the basket of the moment, or nil.
func (s *shelf) kept() *store.Store {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.store
}

// use goes on with another basket, or none, and why nothing can be written to
// it.
func (s *shelf) use(kept *store.Store, why error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.store != nil {
		s.old = append(s.old, s.store)
	}
	s.store, s.why = kept, why
}

// useRescued goes on with a basket that was rescued. Its things may have other
// numbers, so what is known by number is forgotten.
func (s *shelf) useRescued(kept *store.Store) {
	s.use(kept, nil)
	s.mu.Lock()
	defer s.mu.Unlock()
	s.history, s.places = nil, nil
}

// changes are those of the baskets shown so far.
func (s *shelf) changes() *tui.History {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.history == nil {
		s.history = &tui.History{}
	}
	return s.history
}

// ended reports whether the program is about to end.
func (s *shelf) ended() bool {
	select {
	case <-s.done:
		return true
	default:
		return false
	}
}

// bar notes why something could not be written; nil for that it can be now.
func (s *shelf) bar(why error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.why = plainly(why)
}

// barred is why nothing can be written at the moment; nil where it can.
func (s *shelf) barred() error {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.why
}

// lookOnly says why things can only be looked at; "" where they can be worked.
func (s *shelf) lookOnly() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.elsewhere && s.store != nil && s.store.Looking() {
		return inOtherWindow
	}
	return ""
}

// inFront keeps how the page in front is opened anew.
func (s *shelf) inFront(open func() (tui.Page, error)) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.front = open
}

// again opens the page anew that was in front.
func (s *shelf) again() (tui.Page, error) {
	s.mu.Lock()
	front := s.front
	s.mu.Unlock()
	return front()
}

func (s *shelf) send(m tui.Safe) {
	if screen := s.onScreen(); screen != nil {
		screen.Send(m)
	}
}

func (s *shelf) show(p tui.Page, note string) {
	if screen := s.onScreen(); screen != nil {
		screen.Show(p, note)
	}
}

func (s *shelf) onScreen() *tui.Screen {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.screen
}

// journal gives a walk its journal.
func (s *shelf) journal(cfg *tui.WalkConfig, p store.Project, events []counter.Event) error {
	j := &journal{
		shelf: s, walk: cfg.ID, title: cfg.Title,
		project: p, log: events, safe: uint64(len(events)),
	}
	if err := j.begin(); errors.Is(err, store.ErrDamaged) || errors.Is(err, store.ErrBusy) {
		return err
	} else if err != nil {
		cfg.Unsaved = plainly(err)
		j.drift(err)
	}
	s.mu.Lock()
	s.journals = append(s.journals, j)
	s.mu.Unlock()
	cfg.Journal, cfg.Release = j, j.release
	cfg.Elsewhere = tui.Elsewhere{Offer: "~/" + j.fileName(), Write: j.writeTo}
	return nil
}

// all are the journals there have been.
func (s *shelf) all() []*journal {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.journals[:len(s.journals):len(s.journals)]
}

// unsaved tells of walks that were left and are only in memory; nil where
// there are none.
func (s *shelf) unsaved() error {
	for _, j := range s.all() {
		if n, why := j.unsaved(); n > 0 {
			return fmt.Errorf("the last %d of %s are only in memory: %w", n, j.project.Title, why)
		}
	}
	return s.barred()
}

// stumble has damage mended that shows only now. The error is still one.
func (s *shelf) stumble(err error) error {
	if errors.Is(err, store.ErrDamaged) && s.onScreen() != nil {
		go s.mend()
	}
	return err
}
