package pdf

import (
	"strings"
	"testing"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/chart"
	"crochet/tallyturn/pattern/demo"
	"crochet/tallyturn/pattern/gauge"
	"crochet/tallyturn/pattern/layout"
	"crochet/tallyturn/pattern/sheet"
	"crochet/tallyturn/pattern/stitch"
)

// drawings are the chart of each piece of a proof and its layout, as the
// command puts them into a sheet.
func drawings(t testing.TB, proof *pattern.Proof, terms stitch.Terms) []sheet.Picture {
	t.Helper()
	var out []sheet.Picture
	onto := chart.Onto(proof)
	for i, p := range proof.Pieces {
		if onto[i] >= 0 || p.Len() == 0 {
			continue
		}
		c, err := chart.Draw(proof, i, chart.Options{Terms: terms})
		if err != nil {
			t.Fatal(err)
		}
		pic := sheet.Picture{Title: strings.TrimSpace("Chart of " + p.Piece.Name), SVG: string(c.SVG()), Words: c.Reading()}
		for k := range c.Tiles() {
			part, err := chart.Draw(proof, i, chart.Options{Terms: terms, Tile: k + 1})
			if err != nil {
				t.Fatal(err)
			}
			pic.Print = append(pic.Print, string(part.SVG()))
		}
		out = append(out, pic)
	}
	if g, err := gauge.Stated(proof); err == nil {
		l := layout.Of(proof, g)
		out = append(out, sheet.Picture{Title: "Layout", SVG: l.SVG("Layout"), Words: "The pieces laid out flat, to scale.", Print: l.Pages(170, 190), Key: l.Legend()})
	}
	return out
}

// TestDrawingsReadBack reads the print of every demo with its drawings, in both
// terms and on both papers: neither their letters nor what those stand for may
// be taken for rows.
func TestDrawingsReadBack(t *testing.T) {
	for _, d := range demo.All() {
		for i, terms := range []stitch.Terms{stitch.US, stitch.UK} {
			proof := pattern.Read(d.Text).Prove(pattern.Options{})
			doc := sheet.New(proof, sheet.Options{Terms: []stitch.Terms{terms}, Pictures: drawings(t, proof, terms)})
			out := write1(t, doc, []Paper{A4, Letter}[i])
			got := printed(t, "pdftotext", out, "-")
			if bad := sheet.Unlike(proof.Pattern, proof.Terms, pattern.Read(got)); len(bad) > 0 {
				t.Errorf("%s in %s terms: %s", d.Name, terms, strings.Join(bad, "\n\t"))
			}
			if strings.Contains(got, "Chart") && strings.Contains(got, "fasten off") {
				t.Errorf("%s: the letters of the chart are text", d.Name)
			}
			if images := printed(t, "pdfimages", out, "-list"); strings.Count(images, "\n") > 2 {
				t.Errorf("%s has pictures of dots:\n%s", d.Name, images)
			}
		}
	}
}

// TestReadDrawing is strict with what it does not know.
func TestReadDrawing(t *testing.T) {
	const head = `<svg xmlns="http://www.w3.org/2000/svg" width="50mm" height="20mm" viewBox="0 0 100 40">`
	for _, c := range []struct{ body, wrong string }{
		{`<path d="M1 2L3 4Z" fill="#000000"/>`, ""},
		{`<path d="M1 2v3h-4Z" fill="none" stroke="#112233"/>`, ""},
		{`<text x="1" y="2" font-size="4">Buoy</text>`, ""},
		{`<circle/>`, `"circle"`},
		{`<path d="M1 2a3 4 5 6 7 8 9"/>`, `path`},
		{`<path d="M1 2L3"/>`, `path`},
		{`<g transform="scale(2)"/>`, `transform`},
		{`<g fill="url(#a)"/>`, `url`},
		{`<g stroke-width="thick"/>`, `thick`},
		{`<g stroke-dasharray="3"/>`, `lines`},
		{`<g>`, `EOF`},
	} {
		tail := "</svg>"
		if c.body == "<g>" {
			tail = ""
		}
		d, err := readDrawing(head + c.body + tail)
		switch {
		case c.wrong == "" && (err != nil || len(d.marks) != 1 || d.mm != 0.5):
			t.Errorf("%s: %v, %+v", c.body, err, d)
		case c.wrong != "" && (err == nil || !strings.Contains(err.Error(), c.wrong)):
			t.Errorf("%s: %v", c.body, err)
		}
	}
	if _, err := readDrawing("<svg/>"); err == nil {
		t.Error("a drawing of no size")
	}
}

// TestLargeChart prints a chart of several parts, a page for each.
func TestLargeChart(t *testing.T) {
	for _, c := range []struct {
		text  string
		parts int
	}{
		{"Mat\n\nUS terms\n\nMat\nCh 61.\nRow 1: Sc in 2nd ch from hook and in each ch across. (60 sc)\nRows 2-60: Ch 1, turn, sc in each st across. (60 sc)\n", 1},
		{"Mat\n\nUS terms\n\nMat\nCh 121.\nRow 1: Sc in 2nd ch from hook and in each ch across. (120 sc)\nRows 2-100: Ch 1, turn, sc in each st across. (120 sc)\n", 4},
	} {
		proof := pattern.Read(c.text).Prove(pattern.Options{})
		pics := drawings(t, proof, stitch.US)
		doc := sheet.New(proof, sheet.Options{Pictures: pics})
		if n := len(pics[0].Print); n != c.parts {
			t.Errorf("%d parts, want %d", n, c.parts)
		}
		text := printed(t, "pdftotext", write1(t, doc, Letter), "-")
		if c.parts > 1 && !strings.Contains(text, "Chart of Mat, 4 of 4") {
			t.Errorf("the last part is not there:\n%s", text)
		}
	}
}
