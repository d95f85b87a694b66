package pattern

import (
	"regexp"
	"slices"
	"strings"
	"sync"
)

// Write gives the source with numbers changed, each in the way that it was
// written: "8th" becomes "12th", "twice" becomes "3 times". Of several sets of
// changes each is a size: where they differ all of them are written, as in
// "8 (12, 16)". Changes that overlap are left out but for the first.
func (s *Source) Write(sizes ...Changes) string {
	var spans []Span
	seen := make(map[Span]bool)
	for _, c := range sizes {
		for sp := range c {
			if !seen[sp] {
				seen[sp] = true
				spans = append(spans, sp)
			}
		}
	}
	slices.SortFunc(spans, func(a, b Span) int {
		if a.Start != b.Start {
			return a.Start - b.Start
		}
		return a.End - b.End
	})
	var b strings.Builder
	at := 0
	for _, sp := range spans {
		if sp.Start < at || sp.End > len(s.Text) || sp.Empty() {
			continue
		}
		old := s.Slice(sp)
		numbers := make([]int64, len(sizes))
		for i, c := range sizes {
			n, ok := c[sp]
			if !ok {
				n = numberIn(old)
			}
			numbers[i] = n
		}
		b.WriteString(s.Text[at:sp.Start])
		fresh := inSizes(old, numbers)
		at = sp.End
		if least := slices.Min(numbers); least > 1 || slices.Max(numbers) == 1 {
			fresh, at = agreeing(s.Text, sp, fresh, least)
		}
		b.WriteString(fresh)
	}
	b.WriteString(s.Text[at:])
	return b.String()
}

// inSizes writes numbers in the place of one: one of them where all are the
// same.
func inSizes(old string, numbers []int64) string {
	if i := strings.IndexAny(old, "([{"); i > 0 {
		old = strings.TrimRight(old[:i], " ") // it was written in several sizes itself
	}
	if slices.Min(numbers) == slices.Max(numbers) {
		return renumber(old, numbers[0], 0)
	}
	tail := ""
	if !strings.ContainsAny(old, "0123456789") {
		switch lower := strings.ToLower(old); lower {
		case "once", "twice", "thrice":
			old, tail = "1", " times"
		default:
			if numberWord(old, 1) == "1st" {
				old = "1st"
			} else {
				old = "1"
			}
		}
	}
	words := make([]string, len(numbers))
	for i, n := range numbers {
		words[i] = renumber(old, n, 0)
	}
	return words[0] + " (" + strings.Join(words[1:], ", ") + ")" + tail
}

// numberIn is the number that is written: 8 of "8", "8th", "eight".
func numberIn(s string) int64 {
	n, any := int64(0), false
	for i := 0; i < len(s); i++ {
		if s[i] >= '0' && s[i] <= '9' {
			n, any = min(n*10+int64(s[i]-'0'), maxNumber), true
		} else if any {
			break
		}
	}
	if any {
		return n
	}
	lower := strings.ToLower(s)
	for i, w := range []string{"once", "twice", "thrice"} {
		if lower == w {
			return int64(i + 1)
		}
	}
	for i, w := range smallNumbers {
		if lower == w || lower == ordinalWord(w) {
			return int64(i)
		}
	}
	return -1
}

// ordinalWord is a small number as an ordinal: "five", "fifth".
func ordinalWord(w string) string {
	switch w {
	case "one":
		return "first"
	case "two":
		return "second"
	case "three":
		return "third"
	case "five":
		return "fifth"
	case "eight":
		return "eighth"
	case "nine":
		return "ninth"
	case "twelve":
		return "twelfth"
	case "twenty":
		return "twentieth"
	}
	return w + "th"
}

var (
	manyAfter = sync.OnceValue(func() *regexp.Regexp {
		return regexp.MustCompile(`(?i)^(?: (?:more|further|additional))? (?:time|st|stitche?|ch|chain|row|rnd|round|sp|space)(s)\b`)
	})
	oneAfter = sync.OnceValue(func() *regexp.Regexp {
		return regexp.MustCompile(`(?i)^(?: (?:more|further|additional))? (?:time|st|stitch|row|rnd|round|sp|space)()\b`)
	})
)

// agreeing gives the words of a number just changed and where they end, with
// an s more or less where the word that it counts wants it.
func agreeing(text string, sp Span, fresh string, n int64) (string, int) {
	after := text[sp.End:min(len(text), sp.End+40)]
	switch {
	case n == 1:
		if m := manyAfter().FindStringSubmatchIndex(after); m != nil {
			return fresh + after[:m[2]], sp.End + m[3]
		}
	case isCardinal(text[sp.Start:sp.End]):
		if m := oneAfter().FindStringSubmatchIndex(after); m != nil && numberIn(text[sp.Start:sp.End]) == 1 {
			return fresh + after[:m[2]] + "s", sp.End + m[3]
		}
	}
	return fresh, sp.End
}

func isCardinal(s string) bool {
	for i := 0; i < len(s); i++ {
		if s[i] < '0' || s[i] > '9' {
			return false
		}
	}
	return s != ""
}
