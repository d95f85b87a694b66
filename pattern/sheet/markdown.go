package sheet

import (
	"fmt"
	"strings"
)

// Markdown writes a sheet in Markdown as CommonMark has it, with the tables of
// its common extension. Whatever the author wrote is only text in it.
func Markdown(d *Doc) string {
	m := &markdown{}
	m.para("# " + mark(d.Title))
	for _, p := range d.About {
		m.para(markLine(p))
	}
	m.para(markLine(d.Says))
	m.blocks(d.Front)
	for _, v := range d.Versions {
		if len(d.Versions) > 1 {
			m.para("## " + v.Terms.String() + " terms")
		}
		m.blocks(v.Blocks)
	}
	m.blocks(d.Back)
	return strings.TrimRight(m.b.String(), "\n") + "\n"
}

type markdown struct{ b strings.Builder }

func (m *markdown) para(s string) { m.b.WriteString(s + "\n\n") }

func (m *markdown) blocks(blocks []Block) {
	for _, k := range blocks {
		switch k.Kind {
		case Heading:
			if k.Sub {
				m.para("### " + mark(k.Text))
			} else {
				m.para("## " + mark(k.Text))
			}
		case Para:
			m.para(markLine(k.Text))
		case Facts, Cautions:
			for _, p := range k.Pairs {
				if p[0] == "" {
					m.para(markLine(p[1]))
					continue
				}
				m.para("**" + mark(p[0]) + "** " + mark(p[1]))
			}
		case Glossary:
			for _, p := range k.Pairs {
				m.b.WriteString("- " + markLine(p[0]+": "+p[1]) + "\n")
			}
			m.b.WriteByte('\n')
		case List:
			for _, s := range k.Items {
				m.b.WriteString("- " + markLine(s) + "\n")
			}
			m.b.WriteByte('\n')
		case Steps:
			for i, s := range k.Items {
				m.b.WriteString(fmt.Sprintf("%d. ", i+1) + markLine(s) + "\n")
			}
			m.b.WriteByte('\n')
		case Rows:
			for _, r := range k.Rows {
				m.row(r)
			}
		case Image:
			m.picture(k.Picture)
		}
	}
}

func (m *markdown) row(r Row) {
	var before []string
	for _, l := range r.Before {
		before = append(before, markLine(l))
	}
	if len(before) > 0 {
		m.para(strings.Join(before, "  \n"))
	}
	var out []string
	for i, l := range r.Lines {
		switch {
		case i > 0 || r.Label == "":
			out = append(out, markLine(l))
		default:
			out = append(out, "**"+mark(r.Label)+"** "+mark(l))
		}
	}
	if len(out) == 0 {
		out = append(out, "**"+mark(r.Label)+"**")
	}
	m.para(strings.Join(out, "  \n"))
	if r.Wrong != "" {
		m.para("**" + strings.TrimSpace(Wrong) + "** " + mark(r.Wrong))
	}
}

func (m *markdown) picture(p *Picture) {
	m.para("## " + mark(p.Title))
	m.para(markLine(p.Words))
}

// mark writes text so that Markdown takes none of it for its own.
func mark(s string) string {
	var b strings.Builder
	for i := 0; i < len(s); i++ {
		c := s[i]
		switch c {
		case '\\', '*', '_', '`', '<', '~', '|', '#':
			b.WriteByte('\\')
		case '&':
			if i+1 < len(s) && (s[i+1] == '#' || 'a' <= s[i+1]|0x20 && s[i+1]|0x20 <= 'z') {
				b.WriteByte('\\')
			}
		case ']':
			if i+1 < len(s) && (s[i+1] == '(' || s[i+1] == '[' || s[i+1] == ':') {
				b.WriteByte('\\')
			}
		case '!':
			if i+1 < len(s) && s[i+1] == '[' {
				b.WriteByte('\\')
			}
		}
		b.WriteByte(c)
	}
	return b.String()
}

// markLine is mark for text that begins a line: what would begin a list, a
// quotation or a heading there is kept from it.
func markLine(s string) string {
	out := mark(s)
	digits := len(s) - len(strings.TrimLeft(s, "0123456789"))
	switch {
	case strings.HasPrefix(s, "-") || strings.HasPrefix(s, "+") || strings.HasPrefix(s, ">") || strings.HasPrefix(s, "="):
		return `\` + out
	case digits > 0 && digits < 10 && digits < len(s) && (s[digits] == '.' || s[digits] == ')'):
		return out[:digits] + `\` + out[digits:]
	}
	return out
}
