package tui

import (
	"errors"
	"fmt"
	"slices"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"crochet/tallyturn/counter"
)

// choice is a button: its label, the key it stands for, what it does.
type choice struct {
	label string
	key   key.Binding
	press func(*Walk) tea.Cmd
}

// act makes a button's deed of one that asks bubbletea for nothing.
func act(f func(*Walk)) func(*Walk) tea.Cmd {
	return func(w *Walk) tea.Cmd { f(w); return nil }
}

func ask(page func() tea.Msg) func(*Walk) tea.Cmd {
	return func(*Walk) tea.Cmd { return page }
}

// choices are the buttons of the moment, the main one first, and those that
// must be seen before the others.
func (w *Walk) choices() []choice {
	help := choice{"Keys", keyHelp, ask(func() tea.Msg { return helpMsg{} })}
	leave := choice{"Leave", keyQuit, ask(func() tea.Msg { return leaveMsg{} })}
	switch w.mode {
	case asking:
		return []choice{
			{fmt.Sprintf("Take %s", w.entry), keyTake, act((*Walk).take)},
			{"Go back", keyErase, act((*Walk).back)},
			help, leave,
		}
	case differing:
		return []choice{
			{fmt.Sprintf("Carry on with %s", w.entry), keyCarry, act((*Walk).carryOn)},
			{"Find the slip", keyHunt, act((*Walk).huntCounted)},
			{"What follows", keyFollow, act((*Walk).showFollowing)},
			{"Go back to the row", keyReturn, act((*Walk).goBack)},
			help, leave,
		}
	case counting:
		return []choice{
			{fmt.Sprintf("It is %s", w.entry), keyTake, act((*Walk).correct)},
			{"Never mind", keyEsc, act((*Walk).dismiss)},
		}
	case going:
		return []choice{
			{fmt.Sprintf("Go to stitch %s", w.entry), keyGo, act((*Walk).goTo)},
			{"Never mind", keyEsc, act((*Walk).dismiss)},
		}
	}
	if list := w.liveChoices(); list != nil {
		return list
	}
	back := choice{"Back", keyBack, act((*Walk).back)}
	rows := choice{"Rows", keyRows, act((*Walk).showRows)}
	more := []choice{
		{"Unravel", keyUnravel, act(func(w *Walk) { w.askUnravel(w.state.At()) })},
		{"Again", keyAgain, act((*Walk).again)},
		{"List", keyList, act((*Walk).showList)},
		{"Follow", keyFollow, act((*Walk).showFollowing)},
		{"Time", keyPace, act((*Walk).showPace)},
		{"Yarn", keyYarn, act((*Walk).showYarn)},
		{"Overview", keyOverview, act((*Walk).showOverview)},
	}
	list := []choice{rows, back, help, leave}
	if !w.state.Finished() {
		pause := "Pause"
		if w.state.Paused() {
			pause = "Go on"
		}
		list = []choice{
			{"Tap", keyTap, act((*Walk).tap)}, back,
			{pause, keyPause, act((*Walk).pause)},
			{"Count", keyCount, act((*Walk).countNow)},
			{"End", keyEnd, act((*Walk).endRow)},
			rows, help, leave,
		}
		more = append([]choice{
			{"Hunt", keyHunt, act(func(w *Walk) { w.hunt(counter.NotCounted) })},
			{"Stride", keyStride, act((*Walk).nextStride)},
			{"Mark", keyMark, act((*Walk).mark)},
			{"Note", keyNote, act((*Walk).writeNote)},
		}, more...)
	}
	if w.film.on {
		if w.state.Finished() {
			return append(w.filmed(), back, help, leave)
		}
		return append(append(list[:1:1], w.filmed()...), append(list[1:], more...)...)
	}
	more = append(more, choice{"Film", keyFilm, act((*Walk).toFilm)})
	if w.cfg.Basket != nil {
		list = append(list, choice{"Basket", keyBasket, (*Walk).toBasket})
	}
	return append(list, more...)
}

// key does what a key says.
func (w *Walk) key(k tea.KeyMsg) tea.Cmd {
	w.note = ""
	w.film.slate.take = 0
	if w.mode == choosing {
		return w.rowsKey(k)
	}
	if w.filmTyping() {
		w.filmTypeKey(k)
		return nil
	}
	if w.typing() {
		w.noteKey(k)
		return nil
	}
	if slices.Contains(w.cfg.TapKeys, k.String()) {
		k = tea.KeyMsg{Type: tea.KeyPgDown} // the pedal's own key
	}
	if cmd, taken := w.filmKey(k); taken {
		return cmd
	}
	list := w.choices()
	w.lit = min(w.lit, len(list)-1)
	switch {
	case key.Matches(k, keyLight):
		w.lit = (w.lit + 1) % len(list)
		return nil
	case key.Matches(k, keyLightB):
		w.lit = (w.lit + len(list) - 1) % len(list)
		return nil
	case key.Matches(k, keyPress):
		return list[w.lit].press(w)
	case key.Matches(k, keyEsc):
		w.escape()
		return nil
	}
	if w.liveKey(k) {
		return nil
	}
	if key.Matches(k, keyDigit) && w.digit(k.String()) {
		return nil
	}
	if w.mode != walking && key.Matches(k, keyErase) {
		w.erase()
		return nil
	}
	if w.mode == differing && key.Matches(k, keyTake) {
		// Not by a pedal or a stray key: the difference is to be seen.
		w.note = "Enter carries on with your count, Backspace goes back to the row."
		return nil
	}
	if (w.mode == walking || w.mode == going) && key.Matches(k, keyTap) {
		w.lit = 0
		w.tapAnyway()
		return nil
	}
	if w.state.Finished() && w.mode == walking {
		switch {
		case key.Matches(k, keyUp):
			w.scrollEnd(-1)
			return nil
		case key.Matches(k, keyDown):
			w.scrollEnd(+1)
			return nil
		}
	}
	if w.mode == walking && key.Matches(k, keyStride) {
		w.nextStride()
		return nil
	}
	for _, c := range list {
		if key.Matches(k, c.key) {
			w.lit = 0
			return c.press(w)
		}
	}
	w.idle(k.String())
	return nil
}

// idle says that a key does nothing.
func (w *Walk) idle(name string) {
	w.note = fmt.Sprintf("%s does nothing here. %s shows every key.", Clean(keyName(name)), w.named(keyHelp))
}

// keyName is a key as the maker would call it.
func keyName(name string) string {
	if name == " " {
		return "Space"
	}
	return name
}

// digit takes a typed digit; false where digits mean nothing.
func (w *Walk) digit(d string) bool {
	switch w.mode {
	case walking:
		if w.state.Finished() {
			return false
		}
		w.enter(going)
		w.entry = entry{}
	case differing: // another count
		w.enter(asking)
		w.entry.digits = ""
	case checking:
		w.countAgain()
	}
	if !w.entry.add(d) {
		w.note = sentence(errTooLong.Error())
	}
	return true
}

// erase rubs out a digit of the number being given, or goes back.
func (w *Walk) erase() {
	switch {
	case w.mode == differing:
		w.goBack()
	case w.mode == checking:
		w.countAgain()
	case w.entry.erase():
		if w.mode == going && w.entry.digits == "" {
			w.dismiss()
		}
	case w.mode == asking:
		w.back()
	case w.mode == hunting:
		w.huntBack()
	default:
		w.dismiss()
	}
}

// escape closes what lies over the row.
func (w *Walk) escape() {
	switch w.mode {
	case walking:
		w.note = "Nothing is open here. q leaves, with everything kept."
	case asking:
		w.enter(walking)
		w.note = "A tap asks for the count again."
	case differing:
		w.goBack()
	case hunting:
		w.leaveHunt()
	case following:
		w.closeFollowing()
	default:
		w.dismiss()
	}
}

// dismiss closes what lies over the row, or over the hunt in it.
func (w *Walk) dismiss() {
	w.enter(walking)
	w.seek()
}

// tapAnyway is a tap even where a number was begun: a digit struck by chance
// must not turn the next tap into a leap.
func (w *Walk) tapAnyway() {
	if w.mode == going {
		w.dismiss()
		w.note = "The number is put aside, the tap counts. Enter would have gone to that stitch."
	}
	w.tap()
}

// carryOn ends the row with a count that differs.
func (w *Walk) carryOn() {
	if n, err := w.entry.number(); err == nil {
		w.endRowBy(counter.Carry, n)
	}
}

// goBack leaves the question and stands at the end of the row, where the slip
// can be looked for.
func (w *Walk) goBack() {
	w.enter(walking)
	w.note = "Back at the row. Backspace takes stitches back; a tap asks for the count again."
}

func (w *Walk) countNow() {
	if w.state.Finished() {
		w.note = "Every row is worked: there is nothing to count."
		return
	}
	w.enter(counting)
	w.entry = entry{offer: w.state.Stitch()}
}

func (w *Walk) endRow() {
	if w.state.Finished() {
		w.note = "Every row is worked: there is none to end."
		return
	}
	w.ask()
}

// errUnsaved says that what a walk did has not all come to disk.
var errUnsaved = errors.New("not all is on disk")

// toBasket leaves the walk for the basket.
func (w *Walk) toBasket() tea.Cmd {
	if w.cfg.Basket == nil {
		return nil
	}
	w.end()
	release, basket, state := w.cfg.Release, w.cfg.Basket, w.state
	w.cfg.Release = nil
	return func() tea.Msg {
		if release != nil {
			if err := release(state); err != nil {
				return turnMsg{err: fmt.Errorf("%w: %w", errUnsaved, err)}
			}
		}
		b, err := basket()
		if err != nil {
			return turnMsg{err: err}
		}
		return turnMsg{page: b}
	}
}

// mouse presses the button under the pointer; a click anywhere else is a tap.
func (w *Walk) mouse(m tea.MouseMsg) tea.Cmd {
	if m.Action != tea.MouseActionPress {
		return nil
	}
	w.note = ""
	if w.mode == choosing {
		return w.rowsMouse(m)
	}
	switch m.Button {
	case tea.MouseButtonLeft:
	case tea.MouseButtonWheelUp:
		return w.wheel(tea.KeyUp)
	case tea.MouseButtonWheelDown:
		return w.wheel(tea.KeyDown)
	default:
		w.idle("that button of the mouse")
		return nil
	}
	list := w.choices()
	if i := buttonAt(w.buttonRow(), m.X, m.Y, w.height); i >= 0 {
		w.lit = 0
		return list[i].press(w)
	}
	switch w.mode {
	case walking, going:
		w.tapAnyway()
		return nil
	case differing:
		w.note = "Press one of the buttons: the difference is to be seen."
		return nil
	}
	if w.deliberate() {
		return nil
	}
	return list[0].press(w)
}

// wheel is Up or Down wherever those move through what is shown.
func (w *Walk) wheel(k tea.KeyType) tea.Cmd {
	up := k == tea.KeyUp
	for _, g := range w.here() {
		for _, b := range g.keys {
			if d := b.Help(); up && (d == keyUp.Help() || d == keyWordsBack.Help()) || !up && (d == keyDown.Help() || d == keyWordsOn.Help()) {
				return w.key(tea.KeyMsg{Type: k})
			}
		}
	}
	w.idle("the wheel")
	return nil
}
