package counter

// Which time counts as work. These are choices of good sense, no more.
const (
	// IdleLimit is the longest pause between two events, in ms, that still
	// counts as time spent on the row: five minutes. A longer one is idle
	// time and does not count at all.
	IdleLimit = 5 * 60 * 1000
	// StitchLimit is the time, in ms, that every stitch of an event may have
	// taken: a quarter of a minute. It lets whoever taps once a row keep the
	// time of a row of two hundred stitches.
	StitchLimit = 15 * 1000
	// SittingLimit is the longest pause, in ms, that counts however many
	// stitches it covered: four hours, so that a night's sleep never does.
	SittingLimit = 4 * 60 * 60 * 1000
)

// clock knows since when time is running, if it is.
type clock struct {
	last   int64 // time of the last event
	open   bool  // a run of the program is on
	paused bool
}

// since is the time to count from the last event until at, when stitches were
// worked in it. A clock that was set back gives none.
func (c clock) since(at, stitches int64) int64 {
	if !c.open || c.paused || at <= c.last {
		return 0
	}
	gap := uint64(at) - uint64(c.last) // right even where at-last runs over
	if gap > uint64(allowed(stitches)) {
		return 0
	}
	return int64(gap)
}

// allowed is the longest pause that counts when stitches were worked in it.
func allowed(stitches int64) int64 {
	n := min(max(stitches, 0), SittingLimit/StitchLimit)
	return max(IdleLimit, n*StitchLimit)
}

// after is the clock once an event has come.
func (c clock) after(e Event) clock {
	c.last, c.open = e.At, e.Kind != Close
	switch e.Kind {
	case Pause:
		c.paused = true
	case Resume, Tap, Finish, Count:
		c.paused = false
	}
	return c
}
