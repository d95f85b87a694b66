package report

import (
	"fmt"
	"io"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/tui"
)

// implied writes what the rows of a piece come to, and what follows from them.
func (o Options) implied(w io.Writer, pi *pattern.PieceImplied) {
	say := func(text string) { fmt.Fprintf(w, "  %s\n", o.paint(faint, tui.Clean(text))) }
	if len(pi.Piece.Rows) == 0 {
		return
	}
	line := worked(pi.Rows, pi.Stitches, pi.ByKind, pi.Unknown)
	if n := int64(pi.Piece.Piece.Copies); n > 1 && pi.Unknown == 0 {
		line += fmt.Sprintf("; %d stitches in %d copies", n*pi.Stitches, n)
	}
	say(line)
	if pi.Chain != nil {
		say(pi.Chain.String())
	}
	if pi.Sits != nil {
		say(pi.Sits.String())
	}
	for _, h := range pi.Hosts {
		say(h.String())
	}
}

// worked says how much work rows are: "4 rows, 13 sc".
func worked(rows, stitches int64, kinds []pattern.KindCount, unknown int64) string {
	s := counted(int(rows), "row") + ", " + pattern.StitchWords(stitches, kinds)
	if unknown > 0 {
		s += fmt.Sprintf(", and %s whose stitches are not known", counted(int(unknown), "row"))
	}
	return s
}
