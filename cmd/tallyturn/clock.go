package main

import (
	"sync"
	"time"
)

// leap is how far the clock on the wall may run ahead of the one that only
// counts before the program goes by it: less is setting a clock right, more is
// a machine that slept, or a clock that was set.
const leap = 30 * time.Second

// runClock tells the time of events. It never runs backwards, whatever is
// done to the clock on the wall: while the program runs it goes on from
// where it began by the clock that only counts.
type runClock struct {
	now func() time.Time

	mu    sync.Mutex
	since time.Time // read at the beginning
	began time.Time // the time told then
}

func newRunClock(now func() time.Time) *runClock {
	t := now()
	return &runClock{now: now, since: t, began: t.Round(0)}
}

// Now is the time of an event that happens now.
func (c *runClock) Now() time.Time {
	c.mu.Lock()
	defer c.mu.Unlock()
	return c.at(c.now())
}

// at goes by the counting clock where t has read it.
func (c *runClock) at(t time.Time) time.Time { return c.began.Add(max(t.Sub(c.since), 0)) }

// NotBefore has the clock go on from a time, in ms since the Unix epoch, if it
// has not come to it yet: that of an event before.
func (c *runClock) NotBefore(ms int64) {
	c.mu.Lock()
	defer c.mu.Unlock()
	t := c.now()
	if last := time.UnixMilli(ms); c.at(t).Before(last) {
		c.since, c.began = t, last
	}
}

// Woke reports whether the clock on the wall has leapt ahead, and goes by it
// if so.
func (c *runClock) Woke() bool {
	c.mu.Lock()
	defer c.mu.Unlock()
	t := c.now()
	if wall := t.Round(0); wall.Sub(c.at(t)) > leap {
		c.since, c.began = t, wall
		return true
	}
	return false
}
