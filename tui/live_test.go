package tui

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"

	"crochet/tallyturn/counter"
	"crochet/tallyturn/pattern"
)

const limpet = `Limpet

A small cap for a bollard.

US terms

Rnd 1: 6 sc in magic ring. (6)
Rnd 2: 2 sc in each st around. (12)
Rnd 3: (Sc in next st, 2 sc in next st) 6 times. (18)
Rnd 4: (Sc in next 2 sts, 2 sc in next st) 6 times. (24)
Rnds 5-6: Sc in each st around. (24)
Fasten off.

Finishing
Secure the end.
Press it.
`

// walkText makes a walk through a written pattern.
func walkText(t testing.TB, text string, width, height int) (*Walk, *shelf) {
	t.Helper()
	return walkTextLook(t, text, Look{Colours: Plain, Dark: true}, width, height)
}

func walkTextLook(t testing.TB, text string, look Look, width, height int) (*Walk, *shelf) {
	t.Helper()
	s := &shelf{}
	w := NewWalk(WalkConfig{
		ID: "limpet", Title: "Limpet", State: counter.Begin(counter.NewPlan(pattern.Read(text).Prove(pattern.Options{}))),
		Journal: s, Now: (&pinned{noon}).now, Look: look,
	})
	w.resize(width, height)
	w.open()
	return w, s
}

// keys are names of keys with blanks between them; "4x" presses the next so
// often, "~" is Space.
func keys(text string) (out []string) {
	n := 1
	for word := range strings.FieldsSeq(text) {
		var times int
		if _, err := fmt.Sscanf(word, "%dx", &times); err == nil && strings.HasSuffix(word, "x") {
			n = times
			continue
		}
		if word == "~" {
			word = " "
		}
		out = append(out, slices.Repeat([]string{word}, n)...)
		n = 1
	}
	return out
}

// toRound4 finishes three rounds, counted.
const toRound4 = "s s s 6x ~ "

func TestLiveKeys(t *testing.T) {
	for _, c := range []struct {
		name  string
		keys  string
		row   int
		done  int64
		shows []string
	}{
		{"stride by instruction", "s s s 6x ~ s s ~", 3, 2, []string{"a tap is an instruction", "this tap: 2 stitches: 2 sc in next st"}},
		{"stride by pass shows all of it", "s s s 6x ~ s s s", 3, 0, []string{"a tap is a pass", "A tap is now a pass"}},
		{"a stride of one's own", "5 s ~", 0, 5, []string{"a tap is 5 stitches", "this tap: 1 stitch: 6 sc in magic ring"}},
		{"no stride at all", "0 s", 0, 0, []string{"A tap is at least a stitch."}},
		{"count agrees", "3x ~ c enter", 0, 3, []string{"Your count agrees: 3."}},
		{"count differs", "3x ~ c 2 enter", 0, 3, []string{"✗ 1 SHORT ✗", "you count 2, the tally is 3", "1 short"}},
		{"the tally is off", "3x ~ c 2 enter enter", 0, 2, []string{"The tally was 3; it is now 2"}},
		{"as it is", "3x ~ c 2 enter g", 0, 3, []string{"Kept: 2 counted where the tally is 3."}},
		{"count once more", "3x ~ c 2 enter 3 enter", 0, 3, []string{"Your count agrees: 3."}},
		{"a pedal does not settle it", "3x ~ c 2 enter pgdown", 0, 3, []string{"✗ 1 SHORT ✗", "does nothing here"}},
		{"reasons at the end of a row", toRound4 + "~ 2 2 enter", 3, 24, []string{"✗ 2 SHORT ✗", "2 missed increases in “2 sc in next st” would do it"}},
		{"hunt", toRound4 + "~ 2 3 enter h", 3, 24, []string{"count from the beginning of the round to the end of pass 3 of 6", "By the pattern 12."}},
		{"hunt to the end", toRound4 + "~ 2 3 enter h enter enter 3 enter 2 enter", 3, 24,
			[]string{"✗ 1 SHORT ✗", "row 4, “2 sc in next st” in pass 5 of 6", "Unravel to stitch 19", "Unravel to there"}},
		{"a wrong answer taken back", toRound4 + "~ 2 3 enter h 1 1 enter backspace", 3, 24, []string{"The last answer is taken back.", "the end of pass 3 of 6"}},
		{"the hunt left", toRound4 + "~ 2 3 enter h esc", 3, 24, []string{"The hunt is over."}},
		{"and brought back", toRound4 + "~ 2 3 enter h esc backspace", 3, 24, []string{"the end of pass 3 of 6"}},
		{"a pedal is no answer", toRound4 + "~ 2 3 enter h pgdown", 3, 24, []string{"the end of pass 3 of 6", "does nothing here"}},
		{"hunt with no count", "4x ~ h", 0, 4, []string{"Row 1: count from the beginning of the round to the hook."}},
		{"and nothing wrong", "4x ~ h enter", 0, 4, []string{"✓ The count agrees"}},
		{"hunt in nothing", "h", 0, 0, []string{"That row has no stitches yet."}},
		{"what would follow", toRound4 + "~ 2 3 enter f", 3, 24, []string{"What follows from the difference:", "To come right again, add 1 stitch in row 5.", "✓ rows 5-6: 23 instead of 24"}},
		{"further down", toRound4 + "~ 2 3 enter f down down", 3, 24, []string{"Rnd 4 ✓ rows 5-6: 23 instead of 24"}},
		{"and back to the difference", toRound4 + "~ 2 3 enter f esc", 3, 24, []string{"✗ 1 SHORT ✗"}},
		{"carry on with it", toRound4 + "~ 2 3 enter enter", 4, 0, []string{"Row 4 is kept: 23. All rows after it work. Add 1 in row 5", "stitch 1 of 23"}},
		{"what follows of what is carried", toRound4 + "~ 2 3 enter enter f", 4, 0, []string{"✓ rows 5-6: 23 instead of 24"}},
		{"nothing is carried", "f", 0, 0, []string{"No difference is carried"}},
		{"unravel to the slip", toRound4 + "~ 2 3 enter h enter enter 3 enter 2 enter enter enter", 3, 18, []string{"6 stitches unravelled."}},
		{"what unravelling takes", toRound4 + "~ esc u up 4", 3, 24, []string{"Unravel to row 3, keeping of it [4] stitches", "This rips 38 stitches of 2 rows", "1 count lost"}},
		{"unravel", toRound4 + "~ esc u up 4 enter", 2, 4, []string{"row 3 of 6", "38 stitches unravelled."}},
		{"unravel taken back", toRound4 + "~ esc u up 4 enter backspace", 3, 24, []string{"The last unravelling is taken back."}},
		{"and done again", toRound4 + "~ esc u up 4 enter backspace esc a", 2, 4, []string{"Done again: the unravelling."}},
		{"nothing to unravel", "u enter", 0, 0, []string{"there is nothing to unravel"}},
		{"do again", "3x ~ 2x backspace a", 0, 2, []string{"Done again: 1 stitch."}},
		{"nothing to do again", "~ a", 0, 1, []string{"Nothing was taken back"}},
		{"a marker", "2x ~ m", 0, 2, []string{"Stitch 3 has a marker.", "marker in 3"}},
		{"a marker at the end of a row", "6x ~ m", 0, 6, []string{"Stitch 6 has a marker.", "You count [6]"}},
		{"a note at the end of a row", "6x ~ n h i enter", 0, 6, []string{"The note is kept", "You count [6]"}},
		{"a hunt at the end of a row", "6x ~ h", 0, 6, []string{"count from the beginning of the round to the end of the round"}},
		{"and out of it", "6x ~ h esc", 0, 6, []string{"You count [6]"}},
		{"a marker taken out", "2x ~ m m", 0, 2, []string{"Stitch 3 has no marker any more."}},
		{"a note", "n h i ~ q ? enter", 0, 0, []string{"your note: hi q?", "The note is kept"}},
		{"a note left", "n h i esc", 0, 0, []string{"The note is as it was."}},
		{"a note mended", "n h i enter n backspace o enter", 0, 0, []string{"your note: ho"}},
		{"a note taken away", "n h enter n backspace enter", 0, 0, []string{"The row has no note any more."}},
		{"keys that are no letters", "n up", 0, 0, []string{"up does nothing in a note."}},
		{"the list", "2x ~ m n h enter l", 0, 2, []string{"[marker  row 1, stitch 3]", "note    row 1: h"}},
		{"an empty list", "l", 0, 0, []string{"No markers, notes or differences yet."}},
		{"go to a marker", "2x ~ m 2x ~ l enter", 0, 2, nil},
		{"take it out of the list", "2x ~ m l x", 0, 2, []string{"It is taken out."}},
	} {
		t.Run(c.name, func(t *testing.T) {
			w, _ := walkText(t, limpet, 80, 24)
			press(w, keys(c.keys)...)
			if w.state.Row() != c.row || w.state.Stitch() != c.done {
				t.Errorf("at row %d after %d, want row %d after %d", w.state.Row(), w.state.Stitch(), c.row, c.done)
			}
			frame := strings.Join(strings.Fields(plainFrame(w)), " ")
			for _, s := range c.shows {
				if !strings.Contains(frame, strings.Join(strings.Fields(s), " ")) {
					t.Errorf("the frame does not say %q:\n%s", s, plainFrame(w))
				}
			}
		})
	}
}

func TestTicks(t *testing.T) {
	w, _ := walkText(t, limpet, 80, 24)
	press(w, keys("s s s 12x ~ 2 3 3")...)
	frame := plainFrame(w)
	for _, s := range []string{"Making up", "✓ 2 Press it."} {
		if !strings.Contains(strings.Join(strings.Fields(frame), " "), s) {
			t.Errorf("the frame does not say %q:\n%s", s, frame)
		}
	}
	press(w, "9")
	if frame = plainFrame(w); !strings.Contains(frame, "The making up has no such step.") {
		t.Errorf("a step too far:\n%s", frame)
	}
}

// A note takes what is pasted, on one line, and no letter of it is a command.
func TestPastedNote(t *testing.T) {
	w, _ := walkText(t, limpet, 80, 24)
	m := &model{page: w, width: 80, height: 24}
	m.Update(keyOf("n"))
	m.Update(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune("quite\nloose\x1b[2J"), Paste: true})
	m.Update(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune("?q"), Paste: false})
	if w.draft != "quite loose\x1b[2J?q" {
		t.Errorf("the note is %q", w.draft)
	}
	m.Update(keyOf("enter"))
	if f := plainFrame(w); !strings.Contains(f, "your note: quite loose␛[2J?q") {
		t.Errorf("the frame does not show the note:\n%s", f)
	}
}

func TestLiveFrames(t *testing.T) {
	for _, size := range sizes[:4] {
		var b strings.Builder
		for _, m := range []struct{ name, text, keys string }{
			{"stride", limpet, "s s s 6x ~ s s s"},
			{"checking", limpet, "s s s 6x ~ s 8x ~ c 7 enter"},
			{"hunting", limpet, toRound4 + "~ 2 3 enter h"},
			{"found", limpet, toRound4 + "~ 2 3 enter h enter enter 3 enter 2 enter"},
			{"unravelling", limpet, toRound4 + "~ esc m u up 4"},
			{"following", limpet, toRound4 + "~ 2 3 enter f"},
			{"noting", limpet, "n l o o s e"},
			{"no pace", limpet, "s s s ~ ~ t"},
			{"pace", scarf, "s s s 16x ~ t"},
			{"list", limpet, "2x ~ m n l o o s e enter l"},
		} {
			w, _ := walkText(t, m.text, size.width, size.height)
			press(w, keys(m.keys)...)
			fmt.Fprintf(&b, "── %s\n%s\n", m.name, visible(w.view()))
		}
		golden(t, fmt.Sprintf("live-%dx%d.frame", size.width, size.height), b.String())
	}
}

const scarf = `Quay scarf

US terms

Ch 21.
Row 1: Sc in 2nd ch from hook and in each ch across. (20)
Rows 2-30: Ch 1, turn, sc in each st across. (20)
Row 31: Ch 2 (does not count as a st), turn, hdc in each st across. (20)
`

// The forecast stands on the quiet line at the beginning of a row.
func TestOutlookLine(t *testing.T) {
	w, _ := walkText(t, scarf, 80, 24)
	press(w, keys("s s s 14x ~")...)
	w.note = ""
	if f := plainFrame(w); !strings.Contains(f, "this row 0 to 5 s more") {
		t.Errorf("no forecast:\n%s", f)
	}
}

// changedWalk is a walk in its fourth round whose file says something else by
// now.
func changedWalk(t testing.TB, says string, width, height int) (*Walk, *shelf) {
	t.Helper()
	w, s := walkText(t, limpet, width, height)
	press(w, keys("s s s 6x ~ s 4x ~")...)
	w.end()
	again := NewWalk(WalkConfig{ID: "limpet", Title: "Limpet", State: w.state, Journal: s, Now: w.cfg.Now, Look: w.cfg.Look, Changed: says})
	again.resize(width, height)
	again.open()
	return again, s
}

func TestChangedFile(t *testing.T) {
	ahead := strings.Replace(limpet, "Rnds 5-6:", "Rnds 5-7:", 1)
	made := strings.Replace(limpet, "Rnd 3: (Sc in next st, 2 sc in next st) 6 times. (18)", "Rnd 3: 2 sc in next st, (sc in next st, 2 sc in next st) 5 times, sc in next st. (18)", 1)
	noRow := strings.Replace(limpet, "for a bollard", "for a big bollard", 1)
	for _, c := range []struct {
		name, text, keys string
		shows            []string
		goesOn           bool
	}{
		{"ahead", ahead, "", []string{"The file of this pattern has changed: 1 row.", "✓ No row that is made", "row 7 is new (24)"}, false},
		{"made already", made, "", []string{"✗ Rows that are made already", "made: row 3 says something else (18)"}, false},
		{"go on with it", ahead, "enter", []string{"row 4 of 7", "stitch 5 of 24", "goes on with the new text"}, true},
		{"and back", ahead, "enter backspace", []string{"row 4 of 6", "stitch 5 of 24"}, false},
		{"stay", ahead, "k", []string{"row 4 of 6", "stays with the text"}, false},
		{"not by a pedal", ahead, "pgdown", []string{"does nothing here"}, false},
		{"later", ahead, "esc", []string{"row 4 of 6"}, false},
		{"no row of it", noRow, "", []string{"none of its rows", "row 4 of 6"}, true},
		{"no rows any more", "nothing\n", "", []string{"That pattern has no rows."}, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			w, s := changedWalk(t, c.text, 80, 24)
			press(w, keys(c.keys)...)
			frame := strings.Join(strings.Fields(plainFrame(w)), " ")
			for _, words := range c.shows {
				if !strings.Contains(frame, words) {
					t.Errorf("the frame does not say %q:\n%s", words, plainFrame(w))
				}
			}
			if goesOn := w.state.Plan().Text() == c.text; goesOn != c.goesOn {
				t.Errorf("goes on with the new text: %v", goesOn)
			}
			again, refused := counter.Replay(counter.NewPlan(pattern.Read(limpet).Prove(pattern.Options{})), s.events)
			if refused != nil || again.At() != w.state.At() || again.Plan().Text() != w.state.Plan().Text() {
				t.Errorf("the log leads to %+v, refused %v", again.At(), refused)
			}
		})
	}
	w, _ := changedWalk(t, made, 80, 24)
	golden(t, "changed-80x24.frame", visible(w.view())+"\n")
}

// A piece that sits on another may be gone to at any time, and it is said what
// is missing.
func TestPieceThatWaits(t *testing.T) {
	w, _ := walkText(t, "Quay strip\n\nUS terms\n\nStrip\nCh 21.\nRow 1: Sc in 2nd ch from hook and in each ch across. (20)\nFasten off.\n\n"+
		"Point\nRow 1: Join yarn in 8th st of Row 1 of Strip, sc in same st and in next 4 sts. (5)\n", 120, 30)
	press(w, "r", "right", "enter")
	if f := plainFrame(w); !strings.Contains(f, "It is worked onto row 1 of Strip, which is not made yet.") {
		t.Errorf("the frame does not say so:\n%s", f)
	}
}

// What is asked at the end is shown there too.
func TestQuestionsAtTheEnd(t *testing.T) {
	for _, c := range []struct {
		keys  string
		shows []string
	}{
		{"u", []string{"finished", "Unravel to row 6, keeping of it [0] stitches", "This rips 24 stitches of 1 row"}},
		{"u up enter", []string{"row 5 of 6", "48 stitches unravelled."}},
		{"t", []string{"finished", "Your pace, from 6 rows"}},
		{"backspace esc m n l o o s e enter 2x ~ l", []string{"finished", "[marker row 6, stitch 24]"}},
		{"h", []string{"Every row is worked."}},
		{"m", []string{"there is no stitch in hand to mark"}},
	} {
		for _, size := range sizes[1:3] {
			w, _ := walkText(t, limpet, size.width, size.height)
			press(w, keys("s s s 12x ~ "+c.keys)...)
			frame := strings.Join(strings.Fields(plainFrame(w)), " ")
			for _, words := range c.shows {
				if !strings.Contains(frame, words) {
					t.Errorf("%s: the frame does not say %q:\n%s", c.keys, words, plainFrame(w))
				}
			}
		}
	}
}
