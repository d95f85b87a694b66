package report

import (
	"cmp"
	"fmt"
	"strings"

	"crochet/tallyturn/counter/film"
	"crochet/tallyturn/counter/film/timeline"
)

// Footage sets out how the words sit on the footage, row by row. It ends in a
// line break.
func Footage(f *film.Fit) string {
	columns := []column{{}, {head: "footage", right: true}, {head: "words", right: true}, {head: "film", right: true},
		{head: "what is done"}, {}}
	var rows [][]cell
	piece := -2
	for _, r := range f.Rows {
		if r.Piece != piece {
			piece = r.Piece
			for _, p := range f.Parts {
				if p.Piece == piece && piece >= 0 {
					rows = append(rows, []cell{{text: timeline.Clean(p.Title)}, {}, {}, {text: timeline.Clock(p.Film)}})
				}
			}
		}
		indent := "  "
		if piece < 0 {
			indent = ""
		}
		words := film.Seconds(r.Speech)
		if r.Speech == 0 {
			words = ""
		}
		rows = append(rows, []cell{{text: indent + timeline.Clean(cmp.Or(r.Title, r.Label))}, {text: film.Seconds(r.Footage)},
			{text: words}, {text: film.Seconds(r.Film)}, {text: r.Done.String()}, {text: timeline.Clean(sitting(r))}})
	}
	var b strings.Builder
	for _, l := range (Options{}).table(columns, rows) {
		b.WriteString(l + "\n")
	}
	fmt.Fprintf(&b, "\nThe film is %s long.", timeline.Clock(f.Length))
	if f.UnfilmedRows > 0 {
		fmt.Fprintf(&b, " %d %s not filmed yet: %s of words.", f.UnfilmedRows, areOf(f.UnfilmedRows), timeline.Clock(f.Unfilmed))
	}
	if f.Beside > 0 {
		fmt.Fprintf(&b, " %s of words belong to no row.", timeline.Clock(f.Beside))
	}
	return b.String() + "\n"
}

// sitting is the verdict on a row with what would mend it.
func sitting(r film.RowFit) string {
	if r.Verdict == film.NoWords {
		switch {
		case r.Footage == 0:
			return "not used"
		case r.With != "":
			return "said with " + r.With
		}
		return "no words"
	}
	text := r.String()
	for i, m := range r.Mends {
		text += []string{": ", " or "}[min(i, 1)] + m.String()
	}
	return text
}

func areOf(rows int) string {
	if rows == 1 {
		return "row is"
	}
	return "rows are"
}
