package main

import (
	"fmt"
	"strings"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/chart"
	"crochet/tallyturn/pattern/gauge"
	"crochet/tallyturn/pattern/layout"
	"crochet/tallyturn/pattern/sheet"
	"crochet/tallyturn/pattern/stitch"
)

// How wide and high a drawing may be on paper, in mm, so that it goes on A4 and
// on Letter with its words.
const (
	printWidth  = 170
	printHeight = 190
)

// pictures draws what is to be put into the sheet.
func (k sheetCommand) pictures(name string, proof *pattern.Proof, terms []stitch.Terms) ([]sheet.Picture, error) {
	var out []sheet.Picture
	for _, w := range k.with {
		switch strings.ToLower(w) {
		case "chart":
			charts, err := chartPictures(proof, terms)
			if err != nil {
				return nil, fmt.Errorf("%s: %w", name, err)
			}
			out = append(out, charts...)
		case "layout":
			g, err := gauge.Stated(proof)
			if err != nil {
				return nil, fmt.Errorf("%s: the layout needs a gauge: %w", name, err)
			}
			l := layout.Of(proof, g)
			out = append(out, sheet.Picture{
				Title: sized("Layout", proof), SVG: l.SVG(titleOf(proof, "Layout")),
				Words: "The pieces laid out flat, to scale.",
				Print: l.Pages(printWidth, printHeight), Key: l.Legend(),
			})
		default:
			return nil, fmt.Errorf("--with takes chart, layout, times and yarn, not %q", w)
		}
	}
	return out, nil
}

// chartPictures are the charts of all pieces but those drawn on another.
func chartPictures(proof *pattern.Proof, terms []stitch.Terms) ([]sheet.Picture, error) {
	var out []sheet.Picture
	onto := chart.Onto(proof)
	for i, p := range proof.Pieces {
		if onto[i] >= 0 || p.Len() == 0 {
			continue
		}
		c, err := chart.Draw(proof, i, chart.Options{Terms: terms[0], Both: len(terms) > 1})
		if err != nil {
			return nil, err
		}
		var parts []string
		for k := range c.Tiles() {
			part, err := chart.Draw(proof, i, chart.Options{Terms: terms[0], Both: len(terms) > 1, Tile: k + 1})
			if err != nil {
				return nil, err
			}
			parts = append(parts, string(part.SVG()))
		}
		title := "Chart"
		if p.Piece.Name != "" {
			title += " of " + p.Piece.Name
		}
		out = append(out, sheet.Picture{Title: sized(title, proof), SVG: string(c.SVG()), Words: c.Reading(), Print: parts})
	}
	return out, nil
}

// sized is a title with the size that is drawn, of a pattern in several.
func sized(title string, proof *pattern.Proof) string {
	if size := proof.InSize(); size != "" {
		return title + ", " + size
	}
	return title
}
