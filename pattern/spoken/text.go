package spoken

import (
	"fmt"
	"strings"
)

// width is how wide the paragraphs of a text are, in characters.
const width = 78

// Text is the script as plain text: each paragraph with the time it takes in
// front of it, in minutes and seconds.
func (s *Script) Text() string {
	var b strings.Builder
	if s.headed() {
		b.WriteString(shown(s.sized(s.Title)) + "\n\n")
	}
	for i, p := range s.Parts {
		if i > 0 {
			b.WriteByte('\n')
		}
		if p.Title != "" {
			fmt.Fprintf(&b, "%s  (%s)\n\n", shown(s.over(p)), clock(p.Milliseconds))
		}
		for k, l := range p.Lines {
			if k > 0 {
				b.WriteByte('\n')
			}
			lead := fmt.Sprintf("%7s  ", clock(l.Milliseconds))
			for _, line := range wrap(l.Text, width-len(lead)) {
				b.WriteString(strings.TrimRight(lead+line, " ") + "\n")
				lead = strings.Repeat(" ", len(lead))
			}
		}
	}
	if len(s.Parts) > 0 {
		fmt.Fprintf(&b, "\n%s\n", s.inAll())
	}
	return b.String()
}

// headed reports whether the title stands over the first part, which has
// another one.
func (s *Script) headed() bool {
	return s.Title != "" && len(s.Parts) > 0 && s.Parts[0].Title != s.Title
}

// sized is a title with the size that is said, of a pattern in several.
func (s *Script) sized(title string) string {
	if s.Size == "" {
		return title
	}
	return title + ", " + s.Size
}

// over is what stands over a part: its title, and the size where that is the
// first title there is.
func (s *Script) over(p Part) string {
	if s.headed() || len(s.Parts) > 0 && s.Parts[0].Title != "" && p.Title != s.Parts[0].Title {
		return p.Title
	}
	return s.sized(p.Title)
}

// inAll says how long the whole script is.
func (s *Script) inAll() string {
	return fmt.Sprintf("%s in all, at %.0f words a minute.", clock(s.Milliseconds), float64(s.Rate))
}

// Markdown is the script as Markdown: a heading a part, a paragraph a line.
func (s *Script) Markdown() string {
	var b strings.Builder
	if s.headed() {
		fmt.Fprintf(&b, "# %s\n\n", escape(shown(s.sized(s.Title))))
	}
	for i, p := range s.Parts {
		if i > 0 {
			b.WriteByte('\n')
		}
		if p.Title != "" {
			mark := "##"
			if i == 0 && p.Piece < 0 {
				mark = "#"
			}
			fmt.Fprintf(&b, "%s %s\n\n*%s*\n\n", mark, escape(shown(s.over(p))), clock(p.Milliseconds))
		}
		for k, l := range p.Lines {
			if k > 0 {
				b.WriteByte('\n')
			}
			if l.Label != "" {
				fmt.Fprintf(&b, "**%s** (%s) ", escape(shown(l.Label)), clock(l.Milliseconds))
			}
			b.WriteString(escape(l.Text) + "\n")
		}
	}
	if len(s.Parts) > 0 {
		fmt.Fprintf(&b, "\n*%s*\n", s.inAll())
	}
	return b.String()
}

// clock writes a time to the tenth of a second: "0:07.5".
func clock(ms int64) string {
	tenths := (ms + 50) / 100
	return fmt.Sprintf("%d:%02d.%d", tenths/600, tenths/10%60, tenths%10)
}

// shown is text with control characters as marks.
func shown(s string) string {
	return strings.Map(func(r rune) rune {
		if r < ' ' || r >= 0x7f && r < 0xa0 {
			return '\ufffd'
		}
		return r
	}, s)
}

// escape keeps what could be Markdown or HTML from being taken for it.
func escape(s string) string {
	var b strings.Builder
	for _, r := range s {
		switch r {
		case '\\', '`', '*', '_', '[', ']', '<', '>', '#', '|', '~', '&':
			b.WriteByte('\\')
		}
		b.WriteRune(r)
	}
	return b.String()
}

// wrap breaks a paragraph into lines no longer than n characters where its
// words allow.
func wrap(text string, n int) []string {
	var out []string
	line, length := "", 0
	for _, w := range strings.Fields(text) {
		l := len([]rune(w))
		if length > 0 && length+1+l > n {
			out = append(out, line)
			line, length = "", 0
		}
		if length > 0 {
			line += " "
			length++
		}
		line += w
		length += l
	}
	if line != "" {
		out = append(out, line)
	}
	return out
}
