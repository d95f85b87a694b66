package spoken

import (
	"errors"
	"strconv"
	"strings"
	"unicode/utf8"
)

// Rate is how fast words are read aloud, in words a minute, pauses among them.
// The zero Rate is [DefaultRate].
type Rate float64

// DefaultRate is a calm reading to hands that are busy: the middle of the 110
// to 150 words a minute that are published for friendly talk, and below the
// 150 of ordinary talk (US National Center for Voice and Speech, as quoted in
// print) and the 150 to 160 that publishers ask of recorded books.
const DefaultRate Rate = 130

// The rates that are taken. Nobody reads a pattern slower or faster.
const (
	SlowestRate Rate = 40
	FastestRate Rate = 400
)

func (r Rate) orDefault() Rate {
	if r <= 0 || r != r {
		return DefaultRate
	}
	return min(max(r, SlowestRate), FastestRate)
}

// Milliseconds is how long text takes to read aloud at a rate. Not every word
// is as long as every other: it counts syllables and letters and the pauses at
// commas and full stops, and is set so that running prose has as many words a
// minute as the rate says. Figures count as the words they are read as.
func Milliseconds(text string, rate Rate) int64 {
	return int64(float64(weigh(text))*60/float64(rate.orDefault()) + 0.5)
}

// ErrTiming is for a timed reading that tells nothing about a rate: no words,
// no time, or a rate beyond [SlowestRate] and [FastestRate].
var ErrTiming = errors.New("the reading was too short, too slow or too fast to tell a rate")

// Timed is the rate of someone who read text aloud in so many milliseconds.
// Milliseconds of the same text at that rate gives the same time again.
func Timed(text string, ms int64) (Rate, error) {
	w := weigh(text)
	if w == 0 || ms <= 0 {
		return 0, ErrTiming
	}
	r := Rate(float64(w) * 60 / float64(ms))
	if r < SlowestRate || r > FastestRate {
		return 0, ErrTiming
	}
	return r, nil
}

// The lengths of what is said, in thousandths of an average word of prose.
// They are the least squares of espeak-ng's times for some 170 lines of scripts
// and prose (TestModelAgainstEspeak holds them against others).
const (
	perSyllable = 250
	perLetter   = 130
	perComma    = 1300
	perStop     = 1780
)

// weigh is the length of text in thousandths of an average word.
func weigh(text string) int64 {
	total := int64(0)
	for i := 0; i < len(text); {
		c := text[i]
		j := i + 1
		switch {
		case isLetter(c):
			for j < len(text) && isLetter(text[j]) {
				j++
			}
			word := strings.ToLower(text[i:j])
			total += perSyllable*int64(syllables(word)) + perLetter*int64(utf8.RuneCountInString(word))
		case isDigit(c):
			for j < len(text) && isDigit(text[j]) {
				j++
			}
			if n, err := strconv.ParseInt(text[i:j], 10, 64); err == nil {
				total += weigh(cardinal(n, false))
			} else {
				total += weigh(digits(text[i:j]))
			}
		case j < len(text) && text[j] != ' ' && text[j] != '\n':
		case c == ',' || c == ';' || c == ':':
			total += perComma
		case c == '.' || c == '!' || c == '?':
			total += perStop
		}
		i = j
	}
	return total
}

func isLetter(c byte) bool {
	return 'a' <= c && c <= 'z' || 'A' <= c && c <= 'Z' || c == '\'' || c >= utf8.RuneSelf
}

func isDigit(c byte) bool { return '0' <= c && c <= '9' }

// syllables counts the groups of vowels of a word in lower case, less what is
// not heard.
func syllables(word string) int {
	n, vowel := 0, false
	for i := 0; i < len(word); i++ {
		v := strings.IndexByte("aeiouy", word[i]) >= 0
		if v && !vowel {
			n++
		}
		vowel = v
	}
	switch l := len(word); {
	case l > 2 && word[l-1] == 'e' && !strings.HasSuffix(word, "le"):
		if n > 1 {
			n--
		}
	case l > 3 && strings.HasSuffix(word, "ed") && word[l-3] != 't' && word[l-3] != 'd':
		if n > 1 {
			n--
		}
	}
	return max(n, 1)
}
