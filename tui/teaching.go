package tui

// The first walk teaches itself: a line at the foot says what to try next, for
// the first two rows of a pattern that came with the program.

// lesson is what to try at the place where the maker is; "" for nothing.
func (w *Walk) lesson() string {
	if !w.cfg.Teach || w.mode != walking || w.state.Finished() || w.state.Piece() > 0 || w.state.Copy() > 0 {
		return ""
	}
	switch row, stitch := w.state.Row(), w.state.Stitch(); {
	case row == 0 && stitch == 0:
		return "Press " + w.named(keyTap) + ": a tap is a stitch. A click or a pedal does it too."
	case row == 0 && stitch < 3:
		return w.named(keyBack) + " takes a tap back, as often as you like. Saved is on the disk."
	case row == 0 && stitch < 8:
		return w.named(keyStride) + " makes a tap go further: an instruction, a pass of a repeat, the row."
	case row == 0:
		return "At the end of the row it asks what you count, to find a slip at once."
	case row == 1 && stitch < 3:
		return w.named(keyHelp) + " shows the keys that work here, " + w.named(keyOverview) + " the whole of it to scale."
	case row == 1 && stitch < 8:
		return w.named(keyQuit) + " leaves. You come back to this very stitch, tomorrow or in a year."
	case row == 1:
		return w.named(keyBasket) + " goes to the basket, where other patterns wait to be tried."
	}
	return ""
}
