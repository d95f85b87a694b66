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

// titleFrom says where the title of a sheet comes from.
type titleFrom uint8

const (
	ownTitle   titleFrom = iota // the author gives it
	lineTitle                   // the first line, which stands where a title would
	pieceTitle                  // the name of a piece: the only one, or a heading apart from its rows
	noTitle
)

// title is what a sheet is called: the pattern's own title, or else what serves
// for one.
func title(p *pattern.Pattern, ps []pattern.Passage) (string, titleFrom) {
	if t := clean(p.Title); t != "" {
		return t, ownTitle
	}
	if len(ps) < 2 {
		return untitled, noTitle
	}
	first := clean(p.Source.Slice(ps[0].Span))
	switch ps[0].Kind {
	case pattern.PiecePassage:
		if ps[1].Apart && ps[1].Kind == pattern.RowPassage {
			return capital(clean(ps[0].Piece.Name)), pieceTitle
		}
	case pattern.HeaderPassage, pattern.PlainPassage:
		if ps[0].Label == "" && ps[0].Is == pattern.HeaderNote && named(first) && (ps[1].Apart || ps[1].Is == pattern.HeaderTerms || len(ps) > 2 && ps[2].Apart) {
			return first, lineTitle
		}
	}
	if len(p.Pieces) == 1 && p.Pieces[0].Name != "" && !p.Pieces[0].Span.Empty() {
		return capital(clean(p.Pieces[0].Name)), pieceTitle
	}
	return untitled, noTitle
}

// named reports whether a line is a name rather than a sentence or a definition.
func named(line string) bool {
	return line != "" && len(line) <= longTitle && !strings.ContainsAny(line, "=:;") && !strings.ContainsAny(line[:1], "([*") && !strings.ContainsAny(line[len(line)-1:], ".!?,")
}

var sided = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`\s*(\((US|UK)\)|[-–—]+\s*(US|UK))$`) })

// unsided takes the name of its terms off the end of a title: "Shell Net (UK)".
func unsided(title string) string { return sided().ReplaceAllString(title, "") }
