package pattern

import (
	"strings"
	"testing"
)

// wordsOf cuts the last row of a text, with a stroke between what belongs to
// different instructions and brackets about what is only to be read.
func wordsOf(t *testing.T, text string) string {
	t.Helper()
	p := Read(text).Prove(Options{})
	rows := p.Pieces[0].Rows
	var b strings.Builder
	var last *Step
	for _, w := range p.Words(rows[len(rows)-1]) {
		if w.Step == nil {
			b.WriteString("<" + w.Text + ">")
		} else {
			if last != nil && last != w.Step {
				b.WriteString("|")
			}
			b.WriteString(w.Text)
		}
		last = w.Step
	}
	return b.String()
}

func TestWords(t *testing.T) {
	start := "Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across. (20 sc)\n"
	tests := []struct{ name, text, want string }{
		{"plain", start + "Row 2: Ch 1, turn, sc in each st across. (20 sc)",
			"Ch 1<, >turn<, >sc in each st across<.>"},
		{"a repeat", start + "Row 2: Ch 1, turn, *sc in next st, 2 dc in next st; rep from * across. (30 sts)",
			"Ch 1<, >turn<, *>sc in next st<, >2 dc in next st<; rep from * across.>"},
		{"a bracket closed at the end", start + "Row 2: Ch 1, turn, (sc in next 4 sts, ch 1) 5 times",
			"Ch 1<, >turn<, (>sc in next 4 sts<, >ch 1<) 5 times>"},
		{"several in one place", start + "Row 2: Ch 3, turn, (2 dc, ch 1, 2 dc) in next st.",
			"Ch 3<, >turn<, (>2 dc<, >ch 1<, >2 dc<) in next st.>"},
		{"the last pass differs", start + "Row 2: Ch 1, turn, *sc in next 3 sts, ch 2, sk next st; rep from * across, ending with sc in last st.",
			"Ch 1<, >turn<, *>sc in next 3 sts<, >ch 2<, >sk next st<; rep from * across, ending with >sc in last st<.>"},
		{"over two lines", start + "Row 2: Ch 1, turn,\n\tsc in each\nst across.",
			"Ch 1<, >turn<, >sc in each st across<.>"},
		{"control bytes", start + "Row 2: Ch 1, turn, sc in\x00each\x1b[31m st across.",
			"Ch 1<, >turn<, >sc in each [31m st across<.>"},
		{"the chain of the row before", start[:len(start)-1] + " Ch 1, turn.\nRow 2: Sc in each st across.",
			"Ch 1<, >turn<.>< >Sc in each st across<.>"},
	}
	for _, tt := range tests {
		if got := wordsOf(t, tt.text); got != tt.want {
			t.Errorf("%s:\n got %q\nwant %q", tt.name, got, tt.want)
		}
	}
}

// TestWordsAll holds the words of every row of the test data to the source:
// put together they are what is written, nothing twice and nothing out of turn.
func TestWordsAll(t *testing.T) {
	for _, w := range allWritten(t) {
		p := Read(w.text).Prove(Options{})
		source := tidy(p.Pattern.Source.Text)
		for _, pc := range p.Pieces {
			for _, r := range pc.Rows {
				for _, steps := range [][]*Step{r.Lead, r.Row.Setup, r.Row.Steps} {
					if len(steps) == 0 {
						continue
					}
					var b strings.Builder
					for _, word := range p.wordsOf(nil, steps) {
						if word.Text == "" || strings.ContainsAny(word.Text, "\n\t\r\x00\x1b") {
							t.Errorf("%s, %s: a word reads %q", w.name, r.Label, word.Text)
						}
						b.WriteString(word.Text)
					}
					if text := b.String(); !strings.Contains(source, strings.TrimSpace(text)) {
						t.Errorf("%s, %s: %q is not what is written", w.name, r.Label, text)
					}
				}
			}
		}
	}
}

func TestTidy(t *testing.T) {
	for in, want := range map[string]string{
		"sc in\n\tnext  st": "sc in next st",
		" ch 1 ":            " ch 1 ",
		"a\u00a0b\u0085c":   "a b c",
		"\xffsc":            "\ufffdsc",
		"\x1b\x7f":          " ",
		"":                  "",
	} {
		if got := tidy(in); got != want {
			t.Errorf("%q tidied is %q, want %q", in, got, want)
		}
	}
}
