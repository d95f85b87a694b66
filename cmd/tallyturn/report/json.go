package report

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"strings"
	"unicode"
	"unicode/utf8"

	"crochet/tallyturn/pattern"
)

// JSON writes the proof as one JSON object on one line, its fields always in
// the same order. File is given as the field "file" where it is not empty, so
// that several objects, one a line, can be told apart.
//
// Columns count characters from 1; end_column is that of the character after
// the last one meant, or of the line's end where more lines are meant. Figures
// that are not known are null.
func JSON(w io.Writer, p *pattern.Proof, file string) error {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	if err := e.Encode(newDocument(p, file)); err != nil {
		return err
	}
	_, err := w.Write(escapeUnseen(b.Bytes()))
	return err
}

type document struct {
	File     string          `json:"file,omitempty"`
	Title    string          `json:"title"`
	Terms    string          `json:"terms"`
	Size     string          `json:"size"`
	Pieces   []pieceObject   `json:"pieces"`
	Findings []findingObject `json:"findings"`
	Summary  summaryObject   `json:"summary"`
	InAll    workObject      `json:"in_all"`
}

type pieceObject struct {
	Name   string      `json:"name"`
	Copies int         `json:"copies"`
	Line   int         `json:"line"`
	Rows   []rowObject `json:"rows"`

	impliedObject
}

type rowObject struct {
	First     int    `json:"first"`
	Last      int    `json:"last"`
	Label     string `json:"label"`
	Kind      string `json:"kind"`
	Line      int    `json:"line"`
	Available *int64 `json:"available"`
	Taken     *int64 `json:"taken"`
	Skipped   *int64 `json:"skipped"`
	Left      *int64 `json:"left"`
	Made      *int64 `json:"made"`
	ByKind    kinds  `json:"by_kind"`
	Stated    string `json:"stated"`
	Status    string `json:"status"`
}

type findingObject struct {
	Severity  string `json:"severity"`
	Code      string `json:"code"`
	Line      int    `json:"line"`
	Column    int    `json:"column"`
	EndColumn int    `json:"end_column"`
	Message   string `json:"message"`
	Hint      string `json:"hint"`
}

type summaryObject struct {
	Rows     int `json:"rows"`
	Agrees   int `json:"agrees"`
	Differs  int `json:"differs"`
	Unstated int `json:"unstated"`
	Trusted  int `json:"trusted"`
	Unread   int `json:"unread"`
}

// kinds is an object whose fields keep the order of the proof, which a Go map
// would lose.
type kinds []pattern.KindCount

func (k kinds) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	b.WriteByte('{')
	for i, c := range k {
		if i > 0 {
			b.WriteByte(',')
		}
		name, err := json.Marshal(c.Name)
		if err != nil {
			return nil, err
		}
		fmt.Fprintf(&b, "%s:%d", name, c.N)
	}
	b.WriteByte('}')
	return b.Bytes(), nil
}

func newDocument(p *pattern.Proof, file string) document {
	s := p.Summary()
	d := document{
		File: file, Title: p.Pattern.Title, Terms: p.Terms.String(), Size: p.Size,
		Pieces:   make([]pieceObject, 0, len(p.Pieces)),
		Findings: make([]findingObject, 0, len(p.Findings)),
		Summary:  summaryObject{s.Rows, s.Agrees, s.Differs, s.Unstated, s.Trusted, s.Unread},
	}
	im := p.Implied()
	d.InAll = workObject{im.Rows, im.Stitches, im.ByKind, im.Unknown}
	for i, pc := range p.Pieces {
		o := pieceObject{Name: pc.Piece.Name, Copies: pc.Piece.Copies, Line: pc.Piece.Line,
			Rows: make([]rowObject, 0, len(pc.Rows))}
		for _, r := range pc.Rows {
			o.Rows = append(o.Rows, newRow(p, r))
		}
		o.impliedObject = newImplied(im.Pieces[i])
		d.Pieces = append(d.Pieces, o)
	}
	for _, f := range p.Findings {
		at := locate(p.Pattern.Source, f.Span)
		d.Findings = append(d.Findings, findingObject{
			Severity: f.Severity.String(), Code: string(f.Code),
			Line: at.line, Column: at.column, EndColumn: at.endColumn,
			Message: f.Message, Hint: f.Hint,
		})
	}
	return d
}

func newRow(p *pattern.Proof, r *pattern.RowProof) rowObject {
	return rowObject{
		First: r.First, Last: r.Last, Label: r.Label, Kind: r.Kind.String(), Line: r.Line,
		Available: known(r.Available), Taken: known(r.Taken), Skipped: known(r.Skipped),
		Left: known(r.Left), Made: known(r.Made), ByKind: r.ByKind,
		Stated: stated(p, r), Status: r.Status.String(),
	}
}

func known(n int64) *int64 {
	if n < 0 {
		return nil
	}
	return &n
}

// escapeUnseen writes characters that could act on a terminal as JSON escapes.
// Outside its strings JSON is plain ASCII, so every such character is in one.
func escapeUnseen(text []byte) []byte {
	hidden := func(r rune) bool { return r != '\n' && !unicode.IsGraphic(r) }
	if bytes.IndexFunc(text, hidden) < 0 {
		return text
	}
	var b strings.Builder
	for len(text) > 0 {
		r, n := utf8.DecodeRune(text)
		switch {
		case hidden(r) && r > 0xffff:
			high, low := (r-0x10000)>>10+0xd800, (r-0x10000)&0x3ff+0xdc00
			fmt.Fprintf(&b, `\u%04x\u%04x`, high, low)
		case hidden(r):
			fmt.Fprintf(&b, `\u%04x`, r)
		default:
			b.Write(text[:n])
		}
		text = text[n:]
	}
	return []byte(b.String())
}
