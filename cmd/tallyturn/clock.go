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
	wall  func() time.Time     // what the clock on the wall says
	count func() time.Duration // what the counting one does

	mu    sync.Mutex
	since time.Duration // the count at the beginning
	began time.Time     // the time told then
}

// newRunClock makes a clock of one that reads both at once, as time.Now does.
func newRunClock(now func() time.Time) *runClock {
	start := now()
	return &runClock{
		wall:  func() time.Time { return now().Round(0) },
		count: func() time.Duration { return now().Sub(start) },
		began: start.Round(0),
	}
}

// Now is the time of an event that happens now.
func (c *runClock) Now() time.Time {
	c.mu.Lock()
	defer c.mu.Unlock()
	return c.now()
}

// now goes by the counting clock. One that is not better than the clock on the
// wall may count backwards; then the time stands still.
func (c *runClock) now() time.Time {
	return c.began.Add(max(c.count()-c.since, 0))
}

// NotBefore has the clock go on from a time, in ms since the Unix epoch, if it
// has not come to it yet: that of an event before.
func (c *runClock) NotBefore(ms int64) {
	c.mu.Lock()
	defer c.mu.Unlock()
	if last := time.UnixMilli(ms); c.now().Before(last) {
		c.since, c.began = c.count(), last
	}
}

// Woke reports whether the clock on the wall has leapt ahead, and goes by it
// if so.
func (c *runClock) Woke() bool {
	c.mu.Lock()
	defer c.mu.Unlock()
	wall := c.wall()
	if wall.Sub(c.now()) <= leap {
		return false
	}
	c.since, c.began = c.count(), wall
	return true
}
