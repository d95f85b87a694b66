package report

import (
	"bufio"
	"cmp"
	"fmt"
	"io"
	"strconv"
	"strings"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/tui"
)

// Options says how a report is to look.
type Options struct {
	Name   string // what the pattern is called where a finding is placed: its file
	Width  int    // columns of the terminal, at least 40
	Colour bool   // may be coloured
}

// Text writes the report of a proof: a table for each piece, then what was
// found, then one line that sums it up. The only errors are those of w.
func Text(w io.Writer, p *pattern.Proof, o Options) error {
	o.Width = max(o.Width, 40)
	o.Name = tui.Clean(o.Name)
	b := bufio.NewWriter(w)
	if line := o.titleLine(p); line != "" {
		fmt.Fprintf(b, "%s\n\n", line)
	}
	im := p.Implied()
	for i, pc := range p.Pieces {
		o.piece(b, p, pc)
		o.implied(b, im.Pieces[i])
		fmt.Fprintln(b)
	}
	for _, f := range p.Findings {
		if f.Code != pattern.CodePlaced { // said under its piece
			o.finding(b, p.Pattern.Source, f)
		}
	}
	if len(p.Pieces) > 1 || len(p.Pieces) == 1 && p.Pieces[0].Piece.Copies > 1 {
		fmt.Fprintf(b, "To work in all: %s\n", worked(im.Rows, im.Stitches, im.ByKind, im.Unknown))
	}
	fmt.Fprintln(b, Count(p))
	return b.Flush()
}

func (o Options) titleLine(p *pattern.Proof) string {
	var about []string
	if t := p.Terms.String(); t != "" {
		about = append(about, t+" terms")
	}
	if p.Size != "" {
		size := tui.Clean(cmp.Or(p.InSize(), "size "+p.Size))
		if len(p.Pattern.Sizes) > 1 {
			size += " of " + tui.Clean(strings.Join(p.Pattern.Sizes, "/"))
		}
		about = append(about, size)
	}
	title := o.paint(strong, tui.Clean(p.Pattern.Title))
	if len(about) == 0 {
		return title
	}
	return strings.TrimSpace(title + " (" + strings.Join(about, ", ") + ")")
}

// The columns of the table of a piece.
var rowColumns = []column{
	{head: "", limit: 28},
	{head: "available", right: true},
	{head: "taken", right: true},
	{head: "made", right: true},
	{head: "stated", limit: 32},
	{head: "", limit: 0},
	{head: "by kind", limit: 40},
	{head: "passed over", limit: 0},
}

func (o Options) piece(w io.Writer, p *pattern.Proof, pc *pattern.PieceProof) {
	name := tui.Clean(pc.Piece.Name)
	if name == "" {
		name = "Rows"
		if len(pc.Rows) > 0 && pc.Rows[0].Kind == pattern.Round {
			name = "Rounds"
		}
	}
	line := fmt.Sprintf("line %d", pc.Piece.Line)
	if pc.Piece.Copies > 1 {
		line = fmt.Sprintf("make %d, %s", pc.Piece.Copies, line)
	}
	fmt.Fprintf(w, "%s  %s\n", o.paint(strong, name), o.paint(faint, line))
	rows := make([][]cell, len(pc.Rows))
	for i, r := range pc.Rows {
		rows[i] = []cell{
			{text: tui.Clean(p.LabelOf(r))},
			{text: figure(r.Available)},
			{text: figure(r.Taken)},
			{text: figure(r.Made)},
			{text: tui.Clean(stated(p, r))},
			{text: r.Status.String(), ink: statusInk(r.Status)},
			{text: byKind(r)},
			{text: passedOver(r)},
		}
	}
	for _, line := range o.table(rowColumns, rows) {
		fmt.Fprintln(w, line)
	}
}

func figure(n int64) string {
	if n < 0 {
		return "?"
	}
	return strconv.FormatInt(n, 10)
}

// byKind tells the kinds apart where there is more than one.
func byKind(r *pattern.RowProof) string {
	if len(r.ByKind) < 2 {
		return ""
	}
	parts := make([]string, len(r.ByKind))
	for i, k := range r.ByKind {
		parts[i] = fmt.Sprintf("%d %s", k.N, tui.Clean(k.Name))
	}
	return strings.Join(parts, ", ")
}

func passedOver(r *pattern.RowProof) string {
	var parts []string
	if r.Skipped > 0 {
		parts = append(parts, fmt.Sprintf("%d skipped", r.Skipped))
	}
	if r.Left > 0 {
		parts = append(parts, fmt.Sprintf("%d left", r.Left))
	}
	return strings.Join(parts, ", ")
}

// finding writes where it is, what it says, the words meant with carets under
// them, and the mend.
func (o Options) finding(w io.Writer, src *pattern.Source, f pattern.Finding) {
	at := locate(src, f.Span)
	i := severityInk(f.Severity)
	where := fmt.Sprintf("%d:%d", at.line, at.column)
	if o.Name != "" {
		where = o.Name + ":" + where
	}
	fmt.Fprintf(w, "%s: %s: %s %s\n", where, o.paint(i, f.Severity.String()), tui.Clean(f.Message),
		o.paint(faint, "["+string(f.Code)+"]"))
	number := strconv.Itoa(at.line)
	margin := strings.Repeat(" ", len(number))
	e := cut(src, at, o.Width-len(number)-len("   | "))
	fmt.Fprintf(w, "  %s | %s\n", number, e.text)
	more := ""
	if at.endLine > at.line {
		more = fmt.Sprintf(" to line %d", at.endLine)
	}
	fmt.Fprintf(w, "  %s | %s%s\n", margin, o.paint(i, e.carets), more)
	if f.Hint != "" {
		fmt.Fprintf(w, "  %s = %s\n", margin, tui.Clean(f.Hint))
	}
	fmt.Fprintln(w)
}
