package tui

import (
	"errors"
	"fmt"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"crochet/tallyturn/counter"
	"crochet/tallyturn/pattern"
)

// Journal takes what happened, in order, and keeps it. Append must not wait
// for the disk; it gives the number of the event, and a [Safe] message tells
// later that everything up to a number is on disk.
type Journal interface {
	Append(e counter.Event) (seq uint64)
}

// Safe tells a walk how far its journal is on disk. Err is why it is not.
type Safe struct {
	Walk string // WalkConfig.ID
	Seq  uint64 // everything up to this number is safe
	Err  error
}

// WalkConfig is what a walk needs.
type WalkConfig struct {
	ID    string // names the walk in Safe messages
	Title string
	State counter.State // where the maker is, the log replayed

	// Begun is the plan that the log began with, and Log what happened since,
	// for the film; without them it begins with State.
	Begun *counter.Plan
	Log   []counter.Event

	// Journal keeps what happens from here on; Seq is the number of the last
	// event it holds. Without a journal the walk can be looked at and not be
	// changed; LookOnly says why.
	Journal  Journal
	Seq      uint64
	LookOnly string
	// Unsaved says why the journal cannot reach the disk for the time being;
	// nil where nothing is known to stand in the way.
	Unsaved error
	// Elsewhere writes the walk to another place as long as it is not saved.
	Elsewhere Elsewhere

	// Teach has the foot of the screen say what to try, in the first two rows.
	Teach bool

	// Changed is what the file of the pattern says by now, where that is not
	// the text that is walked; the maker is asked which to go on with.
	Changed string

	// TapKeys are further keys that tap, as the pedal does; they are named as
	// bubbletea names them: "f5", "ctrl+t", "x".
	TapKeys []string

	Now func() time.Time // the clock
	// Woke, if there is one, reports once that the clock has leapt ahead since
	// it was asked last, as after a sleep of the machine. Now leaps with it.
	Woke func() bool
	Look Look // what the terminal can show

	// Sketch, if there is one, says that the walk stands in for one that is being
	// opened (see [Options.Then]): State is only near enough for a frame.
	Sketch *Sketch

	// Release, if there is one, is called once when the walk is left, after
	// its last event, with the state that led to; it brings the journal to disk.
	Release func(counter.State) error
	// Basket, if there is one, gives the basket to go back to.
	Basket func() (*Basket, error)
}

// Sketch is what a frame shows of a walk besides its State.
type Sketch struct {
	RowMillis int64 // ms spent on the row in hand
}

// mode is what the keys of a walk mean at the moment.
type mode uint8

const (
	walking   mode = iota // tapping through a row
	asking                // the row is full: what does the maker count?
	differing             // her count is not what it should be
	counting              // how many stitches are on the hook now?
	going                 // to which stitch?
	choosing              // among the rows of the piece
)

// Walk is the screen on which a row is worked. Make one with NewWalk and show
// it with a [Screen].
type Walk struct {
	cfg   WalkConfig
	theme *theme
	state counter.State
	words wordsFunc

	scene *scene // of state
	still *still // the part of the frame that stands still between taps
	mode  mode
	entry entry  // the number being given
	lit   int    // which button Enter presses
	note  string // what the last key came to
	now   int64  // ms since the Unix epoch

	rows   rowList       // while choosing
	to     counter.Place // while ripping
	draft  string        // while noting
	pick   int           // while listing
	skip   int           // lines passed over of what is told
	before mode          // while following: what it lies over
	file   *changedFile  // while rewriting
	paced  paced         // the pace as last worked out
	top    int           // the first line shown of the end's account

	scale onScale // while weighing
	film  filming
	log   []counter.Event // since the beginning of the run, until the film is worked out

	appended uint64 // the last event given to the journal
	safe     uint64 // the last one known to be on disk
	broken   error  // why it is not
	ended    bool   // the last event of the run is written

	weaver weaver
	survey survey // while overviewing

	occasions           []Occasion // to be told by a bell or a flash
	busySince, busyLast int64      // ms; the hands have worked without a break
	restDue             bool

	width, height int
}

// NewWalk makes a walk. It changes nothing until it is shown.
func NewWalk(cfg WalkConfig) *Walk {
	w := &Walk{cfg: cfg, theme: newTheme(cfg.Look), state: cfg.State, appended: cfg.Seq, safe: cfg.Seq, broken: cfg.Unsaved}
	w.cfg.Title, w.cfg.LookOnly = Clean(cfg.Title), Clean(cfg.LookOnly)
	w.words = remember(func(r *pattern.RowProof) []pattern.Word {
		proof := w.state.Plan().Proof()
		return proof.Words(r)
	})
	w.now = w.clock()
	w.refresh()
	return w
}

// remember keeps the words of the rows looked at last: they are asked for at
// every tap and change only with the row.
func remember(words wordsFunc) wordsFunc {
	const most = 64
	kept := map[*pattern.RowProof][]pattern.Word{}
	return func(r *pattern.RowProof) []pattern.Word {
		w, ok := kept[r]
		if !ok {
			if len(kept) >= most {
				clear(kept)
			}
			w = words(r)
			kept[r] = w
		}
		return w
	}
}

func (w *Walk) clock() int64 { return w.cfg.Now().UnixMilli() }

// open begins the run.
func (w *Walk) open() tea.Cmd {
	if w.cfg.Sketch != nil {
		w.note = "Opening. What you press now is kept for it."
		w.settle()
		return tea.SetWindowTitle("tallyturn: " + w.cfg.Title)
	}
	broke := w.broke()
	w.do(counter.Event{Kind: counter.Open})
	w.note = broke
	if w.cfg.Journal == nil {
		w.note = "Only looking: " + w.cfg.LookOnly
	}
	w.fileChanged()
	w.settle()
	return tea.SetWindowTitle("tallyturn: " + w.cfg.Title)
}

// end is the last event of the run. It may be called again.
func (w *Walk) end() {
	if !w.ended {
		switch { // what is written is kept, told or not
		case w.filmTyping():
			w.keepTyped()
		case w.typing():
			w.keepNote()
		}
		w.do(counter.Event{Kind: counter.Close})
		w.ended = true
		w.cfg.Journal, w.cfg.LookOnly = nil, "the walk is being left."
	}
}

// close ends the run and brings everything to disk. It may be called again.
func (w *Walk) close() error {
	w.end()
	release := w.cfg.Release
	w.cfg.Release = nil
	if release == nil {
		return nil
	}
	return release(w.state)
}

// fail tells that the basket could not be had, after the walk was ended for
// it. It can only be looked at now.
func (w *Walk) fail(err error) {
	w.cfg.LookOnly = sentence(err.Error())
	w.note = w.cfg.LookOnly
	if errors.Is(err, errUnsaved) {
		w.broken = err
	}
}

func (w *Walk) resize(width, height int) { w.width, w.height = width, height }

func (w *Walk) tell(note string) {
	if note != "" {
		w.note = Clean(note)
	}
}

// tick moves the clock on.
func (w *Walk) tick() {
	w.now = w.clock()
	if time.Duration(w.now-w.busyLast)*time.Millisecond < restBreak {
		w.mindRest()
	} else {
		w.restDue = false // they lie already
	}
	if s := &w.film.slate; s.take > 0 && w.now-s.at >= slateSeconds*1000 {
		s.take = 0
	}
}

// saved notes what is safe.
func (w *Walk) saved(s Safe) {
	if s.Walk != w.cfg.ID {
		return
	}
	w.broken = s.Err
	if s.Err == nil {
		w.safe = max(w.safe, s.Seq)
	}
}

// do applies an event and gives it to the journal. It reports whether the
// event could be; if not, the note says why.
func (w *Walk) do(e counter.Event) bool {
	w.wake(e.Kind)
	w.now = w.clock()
	e.At = w.now
	return w.doAt(e)
}

// doAt is do for an event that has its time.
func (w *Walk) doAt(e counter.Event) bool {
	next, err := w.state.Apply(e)
	if err != nil {
		w.note = sentence(err.Error())
		return false
	}
	if w.cfg.Journal == nil {
		if e.Kind != counter.Open && e.Kind != counter.Close {
			w.note = "Only looking: " + w.cfg.LookOnly
		}
		return false
	}
	before := w.state
	w.state = next
	w.appended = w.cfg.Journal.Append(e)
	w.record(e)
	w.refresh()
	if e.Kind == counter.Tap {
		w.lookFor(before, next)
		w.busy(w.now)
		w.mindRest()
	}
	return true
}

// wake ends the run and begins another where the clock has leapt ahead: the
// time the machine slept was not spent on the row.
func (w *Walk) wake(kind counter.Kind) {
	if w.cfg.Woke == nil || w.cfg.Journal == nil || kind == counter.Open || kind == counter.Close {
		return
	}
	before := w.clock()
	if !w.cfg.Woke() {
		return
	}
	for _, e := range []counter.Event{{Kind: counter.Close, At: before}, {Kind: counter.Open, At: w.clock()}} {
		if next, err := w.state.Apply(e); err == nil {
			w.state, w.appended = next, w.cfg.Journal.Append(e)
			w.record(e)
		}
	}
}

// refresh looks at the state anew.
func (w *Walk) refresh() {
	w.scene = look(w.cfg.Title, w.state, w.words)
	w.scene.outlook = w.outlook()
}

// settle asks for the maker's count where the row is full.
func (w *Walk) settle() {
	if _, ok := w.state.Hunt(); ok && w.mode == walking {
		w.seek()
	}
	if w.mode == walking && w.state.AtRowEnd() {
		w.ask()
	}
}

// ask opens the question at the end of a row, offering the expected number.
func (w *Walk) ask() {
	offer, known := w.state.Expect()
	if !known {
		offer = w.state.Stitch()
	}
	w.enter(asking)
	w.entry = entry{offer: offer}
}

func (w *Walk) enter(m mode) { w.mode, w.lit, w.skip = m, 0, 0 }

// tap goes one stride on.
func (w *Walk) tap() {
	if w.state.Finished() || w.state.AtRowEnd() {
		if w.state.Finished() {
			w.note = sentence(counter.ErrAllWorked.Error())
			return
		}
		w.ask()
		return
	}
	paused := w.state.Paused()
	if w.do(counter.Event{Kind: counter.Tap, N: w.state.Reach()}) {
		if paused {
			w.note = "The time goes on."
		}
		w.settle()
	}
}

// back takes the last thing back.
func (w *Walk) back() {
	kind, n := w.state.Last()
	w.enter(walking)
	if !w.do(counter.Event{Kind: counter.Back}) {
		return
	}
	switch kind {
	case counter.Tap:
		if n > 1 {
			w.note = count(n, "stitch") + " taken back."
		}
	case counter.Finish, counter.Carry:
		w.note = fmt.Sprintf("The end of row %d is taken back.", w.state.Row()+1)
	default:
		w.note = fmt.Sprintf("The last %v is taken back.", kind)
	}
	w.settle()
}

// take ends the row with the number given, or flags it.
func (w *Walk) take() {
	n, err := w.entry.number()
	if err != nil {
		w.note = sentence(err.Error())
		return
	}
	if want, known := w.state.Expect(); known && n != want {
		w.enter(differing)
		w.occasion(Mismatch)
		return
	}
	w.finish(n)
}

// finish ends the row with a count.
func (w *Walk) finish(n int64) { w.endRowBy(counter.Finish, n) }

// endRowBy ends it as an event says.
func (w *Walk) endRowBy(kind counter.Kind, n int64) {
	before := w.state
	w.enter(walking)
	if !w.do(counter.Event{Kind: kind, N: n}) {
		return
	}
	plan := w.state.Plan()
	switch at := w.state.At(); {
	case w.state.Finished():
		w.note = ""
	case at.Piece != before.Piece() || at.Copy != before.Copy():
		w.note = fmt.Sprintf("%s is worked. Now %s.", placeName(plan, before.At()), placeName(plan, at)) + waiting(w.state)
	default:
		w.note = fmt.Sprintf("Row %d is kept: %d.", before.Row()+1, n)
		if kind == counter.Carry {
			w.note += carriedNote(w.state)
		}
	}
	w.settle()
}

// goTo makes a stitch of the row the one in hand.
func (w *Walk) goTo() {
	n, err := w.entry.number()
	w.enter(walking)
	if err != nil || n < 1 {
		w.note = "That is not a stitch of the row."
		return
	}
	if want, known := w.state.Expect(); known && n > want {
		w.note = "The row has " + count(want, "stitch") + "."
		return
	}
	w.jump(counter.Place{Piece: w.state.Piece(), Copy: w.state.Copy(), Row: w.state.Row(), Stitch: n - 1})
}

// jump goes to a place.
func (w *Walk) jump(to counter.Place) {
	w.enter(walking)
	if w.do(counter.Event{Kind: counter.Jump, Piece: to.Piece, Copy: to.Copy, Row: to.Row, N: to.Stitch}) {
		w.note = w.named(keyBack) + " goes back to where you were." + waiting(w.state)
		w.settle()
	}
}

// pause stops the time or lets it go on.
func (w *Walk) pause() {
	if w.state.Paused() {
		if w.do(counter.Event{Kind: counter.Resume}) {
			w.note = "The time goes on."
		}
		return
	}
	if w.do(counter.Event{Kind: counter.Pause}) {
		w.note = "The time stands still until the next tap."
	}
}
