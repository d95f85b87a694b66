// Package pdf prints a sheet: pages of A4 or Letter, numbered, with no row cut
// in two where a page can hold it.
//
// The type is DejaVu Sans, embedded as far as it is used. Its licence is free:
// that of Bitstream Vera, with the changes of DejaVu in the public domain; it
// asks that the font is not sold by itself. Chinese, Japanese and Korean stand in
// Droid Sans Fallback, whose licence is Apache 2.0.
package pdf

import (
	"bytes"
	"fmt"
	"strings"
	"time" // to pin the dates that the format asks for: the same sheet is the same bytes

	"codeberg.org/go-pdf/fpdf"
	"github.com/go-fonts/dejavu/dejavusans"
	"github.com/go-fonts/dejavu/dejavusansbold"

	"crochet/tallyturn/pattern/sheet"
	"crochet/tallyturn/pattern/stitch"
)

// Paper is a size of paper.
type Paper string

// The sizes of paper.
const (
	A4     Paper = "A4"     // 210 by 297 mm
	Letter Paper = "Letter" // 8.5 by 11 in
)

// Lengths on the page, in mm.
const (
	margin = 18.0
	foot   = 20.0
	line   = 5.3 // from one line of the text to the next
	gap    = 2.4 // between paragraphs
	box    = 3.4 // the box to tick
	under  = 1.5 // below a heading
	hang   = 6.0 // rows stand so far in, beside their box
)

// epoch stands for the day on which a sheet is printed.
var epoch = time.Unix(0, 0).UTC()

// Write prints a sheet on a kind of paper.
func Write(d *sheet.Doc, paper Paper) ([]byte, error) {
	// Once to see how many pages there are, and once to say so on each.
	pages, _, err := write(d, paper, 0)
	if err != nil {
		return nil, err
	}
	_, out, err := write(d, paper, pages)
	return out, err
}

func write(d *sheet.Doc, paper Paper, pages int) (int, []byte, error) {
	f := fpdf.New("P", "mm", string(paper), "")
	f.SetCatalogSort(true)
	f.SetCreationDate(epoch)
	f.SetModificationDate(epoch)
	f.SetProducer("tallyturn", true)
	f.SetTitle(printable(d.Title), true)
	f.SetLang(language(d))
	f.AddUTF8FontFromBytes("text", "", dejavusans.TTF)
	f.AddUTF8FontFromBytes("text", "B", dejavusansbold.TTF)
	f.SetMargins(margin, margin, margin)
	f.SetAutoPageBreak(false, 0)
	w := &printer{f: f, pages: pages}
	w.width, w.height = f.GetPageSize()
	w.page()
	w.sheet(d)
	w.footer()
	var b bytes.Buffer
	if err := f.Output(&b); err != nil {
		return 0, nil, fmt.Errorf("the sheet cannot be printed: %w", err)
	}
	return f.PageCount(), b.Bytes(), nil
}

func language(d *sheet.Doc) string {
	if len(d.Versions) > 0 && d.Versions[0].Terms == stitch.UK {
		return "en-GB"
	}
	return "en-US"
}

// printer goes down the pages.
type printer struct {
	f             *fpdf.Fpdf
	width, height float64
	y             float64 // the top of what comes next
	pages         int
	style         string  // of the type in hand: "", or "B" for bold
	points        float64 // how large it is
	east          bool    // the type for Chinese, Japanese and Korean is loaded
}

// page begins a page.
func (w *printer) page() {
	if w.f.PageCount() > 0 {
		w.footer()
	}
	w.f.AddPage()
	w.y = margin
}

// footer numbers the page.
func (w *printer) footer() {
	w.font("", 8.5)
	s := fmt.Sprintf("Page %d of %d", w.f.PageCount(), w.pages)
	w.f.SetTextColor(80, 80, 80)
	w.f.Text((w.width-w.wide(s))/2, w.height-foot/2, s)
	w.f.SetTextColor(0, 0, 0)
}

func (w *printer) font(style string, points float64) {
	w.style, w.points = style, points
	w.f.SetFont("text", style, points)
}

// inEast does something in the type for Chinese, Japanese and Korean. It is not
// for measuring: each change of type is a line in the file.
func (w *printer) inEast(do func()) {
	if !w.east {
		w.f.AddUTF8FontFromBytes("east", "", eastern())
		w.east = true
	}
	w.f.SetFont("east", "", w.points)
	do()
	w.font(w.style, w.points)
}

// wide is how wide a line is in the type in hand, in mm.
func (w *printer) wide(s string) float64 {
	sum := 0.0
	for _, r := range runs(s) {
		if r.east {
			sum += w.f.PointConvert(w.points) * ems(r.text)
			continue
		}
		sum += w.f.GetStringWidth(r.text)
	}
	return sum
}

// thick is how wide the line is around letters that have no bold ones of their
// own, to an em.
const thick = 1.0 / 28

// text sets a line at a place, and says how wide it came out.
func (w *printer) text(x, y float64, s string) float64 {
	from := x
	for _, r := range runs(visual(s)) {
		if !r.east {
			w.f.Text(x, y, r.text)
			x += w.f.GetStringWidth(r.text)
			continue
		}
		w.inEast(func() {
			if w.style == "B" {
				w.f.SetLineWidth(w.f.PointConvert(w.points * thick))
				w.f.SetTextRenderingMode(2) // filled, and lined
			}
			w.f.Text(x, y, r.text)
			if w.style == "B" {
				w.f.SetTextRenderingMode(0)
			}
			x += w.f.PointConvert(w.points) * ems(r.text)
		})
	}
	return x - from
}

// room makes sure that something of a height fits on the page, or begins
// another.
func (w *printer) room(h float64) {
	if w.y+h > w.height-foot && w.y > margin {
		w.page()
	}
}

func (w *printer) sheet(d *sheet.Doc) {
	w.heading(d.Title, 20, 0)
	for _, s := range d.About {
		w.para("", s, 0)
	}
	w.para("", d.Says, 0)
	w.blocks(d.Front, 0)
	for _, v := range d.Versions {
		below := 0.0
		if len(d.Versions) > 1 {
			w.heading(v.Terms.String()+" terms", 15, w.first(v.Blocks))
			below = 1
		}
		w.blocks(v.Blocks, below)
	}
	w.blocks(d.Back, 0)
}

// heading sets a heading; with is the height of what must follow on its page.
func (w *printer) heading(s string, points, with float64) {
	w.font("B", points)
	high := points * 0.5
	lines := w.wrapped(printable(s), w.width-2*margin)
	if w.y > margin {
		w.y += 3
	}
	w.room(float64(len(lines))*high + under + with)
	w.font("B", points) // a new page has numbered the old one
	for _, l := range lines {
		w.text(margin, w.y+high*0.75, l)
		w.y += high
	}
	w.y += under
}

func (w *printer) wrapped(s string, width float64) []string {
	return wrap(s, func(l string) bool { return w.wide(l) <= width })
}

// paragraph is a paragraph cut into lines, its beginning in bold.
type paragraph struct {
	bold  string
	lines []string
}

func (p paragraph) height() float64 { return float64(len(p.lines)) * line }

// cut cuts a paragraph to a width.
func (w *printer) cut(bold, s string, width float64) paragraph {
	return w.cutBy(sheet.Wrap, bold, s, width)
}

func (w *printer) cutBy(by func(string, func(string) bool) []string, bold, s string, width float64) paragraph {
	bold, s = printable(bold), printable(s)
	w.font("B", 10.5)
	wide := w.wide(bold)
	w.font("", 10.5)
	wide -= w.wide(bold)
	whole := strings.TrimSpace(bold + " " + s)
	lines := wrapBy(by, whole, func(l string) bool {
		n := w.wide(l)
		if bold != "" && strings.HasPrefix(l, bold) {
			n += wide
		}
		return n <= width
	})
	return paragraph{bold, lines}
}

// keep is how many lines a paragraph may have and is not parted.
const keep = 6

// whole is how much of a paragraph must stand on the page that it begins on.
func whole(p paragraph) float64 {
	if len(p.lines) <= keep {
		return p.height()
	}
	return 3 * line
}

// set prints a paragraph that is known to fit, and goes on to the next page in
// it where no page could hold it.
func (w *printer) set(p paragraph, x float64) {
	for i, l := range p.lines {
		need := line
		if i == len(p.lines)-2 {
			need = 2 * line // the last line does not stand alone on the next page
		}
		if w.y+need > w.height-foot {
			w.page()
		}
		at := x
		if rest, ok := strings.CutPrefix(l, p.bold); i == 0 && ok && p.bold != "" {
			w.font("B", 10.5)
			at += w.text(at, w.y+line*0.72, p.bold)
			l = rest
		}
		w.font("", 10.5)
		w.text(at, w.y+line*0.72, l)
		w.y += line
	}
}

func (w *printer) para(bold, s string, in float64) {
	p := w.cut(bold, s, w.width-2*margin-in)
	w.room(whole(p))
	w.set(p, margin+in)
	w.y += gap
}

func (w *printer) blocks(blocks []sheet.Block, below float64) {
	for i, k := range blocks {
		switch k.Kind {
		case sheet.Heading:
			points := 13.5 - below
			if k.Sub {
				points -= 1.5
			}
			w.heading(k.Text, points, w.first(blocks[i+1:]))
		case sheet.Para:
			w.para("", k.Text, 0)
		case sheet.Facts:
			for _, p := range k.Pairs {
				w.para(p[0], p[1], 0)
			}
		case sheet.Glossary:
			for _, p := range k.Pairs {
				w.item(p[0]+":", p[1], 0)
			}
			w.y += gap
		case sheet.List:
			for _, s := range k.Items {
				w.item("", "- "+s, 0)
			}
			w.y += gap
		case sheet.Steps:
			for i, s := range k.Items {
				w.item("", fmt.Sprintf("%d. %s", i+1, s), 0)
				w.y += 0.6
			}
			w.y += gap
		case sheet.Rows:
			for _, r := range k.Rows {
				w.row(r)
			}
			w.y += gap
			if i+1 < len(blocks) && blocks[i+1].Kind == sheet.Para {
				w.y += gap // a remark is told from the row above it
			}
		case sheet.Cautions:
			w.cautions(k)
		case sheet.Image:
			w.picture(k.Picture)
		}
	}
}

// first is about the height of what a heading must not be parted from.
func (w *printer) first(blocks []sheet.Block) float64 {
	if len(blocks) == 0 {
		return 0
	}
	whole := func(bold, text string, in float64) float64 {
		return whole(w.cut(bold, text, w.width-2*margin-in))
	}
	switch k := blocks[0]; k.Kind {
	case sheet.Heading:
		return 12 + w.first(blocks[1:])
	case sheet.Para:
		return whole("", k.Text, 0)
	case sheet.Facts:
		return whole(k.Pairs[0][0], k.Pairs[0][1], 0)
	case sheet.Cautions:
		return w.cutBy(sheet.WrapProse, k.Pairs[0][0], k.Pairs[0][1], w.width-2*margin-hang).height()
	case sheet.Steps, sheet.List:
		return whole("", k.Items[0], 0)
	case sheet.Rows:
		return min(w.rowHeight(k.Rows[0]), 60)
	case sheet.Image:
		return 60
	}
	return 2 * line
}

// item is a paragraph close to the next.
func (w *printer) item(bold, s string, in float64) {
	p := w.cut(bold, s, w.width-2*margin-in)
	w.room(whole(p))
	w.set(p, margin+in)
}

// rowParts are the paragraphs of a row: what stands before it and itself.
func (w *printer) rowParts(r sheet.Row) (before, body []paragraph) {
	width := w.width - 2*margin - hang
	for _, l := range r.Before {
		before = append(before, w.cut("", l, width))
	}
	for i, l := range r.Lines {
		label := ""
		if i == 0 {
			label = r.Label
		}
		body = append(body, w.cut(label, l, width))
	}
	if len(body) == 0 {
		body = append(body, w.cut(r.Label, "", width))
	}
	return before, body
}

func (w *printer) rowHeight(r sheet.Row) float64 {
	before, body := w.rowParts(r)
	h := 0.0
	for _, p := range append(before, body...) {
		h += p.height()
	}
	return h
}

// row prints a row with a box beside it, whole on one page where it fits one.
func (w *printer) row(r sheet.Row) {
	before, body := w.rowParts(r)
	if h := w.rowHeight(r); h < w.height-foot-margin {
		w.room(h)
	}
	for _, p := range before {
		w.set(p, margin+hang)
	}
	w.f.SetLineWidth(0.25)
	w.f.Rect(margin, w.y+(line-box)/2-0.3, box, box, "D")
	for _, p := range body {
		w.set(p, margin+hang)
	}
	w.y += 1.1
	if r.Wrong != "" {
		w.y += gap
		w.para(strings.TrimSpace(sheet.Wrong), r.Wrong, hang)
		w.y += gap
	}
}

// cautions stand beside a bar.
func (w *printer) cautions(k sheet.Block) {
	for _, c := range k.Pairs {
		p := w.cutBy(sheet.WrapProse, c[0], c[1], w.width-2*margin-hang)
		w.room(p.height())
		from := w.y
		w.set(p, margin+hang)
		w.f.SetFillColor(90, 90, 90)
		w.f.Rect(margin+1.5, from, 0.9, w.y-from, "F")
		w.y += gap
	}
}

// unitLimit is how large a unit of a drawing that names no size is printed, in
// mm: a stitch of a chart, 20 of them, comes to 5.6 mm.
const unitLimit = 0.28

// picture prints a drawing: at the size that it names, or as wide as the page.
// One that goes over several pages begins each on a new line of its own.
func (w *printer) picture(p *sheet.Picture) {
	prints := p.Print
	if len(prints) == 0 {
		prints = []string{p.SVG}
	}
	words := w.cut("", p.Words, w.width-2*margin)
	key := 0.0
	for _, s := range p.Key {
		key += w.cut("", s, w.width-2*margin).height() + 0.6
	}
	for i, svg := range prints {
		d, err := readDrawing(svg)
		if err != nil {
			w.f.SetError(err)
			return
		}
		title, below := p.Title, 0.0
		if i == 0 {
			below = words.height() + gap
		}
		if len(prints) > 1 {
			title = fmt.Sprintf("%s, %d of %d", p.Title, i+1, len(prints))
		}
		if i == len(prints)-1 {
			below += min(key, 80)
		}
		k := d.mm
		if k == 0 {
			k = unitLimit
		}
		k = min(k, (w.width-2*margin)/d.width, (w.height-foot-margin-16-below)/d.height)
		w.heading(title, 13.5, d.height*k+below+gap)
		if i == 0 {
			w.set(words, margin)
			w.y += gap
		}
		w.draw(d, margin, w.y, k)
		w.y += d.height*k + gap
	}
	for _, s := range p.Key {
		letter, s, ok := strings.Cut(s, "  ")
		if !ok {
			letter, s = "", letter
		}
		w.item(letter, s, 0)
		w.y += 0.6
	}
	w.y += gap
}
