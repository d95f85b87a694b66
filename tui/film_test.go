package tui

import (
	"fmt"
	"strings"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"crochet/tallyturn/counter"
	"crochet/tallyturn/counter/film"
	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/demo"
)

// settable is a clock that a test sets.
type settable struct{ at time.Time }

func (s *settable) now() time.Time       { return s.at }
func (s *settable) pass(d time.Duration) { s.at = s.at.Add(d) }

// filmWalk is the pennant, its film screen open.
func filmWalk(t testing.TB, look Look, width, height int) (*Walk, *shelf, *settable) {
	t.Helper()
	d, _ := demo.Find("pennant")
	s, clock := &shelf{}, &settable{noon}
	w := NewWalk(WalkConfig{
		ID: "pennant", Title: "Harbour Pennant", Journal: s, Now: clock.now, Look: look,
		State: counter.Begin(counter.NewPlan(pattern.Read(d.Text).Prove(pattern.Options{}))),
	})
	w.resize(width, height)
	w.open()
	press(w, "v")
	return w, s, clock
}

// unflash ends the flash, as its message does.
func unflash(w *Walk) {
	m := &model{page: w, width: w.width, height: w.height}
	m.Update(flashMsg{})
}

// work taps to the end of the row in hand and takes the count.
func work(w *Walk, clock *settable, each time.Duration) {
	for w.mode == walking && !w.state.AtRowEnd() {
		clock.pass(each)
		press(w, " ")
	}
	clock.pass(2 * time.Second)
	press(w, " ")
	w.tick()
}

// filmMoments are states of the film screen worth a picture.
var filmMoments = []struct {
	name string
	to   func(w *Walk, clock *settable)
}{
	{"before the first take", func(*Walk, *settable) {}},
	{"the slate", func(w *Walk, _ *settable) { press(w, "k"); unflash(w) }},
	{"rolling", func(w *Walk, clock *settable) {
		press(w, "k")
		unflash(w)
		for range 6 {
			clock.pass(1500 * time.Millisecond)
			press(w, " ")
		}
		w.tick()
	}},
	{"at the end of the row", func(w *Walk, clock *settable) {
		press(w, "k")
		unflash(w)
		for range 20 {
			clock.pass(1500 * time.Millisecond)
			press(w, " ")
		}
		w.tick()
	}},
	{"a mark of her own", func(w *Walk, clock *settable) {
		press(w, "k")
		unflash(w)
		clock.pass(7 * time.Second)
		press(w, "x", "g", "l", "a", "r", "e")
	}},
	{"reading aloud", func(w *Walk, clock *settable) {
		press(w, "d")
		clock.pass(5 * time.Second)
		w.tick()
	}},
	{"what the camera calls it", func(w *Walk, clock *settable) {
		press(w, "k")
		unflash(w)
		clock.pass(7 * time.Second)
		press(w, "k", "i", "A", "1", "tab")
	}},
	{"the fit", fitMoment},
	{"the takes", func(w *Walk, clock *settable) {
		fitMoment(w, clock)
		press(w, "esc", "z")
	}},
	{"the walk, with the take on", func(w *Walk, clock *settable) {
		press(w, "k")
		unflash(w)
		clock.pass(7 * time.Second)
		press(w, " ", "v")
		w.tick()
	}},
}

// fitMoment films two rows, the second in two tries, and looks at the fit.
func fitMoment(w *Walk, clock *settable) {
	press(w, "k")
	unflash(w)
	work(w, clock, 3*time.Second)
	clock.pass(9 * time.Second)
	press(w, "g")
	work(w, clock, 900*time.Millisecond)
	press(w, "k", "y")
}

func TestFilmFrames(t *testing.T) {
	for _, colours := range []Colours{Plain, NoColour, Sixteen, TwoFiftySix, TrueColour} {
		for _, size := range sizes {
			var b strings.Builder
			for _, m := range filmMoments {
				if colours != Plain && m.name != "rolling" {
					continue // the colours do not depend on the words
				}
				w, _, clock := filmWalk(t, Look{Colours: colours, Dark: true}, size.width, size.height)
				m.to(w, clock)
				fmt.Fprintf(&b, "── %s\n%s\n", m.name, visible(w.view()))
			}
			name := fmt.Sprintf("film-%s-%dx%d.frame", [...]string{"plain", "nocolour", "16", "256", "true"}[colours], size.width, size.height)
			golden(t, name, b.String())
		}
	}
}

// The clap is a full window of light, a bell, and then the slate, which goes
// by itself or with the next key, and that key counts.
func TestClap(t *testing.T) {
	for _, look := range []Look{{Colours: Plain}, {Colours: Plain, ASCII: true}, {Colours: TrueColour, Dark: true}} {
		w, s, clock := filmWalk(t, look, 60, 20)
		cmd := w.key(keyOf("k"))
		if !rings(cmd) {
			t.Error("no bell")
		}
		full := strings.Repeat("█", 60)
		if look.ASCII {
			full = strings.Repeat("#", 60)
		}
		if n := strings.Count(w.view(), full); n != 20 {
			t.Errorf("%d lines of light", n)
		}
		if s.last().Kind != counter.BeginTake || s.last().At != noon.UnixMilli() {
			t.Errorf("the log has %+v", s.last())
		}
		unflash(w)
		if v := w.view(); strings.Contains(v, full) || !strings.Contains(v, "Harbour Pennant") {
			t.Errorf("no slate:\n%s", v)
		}
		clock.pass(time.Second)
		press(w, " ")
		if w.state.Stitch() != 1 || !strings.Contains(w.view(), "stitch 2 of 20") {
			t.Errorf("the tap at the slate is lost:\n%s", w.view())
		}
		press(w, "k", "k")
		unflash(w)
		clock.pass(slateSeconds * time.Second)
		w.tick()
		if !strings.Contains(w.view(), "take 2") || w.film.slate.take != 0 {
			t.Error("the slate stays")
		}
	}
}

// rings reports whether a command rings the bell; it does not wait for others.
func rings(cmd tea.Cmd) bool {
	if cmd == nil {
		return false
	}
	batch, ok := cmd().(tea.BatchMsg)
	if !ok {
		return false
	}
	for _, c := range batch[:1] {
		if _, ok := c().(bellMsg); ok {
			return true
		}
	}
	return false
}

// A mark is set at the moment of its key, however long its word takes.
func TestMarkAtItsKey(t *testing.T) {
	w, s, clock := filmWalk(t, Look{}, 80, 24)
	press(w, "x")
	if w.mode != walking || !strings.Contains(w.note, "No take is on") {
		t.Errorf("a mark without a take: %q", w.note)
	}
	press(w, "k")
	unflash(w)
	clock.pass(4321 * time.Millisecond)
	press(w, "x")
	clock.pass(9 * time.Second)
	press(w, "q", " ", "v", "enter") // letters, all of them
	e := s.last()
	if e.Kind != counter.Remark || e.Text != "q v" || e.At != noon.UnixMilli()+4321 {
		t.Errorf("the log has %+v", e)
	}
	clock.pass(time.Second)
	press(w, "x", "a", "esc")
	if s.last() != e {
		t.Errorf("a mark that was left is set: %+v", s.last())
	}
	press(w, "backspace")
	if marks := w.session().Marks; len(marks) != 1 || marks[0].Kind != film.RowBegun {
		t.Errorf("%+v", marks)
	}
	// What is typed when the walk is left is kept.
	press(w, "x", "e", "n", "d")
	w.end()
	if e := s.events[len(s.events)-2]; e.Kind != counter.Remark || e.Text != "end" {
		t.Errorf("left with %+v", e)
	}
}

func TestOwnRate(t *testing.T) {
	w, s, clock := filmWalk(t, Look{}, 80, 24)
	usual := w.said().Milliseconds
	press(w, "d")
	clock.pass(time.Duration(usual*2) * time.Millisecond)
	press(w, " ")
	e := s.last()
	if e.Kind != counter.SpeakAt || e.N < 50 || e.N > 75 || w.said().Milliseconds < usual*3/2 {
		t.Errorf("half as fast: %+v, %d ms for %d", e, w.said().Milliseconds, usual)
	}
	press(w, "d", " ") // at once
	if s.last() != e || !strings.Contains(w.note, "too short") {
		t.Errorf("no time at all: %+v, %q", s.last(), w.note)
	}
	press(w, "backspace")
	if w.said().Milliseconds != usual {
		t.Errorf("taken back, it takes %d ms for %d", w.said().Milliseconds, usual)
	}
}

func TestCameraNotes(t *testing.T) {
	w, _, clock := filmWalk(t, Look{}, 80, 24)
	press(w, "i")
	if w.mode != walking {
		t.Error("notes on no take")
	}
	for range 2 {
		press(w, "k")
		unflash(w)
		clock.pass(5 * time.Second)
		press(w, "k")
	}
	press(w, "i")
	press(w, append(strings.Split("A002.MOV", ""), "tab", "1", "enter")...)
	if w.mode != slipping || !strings.Contains(w.note, "timecode") {
		t.Errorf("a timecode of 1: mode %v, %q", w.mode, w.note)
	}
	press(w, append(append([]string{"backspace"}, strings.Split("01:02:03:04", "")...), "tab", "4", ".", "2", "5", "pgup")...)
	press(w, "shift+tab", "shift+tab", "A", "1", "enter")
	takes := w.session().Takes
	if takes[1].Camera != "A002.MOV" || takes[1].Timecode != "01:02:03:04" || takes[1].ClapAt != 4250 || takes[0].Camera != "A1" {
		t.Errorf("%+v", takes)
	}
}

// Choices in the fit change the length of the film at once, and Backspace takes
// them back there, but nothing else.
func TestFitLive(t *testing.T) {
	w, s, clock := filmWalk(t, Look{}, 80, 24)
	fitMoment(w, clock)
	was := w.fit().Length
	n := len(s.events)
	press(w, "home")
	press(w, "up", "4")
	if got := w.fit().Rows[0].Film; got*4 != w.fit().Rows[0].Footage || !strings.Contains(w.view(), "film "+clockTime(w.fit().Length)) {
		t.Errorf("four times as fast: %d of %d\n%s", got, w.fit().Rows[0].Footage, w.view())
	}
	press(w, "x")
	if w.fit().Rows[0].Film != 0 {
		t.Error("it is not left out")
	}
	press(w, "backspace", "backspace")
	if w.fit().Length != was || w.mode != fitting {
		t.Errorf("taken back: %d for %d", w.fit().Length, was)
	}
	for range 5 {
		press(w, "backspace")
	}
	if w.state.Row() != 2 || w.mode != fitting {
		t.Errorf("work is taken back from the fit: row %d", w.state.Row())
	}
	press(w, "a", "+", "-", "a", "a", "+", "y")
	if len(s.events) <= n || w.mode != walking || !w.film.on {
		t.Errorf("mode %v", w.mode)
	}
}

// A program that went away in mid-take says so when it is back.
func TestBrokenTake(t *testing.T) {
	w, s, clock := filmWalk(t, Look{}, 80, 24)
	press(w, "k")
	clock.pass(42 * time.Second)
	press(w, " ")
	state, _ := counter.Replay(w.state.Plan(), s.events)
	again := NewWalk(WalkConfig{ID: "pennant", State: state, Begun: w.state.Plan(), Log: s.events, Journal: &shelf{}, Now: clock.now})
	clock.pass(time.Hour)
	again.resize(80, 24)
	again.open()
	if !strings.Contains(again.note, "Take 1 broke off") || !strings.Contains(again.note, "0:42") || again.state.Rolling() {
		t.Errorf("%q", again.note)
	}
	if got := again.session().Takes[0]; got.End != film.Broken || got.Length != 42_000 {
		t.Errorf("%+v", got)
	}
}

// A take of the machine's sleep ends where it fell asleep.
func TestSleepEndsTheTake(t *testing.T) {
	w, _, clock := filmWalk(t, Look{}, 80, 24)
	slept := false
	w.cfg.Woke = func() bool {
		if !slept {
			return false
		}
		slept = false
		clock.pass(time.Hour)
		return true
	}
	press(w, "k")
	clock.pass(3 * time.Second)
	slept = true
	press(w, " ")
	if take := w.session().Takes[0]; take.End != film.Left || take.Length != 3000 {
		t.Errorf("%+v", take)
	}
}

// In lines, the film screen says whether a take is on, what to say, and whether
// enough is filmed; it draws no frame.
func TestFilmInLines(t *testing.T) {
	w, _ := walkTextLook(t, demoText(t, "star"), Look{}, 80, 24)
	w.toFilm()
	told := strings.Join((&model{page: w}).spoken(), "\n")
	for _, want := range []string{"Film: no take is on.", "To say: ", "not enough of the row is filmed yet", "stitch 1 of 10"} {
		if !strings.Contains(told, want) {
			t.Errorf("%q is not said:\n%s", want, told)
		}
	}
	if strings.Contains(told, "█") || strings.Contains(told, "[") && strings.Contains(told, "]  ") {
		t.Errorf("a frame is said:\n%s", told)
	}
	w.toFilm()
	if told := strings.Join(w.spoken(), "\n"); strings.Contains(told, "Film:") {
		t.Errorf("the walk says of the film:\n%s", told)
	}
}
