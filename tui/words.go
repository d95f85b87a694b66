package tui

import (
	"slices"
	"strings"

	"crochet/tallyturn/pattern"
)

// The signs by which the words of a row tell their state without colour.
const (
	doneSign  = "✓"
	handOpen  = "["
	handClose = "]"
)

// wordState is how far the maker is with some words.
type wordState uint8

const (
	wordRead   wordState = iota // only to be read
	wordDone                    // worked
	wordLead                    // to do before the stitch in hand
	wordHand                    // in hand
	wordToCome                  // not reached
)

// wording is the words of a row with their state.
type wording []struct {
	text  string // clean
	state wordState
	step  bool // an instruction is known for it
	open  bool // a sign stands before it
	shut  bool // a sign stands after it
}

// wordsOf says of each word of a row whether it is done, in hand or to come,
// going by the instruction that makes the next stitch.
func wordsOf(words []pattern.Word, here pattern.Here, atEnd bool) wording {
	// The words may be cut finer than the proof, or less fine.
	inHand := func(w pattern.Word) bool { return holds(w.Step, here.Step) || holds(here.Step, w.Step) }
	at := slices.IndexFunc(words, inHand)
	if at < 0 && here.Step != nil && !here.Step.Span.Empty() { // or the same words may have been read as another step
		inHand = func(w pattern.Word) bool {
			return w.Step != nil && (here.Step.Span.Contains(w.Step.Span) || w.Step.Span.Contains(here.Step.Span))
		}
		at = slices.IndexFunc(words, inHand)
	}
	steps := slices.ContainsFunc(words, func(w pattern.Word) bool { return w.Step != nil })
	out := make(wording, len(words))
	for i, w := range words {
		out[i].text, out[i].step = Clean(w.Text), w.Step != nil
		switch {
		case !steps:
			out[i].state = wordToCome // as written, all of it
		case w.Step == nil:
			out[i].state = wordRead
		case slices.Contains(here.Lead, w.Step):
			out[i].state = wordLead
		case inHand(w):
			out[i].state = wordHand
		case atEnd || i < at:
			out[i].state = wordDone
		default:
			out[i].state = wordToCome
		}
	}
	out.sign()
	return out
}

// holds reports whether step is inner, or a group or place that inner is part of.
func holds(step, inner *pattern.Step) bool {
	if step == nil || inner == nil {
		return false
	}
	if step == inner {
		return true
	}
	for _, b := range step.Body {
		if holds(b, inner) {
			return true
		}
	}
	return false
}

// sign decides where signs stand: around each stretch in hand, before each
// stretch done. A stretch goes on over text that only joins its words.
func (w wording) sign() {
	for i := range w {
		if s := w[i].state; s == wordRead {
			continue
		}
		prev, next := w.beside(i, -1), w.beside(i, +1)
		w[i].open = prev < 0 || w[prev].state != w[i].state || w[i].state == wordDone
		w[i].shut = next < 0 || w[next].state != w[i].state
	}
}

// beside is the nearest word in a direction that belongs to an instruction, -1
// where there is none.
func (w wording) beside(i, step int) int {
	for i += step; i >= 0 && i < len(w); i += step {
		if w[i].state != wordRead {
			return i
		}
	}
	return -1
}

// written reports whether the row is only there as it is written, and no
// instruction of it is ever in hand.
func (w wording) written() bool {
	for _, word := range w {
		if word.step {
			return false
		}
	}
	return true
}

// instructions are those of the row, each by itself.
func (w wording) instructions() (all []string) {
	for _, word := range w {
		if text := strings.Trim(word.text, " ,;."); word.state != wordRead && text != "" {
			all = append(all, text)
		}
	}
	return all
}

// inHand is the instruction in hand with what is to be done before it, as it is
// written; "" where nothing is in hand.
func (w wording) inHand() string {
	var b strings.Builder
	between := ""
	for _, word := range w {
		switch lit := word.state == wordHand || word.state == wordLead; {
		case lit:
			b.WriteString(between + word.text)
			between = ""
		case b.Len() > 0 && word.state != wordRead: // a second stretch is only lit
			return strings.Trim(b.String(), " ,;.")
		case b.Len() > 0:
			between += word.text
		}
	}
	return strings.Trim(b.String(), " ,;.")
}

var wordRole = [...]role{wordRead: quiet, wordDone: done, wordLead: lead, wordHand: hand, wordToCome: base}

// wrap lays the words out in lines of at most width columns. It also tells on
// which line the instruction in hand begins.
func (w wording) wrap(width int) (lines [][]span, handLine int) {
	if width < 1 {
		return nil, 0
	}
	var f folder
	f.width = width
	hand := false
	for _, word := range w {
		r := wordRole[word.state]
		text := word.text
		lit := word.state == wordHand || word.state == wordLead
		switch {
		case lit && word.open:
			f.mark = !hand // where the maker is begins with the first of them
			hand = true
			text = stick(text, handOpen, true)
		case word.state == wordDone && word.open:
			text = stick(text, doneSign, true)
		}
		if lit && word.shut {
			text = stick(text, handClose, false)
		}
		f.add(r, text)
	}
	return f.finish()
}

// stick puts a sign at the first or last letter of text, inside its blanks.
func stick(text, sign string, front bool) string {
	if front {
		trimmed := strings.TrimLeft(text, " ")
		return text[:len(text)-len(trimmed)] + sign + trimmed
	}
	trimmed := strings.TrimRight(text, " ")
	return trimmed + sign + text[len(trimmed):]
}

// folder breaks spans at blanks into lines.
type folder struct {
	width    int
	lines    [][]span
	line     []span
	used     int
	word     []span // the word being gathered, over the borders of spans
	wordLen  int
	mark     bool // the next letter is where the maker is
	marked   bool
	markLine int
	gap      role // role of the blank before the word
	gapped   bool
	wordMark bool
}

func (f *folder) add(r role, text string) {
	inside := false // a blank here would stand between words of this span
	for text != "" {
		i := strings.IndexByte(text, ' ')
		part := text
		if i >= 0 {
			part = text[:i]
		}
		if part != "" {
			if f.mark {
				f.mark, f.wordMark = false, true
			}
			f.word = append(f.word, span{r, part})
			f.wordLen += cells(part)
			inside = true
		}
		if i < 0 {
			return
		}
		f.flush()
		text = strings.TrimLeft(text[i+1:], " ")
		// Blanks at the ends of a span are not inked as it is: a lit
		// instruction begins and ends with its letters.
		f.gap, f.gapped = base, true
		if inside && text != "" {
			f.gap = r
		}
	}
}

// flush sets the gathered word, on a new line where it does not fit.
func (f *folder) flush() {
	if len(f.word) == 0 {
		return
	}
	if f.used > 0 && f.used+1+f.wordLen > f.width {
		f.newline()
	}
	if f.used > 0 && f.gapped {
		f.line = append(f.line, span{f.gap, " "})
		f.used++
	}
	if f.wordMark && !f.marked {
		f.marked, f.markLine = true, len(f.lines)
	}
	for _, s := range f.word {
		f.split(s)
	}
	f.word, f.wordLen, f.gapped, f.wordMark = nil, 0, false, false
}

// split sets a span that may be wider than the line by itself.
func (f *folder) split(s span) {
	for f.used+cells(s.text) > f.width {
		head := prefix(s.text, f.width-f.used)
		if head == "" {
			if f.used == 0 { // not even one letter fits
				return
			}
			f.newline()
			continue
		}
		f.line = append(f.line, span{s.role, head})
		s.text = s.text[len(head):]
		f.newline()
	}
	if s.text != "" {
		f.line = append(f.line, s)
		f.used += cells(s.text)
	}
}

func (f *folder) newline() {
	f.lines = append(f.lines, f.line)
	f.line, f.used = nil, 0
}

func (f *folder) finish() ([][]span, int) {
	f.flush()
	if f.used > 0 {
		f.newline()
	}
	return f.lines, f.markLine
}

// fold breaks one clean text into lines of at most width columns.
func fold(r role, text string, width int) [][]span {
	if width < 1 {
		return nil
	}
	f := folder{width: width}
	f.add(r, text)
	lines, _ := f.finish()
	return lines
}

// foldSpans breaks spans into lines of at most width columns.
func foldSpans(spans []span, width int) [][]span {
	f := folder{width: max(width, 1)}
	for _, s := range spans {
		f.add(s.role, s.text)
	}
	lines, _ := f.finish()
	return lines
}

// scroll picks n lines around the one in hand, and says by a sign where more
// stands above or below.
func scroll(lines [][]span, hand, n, width int) [][]span {
	if n <= 0 {
		return nil
	}
	if len(lines) <= n {
		return lines
	}
	first := min(max(hand-n/3, 0), len(lines)-n)
	out := append([][]span(nil), lines[first:first+n]...)
	if first > 0 {
		out[0] = append([]span{{quiet, "… "}}, clipSpans(out[0], width-2)...)
	}
	if first+n < len(lines) {
		out[n-1] = goesOn(out[n-1], width)
	}
	return out
}
