package tui

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/ansi"

	"crochet/tallyturn/counter"
	"crochet/tallyturn/pattern"
)

// mooringMat has two yarns, one of them of no great length.
const mooringMat = `Mooring Mat

US terms

Gauge: 20 sc and 22 rows = 10 cm
Yarn: cotton, 50 g = 125 m

Mat
With navy, ch 21.
Row 1: Sc in 2nd ch from hook and in each ch across. (20 sc)
Rows 2-20: Ch 1, turn, sc in each st across. (20 sc)
Row 21: Change to white, ch 1, turn, sc in each st across. (20 sc)
Rows 22-24: Ch 1, turn, sc in each st across. (20 sc)
Row 25: Change to navy, ch 1, turn, sc in each st across. (20 sc)
Rows 26-40: Ch 1, turn, sc in each st across. (20 sc)
Fasten off.
`

func matWalk(text string, look Look, width, height int) (*Walk, *shelf) {
	s := &shelf{}
	w := NewWalk(WalkConfig{
		ID: "mat", Title: "Mooring Mat", Journal: s, Now: (&pinned{noon}).now, Look: look,
		State: counter.Begin(counter.NewPlan(pattern.Read(text).Prove(pattern.Options{}))),
	})
	w.resize(width, height)
	w.open()
	return w, s
}

// rowsOn ends so many rows by their own count.
func rowsOn(w *Walk, n int) {
	for range n {
		press(w, "e", " ")
	}
}

// weighed opens the yarn page and keeps some grams by a key.
func weighed(w *Walk, grams, key string) {
	press(w, "j")
	press(w, strings.Split(grams, "")...)
	press(w, key)
}

var weighMoments = []struct {
	name string
	to   func(*Walk)
}{
	{"before anything is weighed", func(w *Walk) { press(w, " ", " ", " ", "j") }},
	{"weighed once, by the gauge", func(w *Walk) { rowsOn(w, 3); weighed(w, "31.5", "enter") }},
	{"the grams being typed", func(w *Walk) { rowsOn(w, 3); press(w, "j", "3", "1", ".") }},
	{"it lasts easily", func(w *Walk) { weighed(w, "50", "s"); press(w, "esc"); rowsOn(w, 10); weighed(w, "42", "enter") }},
	{"it lasts", func(w *Walk) { weighed(w, "31.5", "s"); press(w, "esc"); rowsOn(w, 10); weighed(w, "23.5", "enter") }},
	{"it may not last", func(w *Walk) {
		weighed(w, "30", "s")
		press(w, "esc")
		rowsOn(w, 10)
		weighed(w, "22", "enter")
		press(w, "esc")
		rowsOn(w, 3)
		press(w, "j")
	}},
	{"it does not last, and the other yarn", func(w *Walk) {
		weighed(w, "20", "s")
		press(w, "esc")
		rowsOn(w, 10)
		weighed(w, "12", "enter")
		press(w, "down", "3")
	}},
}

func TestYarnFrames(t *testing.T) {
	for _, colours := range []Colours{Plain, NoColour, TwoFiftySix, TrueColour} {
		for _, size := range sizes {
			var b strings.Builder
			for _, m := range weighMoments {
				if colours != Plain && m.name != "it may not last" {
					continue
				}
				w, _ := matWalk(mooringMat, Look{Colours: colours, Dark: true}, size.width, size.height)
				m.to(w)
				fmt.Fprintf(&b, "── %s\n%s\n", m.name, visible(w.view()))
			}
			golden(t, fmt.Sprintf("yarn-%s-%dx%d.frame", [...]string{"plain", "nocolour", "16", "256", "true"}[colours], size.width, size.height), b.String())
		}
	}
}

// What is typed is what is noted, with the colour, the ball and the place; and
// Backspace in the row takes it back.
func TestWeighingKeys(t *testing.T) {
	w, s := matWalk(mooringMat, Look{}, 80, 24)
	weighed(w, "50", "s")
	if e := s.last(); e.Kind != counter.Weigh || e.N != 50_000 || e.Text != "navy" || e.Row != counter.AtFirst || e.Copy != 0 {
		t.Errorf("the first weight is %+v", e)
	}
	press(w, "esc")
	rowsOn(w, 10)
	weighed(w, "41,75", "enter")
	if e := s.last(); e.N != 41_750 || e.Text != "navy" || e.Row != counter.OnTheScale {
		t.Errorf("on the scale is %+v", e)
	}
	press(w, "5", "0", "n")
	if e := s.last(); e.N != 50_000 || e.Copy != 1 {
		t.Errorf("the other ball is %+v", e)
	}
	press(w, "4", "s") // the first weight is that of the first ball
	if e := s.last(); e.N != 50_000 || !strings.Contains(w.note, "Another ball is in work") {
		t.Errorf("%+v, and %q", e, w.note)
	}
	press(w, "backspace", "4", "9", "enter")
	if e := s.last(); e.N != 49_000 || e.Copy != 1 {
		t.Errorf("of the other ball is left %+v", e)
	}
	press(w, "down", "9", "enter")
	if e := s.last(); e.N != 9_000 || e.Text != "white" || e.Copy != 0 {
		t.Errorf("of the other yarn is left %+v", e)
	}
	n := len(s.events)
	press(w, "down", " ", "pgdown", "enter") // there is no third; taps wait; Enter with nothing typed closes
	if len(s.events) != n || w.mode != walking {
		t.Errorf("%d events more, mode %d", len(s.events)-n, w.mode)
	}
	press(w, "backspace")
	if e := s.last(); e.Kind != counter.Back || !strings.Contains(w.note, "weighing is taken back") {
		t.Errorf("%+v, %q", e, w.note)
	}
	if all := w.state.Weighings(); len(all) != 4 || all[3].Milligrams != 49_000 {
		t.Errorf("weighed %+v", all)
	}
	press(w, "j", "a", "7", "j")
	if w.mode != walking {
		t.Error("j does not close it")
	}
}

func TestWeighingThatCannotBe(t *testing.T) {
	w, s := matWalk(mooringMat, Look{}, 80, 24)
	n := len(s.events)
	for _, c := range []struct{ keys, note string }{
		{"n", "Type the grams"}, {"s", "Type the grams"}, {".n", "Type the grams"}, {"1.234", "no more of a gram"}, {"1..", "no more of a gram"},
		{"99999999", "No ball of yarn weighs that"}, {"9999999\r", "No ball of yarn weighs that"},
	} {
		press(w, "j")
		for _, k := range strings.Split(c.keys, "") {
			if k == "\r" {
				k = "enter"
			}
			press(w, k)
		}
		if !strings.Contains(w.note, c.note) || len(s.events) != n {
			t.Errorf("%q: %q", c.keys, w.note)
		}
		press(w, "esc")
	}
	looking := NewWalk(WalkConfig{Title: "Mat", State: w.state, Now: (&pinned{noon}).now, LookOnly: "another window has it."})
	looking.resize(80, 24)
	weighed(looking, "20", "enter")
	if !strings.Contains(looking.note, "another window") {
		t.Errorf("while only looking: %q", looking.note)
	}
}

// Read aloud, the page says the answer and each yarn.
func TestYarnSpoken(t *testing.T) {
	w, _ := matWalk(mooringMat, Look{}, 80, 24)
	weighed(w, "20", "s")
	press(w, "esc")
	rowsOn(w, 10)
	weighed(w, "12", "enter")
	told := strings.Join(w.spoken(), "\n")
	for _, want := range []string{"navy does not last", "12 g on the scale", "g too little", "of your own work", "white", "Left of navy"} {
		if !strings.Contains(told, want) {
			t.Errorf("it does not say %q:\n%s", want, told)
		}
	}
	// Once all is worked the page says that as well.
	w, _ = matWalk(mooringMat, Look{}, 80, 24)
	rowsOn(w, 40)
	press(w, "j")
	if told := visible(w.view()); !strings.Contains(told, "finished") || !strings.Contains(told, "720 of 720") {
		t.Errorf("at the end:\n%s", told)
	}
}

// A pattern of many yarns shows the one that is weighed, however low the window.
func TestManyYarns(t *testing.T) {
	var b strings.Builder
	b.WriteString("Flags\nUS terms\n\nFlags\nWith c0, ch 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10 sc)\n")
	for i := range 30 {
		fmt.Fprintf(&b, "Row %d: Change to shade%d, ch 1, turn, sc in each st across. (10 sc)\n", i+2, i)
	}
	w, _ := matWalk(b.String(), Look{}, 60, 12)
	press(w, "j")
	n := len(w.scale.account.Yarns)
	if n < 30 {
		t.Fatalf("%d yarns", n)
	}
	press(w, slices.Repeat([]string{"down"}, 20)...)
	if told := visible(w.view()); !strings.Contains(told, "▸ "+w.onPage().Name) || !strings.Contains(told, "Left of "+w.onPage().Name) {
		t.Errorf("it does not show the one:\n%s", told)
	}
}

// TestWeightIsNotLostByLeaving: grams that are typed and not kept hold the maker
// back once; what she types after is asked about again.
func TestWeightIsNotLostByLeaving(t *testing.T) {
	w, _ := matWalk(mooringMat, Look{}, 80, 24)
	m := &model{page: w}
	m.size(80, 24)
	quits := func(k string) bool {
		_, cmd := m.Update(keyOf(k))
		if cmd == nil {
			return false
		}
		_, is := cmd().(tea.QuitMsg)
		return is
	}
	for _, k := range []string{"j", "4", "1"} {
		if quits(k) {
			t.Fatalf("%s leaves", k)
		}
	}
	if quits("q") {
		t.Fatal("q leaves, and 41 g are lost")
	}
	if page := ansi.Strip(m.View()); !strings.Contains(page, "41 g are typed and not kept") {
		t.Errorf("it does not say so:\n%s", page)
	}
	quits(".")
	quits("5")
	if quits("q") {
		t.Error("q leaves, and 41.5 g are lost")
	}
	if !quits("q") {
		t.Error("q does not leave the second time")
	}
	if _, cmd := m.Update(leaveMsg{}); cmd == nil {
		t.Error("a signal does not end it")
	}
	quits("enter")
	if w.scale.grams != "" || !quits("q") {
		t.Errorf("with the weight kept (%q is typed) q does not leave", w.scale.grams)
	}
}
