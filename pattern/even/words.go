package even

import (
	"strconv"
	"strings"

	"crochet/tallyturn/pattern/stitch"
)

// Words writes the spread as a row does, in the stitch and the terms given:
// "sc in next 4 sts, 2 sc in next st, ...", without its total.
func (s Spread) Words(id stitch.ID, terms stitch.Terms) string {
	w := wording{name: id.Name(terms), together: s.Into < s.Over}
	if len(s.Runs) == 1 && s.Runs[0].N > 1 {
		return w.throughout(s.Runs[0].Worth, s.Ends == Joined)
	}
	parts := fold(s.Runs)
	texts := make([]string, len(parts))
	for i, p := range parts {
		if p.times == 1 {
			which := "next"
			if i == len(parts)-1 && i > 0 {
				which = "last"
			}
			texts[i] = w.run(p.runs[0], which)
			continue
		}
		in := make([]string, len(p.runs))
		for k, r := range p.runs {
			in[k] = w.run(r, "next")
		}
		texts[i] = "(" + strings.Join(in, ", ") + ") " + times(int64(p.times))
	}
	return strings.Join(texts, ", ")
}

// wording is how the runs of a row are told.
type wording struct {
	name     string // of the stitch
	together bool   // Worth stitches are worked together, and not into one
}

func (w wording) run(r Run, which string) string {
	n := strconv.FormatInt(r.N, 10)
	each := strconv.FormatInt(r.Worth, 10)
	switch {
	case r.Worth == 1 && r.N == 1:
		return w.name + " in " + which + " st"
	case r.Worth == 1:
		return w.name + " in " + which + " " + n + " sts"
	case w.together && r.N == 1:
		return w.name + each + "tog"
	case w.together:
		return w.name + each + "tog " + times(r.N)
	case r.N == 1:
		return each + " " + w.name + " in " + which + " st"
	}
	return each + " " + w.name + " in each of " + which + " " + n + " sts"
}

// throughout writes a row that is worked alike from end to end.
func (w wording) throughout(worth int64, round bool) string {
	far := " across"
	if round {
		far = " around"
	}
	each := strconv.FormatInt(worth, 10)
	if w.together {
		return w.name + each + "tog" + far
	}
	return each + " " + w.name + " in each st" + far
}

func times(n int64) string {
	if n == 2 {
		return "twice"
	}
	return strconv.FormatInt(n, 10) + " times"
}

// Row is the spread as a row of a pattern has it, with its total.
func (s Spread) Row(id stitch.ID, terms stitch.Terms) string {
	text := s.Words(id, terms)
	return capital(text) + ". " + s.total(s.Into, id, terms)
}

// capital sets a sentence's first letter, which may stand in a bracket.
func capital(text string) string {
	for i := range len(text) {
		if c := text[i]; 'a' <= c && c <= 'z' {
			return text[:i] + strings.ToUpper(text[i:i+1]) + text[i+1:]
		} else if c != '(' {
			break
		}
	}
	return text
}

func (s Spread) total(n int64, id stitch.ID, terms stitch.Terms) string {
	return "(" + strconv.FormatInt(n, 10) + " " + id.Name(terms) + ")"
}

// Trial is a pattern of two rows, the second of which is the spread, so that it
// can be proven.
func (s Spread) Trial(id stitch.ID, terms stitch.Terms) string {
	name := id.Name(terms)
	return "Terms: " + terms.String() + "\nCh " + strconv.FormatInt(s.Over+1, 10) + ".\n" +
		"Row 1: " + stitch.SC.Name(terms) + " in 2nd ch from hook and in each ch across. " + s.total(s.Over, stitch.SC, terms) + "\n" +
		"Row 2: Ch 1 (does not count as a " + name + "), turn, " + s.Words(id, terms) + ". " + s.total(s.Into, id, terms) + "\n"
}

// About says in a sentence or two how the increases lie.
func (s Spread) About() string {
	n, what := s.Increases(), "increase"
	if n < 0 {
		n, what = -n, "decrease"
	}
	text := count(n, what) + " over " + count(s.Over, "stitch") + " " + makes(n) + " " + strconv.FormatInt(s.Into, 10) + "."
	if least, most, ok := s.plainBetween(); ok {
		between := strconv.FormatInt(least, 10)
		if most > least {
			between += " or " + strconv.FormatInt(most, 10)
		}
		text += " Between two of them " + lie(most) + " " + between + " plain " + plural(most) + "."
	}
	switch {
	case s.Ends == Joined:
	case s.Symmetrical():
		text += " The row reads the same from both ends."
	default:
		text += " With these numbers it cannot quite read the same from both ends."
	}
	return text
}

func count(n int64, what string) string {
	text := strconv.FormatInt(n, 10) + " " + what
	switch {
	case n == 1:
		return text
	case strings.HasSuffix(what, "ch"):
		return text + "es"
	}
	return text + "s"
}

func plural(n int64) string {
	if n == 1 {
		return "stitch"
	}
	return "stitches"
}

func makes(n int64) string {
	if n == 1 {
		return "makes"
	}
	return "make"
}

func lie(n int64) string {
	if n == 1 {
		return "lies"
	}
	return "lie"
}
