package sheet

import (
	"regexp"
	"strings"
	"sync"

	"crochet/tallyturn/pattern"
)

// untitled is the title of a sheet whose pattern gives nothing for one.
const untitled = "Crochet pattern"

// longTitle is how many bytes a first line has at most that is taken for a title.
const longTitle = 60

// title is what a sheet is called: the pattern's own title, or else what stands
// where one would, at the top of the text. own is false where it had to be
// looked for there.
func title(p *pattern.Pattern, ps []pattern.Passage) (text string, own bool) {
	if t := clean(p.Title); t != "" {
		return t, true
	}
	if len(ps) < 2 {
		return untitled, false
	}
	line := clean(p.Source.Slice(ps[0].Span))
	switch ps[0].Kind {
	case pattern.PiecePassage:
		if len(p.Pieces) == 1 || ps[1].Apart && ps[1].Kind == pattern.RowPassage {
			return capital(clean(ps[0].Piece.Name)), false
		}
	case pattern.HeaderPassage, pattern.PlainPassage:
		if ps[0].Label == "" && ps[0].Is == pattern.HeaderNote && named(line) && (ps[1].Apart || ps[1].Is == pattern.HeaderTerms || len(ps) > 2 && ps[2].Apart) {
			return line, false
		}
	}
	return untitled, false
}

// named reports whether a line is a name rather than a sentence or a definition.
func named(line string) bool {
	return line != "" && len(line) <= longTitle && !strings.ContainsAny(line, "=:;") && !strings.ContainsAny(line[:1], "([*") && !strings.ContainsAny(line[len(line)-1:], ".!?,")
}

var sided = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`\s*(\((US|UK)\)|[-–—]+\s*(US|UK))$`) })

// unsided takes the name of its terms off the end of a title: "Shell Net (UK)".
func unsided(title string) string { return sided().ReplaceAllString(title, "") }
