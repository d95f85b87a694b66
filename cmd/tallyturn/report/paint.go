package report

import "crochet/tallyturn/pattern"

// ink is one of the sixteen colours every colour terminal has, so that it
// follows the reader's own palette on light and on dark grounds.
type ink string

const (
	plain  ink = ""
	strong ink = "1"
	faint  ink = "2"
	bad    ink = "1;31"
	odd    ink = "33"
	good   ink = "32"
	mild   ink = "36"
)

// paint colours text; everything it tells is in the words as well.
func (o Options) paint(i ink, text string) string {
	if !o.Colour || i == plain || text == "" {
		return text
	}
	return "\x1b[" + string(i) + "m" + text + "\x1b[0m"
}

func severityInk(s pattern.Severity) ink {
	switch s {
	case pattern.Error:
		return bad
	case pattern.Warning:
		return odd
	}
	return mild
}

func statusInk(s pattern.Status) ink {
	switch s {
	case pattern.Agrees:
		return good
	case pattern.Differs:
		return bad
	case pattern.Unread:
		return odd
	}
	return plain
}
