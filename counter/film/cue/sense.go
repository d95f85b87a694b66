package cue

import (
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"
)

// What a caption may hold. Forty-two characters a line and two lines are in the
// timed-text guide of a large streaming service, as a university library has
// adopted it, and in other guides for captions.
const (
	LineLength = 42
	Lines      = 2
)

// What it costs to part two words. The guides agree on the order: after
// punctuation; before conjunctions and prepositions; not between an article, an
// adjective or a preposition and what it belongs to. That a number stays with
// its stitches is our own rule, and the figures are our choice.
const (
	afterSentence = 0
	afterPause    = 4  // a comma, a colon, a bracket
	beforeAnd     = 8  // a conjunction
	beforeIn      = 10 // a preposition
	anywhere      = 25
	afterAnd      = 70  // a conjunction or preposition, with more to come
	afterThe      = 120 // an article, an adjective, half of a stitch's name
	afterRow      = 400 // what is numbered: row | two
	afterNumber   = 2000
	perCaption    = 25 // a caption more
)

// block is the text of one caption: a line or two.
type block []string

func (b block) chars() int {
	n := 0
	for _, line := range b {
		n += utf8.RuneCountInString(line)
	}
	return n + len(b) - 1
}

// blocks breaks text into captions at the places where breaking costs least in
// all. No line is longer than width characters; a word that is longer is cut.
func blocks(text string, width, lines int) []block {
	words := cutWords(strings.Fields(text), width)
	n := len(words)
	if n == 0 {
		return nil
	}
	// best[k][i] is the least that the first i words cost with k lines of a
	// caption open after them; came says where its last line began, and with
	// how many lines open before it.
	const never = int(^uint(0) >> 1)
	type came struct{ from, open int }
	best := make([][]int, lines)
	last := make([][]came, lines)
	for k := range best {
		best[k] = make([]int, n+1)
		last[k] = make([]came, n+1)
		for i := range best[k] {
			best[k][i] = never
		}
	}
	best[0][0] = 0
	parting := partings(words)
	better := func(k, i, cost int, c came) {
		if cost < best[k][i] {
			best[k][i], last[k][i] = cost, c
		}
	}
	for i := range n {
		for k := range lines {
			if best[k][i] == never {
				continue
			}
			length := -1
			for j := i; j < n; j++ {
				if length += 1 + utf8.RuneCountInString(words[j]); length > width {
					break
				}
				empty := width - length
				cost := best[k][i] + empty*empty/40
				better(0, j+1, cost+4*parting[j]+perCaption, came{i, k})
				if k+1 < lines && j+1 < n {
					better(k+1, j+1, cost+parting[j], came{i, k})
				}
			}
		}
	}
	var out []block
	for i, k := n, 0; i > 0; {
		c := last[k][i]
		line := strings.Join(words[c.from:i], " ")
		if k == 0 { // it ends a caption
			out = append(out, block{line})
		} else {
			out[len(out)-1] = append(out[len(out)-1], line)
		}
		i, k = c.from, c.open
	}
	// Captions and their lines were found from the end.
	for i, j := 0, len(out)-1; i < j; i, j = i+1, j-1 {
		out[i], out[j] = out[j], out[i]
	}
	for _, b := range out {
		for i, j := 0, len(b)-1; i < j; i, j = i+1, j-1 {
			b[i], b[j] = b[j], b[i]
		}
	}
	return out
}

// cutWords cuts words that are longer than a line. Marks stay with the letter
// they are on.
func cutWords(words []string, width int) []string {
	var out []string
	for _, w := range words {
		for utf8.RuneCountInString(w) > width {
			runes := []rune(w)
			at := width
			for at > 1 && unicode.IsMark(runes[at]) {
				at--
			}
			out, w = append(out, string(runes[:at])), string(runes[at:])
		}
		out = append(out, w)
	}
	return out
}

// partings says of each word what it costs to part it from the next.
func partings(words []string) []int {
	bare := make([]string, len(words))
	for i, w := range words {
		bare[i] = strings.ToLower(strings.TrimFunc(w, func(r rune) bool { return unicode.IsPunct(r) }))
	}
	out := make([]int, len(words))
	for i := range len(words) - 1 {
		out[i] = parting(words[i], bare, i)
	}
	return out
}

func parting(word string, bare []string, i int) int {
	next := bare[i+1]
	switch closed := strings.TrimRight(word, `"'”’»)]`); {
	case strings.HasSuffix(closed, ".") || strings.HasSuffix(closed, "!") || strings.HasSuffix(closed, "?") || strings.HasSuffix(closed, "…"):
		return afterSentence
	case closed != strings.TrimRight(closed, ",;:–—") || strings.HasSuffix(word, ")") || strings.HasSuffix(word, "]"):
		return afterPause
	}
	last := bare[i]
	k := kinds()
	switch {
	case k.numbers[last] || digits(last):
		return afterNumber
	case last == "and" && i > 0 && k.numbers[bare[i-1]] && k.numbers[next]: // two hundred and five
		return afterNumber
	case k.joins[last] && i > 0 && k.numbers[bare[i-1]] && k.numbers[next]: // two to | nine
		return afterNumber
	case k.counted[last] && (k.numbers[next] || digits(next)): // row | two
		return afterRow
	case k.belongs[last]:
		return afterThe
	case k.conjunctions[last] || k.prepositions[last]:
		return afterAnd
	case k.conjunctions[next]:
		return beforeAnd
	case k.prepositions[next]:
		return beforeIn
	}
	return anywhere
}

// digits tells whether a word is a number in figures, or begins as one: 3, 1st,
// 2nd.
func digits(w string) bool { return w != "" && w[0] >= '0' && w[0] <= '9' }

func set(words string) map[string]bool {
	m := map[string]bool{}
	for _, w := range strings.Fields(words) {
		m[w] = true
	}
	return m
}

// wordKinds are words by what may be broken before or after them.
type wordKinds struct{ conjunctions, prepositions, joins, counted, belongs, numbers map[string]bool }

// kinds are sorted out when the first line is broken: most starts of the
// program break none.
var kinds = sync.OnceValue(func() *wordKinds {
	return &wordKinds{
		conjunctions: set(`and or but nor so yet then while until till when where if because as that which who than
		before after once unless`),
		prepositions: set(`in into of from to with without on onto over around across at by for through along under
		between behind above below off per past up down inside within`),
		joins:   set(`to through and or`),
		counted: set(`row rows round rounds rnd rnds chain chains step take size page`),
		// belongs are words that are said with the one after them.
		belongs: set(`a an the this that these those each every any no all both some same other another next last
		first second third fourth fifth sixth seventh eighth ninth tenth final previous
		your my our its their his her you we i they it he she is are was were be been will would can could should
		must may might do does did have has had not to let
		single half double treble triple quadruple slip front back magic turning foundation starting beginning
		working right wrong very more`),
		// numbers and what is said with them: once, twice, hundred.
		numbers: numberWords(),
	}
})

// numberWords are the numbers in words, those below a hundred joined with a
// hyphen as they are spelt.
func numberWords() map[string]bool {
	m := set(`zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen
		sixteen seventeen eighteen nineteen hundred thousand million billion dozen`)
	for _, tens := range strings.Fields("twenty thirty forty fifty sixty seventy eighty ninety") {
		m[tens] = true
		for _, ones := range strings.Fields("one two three four five six seven eight nine") {
			m[tens+"-"+ones] = true
		}
	}
	return m
}
