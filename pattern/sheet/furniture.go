package sheet

import (
	"regexp"
	"sync"

	"crochet/tallyturn/pattern"
)

// furniture are the lines that a web page has around what is written on it, as
// they come along when the page is copied. The words are those that such pages
// usually have: common practice, no source.
var furniture = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`(?i)^(` +
		`share( this)?( post| page| pattern)?|share (on|via) \w+|pin (it|this)( for later)?|tweet|loading\.*|` +
		`\d+ (comments?|likes?|shares?|replies|views)|no comments|comments?|(leave|post|add|write) an? (comment|reply)|reply|` +
		`print (this )?(post|page|pattern)|(skip|jump) to (main )?(content|pattern)|back to top|menu|search|advertisements?|` +
		`related (posts|patterns)|(older|newer|previous|next) posts?|read more|continue reading|subscribe|` +
		`posted (by|in|on) .{1,60}|filed under:? .{1,80}|email this( post)?|permalink` +
		`)[:.!…]?$`)
})

// withoutFurniture leaves out the lines of a page that are not the pattern's.
func withoutFurniture(p *pattern.Pattern, ps []pattern.Passage) []pattern.Passage {
	var out []pattern.Passage
	left := false
	for _, x := range ps {
		plain := x.Kind == pattern.PlainPassage || x.Kind == pattern.HeaderPassage && x.Label == "" && x.Is == pattern.HeaderNote
		if plain && furniture().MatchString(clean(p.Source.Slice(x.Span))) {
			left = true
			continue
		}
		x.Apart = x.Apart || left
		left = false
		out = append(out, x)
	}
	return out
}
