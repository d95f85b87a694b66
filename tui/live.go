package tui

import (
	"fmt"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"crochet/tallyturn/counter"
)

// The live count: what the keys and the questions mean that go beyond tapping
// through a row. Each has a file of its own; this one leads to them.

// Further modes of a walk.
const (
	checking  mode = iota + choosing + 1 // her count is not the tally
	hunting                              // where is the slip?
	ripping                              // how far is it to be unravelled?
	noting                               // a note is being written
	listing                              // among markers, notes and differences
	timing                               // how long it takes
	following                            // what comes of a difference
	rewriting                            // the file says something else by now
	weighing                             // what is left of a yarn
)

// liveChoices are the buttons of these modes; nil in others.
func (w *Walk) liveChoices() []choice {
	if list := w.filmChoices(); list != nil {
		return list
	}
	leave := choice{"Never mind", keyEsc, act((*Walk).dismiss)}
	switch w.mode {
	case checking:
		return []choice{
			{fmt.Sprintf("The tally is off: %s", w.entry), keyTally, act((*Walk).trustCount)},
			{"Find the slip", keyHunt, act((*Walk).huntCounted)},
			{"Go on as it is", keyAsIs, act((*Walk).keepCheck)},
			{"Count again", keyErase, act((*Walk).countAgain)},
		}
	case hunting:
		return w.huntChoices()
	case ripping:
		return []choice{{"Unravel", keyRip, act((*Walk).rip)}, leave}
	case noting:
		return []choice{{"Keep the note", keyKeepNote, act((*Walk).keepNote)}, {"Never mind", keyDrop, act((*Walk).dismiss)}}
	case listing:
		return []choice{{"Go there", keyGoThere, act((*Walk).goToListed)}, {"Take it out", keyTakeOut, act((*Walk).takeOut)}, {"Close", keyEsc, act((*Walk).dismiss)}}
	case following:
		return []choice{{"Close", keyCloseFollow, act((*Walk).closeFollowing)}}
	case overviewing:
		return []choice{{"Close", keyCloseOverview, act((*Walk).dismiss)}}
	case weighing:
		return w.weighChoices()
	case timing:
		return []choice{{"Close", keyClosePace, act((*Walk).dismiss)}}
	case rewriting:
		return w.rewriteChoices()
	}
	return nil
}

// liveKey does what a key says to the live count; false where it says nothing
// to it.
func (w *Walk) liveKey(k tea.KeyMsg) bool {
	switch w.mode {
	case walking, asking:
		return w.walkingKey(k)
	case going:
		if key.Matches(k, keyStride) {
			w.ownStride()
			return true
		}
	case ripping:
		switch {
		case key.Matches(k, keyUp):
			w.ripRow(-1)
		case key.Matches(k, keyDown):
			w.ripRow(+1)
		default:
			return false
		}
		return true
	case timing, following, rewriting, overviewing:
		return w.scrollKey(k)
	case weighing:
		return w.weighKey(k)
	case listing:
		switch {
		case key.Matches(k, keyUp):
			w.pickListed(-1)
		case key.Matches(k, keyDown):
			w.pickListed(+1)
		default:
			return false
		}
		return true
	case differing:
		switch {
		case key.Matches(k, keyHunt):
			w.huntCounted()
		case key.Matches(k, keyFollow):
			w.showFollowing()
		default:
			return false
		}
		return true
	}
	return false
}

// walkingKey is liveKey while a row is worked, at its end, and when everything
// is worked.
func (w *Walk) walkingKey(k tea.KeyMsg) bool {
	switch {
	case key.Matches(k, keyAgain):
		w.again()
	case key.Matches(k, keyHunt):
		w.hunt(counter.NotCounted)
	case key.Matches(k, keyUnravel):
		w.askUnravel(w.state.At())
	case key.Matches(k, keyMark):
		w.mark()
	case key.Matches(k, keyNote):
		w.writeNote()
	case key.Matches(k, keyList):
		w.showList()
	case key.Matches(k, keyFollow):
		w.showFollowing()
	case key.Matches(k, keyPace):
		w.showPace()
	case key.Matches(k, keyYarn):
		w.showYarn()
	case key.Matches(k, keyOverview):
		w.showOverview()
	case w.state.Finished() && key.Matches(k, keyTick):
		w.tick1(k.String())
	default:
		return false
	}
	return true
}

// deliberate reports that a question is not to be answered by a pedal or a
// stray click, and says so.
func (w *Walk) deliberate() bool {
	switch w.mode {
	case checking, hunting, ripping, noting, listing, rewriting, weighing, remarking, slipping, fitting:
		w.note = "Press one of the buttons, or Esc."
		return true
	}
	return false
}

// liveQuestion is what is asked in these modes.
func (f *frame) liveQuestion(width int) (out [][]span) {
	add := func(r role, text string) { out = append(out, fold(r, text, width)...) }
	box := span{hand, handOpen + f.w.entry.String() + handClose}
	switch f.w.mode {
	case checking:
		n, _ := f.w.entry.number()
		out = append(out, f.flag(fmt.Sprintf("you count %d, the tally is %d", n, f.sc.done), n-f.sc.done, width)...)
		if f.sc.known {
			add(base, Clean(f.w.state.Difference(f.sc.done, n))+".")
		}
		hint := "Enter sets the tally by your count, %s finds the slip, %s goes on as it is."
		if width < 50 {
			hint = "Enter sets the tally, %s finds the slip, %s goes on."
		}
		add(quiet, fmt.Sprintf(hint, f.w.named(keyHunt), f.w.named(keyAsIs)))
	case hunting:
		return f.hunt(width, box)
	case ripping:
		return f.unravel(width, box)
	case noting:
		out = append(out, []span{{strong, "A note on this row:"}})
		out = append(out, fold(hand, handOpen+Clean(f.w.draft)+handClose, width)...)
		add(quiet, "Enter keeps it, Esc leaves it. An empty note is no note.")
	case listing:
		return f.list(width)
	case overviewing:
		return f.legend()
	case weighing:
		return f.weighQuestion(width)
	case following:
		return f.from(f.follow(width))
	case timing:
		return f.from(f.pace(width))
	case rewriting:
		return f.from(f.rewrite(width))
	default:
		return f.filmQuestion(width, box)
	}
	return out
}

// from leaves out the lines that are passed over.
func (f *frame) from(lines [][]span) [][]span {
	return lines[min(f.w.skip, max(len(lines)-1, 0)):]
}

// moveOn moves through what is told by a line.
func (w *Walk) moveOn(step int) {
	last := len(w.frame().told()) - 1
	w.skip = max(min(w.skip+step, last), 0)
	w.still = nil
}

// told is all that is told in the mode, from its first line.
func (f *frame) told() [][]span {
	width := min(f.inner, wordsWide)
	switch f.w.mode {
	case following:
		return f.follow(width)
	case timing:
		return f.pace(width)
	case rewriting:
		return f.rewrite(width)
	case reeling:
		return f.takes(width)
	}
	return nil
}

// mostAtOnce is about how many lines a small window shows of what is told.
const mostAtOnce = 5

// tellMore says how to see the rest of what is told, where there may be more.
func (w *Walk) tellMore() {
	if len(w.frame().told()) > mostAtOnce {
		w.note = "Up and Down move through it."
	}
}

// flag is the bar that a difference is told by.
func (f *frame) flag(words string, difference int64, width int) [][]span {
	return f.bar(difference, words, width)
}

// again does again what was taken back last.
func (w *Walk) again() {
	e, ok := w.state.Undone()
	if !w.do(counter.Event{Kind: counter.Redo}) {
		return
	}
	if ok {
		w.note = "Done again: " + redone(e) + "."
	}
	w.settle()
}

// redone names what was done again.
func redone(e counter.Event) string {
	switch e.Kind {
	case counter.Tap:
		return count(e.N, "stitch")
	case counter.Finish, counter.Carry:
		return "the end of the row"
	}
	return "the " + e.Kind.String()
}

// scrollKey takes a key of a screen that is only read.
func (w *Walk) scrollKey(k tea.KeyMsg) bool {
	switch {
	case key.Matches(k, keyUp):
		w.moveOn(-1)
	case key.Matches(k, keyDown):
		w.moveOn(+1)
	case key.Matches(k, keyDigit), key.Matches(k, keyErase):
		w.idle(k.String())
	default:
		return false
	}
	return true
}
