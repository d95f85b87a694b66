package pattern

import (
	"fmt"
	"strings"
)

// wordSet is a list of words and marks that is asked for at nearly every token.
//
// The lexer looks each word up once and gives its token a number, which a set
// has a bit for: to ask for a long list costs what it costs to ask for one word.
// Lists that are asked for less often stand where they are asked for, in isAny.
type wordSet [maxListed / 64]uint64

// maxListed is how many words the sets and the openings may have in all.
const maxListed = 4096

// newWordSet makes a set of words parted by spaces. All sets are made while the
// package starts; which bits they have is settled with the vocabulary, when the
// first text is read, so that a start that reads none does not wait for it, nor
// for the memory.
func newWordSet(words string) *wordSet {
	setWords[setsMade] = words
	setsMade++
	return &setBits[setsMade-1]
}

// maxSets is how many sets there may be.
const maxSets = 128

// The sets, and the words they are made of.
var (
	setBits  [maxSets]wordSet
	setWords [maxSets]string
	setsMade int
)

// fill gives the words of a set their numbers, and it their bits.
func (s *wordSet) fill(words string, vocabulary map[string]meaning) {
	for _, w := range strings.Fields(words) {
		m, ok := vocabulary[w]
		if !ok {
			m.kind = tWord
		}
		if m.id == 0 {
			m.id = listed(w)
			vocabulary[w] = m
		}
		s[m.id/64] |= 1 << (m.id % 64)
	}
}

// listedWords counts the words with a number. 0 is for all others, and is in no set.
var listedWords uint16

// listed numbers a word.
func listed(w string) uint16 {
	if listedWords++; listedWords >= maxListed {
		panic(fmt.Sprintf("no number is left for %q: raise maxListed", w))
	}
	if len(w) == 1 {
		markIDs[w[0]] = listedWords
	}
	return listedWords
}

// markIDs are the numbers of the marks of ASCII.
var markIDs [256]uint16

// in reports whether a token is one of the words or marks of a set.
func (t *token) in(s *wordSet) bool { return s[t.id/64%(maxListed/64)]&(1<<(t.id%64)) != 0 }

// acceptIn takes the next token if it is in the set.
func (x *rowReader) acceptIn(s *wordSet) bool {
	if x.peek().in(s) {
		x.p++
		return true
	}
	return false
}
