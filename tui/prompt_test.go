package tui

import (
	"strings"
	"testing"
	"unicode/utf8"
)

// The little letters can all be told apart, and there is one for each of the
// others.
func TestLittleLetters(t *testing.T) {
	seen := map[string]rune{}
	for r, points := range littleLetters {
		for _, line := range points {
			if len(line) != len(points[0]) {
				t.Errorf("%c has lines of %d and of %d points", r, len(points[0]), len(line))
			}
		}
		// Quotation marks are alike, as on a typewriter, and so are dashes.
		looks := strings.Join(points[:], "\n")
		if other, twice := seen[looks]; twice && r != '“' && r != '”' && r != '-' && r != '–' {
			t.Errorf("%c looks as %c does", r, other)
		}
		seen[looks] = r
	}
	for r := range pointLetters() {
		if littleLetters[r] == nil {
			t.Errorf("there is no little %c", r)
		}
	}
	for d := '0'; d <= '9'; d++ {
		if littleLetters[d] == nil {
			t.Errorf("there is no little %c", d)
		}
	}
	if got, want := (brush{}).letterLines(little), 3; got != want {
		t.Errorf("they take %d lines, not %d", got, want)
	}
}

// In an ordinary window the words to say come in large letters, a part at a
// time; all of them come, each once, and none is cut.
func TestPromptInParts(t *testing.T) {
	for _, look := range []Look{{Colours: Plain}, {Colours: Plain, ASCII: true}} {
		for _, size := range []struct{ width, height int }{{80, 24}, {100, 30}, {120, 40}} {
			if look.ASCII && size.height < 40 {
				continue // letters of whole cells have no room
			}
			w, _, _ := filmWalk(t, look, size.width, size.height)
			for range 3 {
				whole := Clean(w.said().Text)
				got, parts := "", 0
				for {
					view := w.view()
					p := w.aloud()
					part := p.of[p.at:p.to]
					if !largeIn(look, view, part, w.frame().inner) {
						t.Fatalf("%dx%d: %q is not in large letters:\n%s", size.width, size.height, part, view)
					}
					got += part
					parts++
					if p.to == len(p.of) {
						break
					}
					press(w, "down")
				}
				if got != whole {
					t.Errorf("%dx%d: the parts come to %q, the words are %q", size.width, size.height, got, whole)
				}
				for range parts {
					press(w, "up")
				}
				if w.aloud().at != 0 {
					t.Errorf("%dx%d: after %d times Up the words go on at %d", size.width, size.height, parts, w.aloud().at)
				}
				press(w, "down")
				press(w, append(times(" ", 20), "enter")...) // the next row begins at its beginning
				if w.aloud().at != 0 {
					t.Errorf("%dx%d: the words of the next row go on at %d", size.width, size.height, w.aloud().at)
				}
				if w.state.Finished() {
					break
				}
			}
		}
	}
}

// largeIn reports whether text stands in a view in letters of some scale.
func largeIn(look Look, view, text string, width int) bool {
	pen := look.brush()
	for scale := little; scale <= biggest; scale++ {
		rows, _ := pen.fit(text, scale, width, 1000)
		all := len(rows) > 0
		for _, r := range rows {
			for _, l := range pen.text(r, scale) {
				if look.ASCII {
					l = strings.ReplaceAll(l, "█", "#")
				}
				all = all && strings.Contains(view, strings.TrimRight(l, " "))
			}
		}
		if all {
			return true
		}
	}
	return false
}

// In a small window the words are in ordinary type, and the sentence in hand is
// in the window and stands out. A larger window goes on with that sentence.
func TestPromptBySentence(t *testing.T) {
	w, _, _ := filmWalk(t, Look{Colours: TrueColour, Dark: true}, 40, 12)
	press(w, append(times(" ", 20), "enter")...)
	starts := sentencesIn(w.aloud().of)
	if len(starts) < 3 {
		t.Fatalf("%q is too short for this", w.aloud().of)
	}
	for i, at := range starts {
		lines := w.frame().prompt(3)
		lit := ""
		for _, l := range lines {
			for _, s := range l {
				if s.role == strong {
					lit += s.text
				}
			}
		}
		first := strings.Fields(w.aloud().of[at:])[0]
		if w.aloud().at != at || !strings.HasPrefix(lit, handOpen+first) {
			t.Fatalf("sentence %d begins at %d with %q; %q is lit, from %d", i+1, at, first, lit, w.aloud().at)
		}
		press(w, "down")
	}
	press(w, "up")
	at := w.aloud().at
	w.resize(80, 24)
	w.view()
	if p := w.aloud(); at < p.at || at >= p.to {
		t.Errorf("the words went on at %d, in a larger window they show %d to %d", at, p.at, p.to)
	}
	if !utf8.ValidString(w.view()) {
		t.Error("a letter is cut")
	}
}
