package report

import (
	"fmt"
	"strings"

	"crochet/tallyturn/pattern"
)

// Tally is what one or more proofs come to.
type Tally struct {
	Rows                    pattern.Summary
	Errors, Warnings, Notes int
}

// Count tallies a proof.
func Count(p *pattern.Proof) Tally {
	t := Tally{Rows: p.Summary()}
	for _, f := range p.Findings {
		switch f.Severity {
		case pattern.Error:
			t.Errors++
		case pattern.Warning:
			t.Warnings++
		case pattern.Note:
			if f.Code != pattern.CodePlaced { // shown with its piece, not as a finding
				t.Notes++
			}
		}
	}
	return t
}

// Add is both tallies together.
func (t Tally) Add(o Tally) Tally {
	t.Rows.Rows += o.Rows.Rows
	t.Rows.Agrees += o.Rows.Agrees
	t.Rows.Differs += o.Rows.Differs
	t.Rows.Unstated += o.Rows.Unstated
	t.Rows.Trusted += o.Rows.Trusted
	t.Rows.Unread += o.Rows.Unread
	t.Errors += o.Errors
	t.Warnings += o.Warnings
	t.Notes += o.Notes
	return t
}

// String is the tally as one line without its end.
func (t Tally) String() string {
	var rows []string
	for _, part := range []struct {
		n         int
		one, many string
	}{
		{t.Rows.Agrees, "agrees", "agree"},
		{t.Rows.Differs, "differs", "differ"},
		{t.Rows.Unstated, "states no total", "state no total"},
		{t.Rows.Trusted, "taken on trust", "taken on trust"},
		{t.Rows.Unread, "not understood", "not understood"},
	} {
		switch {
		case part.n == 1:
			rows = append(rows, "1 "+part.one)
		case part.n > 1:
			rows = append(rows, fmt.Sprintf("%d %s", part.n, part.many))
		}
	}
	return fmt.Sprintf("%s: %s. %s, %s, %s.",
		counted(t.Rows.Rows, "row"), strings.Join(rows, ", "),
		counted(t.Errors, "error"), counted(t.Warnings, "warning"), counted(t.Notes, "note"))
}

func counted(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}
