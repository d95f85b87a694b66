package sheet

import (
	"fmt"
	"strings"
	"unicode/utf8"
)

// Text writes a sheet as plain text, its prose in lines of at most 78
// characters where words allow.
func Text(d *Doc) string {
	t := &textWriter{}
	t.line(d.Title)
	t.gap()
	for _, p := range d.About {
		t.wrapped(p, "", "")
		t.gap()
	}
	t.line(d.Says)
	t.gap()
	t.blocks(d.Front)
	for _, v := range d.Versions {
		if len(d.Versions) > 1 {
			t.heading(v.Terms.String()+" terms", false)
		}
		t.blocks(v.Blocks)
	}
	t.blocks(d.Back)
	return strings.TrimRight(t.b.String(), "\n") + "\n"
}

const textWidth = 78

func shortLine(line string) bool { return utf8.RuneCountInString(line) <= textWidth }

type textWriter struct{ b strings.Builder }

func (t *textWriter) line(s string) { t.b.WriteString(s + "\n") }
func (t *textWriter) gap()          { t.b.WriteByte('\n') }

func (t *textWriter) heading(s string, sub bool) { t.line(s) }

func (t *textWriter) wrapped(s, first, rest string) {
	for _, l := range Wrap(first+s, shortLine) {
		t.line(l)
		_ = rest
	}
}

func (t *textWriter) blocks(blocks []Block) {
	for _, k := range blocks {
		switch k.Kind {
		case Heading:
			t.heading(k.Text, k.Sub)
			continue
		case Para:
			t.wrapped(k.Text, "", "")
		case Facts:
			for _, p := range k.Pairs {
				t.wrapped(strings.TrimSpace(p[0]+" "+p[1]), "", "")
			}
		case Glossary:
			for _, p := range k.Pairs {
				t.line(p[0] + ": " + p[1])
			}
		case List:
			for _, s := range k.Items {
				t.wrapped(s, "- ", "  ")
			}
		case Steps:
			for i, s := range k.Items {
				t.wrapped(s, fmt.Sprintf("%d. ", i+1), "   ")
			}
		case Rows:
			t.rows(k.Rows)
		case Cautions:
			for i, p := range k.Pairs {
				if i > 0 {
					t.gap()
				}
				for _, l := range WrapProse(strings.TrimSpace(p[0]+" "+p[1]), shortLine) {
					t.line(l)
				}
			}
		case Image:
			t.line(k.Picture.Title)
			t.wrapped(k.Picture.Words, "", "")
		}
		t.gap()
	}
}

func (t *textWriter) rows(rows []Row) {
	for _, r := range rows {
		for _, l := range r.Before {
			t.wrapped(l, "", "")
		}
		for i, l := range r.Lines {
			if i == 0 && r.Label != "" {
				l = r.Label + " " + l
			}
			t.wrapped(l, "", "")
		}
		if len(r.Lines) == 0 {
			t.line(r.Label)
		}
		if r.Wrong != "" {
			t.gap()
			t.wrapped(Wrong+r.Wrong, "", "")
			t.gap()
		}
	}
}

// Wrong stands before what does not prove in a row.
const Wrong = "Not right yet: "

// Wrap cuts a text into lines that fit. What belongs together stays on one
// line, "(10 sc, 10 hdc)" or "5 more times", and a line begins with a small
// letter where it can: what begins otherwise could be taken for a row or a
// heading.
func Wrap(s string, fits func(string) bool) []string { return wrapAt(s, fits, quiet) }

// WrapProse is Wrap for words that are far from any row: a line may begin with
// whatever is no number and no name of a row.
func WrapProse(s string, fits func(string) bool) []string { return wrapAt(s, fits, prosaic) }

func prosaic(_, next string) bool {
	c := next[0]
	return ('a' <= c && c <= 'z' || 'A' <= c && c <= 'Z') && !speaksOfRow(strings.TrimRight(next, ".,:;"))
}

func wrapAt(s string, fits func(string) bool, good func(last, next string) bool) []string {
	var out []string
	words := units(strings.Fields(s))
	for len(words) > 0 {
		n := 1
		for n < len(words) && fits(strings.Join(words[:n+1], " ")) {
			n++
		}
		if n < len(words) {
			for k := n; k > n/2 && k > 1; k-- {
				if good(words[k-1], words[k]) {
					n = k
					break
				}
			}
		}
		out = append(out, strings.Join(words[:n], " "))
		words = words[n:]
	}
	return out
}

// unitLimit is the longest unit in characters that is not taken apart.
const unitLimit = 44

// units joins words that belong on one line.
func units(words []string) []string {
	var out []string
	for i := 0; i < len(words); {
		n := unit(words[i:])
		for n > 1 && len(strings.Join(words[i:i+n], " ")) > unitLimit {
			n--
		}
		out = append(out, strings.Join(words[i:i+n], " "))
		i += n
	}
	return out
}

// unit is how many words belong together from the first on.
func unit(words []string) int {
	w := words[0]
	if open := strings.IndexAny(w, "([{<"); open >= 0 && open+1 < len(w) && isDigit(w[open+1]) {
		for n, u := range words {
			if strings.ContainsAny(u, ")]}>") {
				return min(n+1+tail(words[n:]), len(words))
			}
		}
	}
	return 1 + tail(words)
}

// tail is how many of the words behind the first go with it: the noun of a
// number, what is repeated and how often.
func tail(words []string) int {
	if len(words) < 2 {
		return 0
	}
	w := strings.ToLower(words[0])
	switch {
	case strings.HasSuffix(w, "-"): // what is copied from print has no such line end
	case isDigit(w[len(w)-1]), strings.HasSuffix(w, "*"), strings.HasSuffix(w, "†"), w == "=", w == "–", w == "—", w == "x", w == "×":
	case isWord(w, "the rep repeat from to until in of last next each total make and times more row rows rnd rnds round rounds at"):
	default:
		if next := words[1]; next != "*" && next != "x" && next != "×" && next != "times" && next != "times." && next != "=" && next != "-" && next != "–" && next != "more" && next != "twice" && next != "twice." && next != "that" && next != "to" {
			return 0
		}
	}
	return 1 + tail(words[1:])
}

func isDigit(c byte) bool { return '0' <= c && c <= '9' }

func isWord(w, list string) bool {
	for l := range strings.FieldsSeq(list) {
		if w == l {
			return true
		}
	}
	return false
}

// quiet reports whether a line may well end with one word and the next begin
// with the other: the sentence plainly goes on.
func quiet(last, next string) bool {
	if c := next[0]; c < 'a' || c > 'z' {
		return false
	}
	if strings.ContainsAny(last[len(last)-1:], ".:!*)]") {
		return false
	}
	switch strings.TrimRight(next, ".,:;") {
	case "row", "rows", "rnd", "rnds", "round", "rounds", "r", "first", "second", "third", "next", "last", "ch", "fasten", "rep", "repeat", "join":
		return false
	}
	return true
}
