package yarn

import (
	"regexp"
	"strings"
	"sync"
	"unicode"

	"crochet/tallyturn/pattern"
)

// Plain is the name of the yarn of a pattern that names none.
const Plain = "yarn"

// colours finds which yarn is in hand.
type colours struct {
	letters map[string]string // what a yarn's letter stands for
}

var (
	lettered = sync.OnceValue(func() *regexp.Regexp {
		return regexp.MustCompile(`(\pL+) \(([A-H]|MC|CC\d?)\)`)
	})
	letter = sync.OnceValue(func() *regexp.Regexp {
		return regexp.MustCompile(`^([A-H]|MC|CC\d?)$`)
	})
)

func newColours(p *pattern.Pattern) colours {
	c := colours{map[string]string{}}
	for _, h := range p.Headers {
		if h.Kind != pattern.HeaderYarn && h.Kind != pattern.HeaderMaterials {
			continue
		}
		for _, m := range lettered().FindAllStringSubmatch(h.Text, -1) {
			if c.letters[m[2]] == "" {
				c.letters[m[2]] = m[1] + " (" + m[2] + ")"
			}
		}
	}
	return c
}

// idle are words about a change of yarn that do not name it.
var idle = map[string]bool{"with": true, "using": true, "change": true, "changing": true, "switch": true, "to": true, "join": true, "new": true, "in": true,
	"colour": true, "color": true, "yarn": true, "the": true, "a": true, "same": true, "next": true, "another": true, "strand": true, "strands": true, "of": true, "one": true, "two": true}

// in is the name of the yarn that a step takes up; "" where it takes up none.
func (c colours) in(s *pattern.Step) string {
	if s.Op != pattern.OpColour {
		return ""
	}
	var name []string
	for _, w := range strings.FieldsFunc(s.Text, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != '-' }) {
		switch {
		case letter().MatchString(w):
			if full := c.letters[w]; full != "" {
				return full
			}
			return w
		case idle[strings.ToLower(w)]:
			if len(name) > 0 {
				return strings.Join(name, " ")
			}
		case strings.EqualFold(w, "and") || w == "RS" || w == "WS" || len(name) == 3:
			return strings.Join(name, " ")
		default:
			name = append(name, strings.ToLower(w))
		}
	}
	return strings.Join(name, " ")
}
