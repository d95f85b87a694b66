// Package demo holds the patterns that come with the program, each written as
// a designer would publish it. They are ordinary patterns: nothing reads them
// differently from a maker's own.
package demo

import (
	"embed"
	"strings"
)

// Demo is a pattern that comes with the program.
type Demo struct {
	Name  string // a short word to call it by
	About string // what it is, on one line
	Text  string // the pattern as it would stand in a file

	// What a proof of the text says: none is needed to offer it.
	Title    string
	Stitches int64
}

//go:embed *.txt
var files embed.FS

// about names the demos in the order they are shown. The first is the one to
// begin with.
var about = []Demo{
	{Name: "pennant", Title: "Harbour Pennant", Stitches: 135, About: "a harbour pennant: a flat strip, points along its edge, coils sewn to its ends"},
	{Name: "buoy", Title: "Mooring Buoy", Stitches: 204, About: "a small stuffed mooring buoy, in a spiral"},
	{Name: "net", Title: "Shell Net", Stitches: 182, About: "a net bag for shells, a mesh in UK terms"},
	{Name: "star", Title: "Brittle Star Coaster", Stitches: 95, About: "a brittle-star coaster, in joined rounds"},
	{Name: "cuff", Title: "Rope Cuff", Stitches: 192, About: "a rope cuff for the wrist, in three sizes"},
}

// All gives every demo, the one to begin with first.
func All() []Demo {
	demos := make([]Demo, len(about))
	for i, d := range about {
		text, err := files.ReadFile(d.Name + ".txt")
		if err != nil {
			panic("demo: " + err.Error()) // a pattern named here was not built in
		}
		d.Text = string(text)
		demos[i] = d
	}
	return demos
}

// Find gives the demo with a name; case does not matter.
func Find(name string) (Demo, bool) {
	for _, d := range All() {
		if strings.EqualFold(d.Name, name) {
			return d, true
		}
	}
	return Demo{}, false
}
