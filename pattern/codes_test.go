package pattern

import (
	"strings"
	"testing"
)

// Each explanation shows its code on a pattern, which can be checked as it
// stands and gives that very finding.
func TestExplanationsShowTheirFinding(t *testing.T) {
	without := map[Code]bool{CodeSize: true, CodeTooMuch: true} // these take an option, or a long file
	for _, code := range Codes() {
		text, ok := Explain(code)
		if !ok || text == "" {
			t.Errorf("%s is not explained", code)
		}
		var example strings.Builder
		for line := range strings.Lines(text) {
			if n := len(strings.TrimRight(line, "\n")); n > 84 && !strings.HasPrefix(line, "    ") {
				t.Errorf("%s: a line of %d columns", code, n)
			}
			if row, ok := strings.CutPrefix(line, "    "); ok {
				example.WriteString(row)
			} else if line == "\n" {
				example.WriteString(line)
			}
		}
		first, _, _ := strings.Cut(strings.Join(strings.Fields(text), " "), ". ")
		if len(first) > 110 {
			t.Errorf("%s: the first sentence is long: %q", code, first)
		}
		if without[code] {
			continue
		}
		found := false
		var others []string
		for _, f := range Read(example.String()).Prove(Options{}).Findings {
			found = found || f.Code == code
			if f.Code != code && f.Severity > Note {
				others = append(others, string(f.Code)+": "+f.Message)
			}
		}
		if !found {
			t.Errorf("%s: its example does not give it, but %q", code, others)
		} else if len(others) > 0 {
			t.Errorf("%s: its example also gives %q", code, others)
		}
	}
	if _, ok := Explain("no-such-code"); ok {
		t.Error("a code that does not exist is explained")
	}
}

// Colours copied along from a terminal are no part of a row.
func TestTerminalSequencesAreBlank(t *testing.T) {
	p := Read("Ch 11.\n\x1b[1mRow 1:\x1b[0m Sc in 2nd ch from hook and in each ch across. \x1b[38;5;12m(10 sc)\x1b[0m \x1b[2J\n").Prove(Options{})
	if len(p.Findings) > 0 || p.Summary().Agrees != 1 {
		t.Errorf("%v, %+v", p.Findings, p.Summary())
	}
}
