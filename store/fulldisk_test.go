//go:build unix

package store_test

import (
	"errors"
	"fmt"
	"os/signal"
	"syscall"
	"testing"
	"time"

	"crochet/tallyturn/counter"
	"crochet/tallyturn/store"
)

func init() { children["fill"] = fillDisk }

// TestFullDisk lets a child write until the system refuses it more room, and
// gives it room again.
func TestFullDisk(t *testing.T) {
	path := file(t)
	if out, err := child("fill", path).Output(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	s := open(t, path)
	defer shut(t, s)
	_, events := load(t, s, "1")
	for i, e := range events {
		if e.N != int64(i+1) {
			t.Fatalf("event %d is number %d", i+1, e.N)
		}
	}
	if len(events) == 0 {
		t.Error("no events")
	}
}

func fillDisk(path string) error {
	s, err := store.Open(path)
	if err != nil {
		return err
	}
	p, err := s.Create(limpet)
	if err != nil {
		return err
	}
	failed, safe := make(chan error, 1000), make(chan uint64, 1000)
	w, err := s.Writer(p.ID, func(n uint64, err error) {
		if err != nil {
			failed <- err
			return
		}
		safe <- n
	})
	if err != nil {
		return err
	}
	signal.Ignore(syscall.SIGXFSZ)
	var limit syscall.Rlimit
	if err := syscall.Getrlimit(syscall.RLIMIT_FSIZE, &limit); err != nil {
		return err
	}
	room := limit.Cur
	limit.Cur = 100_000
	if err := syscall.Setrlimit(syscall.RLIMIT_FSIZE, &limit); err != nil {
		return err
	}
	n := int64(0)
	for full := false; !full; {
		n++
		w.Append(counter.Event{Kind: counter.Tap, N: n})
		select {
		case <-safe:
		case <-failed:
			full = true
		case <-time.After(time.Minute):
			return errors.New("neither safe nor not")
		}
	}
	if n < 10 {
		return fmt.Errorf("full after %d events", n)
	}
	for range 10 { // these wait with the one that failed
		n++
		w.Append(counter.Event{Kind: counter.Tap, N: n})
	}
	<-failed
	limit.Cur = room
	if err := syscall.Setrlimit(syscall.RLIMIT_FSIZE, &limit); err != nil {
		return err
	}
	for got := uint64(0); got != uint64(n); {
		got = <-safe
	}
	if err := s.Close(); err != nil {
		return err
	}
	if s, err = store.Open(path); err != nil {
		return err
	}
	if _, events, err := s.Load(p.ID); err != nil || int64(len(events)) != n {
		return fmt.Errorf("%d of %d events: %w", len(events), n, err)
	}
	return s.Close()
}
