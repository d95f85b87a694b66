package pattern

import (
	"fmt"
	"strings"
	"unicode"
)

// Behind a row there often stands what belongs to no row: how the piece is finished, what
// the author thinks of it, what is done with the loop at its corner. Where such words are
// not understood, the row before them is none the worse for it.

// behindRow reports whether words that were not understood stand behind a row that is
// already told: in a later sentence than its total, or in a paragraph below its work.
func (w *pieceWork) behindRow(row *Row, sp Span, total *Total) bool {
	src, done := w.pr.pat.Source, row.labelSpan.End
	for _, s := range row.Steps {
		if makesStitches(s) || s.Op == OpSkip {
			done = max(done, s.Span.End)
		}
	}
	if row.Refer != nil {
		done = max(done, row.Refer.Span.End)
	}
	if total != nil && !total.delta && !total.first && row.Span.Contains(total.Span) {
		done = max(done, total.Span.End)
		if done == total.Span.End && done <= sp.Start && src.sentenceFrom(done, sp.Start) {
			return true
		}
	}
	if done <= row.labelSpan.End || done > sp.Start {
		return false
	}
	return src.paragraphFrom(done, sp.Start) || row.Refer != nil && !stepsMake(row.Steps) && src.sentenceFrom(done, sp.Start)
}

// sentenceFrom reports whether a sentence begins between two places in the text, or at
// the second.
func (s *Source) sentenceFrom(from, to int) bool {
	words := s.Slice(Span{from, to})
	if from > 0 && strings.ContainsRune(")]", rune(s.Text[from-1])) && strings.TrimSpace(words) == "" {
		return startsUpper(s.Text[to:])
	}
	for i := 0; i < len(words); i++ {
		if strings.IndexByte(".!?\n", words[i]) >= 0 && startsUpper(s.Text[from+i+1:]) {
			return true
		}
	}
	return false
}

// paragraphFrom reports whether a line that begins a sentence begins between two places in
// the text, behind one that does not end in mid-sentence.
func (s *Source) paragraphFrom(from, to int) bool {
	words := s.Slice(Span{from, to})
	for i := 0; i < len(words); i++ {
		if words[i] != '\n' {
			continue
		}
		before := strings.TrimRight(words[:i], " \t\r")
		if (before == "" || strings.IndexByte(".!?)]\n", before[len(before)-1]) >= 0) && startsUpper(s.Text[from+i+1:]) {
			return true
		}
	}
	return false
}

// startsUpper reports whether text begins with a capital, past blanks and bullets.
func startsUpper(s string) bool {
	for _, r := range s[:min(len(s), 24)] {
		switch {
		case unicode.IsUpper(r):
			return true
		case unicode.IsSpace(r), strings.ContainsRune("*-\u2022\u2013\"'(", r):
		default:
			return false
		}
	}
	return false
}

// lookBehind says which words behind a row were not understood. Those that may ask for
// work leave it open what the next row stands on.
func (w *pieceWork) lookBehind(row *Row, bad []Span) {
	told := w.markPast(row)
	for _, sp := range bad {
		words, sev, code := w.pr.pat.Source.Slice(sp), Note, CodeReading
		if asksForWork(words) {
			sev, code = Warning, CodeUnread
			if w.pr.asks == nil {
				w.pr.asks = make(map[*Row]bool)
			}
			w.pr.asks[row] = true
		}
		if !told {
			w.pr.say(sev, code, sp, fmt.Sprintf("%q is not understood, and is taken for no part of %s", oneLine(words), row.Label), "")
		}
	}
}
