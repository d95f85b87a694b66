package tui

import (
	"fmt"
	"strings"
)

// The words to say, as large as they go. Where they are too many to stand large
// at once they come in parts, which Down and Up turn.

// prompt is where she is with the words of a row.
type prompt struct {
	of string // the words
	at int    // the part that she says begins or goes on here, in bytes
	to int    // where the next part begins; len(of) in the last
	up int    // where the part before begins

	laid typeset
}

// typeset is how the words lie in a window: in block letters at a scale, or in
// ordinary type, and where their parts begin.
type typeset struct {
	width, high int // of the room there is
	scale       int // ordinary for no block letters
	starts      []int
}

const ordinary = little - 1

// aloud is the prompt of the words of the row in hand; from their beginning
// where they are others.
func (w *Walk) aloud() *prompt {
	p := &w.film.prompt
	if text := Clean(w.said().Text); p.of != text {
		*p = prompt{of: text}
	}
	return p
}

// turn goes to the next part of the words, or to the one before.
func (w *Walk) turn(by int) {
	f := w.frame()
	f.filmed() // tells where the parts begin
	p := w.aloud()
	switch {
	case by > 0 && p.to < len(p.of):
		p.at = p.to
	case by < 0:
		p.at = p.up
	}
}

// mostParts is how many parts the words may come in for the sake of larger
// letters, and mostLittle for the sake of any.
const (
	mostParts  = 3
	mostLittle = 8
)

// leastLarge is how many lines there are for words in parts: less holds no
// sense.
const leastLarge = 7

// prompt is what is said of the row in hand, in at most high lines: in block
// letters, at once or in parts, and else in lines with the sentence in hand lit.
func (f *frame) prompt(high int) [][]span {
	p := f.w.aloud()
	if p.of == "" {
		return [][]span{{{quiet, "Nothing is said of this row."}}}
	}
	if p.laid.width != f.inner || p.laid.high != high {
		p.laid = f.lay(p.of, high)
	}
	n := p.part(p.laid.starts)
	if p.laid.scale != ordinary {
		rows, _ := f.brush().fit(p.of[p.at:p.to], p.laid.scale, f.inner, high)
		out := f.brush().set(figure2, rows, p.laid.scale)
		if len(p.laid.starts) == 1 {
			return out
		}
		return append(append(out, nil), f.afterPart(n, len(p.laid.starts), high-len(out)-1)...)
	}
	var words folder
	words.width = min(f.inner, wordsWide)
	words.add(quiet, p.of[:p.at])
	words.mark = true
	inHand := p.of[p.at:p.to]
	if len(p.laid.starts) > 1 {
		inHand = stick(stick(inHand, handOpen, true), handClose, false)
	}
	words.add(strong, inHand)
	words.add(quiet, p.of[p.to:])
	lines, at := words.finish()
	if len(lines) > high {
		return scroll(lines, at, high, f.inner)
	}
	if len(lines)*2-1 <= high { // air between them
		airy := lines[:1:1]
		for _, l := range lines[1:] {
			airy = append(airy, nil, l)
		}
		return airy
	}
	return lines
}

// lay lays words into so many lines.
func (f *frame) lay(text string, high int) typeset {
	l := typeset{width: f.inner, high: high}
	if scale, _, ok := f.brush().scaleFor(text, biggest, f.inner, high); ok {
		l.scale, l.starts = scale, []int{0}
	} else if scale, starts, ok := f.parts(text, high-promptFoot); ok {
		l.scale, l.starts = scale, starts
	} else {
		l.scale, l.starts = ordinary, sentencesIn(text)
	}
	return l
}

// part finds the part in hand among those that begin at some places, from 0.
func (p *prompt) part(starts []int) (n int) {
	for n+1 < len(starts) && starts[n+1] <= p.at {
		n++
	}
	p.at, p.to, p.up = starts[n], len(p.of), starts[max(n-1, 0)]
	if n+1 < len(starts) {
		p.to = starts[n+1]
	}
	return n
}

// promptFoot is how many lines stand below a part: a free one, and what comes
// after it.
const promptFoot = 2

// afterPart tells which part of the words it is, and what comes after it, in as
// many lines as there are, one at least.
func (f *frame) afterPart(n, of, high int) (out [][]span) {
	p := f.w.aloud()
	head := []span{{accent, fmt.Sprintf("%d of %d   ", n+1, of)}}
	if p.to == len(p.of) {
		return [][]span{append(head, span{quiet, f.w.named(keyWordsBack) + " turns back"})}
	}
	head = append(head, span{figure2, f.w.named(keyWordsOn) + "  "})
	wide := spanCells(head)
	rest := fold(quiet, p.of[p.to:], min(f.inner, wordsWide)-wide-2)
	for i, l := range rest[:min(len(rest), max(high, 1))] {
		if i > 0 {
			head = []span{{base, strings.Repeat(" ", wide)}}
		}
		out = append(out, append(head, l...))
	}
	if len(out) < len(rest) {
		out[len(out)-1] = goesOn(out[len(out)-1], f.inner)
	}
	return out
}

// parts cuts text into parts that fit so many lines in block letters: where
// they begin, and the scale of the letters.
func (f *frame) parts(text string, high int) (scale int, starts []int, ok bool) {
	if high < leastLarge {
		return 0, nil, false
	}
	if starts, ok = f.partsAt(text, 1, high); ok && len(starts) <= mostParts {
		return 1, starts, true
	}
	starts, ok = f.partsAt(text, little, high)
	return little, starts, ok && len(starts) <= mostLittle
}

// partsAt cuts text into parts at a scale: after a sentence if one ends in it,
// or else after a comma, or else between words.
func (f *frame) partsAt(text string, scale, high int) (starts []int, ok bool) {
	fits := func(s string) bool {
		_, ok := f.brush().fit(s, scale, f.inner, high)
		return ok
	}
	for at := 0; at < len(text); {
		starts = append(starts, at)
		if fits(text[at:]) {
			return starts, true
		}
		end := 0
		for _, stops := range []string{".!?", ",;:", ""} {
			if end = lastFit(text[at:], stops, fits); end > 0 {
				break
			}
		}
		if end == 0 { // not even a word
			return nil, false
		}
		at += end
	}
	return starts, len(starts) > 0
}

// lastFit is where the longest beginning of text ends that fits and whose last
// sign but blanks is one of stops, or any where there are none; 0 for none. It
// takes in the blank after it.
func lastFit(text, stops string, fits func(string) bool) (end int) {
	for i := 1; i < len(text); i++ {
		if text[i] != ' ' || stops != "" && !strings.ContainsRune(stops, rune(text[i-1])) {
			continue
		}
		if !fits(text[:i]) {
			break
		}
		end = i + 1
	}
	return end
}

// sentencesIn is where the sentences of a text begin.
func sentencesIn(text string) []int {
	starts := []int{0}
	for i := 1; i+1 < len(text); i++ {
		if text[i] == ' ' && strings.IndexByte(".!?", text[i-1]) >= 0 {
			starts = append(starts, i+1)
		}
	}
	return starts
}
