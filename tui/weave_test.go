package tui

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"crochet/tallyturn/counter"
	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/demo"
)

// TestWeaves walks through the demos and the corpus: whatever row is in hand,
// its stitches and those below stand in their order, none on another, what is
// joined stands within reach, and no line is wider than the window.
func TestWeaves(t *testing.T) {
	texts := map[string]string{}
	for _, d := range demo.All() {
		texts[d.Name] = d.Text
	}
	files, err := filepath.Glob(filepath.Join("..", "testdata", "c*", "*", "*.case"))
	if err != nil {
		t.Fatal(err)
	}
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		text, _, _ := strings.Cut(string(data), "\n=== want")
		texts[filepath.Base(file)] = text
	}
	woven := 0
	for name, text := range texts {
		proof := pattern.Read(text).Prove(pattern.Options{})
		plan := counter.NewPlan(proof)
		for piece := range min(plan.Pieces(), 4) {
			var v weaver
			for row := range min(plan.Rows(piece), 8) {
				s, err := counter.Begin(plan).Apply(counter.Event{Kind: counter.Jump, Piece: piece, Row: row})
				if err != nil {
					continue
				}
				w := v.of(s)
				if w == nil {
					continue
				}
				woven++
				checkWeave(t, name, w)
				for _, width := range []int{30, 76, 240} {
					for _, done := range []int64{0, w.total / 2, w.total - 1, w.total} {
						for _, l := range w.lay(width, done, done+1).draw(true, s.Here(), done) {
							if spanCells(l) > width {
								t.Fatalf("%s: a line of %d columns in a window of %d", name, spanCells(l), width)
							}
						}
						large, ok := w.layLarge(width, done, done+1)
						if !ok {
							continue
						}
						for _, l := range large.drawLarge(s.Here(), done) {
							if spanCells(l) > width {
								t.Fatalf("%s: a line of %d columns in large signs, in a window of %d", name, spanCells(l), width)
							}
						}
					}
				}
			}
		}
	}
	if woven < 100 {
		t.Errorf("only %d rows could be set out", woven)
	}
}

func checkWeave(t *testing.T, name string, w *weave) {
	t.Helper()
	for _, row := range [][]thread{w.threads, w.below} {
		last := -1.0
		for i, x := range row {
			if x.x <= last || x.x > float64(w.places) {
				t.Fatalf("%s: thread %d stands at %v after %v, of %d places", name, i, x.x, last, w.places)
			}
			last = x.x
		}
	}
	next := int64(0)
	for _, x := range w.threads {
		if x.nth >= 0 {
			if x.nth != next {
				t.Fatalf("%s: stitch %d comes after %d", name, x.nth, next)
			}
			next++
		}
		for _, f := range x.feet {
			if f < 0 || f >= len(w.below) {
				t.Fatalf("%s: a foot in place %d of %d", name, f, len(w.below))
			}
		}
	}
}

// TestWeaveShows sets small rows out: an increase, a decrease, a shell over a
// skipped stitch, spaces of chains, a ring.
func TestWeaveShows(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"two in one", "Ch 4.\nRow 1: Sc in 2nd ch from hook and in each ch across. (3)\nRow 2: Ch 1, turn, 2 sc in first st, sc in next st, 2 sc in last st. (5)\n", `
+  +  +  +  +
╰─┬╯  │  ╰─┬╯
  +   +    +`},
		{"one in two", "Ch 6.\nRow 1: Sc in 2nd ch from hook and in each ch across. (5)\nRow 2: Ch 1, turn, sc2tog, sc in next st, sc2tog. (3)\n", `
  +   +    +
╭─┴╮  │  ╭─┴╮
+  +  +  +  +`},
		{"a shell", "Ch 8.\nRow 1: Sc in 2nd ch from hook and in each ch across. (7)\nRow 2: Ch 1, turn, sc in first st, sk 2 sts, 5 dc in next st, sk 2 sts, sc in last st. (7)\n", `
         ┬  ┬  ┬  ┬  ┬
+        ┼  ┼  ┼  ┼  ┼        +
│        ╰──┴──┼──┴──╯        │
+  +  +        +        +  +  +`},
		{"a ring", "Rnd 1: 6 sc in magic ring. (6)\n", `
+  +  +  +  +  +
╰──┴──┴─┬┴──┴──╯
        O`},
		{"turned", "Ch 5.\nRow 1: Sc in 2nd ch from hook, hdc in next ch, sc in next 2 ch. (4)\nRow 2: Ch 1, turn, sc in each st across. (4)\n", `
+  +  +  +
│  │  │  │
      ┬
+  +  │  +`},
	} {
		proof := pattern.Read(c.text).Prove(pattern.Options{})
		plan := counter.NewPlan(proof)
		s, err := counter.Begin(plan).Apply(counter.Event{Kind: counter.Jump, Row: plan.Rows(0) - 1})
		if err != nil {
			t.Fatal(err)
		}
		var v weaver
		w := v.of(s)
		if w == nil {
			t.Errorf("%s: it cannot be set out", c.name)
			continue
		}
		lay := w.lay(200, w.total, w.total)
		lay.pitch = 3
		var got []string
		for _, l := range lay.draw(true, pattern.Here{}, 0)[1:] {
			text := ""
			for _, x := range l {
				text += x.text
			}
			if text = strings.TrimRight(text, " "); text != "" && !strings.ContainsAny(text, "0123456789'") {
				got = append(got, strings.TrimPrefix(text, "   "))
			}
		}
		if want := strings.TrimPrefix(c.want, "\n"); strings.Join(got, "\n") != want {
			t.Errorf("%s:\n%s\nwant\n%s", c.name, strings.Join(got, "\n"), want)
		}
	}
}

func TestColourIn(t *testing.T) {
	for text, want := range map[string]string{
		"With navy": "navy", "change to Red": "red", "Change to colour B": "B", "with MC": "MC", "join yarn": "", "with RS facing": "",
		"With kelp green": "kelp green", "Change to Dark Kelp Green.": "dark kelp green", "with navy, ch 6": "navy", "join sea foam in last st": "sea foam",
	} {
		if got := colourIn(&pattern.Step{Op: pattern.OpColour, Text: text}); got != want {
			t.Errorf("%q changes to %q, want %q", text, got, want)
		}
	}
	if got := colourIn(&pattern.Step{Op: pattern.OpWork, Text: "red"}); got != "" {
		t.Errorf("a stitch changes to %q", got)
	}
}

// TestLargeWeave sets a row out in large signs, each of three columns, with what
// stands in a stitch drawn down to it. A row that has room for them only in part
// is drawn in small signs.
func TestLargeWeave(t *testing.T) {
	const text = "Ch 5.\nRow 1: Sc in 2nd ch from hook, hdc in next ch, sc in next 2 ch. (4)\nRow 2: Ch 1, turn, sc in first st, 2 dc in next st, sc2tog. (4)\n"
	s, err := counter.Begin(counter.NewPlan(pattern.Read(text).Prove(pattern.Options{}))).Apply(counter.Event{Kind: counter.Jump, Row: 1})
	if err != nil {
		t.Fatal(err)
	}
	var v weaver
	w := v.of(s)
	lay, ok := w.layLarge(29, w.total, w.total)
	if !ok || lay.pitch != 5 {
		t.Fatalf("it is laid out at %d columns each: %v", lay.pitch, ok)
	}
	var got []string
	for _, l := range lay.drawLarge(pattern.Here{}, 0) {
		line := ""
		for _, x := range l {
			line += x.text
		}
		got = append(got, strings.TrimRight(line, " "))
	}
	const want = `
        ─┬─  ─┬─
    │    │    │       │
   ─┼─  ─┼─  ─┼─     ─┼─
    │    │    │       │
    │    ╰──┬─╯    ╭──┴─╮
    │       │     ─┬─   │
    │       │      │    │
   ─┼─     ─┼─     │   ─┼─
    │       │      │    │
                      4`
	if text := "\n" + strings.Join(got[1:], "\n"); text != want { // without the bracket
		t.Errorf("it is\n%s\nwant\n%s", text, want)
	}
	if _, ok := w.layLarge(19, 0, 1); ok {
		t.Error("large signs where there is only room for small ones")
	}
	if _, ok := w.layLarge(8, 0, 1); !ok {
		t.Error("small signs where the row has to be scrolled anyway")
	}
}

// A colour of several words has the ink of the last.
func TestYarnInk(t *testing.T) {
	for colour, want := range map[string]role{
		"kelp green": yarnGreen, "green": yarnGreen, "dark navy blue": yarnBlue, "rose gold": yarnYellow, "Rust Brown": yarnBrown, "B": markDone,
	} {
		if got, name := yarnInk(colour); got != want || name != colour {
			t.Errorf("%q has ink %d and is called %q, want %d", colour, got, name, want)
		}
	}
}
