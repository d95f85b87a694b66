// Package sheet makes the sheet of a proven pattern: what a reader is given.
//
// New puts a pattern into a Doc, which says what stands on the sheet and
// nothing of how it looks; Text, Markdown and HTML write it down, and the
// package pdf beneath this one prints it. The author's words stay hers. They
// are told in US or UK terms, the abbreviations they use are gathered, and what
// a maker has to be warned of is worked out from the pattern and added.
//
// Whatever is written reads back as the pattern that it came from: New checks
// that, and Doc.Unlike says where it does not hold.
//
// The package by file:
//
//	doc.go       what stands on a sheet
//	build.go     a pattern to what stands on it
//	title.go     what it is called
//	furniture.go what a web page has around it
//	rows.go      pieces and rows
//	facts.go     yarn, hook, gauge, sizes
//	yarn.go      amounts of yarn, worked out
//	words.go     abbreviations and special stitches
//	skill.go     the level of skill
//	cautions.go  what to warn of
//	back.go      reading the sheet again
//	text.go, markdown.go, html.go  the forms
package sheet

import "crochet/tallyturn/pattern/stitch"

// Doc is a sheet.
type Doc struct {
	Title    string
	About    []string  // paragraphs under the title
	Says     string    // which terms it is in
	Front    []Block   // what is the same in all versions and stands before them
	Versions []Version // one for each of the terms
	Back     []Block   // what is the same in all versions and stands after them
	Key      string    // names the sheet among others, for what a reader ticks
	Unlike   []string  // where it reads back otherwise than the pattern; nil as it should be

	AsWritten []string // the labels of rows that stand in the author's manner though another was asked for
}

// Version is the part of a sheet that is told in one set of terms.
type Version struct {
	Terms  stitch.Terms
	Blocks []Block
}

// Kind is what a block is.
type Kind uint8

// The kinds of block.
const (
	Heading  Kind = iota // Text, one level below the title; Sub one below that
	Para                 // Text
	Facts                // Pairs: "Yarn:", "medium cotton"
	Glossary             // Pairs: "sc", "single crochet"
	List                 // Items
	Steps                // Items, numbered
	Rows                 // Rows
	Cautions             // Pairs: what it is about, and the words
	Image                // Picture
)

// Block is a part of a sheet.
type Block struct {
	Kind    Kind
	Text    string
	Sub     bool
	Pairs   [][2]string
	Items   []string
	Rows    []Row
	Picture *Picture
}

// Row is a row of instructions.
type Row struct {
	ID     string   // the same in all versions: "2-13" is row 13 of piece 2
	Before []string // lines that stand before the label: the foundation
	Label  string   // "Row 2:"; "" where the author gives none
	Lines  []string // what to do; the first stands behind the label
	Wrong  string   // what does not prove; "" where all does
}

// Picture is a drawing.
type Picture struct {
	Title string
	SVG   string // a whole SVG document, which refers to nothing outside
	Words string // what it shows, for those who do not see it

	Print []string // the same for pages of paper, an SVG document for each; nil where SVG will do
	Key   []string // what the letters in Print stand for
}

// Blocks are all blocks of a version with what stands before and after it.
func (d *Doc) Blocks(v Version) []Block {
	out := append([]Block(nil), d.Front...)
	out = append(out, v.Blocks...)
	return append(out, d.Back...)
}
