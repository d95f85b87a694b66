package tui

import (
	"fmt"
	"math"
	"strings"
	"time"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"crochet/tallyturn/counter"
	"crochet/tallyturn/counter/film"
	"crochet/tallyturn/pattern/spoken"
)

// The film screen lies over the walk: the row is worked by the same keys, and
// others begin and end takes and mark what is seen in them.

// Modes of the film screen.
const (
	remarking mode = iota + 64 // a mark is being put in words
	reading                    // she reads the words aloud, and is timed
	fitting                    // the footage beside the words
	reeling                    // the takes, drawn
	slipping                   // what the camera calls a take
)

// filming is what the film screen needs besides the walk.
type filming struct {
	on       bool // it is in front
	recorder *film.Recorder
	session  *film.Session  // nil where it is to be worked out anew
	script   *spoken.Script // likewise
	fit      *film.Fit      // likewise

	flash bool // the flash of the clap is seen
	slate struct {
		take int // 0 where no slate is seen
		at   int64
	}

	prompt prompt // where she is with the words
	word   string // of the mark being set
	wordAt int64  // when its key was pressed
	since  int64  // since when she reads
	pick   int    // the lit row of the fit
	slip   slip   // what is noted on a take
}

// What the film screen asks of the screen.
type (
	bellMsg  struct{} // ring
	flashMsg struct{} // the flash is over
)

// record keeps an event for the film.
func (w *Walk) record(e counter.Event) {
	f := &w.film
	if f.recorder == nil {
		w.log = append(w.log, e)
	} else {
		f.recorder.Add(e)
	}
	f.session, f.fit = nil, nil
	switch e.Kind {
	case counter.Note, counter.Rewrite, counter.SpeakAt, counter.Back, counter.Redo:
		f.script = nil
	}
}

// session is what was filmed so far.
func (w *Walk) session() *film.Session {
	f := &w.film
	if f.recorder == nil {
		begun := w.cfg.Begun
		if begun == nil {
			begun = w.cfg.State.Plan()
		}
		f.recorder = film.NewRecorder(begun)
		for _, log := range [][]counter.Event{w.cfg.Log, w.log} {
			for _, e := range log {
				f.recorder.Add(e)
			}
		}
		w.cfg.Log, w.log = nil, nil // it has what it needs of them
	}
	if f.session == nil {
		f.session = f.recorder.Session()
	}
	return f.session
}

// script is what is to be said.
func (w *Walk) script() *spoken.Script {
	if w.film.script == nil {
		w.film.script = w.session().Script()
	}
	return w.film.script
}

// fit is the footage beside the words.
func (w *Walk) fit() *film.Fit {
	if w.film.fit == nil {
		w.film.fit = w.session().Fit(w.script())
	}
	return w.film.fit
}

// said is what is said of the row in hand; empty where nothing is.
func (w *Walk) said() spoken.Line {
	at := w.state.At()
	line, _ := w.script().Row(at.Piece, at.Row)
	return line
}

// rowFilmed is how long the row in hand is on film until now, in ms, without
// what is not used.
func (w *Walk) rowFilmed() int64 {
	at := w.state.At()
	s := w.session()
	ms, _ := s.Footage(at.Piece, at.Copy, at.Row)
	if take, on := s.Rolling(); on {
		ms += take.Since(w.now) - take.Length
	}
	return ms
}

// takeLine is the take that is on and how long, or "".
func (w *Walk) takeLine() string {
	if !w.state.Rolling() {
		return ""
	}
	take, _ := w.session().Rolling()
	return fmt.Sprintf("● take %d %s", w.state.Takes(), clockTime(take.Since(w.now)))
}

// toFilm opens the film screen, or goes back to the walk.
func (w *Walk) toFilm() {
	f := &w.film
	f.on = !f.on
	f.slate.take = 0
	w.enter(walking)
	switch {
	case !f.on && w.state.Rolling():
		w.note = "The take goes on. " + w.named(keyFilm) + " comes back to it."
	case f.on && !w.state.Rolling():
		w.note = w.named(keyRoll) + " begins a take: start the camera first. The walk goes on by its own keys."
	}
	w.settle()
}

// broke tells that the program went away in the middle of a take; w.state has
// not been opened yet.
func (w *Walk) broke() string {
	if !w.cfg.State.Rolling() {
		return ""
	}
	takes := w.session().Takes
	take := takes[len(takes)-1]
	return fmt.Sprintf("Take %d broke off when the program went away: it ends at its last mark, %s.", take.Number, clockTime(take.Length))
}

// roll begins a take, or ends it.
func (w *Walk) roll() tea.Cmd {
	f := &w.film
	if w.state.Rolling() {
		if w.do(counter.Event{Kind: counter.EndTake}) {
			take := w.session().Takes[w.state.Takes()-1]
			w.note = fmt.Sprintf("Take %d is %s long. %s notes what the camera calls it.", take.Number, clockTime(take.Length), w.named(keyCamera))
		}
		return nil
	}
	if !w.do(counter.Event{Kind: counter.BeginTake}) {
		return nil
	}
	f.on, f.flash = true, true
	f.slate.take, f.slate.at = w.state.Takes(), w.now
	w.note = fmt.Sprintf("Take %d is on.", f.slate.take)
	return tea.Batch(func() tea.Msg { return bellMsg{} }, tea.Tick(clapTime, func(time.Time) tea.Msg { return flashMsg{} }))
}

// fromHere says that the row is done again from here.
func (w *Walk) fromHere() {
	before := w.unused()
	if !w.do(counter.Event{Kind: counter.FromHere}) {
		return
	}
	lost := w.unused() - before
	if lost < 500 && w.state.Stitch() > 0 {
		w.note = fmt.Sprintf("Again from stitch %d; what was filmed up to it stays. For the whole row go to stitch 1 first: 1, Enter, %s.", w.state.Stitch()+1, w.named(keyFromHere))
		return
	}
	w.note = fmt.Sprintf("Again from here: the %s before it is not used. Backspace takes that back.", clockTime(lost))
	w.settle()
}

func (w *Walk) notRolling() string {
	return sentence(counter.ErrNotRolling.Error()) + " " + w.named(keyRoll) + " begins one."
}

func (w *Walk) notFilmed() string {
	return "Nothing was filmed yet. " + w.named(keyRoll) + " begins a take."
}

// unused is how much footage is not used, in ms.
func (w *Walk) unused() (ms int64) {
	for _, t := range w.session().Tries {
		if t.Unused != film.Used {
			ms += t.Length()
		}
	}
	return ms
}

// askWord opens a mark; it is set at the moment its key is pressed.
func (w *Walk) askWord() {
	if !w.state.Rolling() {
		w.note = w.notRolling()
		return
	}
	w.film.word, w.film.wordAt = "", w.clock()
	w.enter(remarking)
}

func (w *Walk) keepWord() {
	e := counter.Event{Kind: counter.Remark, At: w.film.wordAt, Text: strings.TrimSpace(w.film.word)}
	w.enter(walking)
	if w.doAt(e) {
		w.note = "The mark is set. Backspace takes it out."
	}
	w.settle()
}

// read times her while she reads the words aloud.
func (w *Walk) read() {
	if w.said().Text == "" {
		w.note = "Nothing is said of this row."
		return
	}
	w.enter(reading)
	w.film.since = w.clock()
}

// readDone sets her own rate.
func (w *Walk) readDone() {
	w.enter(walking)
	ms := w.clock() - w.film.since
	rate, err := spoken.Timed(w.said().Text, ms)
	if err != nil {
		w.note = sentence(err.Error())
		w.settle()
		return
	}
	n := int64(math.Round(float64(rate)))
	if w.do(counter.Event{Kind: counter.SpeakAt, N: n}) {
		w.note = fmt.Sprintf("You read it in %s s: %d words a minute. The times of the words go by that now.", film.Seconds(ms), n)
	}
	w.settle()
}

func (w *Walk) showFit() {
	if len(w.fit().Rows) == 0 {
		w.note = w.notFilmed()
		return
	}
	at := w.state.At()
	w.film.pick = 0
	for i, r := range w.fit().Rows {
		if r.Piece == at.Piece && r.Copy == at.Copy && r.Row <= at.Row {
			w.film.pick = i
		}
	}
	w.enter(fitting)
}

func (w *Walk) showTakes() {
	if len(w.session().Takes) == 0 {
		w.note = w.notFilmed()
		return
	}
	w.enter(reeling)
}

// filmTyping reports whether keys are letters in the film screen.
func (w *Walk) filmTyping() bool { return w.mode == remarking || w.mode == slipping }

// filmTypeKey takes a key while something is typed in it.
func (w *Walk) filmTypeKey(k tea.KeyMsg) {
	w.still = nil
	if w.mode == slipping {
		w.slipKey(k)
		return
	}
	switch {
	case key.Matches(k, keyKeepNote):
		w.keepWord()
	case key.Matches(k, keyDrop):
		w.dismiss()
		w.note = "No mark is set."
	default:
		if !typeInto(&w.film.word, k, mostNote) {
			w.note = keyName(Clean(k.String())) + " does nothing in a mark. Enter sets it, Esc leaves it."
		}
	}
}

// typeInto types a key into a text of at most so many characters; false for a
// key that is no letter.
func typeInto(text *string, k tea.KeyMsg, most int) bool {
	switch {
	case key.Matches(k, keyErase):
		r := []rune(*text)
		*text = string(r[:max(len(r)-1, 0)])
	case k.Type == tea.KeyRunes || k.Type == tea.KeySpace:
		more := string(k.Runes)
		if k.Paste {
			more = strings.Join(strings.Fields(more), " ")
		}
		if r := []rune(*text + more); len(r) <= most {
			*text = string(r)
		}
	default:
		return false
	}
	return true
}

// keepTyped keeps what is typed in the film screen, as the walk is left.
func (w *Walk) keepTyped() {
	if w.mode == slipping {
		w.keepSlip()
		return
	}
	w.keepWord()
}

// filmChoices are the buttons of the film screen's modes; nil in others.
func (w *Walk) filmChoices() []choice {
	leave := choice{"Never mind", keyEsc, act((*Walk).dismiss)}
	switch w.mode {
	case remarking:
		return []choice{{"Set the mark", keyKeepNote, act((*Walk).keepWord)}, {"Never mind", keyDrop, act((*Walk).dismiss)}}
	case reading:
		return []choice{{"I have read it", keyReadDone, act((*Walk).readDone)}, leave}
	case slipping:
		return []choice{{"Keep it", keyKeepNote, act((*Walk).keepSlip)}, {"Never mind", keyDrop, act((*Walk).dismiss)}}
	case fitting:
		return w.fitChoices()
	case reeling:
		return []choice{{"Close", keyCloseTakes, act((*Walk).dismiss)}}
	}
	return nil
}

// filmed are the buttons that the film screen has besides those of the walk.
func (w *Walk) filmed() []choice {
	roll := choice{"Begin a take", keyRoll, (*Walk).roll}
	list := []choice{roll}
	if w.state.Rolling() {
		list[0].label = "End the take"
		list = append(list, choice{"Moment", keyWord, act((*Walk).askWord)}, choice{"Again from here", keyFromHere, act((*Walk).fromHere)})
	}
	return append(list,
		choice{"Camera", keyCamera, act((*Walk).noteCamera)},
		choice{"Read", keyRead, act((*Walk).read)},
		choice{"Fit", keyFit, act((*Walk).showFit)},
		choice{"Takes", keyTakes, act((*Walk).showTakes)},
		choice{"Walk", keyFilm, act((*Walk).toFilm)})
}

// filmKey does what a key says to the film screen; false where it says nothing
// to it.
func (w *Walk) filmKey(k tea.KeyMsg) (cmd tea.Cmd, taken bool) {
	switch w.mode {
	case walking, asking:
		if !w.film.on {
			if key.Matches(k, keyFilm) {
				w.toFilm()
				return nil, true
			}
			return nil, false
		}
		if w.mode == walking && key.Matches(k, keyEsc) {
			w.toFilm()
			return nil, true
		}
		for _, c := range w.filmed() {
			if key.Matches(k, c.key) {
				w.lit = 0
				return c.press(w), true
			}
		}
		switch {
		case key.Matches(k, keyWordsBack):
			w.turn(-1)
			return nil, true
		case key.Matches(k, keyWordsOn):
			w.turn(+1)
			return nil, true
		}
		if key.Matches(k, keyWord) || key.Matches(k, keyFromHere) {
			w.note = w.notRolling()
			return nil, true
		}
	case fitting:
		return nil, w.fitKey(k)
	case reeling:
		return nil, w.scrollKey(k)
	case reading:
		switch {
		case key.Matches(k, keyReadDone):
			w.readDone()
		case key.Matches(k, keyWordsBack):
			w.turn(-1)
		case key.Matches(k, keyWordsOn):
			w.turn(+1)
		default:
			return nil, false
		}
		return nil, true
	}
	return nil, false
}
