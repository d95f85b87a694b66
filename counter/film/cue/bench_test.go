package cue

import (
	"strings"
	"testing"

	"crochet/tallyturn/counter/film"
)

// BenchmarkBlocks breaks a long text, and one of single letters, which has the
// most places to break at. The peer is what any reader has to do at least:
// finding the words.
func BenchmarkBlocks(b *testing.B) {
	for name, text := range map[string]string{
		"words":   strings.Repeat("single crochet in the next three stitches, ", 2_000),
		"letters": strings.Repeat("a ", 40_000),
	} {
		b.Run(name, func(b *testing.B) {
			b.SetBytes(int64(len(text)))
			for b.Loop() {
				blocks(text, LineLength, Lines)
			}
		})
		b.Run(name+"/peer", func(b *testing.B) {
			b.SetBytes(int64(len(text)))
			for b.Loop() {
				strings.Fields(text)
			}
		})
	}
}

// BenchmarkWrite writes a day of cuts of a second in each format that holds
// them.
func BenchmarkWrite(b *testing.B) {
	l := many(film.MaxTime/1000, true)
	for i := range l.Cuts {
		l.Cuts[i].Say = "Turn the work."
	}
	for _, f := range Formats() {
		b.Run(f.Name, func(b *testing.B) {
			for b.Loop() {
				if out := written(b, l, f.Name, Options{Rate: rate(b, "25")}); len(out) == 0 {
					b.Fatal("nothing was written")
				}
			}
		})
	}
}
