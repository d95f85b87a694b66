package tui

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"crochet/tallyturn/counter"
	"crochet/tallyturn/counter/skein"
	"crochet/tallyturn/pattern/yarn"
)

// The yarn page lies over the row: what each yarn has taken so far, a field for
// what is left of it on the scale, and whether that lasts.

// onScale is what the page needs besides the walk.
type onScale struct {
	book    skein.Book
	account *skein.Account // nil until the page is opened
	pick    int            // the yarn that is weighed
	grams   string         // as typed
	asked   string         // the grams of which it was said that they are not kept
}

// showYarn opens the page at the yarn in hand.
func (w *Walk) showYarn() {
	w.enter(weighing)
	w.scale.grams, w.scale.asked = "", ""
	w.reckon()
	w.scale.pick = w.scale.account.InHand
	w.still = nil
}

// reckon works the account out anew.
func (w *Walk) reckon() {
	w.scale.account = w.scale.book.Of(w.state, skein.StatedRate(w.state))
	w.scale.pick = min(w.scale.pick, len(w.scale.account.Yarns)-1)
}

// asksBeforeLeaving holds the maker back once where grams are typed that are not
// kept: only she knows of which ball they are.
func (w *Walk) asksBeforeLeaving() bool {
	s := &w.scale
	if w.mode != weighing || s.grams == "" || s.grams == s.asked {
		return false
	}
	s.asked = s.grams
	w.note = fmt.Sprintf("%s g are typed and not kept. %s keeps them; %s again leaves without them.", s.grams, w.named(keyKeepWeight), w.named(keyQuit))
	return true
}

// onPage is the yarn that the page is about.
func (w *Walk) onPage() *skein.Yarn { return &w.scale.account.Yarns[w.scale.pick] }

// mostGrams is how many characters a weight may have.
const mostGrams = 7

// weighKey takes a key of the yarn page; false where it says nothing to it.
func (w *Walk) weighKey(k tea.KeyMsg) bool {
	s := &w.scale
	switch {
	case key.Matches(k, keyUp):
		w.pickYarn(-1)
	case key.Matches(k, keyDown):
		w.pickYarn(+1)
	case key.Matches(k, keyDigit), key.Matches(k, keyPoint):
		d := k.String()
		if key.Matches(k, keyPoint) {
			d = "."
		}
		switch _, tenths, point := strings.Cut(s.grams, "."); {
		case d == "." && point, len(tenths) > 1:
			w.note = "A scale shows no more of a gram."
		case len(s.grams) >= mostGrams:
			w.note = sentence(counter.ErrBadWeight.Error())
		default:
			s.grams += d
		}
	case key.Matches(k, keyErase):
		if s.grams == "" {
			w.dismiss()
			return true
		}
		s.grams = s.grams[:len(s.grams)-1]
	case key.Matches(k, keyNewBall):
		w.weighNewBall()
	case key.Matches(k, keyFirstWeight):
		w.weighFirst()
	case key.Matches(k, keyTap):
		w.note = "Taps wait while the yarn is open. Esc goes back to the row."
	default:
		return false
	}
	return true
}

func (w *Walk) pickYarn(step int) {
	s := &w.scale
	to := s.pick + step
	if to < 0 || to >= len(s.account.Yarns) {
		w.note = "There is no further yarn that way."
		return
	}
	s.pick, s.grams = to, ""
}

// weigh keeps the grams typed as an event; the page stays, with the answer.
func (w *Walk) weigh(e counter.Event, words string) {
	s := &w.scale
	grams, err := strconv.ParseFloat(s.grams, 64)
	if err != nil {
		w.note = "Type the grams that the scale shows first."
		return
	}
	y := w.onPage()
	e.Kind, e.N, e.Text = counter.Weigh, int64(math.Round(grams*1000)), y.Name
	if !w.do(e) {
		return
	}
	w.note = fmt.Sprintf("Noted: %s g of %s%s. %s in the row takes it back.", yarn.Grams(grams), Clean(y.Name), words, w.named(keyBack))
	s.grams = ""
	w.reckon()
}

// weighLeft keeps what is left of the ball in hand; with nothing typed it closes
// the page.
func (w *Walk) weighLeft() {
	if w.scale.grams == "" {
		w.dismiss()
		return
	}
	w.weigh(counter.Event{Copy: max(w.onPage().Balls-1, 0)}, "")
}

// weighNewBall keeps the weight of another ball, which is begun here.
func (w *Walk) weighNewBall() {
	w.weigh(counter.Event{Copy: w.onPage().Balls}, ", a ball begun here")
}

// weighFirst keeps what the first ball weighed before the first stitch.
func (w *Walk) weighFirst() {
	if w.onPage().Balls > 1 {
		w.note = "Another ball is in work by now: its weight is noted when it is begun, by " + w.named(keyNewBall) + "."
		return
	}
	w.weigh(counter.Event{Row: counter.AtFirst}, " at the start")
}

// weighChoices are the buttons of the page.
func (w *Walk) weighChoices() []choice {
	if w.scale.grams == "" {
		return []choice{{"Close", keyCloseYarn, act((*Walk).dismiss)}}
	}
	return []choice{
		{"Keep " + w.scale.grams + " g", keyKeepWeight, act((*Walk).weighLeft)},
		{"Another ball", keyNewBall, act((*Walk).weighNewBall)},
		{"At the start", keyFirstWeight, act((*Walk).weighFirst)},
		{"Never mind", keyCloseYarn, act((*Walk).dismiss)},
	}
}
