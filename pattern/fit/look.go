package fit

import (
	"fmt"
	"regexp"
	"strings"
	"sync"
	"unicode/utf8"

	"crochet/tallyturn/pattern"
)

// spoken finds numbers in prose that another size may make wrong: figures, and
// words for numbers where they count something of the work. The number of a
// chain, "ch 2", goes with its stitch, and that of a row with its place.
var spoken = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`(?i)\b\d+\b|\b(?:one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve)(?: \w+)? (?:sts?|stitch|stitches|rows?|rnds?|rounds?|times|cm|in|inch|inches|m|metres|g|grams|balls?)\b`)
})

var notSize = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`(?i)\b(?:chs?|chains?|rows?|rnds?|rounds?)(?: \d+ ?(?:-|–|and|to))?[ -]?$`)
})

var rowBefore = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`(?i)\b(?:rows?|rnds?|rounds?) $`)
})

// The numbers of standards, "EN 71-1", "16 CFR 1501", are no sizes.
var (
	standardBefore = sync.OnceValue(func() *regexp.Regexp {
		return regexp.MustCompile(`\b[A-Z]{2,} (?:\d+-)?$`)
	})
	standardAfter = sync.OnceValue(func() *regexp.Regexp {
		return regexp.MustCompile(`^ [A-Z]{2,}\b`)
	})
)

// maxLook bounds how many passages are listed.
const maxLook = 12

// prose lists the passages outside the rows that speak of numbers.
func (f *fitter) prose() {
	p := f.proof.Pattern
	add := func(h pattern.Header) {
		if f.told[h.Span] {
			return
		}
		switch h.Kind {
		case pattern.HeaderGauge, pattern.HeaderHook, pattern.HeaderAbbreviations, pattern.HeaderTerms, pattern.HeaderSkill:
			return
		}
		for _, sentence := range strings.SplitAfter(h.Text, ". ") {
			if !speaksOfNumbers(sentence, f.renumbered) {
				continue
			}
			line, _ := p.Source.Position(h.Span.Start)
			f.res.Look = append(f.res.Look, fmt.Sprintf("line %d says %q", line, short(strings.TrimSpace(sentence))))
		}
	}
	for _, h := range p.Headers {
		add(h)
	}
	for _, pc := range p.Pieces {
		for _, h := range pc.Notes {
			add(h)
		}
	}
	for _, h := range p.Assembly {
		add(h)
	}
	if n := len(f.res.Look); n > maxLook {
		f.res.Look = append(f.res.Look[:maxLook:maxLook], fmt.Sprintf("and %d more passages", n-maxLook))
	}
}

func speaksOfNumbers(s string, rowsToo bool) bool {
	for _, at := range spoken().FindAllStringIndex(s, -1) {
		if standardBefore().MatchString(s[:at[0]]) || standardAfter().MatchString(s[at[1]:]) {
			continue
		}
		if !notSize().MatchString(s[:at[0]]) || rowsToo && rowBefore().MatchString(s[:at[0]]) {
			return true
		}
	}
	return false
}

// short cuts a passage to what finds it again.
func short(s string) string {
	const most = 60
	if utf8.RuneCountInString(s) <= most {
		return s
	}
	r := []rune(s)[:most]
	cut := string(r)
	if i := strings.LastIndexByte(cut, ' '); i > most/2 {
		cut = cut[:i]
	}
	return cut + " …"
}
