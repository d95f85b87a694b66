package sheet

import (
	"crypto/sha256"
	_ "embed" // the style and the script stand in files of their own
	"encoding/base64"
	"fmt"
	"html"
	"strings"

	"crochet/tallyturn/pattern/stitch"
)

//go:embed page.css
var pageStyle string

//go:embed page.js
var pageScript string

// HTML writes a sheet as a page that stands alone: it asks for nothing from
// anywhere, and everything can be read where no script runs. Each row has a box
// to tick, which is remembered in the reader's own browser.
func HTML(d *Doc) string {
	p := &htmlPage{}
	p.head(d)
	p.put("<body data-sheet=\"%s\">\n<main>\n", d.Key)
	p.put("<h1>%s</h1>\n", esc(d.Title))
	for _, s := range d.About {
		p.put("<p>%s</p>\n", esc(s))
	}
	p.put("<p class=\"says\">%s</p>\n", esc(d.Says))
	if len(d.Versions) > 1 {
		p.put("<nav aria-label=\"Terms\"><ul>\n")
		for _, v := range d.Versions {
			p.put("<li><a href=\"#%s\">%s terms</a></li>\n", language(v.Terms), v.Terms)
		}
		p.put("</ul></nav>\n")
	}
	// Shown by the script, which it speaks of.
	p.put("<div class=\"bar\" hidden><span role=\"status\"></span><button type=\"button\">Clear the ticks</button></div>\n")
	p.blocks(d.Front, 2)
	for _, v := range d.Versions {
		p.put("<article lang=\"%s\" id=\"%s\">\n", language(v.Terms), language(v.Terms))
		level := 2
		if len(d.Versions) > 1 {
			p.put("<h2>%s terms</h2>\n", v.Terms)
			level = 3
		}
		p.blocks(v.Blocks, level)
		p.put("</article>\n")
	}
	p.blocks(d.Back, 2)
	p.put("</main>\n<script>%s</script>\n</body>\n</html>\n", pageScript)
	return p.b.String()
}

// language is the English of a set of terms.
func language(t stitch.Terms) string {
	if t == stitch.UK {
		return "en-GB"
	}
	return "en-US"
}

// htmlPage is a page as it is written.
type htmlPage struct{ b strings.Builder }

func (p *htmlPage) put(format string, args ...any) { fmt.Fprintf(&p.b, format, args...) }

// esc is text as HTML has it.
func esc(s string) string { return html.EscapeString(s) }

// head also tells the browser to fetch nothing and to run no other script.
func (p *htmlPage) head(d *Doc) {
	sum := sha256.Sum256([]byte(pageScript))
	p.put("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n")
	p.put("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n")
	p.put("<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; img-src data:; style-src 'unsafe-inline'; script-src 'sha256-%s'; base-uri 'none'; form-action 'none'\">\n", base64.StdEncoding.EncodeToString(sum[:]))
	p.put("<title>%s</title>\n<style>\n%s</style>\n</head>\n", esc(d.Title), pageStyle)
}

// blocks writes blocks, with headings of a level and the one below it.
func (p *htmlPage) blocks(blocks []Block, top int) {
	for _, k := range blocks {
		switch k.Kind {
		case Heading:
			level := top
			if k.Sub {
				level++
			}
			p.put("<h%d>%s</h%d>\n", level, esc(k.Text), level)
		case Para:
			p.put("<p>%s</p>\n", esc(k.Text))
		case Facts:
			p.table(k)
		case Glossary:
			p.put("<ul class=\"glossary\">\n")
			for _, g := range k.Pairs {
				p.put("<li><strong>%s:</strong> %s</li>\n", esc(g[0]), esc(g[1]))
			}
			p.put("</ul>\n")
		case List:
			p.put("<ul>\n")
			for _, s := range k.Items {
				p.put("<li>%s</li>\n", esc(s))
			}
			p.put("</ul>\n")
		case Steps:
			p.put("<ol>\n")
			for _, s := range k.Items {
				p.put("<li>%s</li>\n", esc(s))
			}
			p.put("</ol>\n")
		case Rows:
			p.put("<ul class=\"rows\">\n")
			for _, r := range k.Rows {
				p.row(r)
			}
			p.put("</ul>\n")
		case Cautions:
			p.put("<div class=\"caution\" role=\"note\">\n")
			for _, c := range k.Pairs {
				if c[0] == "" {
					p.put("<p>%s</p>\n", esc(c[1]))
					continue
				}
				p.put("<p><strong>%s</strong> %s</p>\n", esc(c[0]), esc(c[1]))
			}
			p.put("</div>\n")
		case Image:
			p.picture(k.Picture)
		}
	}
}

// table puts pairs into a table, each with its name at the head of its row.
func (p *htmlPage) table(k Block) {
	p.put("<table>\n<tbody>\n")
	for _, f := range k.Pairs {
		if f[0] == "" {
			p.put("<tr><td colspan=\"2\">%s</td></tr>\n", esc(f[1]))
			continue
		}
		p.put("<tr><th scope=\"row\">%s</th><td>%s</td></tr>\n", esc(f[0]), esc(f[1]))
	}
	p.put("</tbody>\n</table>\n")
}

func (p *htmlPage) row(r Row) {
	p.put("<li>")
	for _, l := range r.Before {
		p.put("<p class=\"before\">%s</p>\n", esc(l))
	}
	p.put("<label><input type=\"checkbox\" data-row=\"%s\"><span>", r.ID)
	if r.Label != "" {
		p.put("<strong>%s</strong> ", esc(r.Label))
	}
	for i, l := range r.Lines {
		if i > 0 {
			p.put("<br>")
		}
		p.put("%s", esc(l))
	}
	p.put("</span></label>")
	if r.Wrong != "" {
		p.put("\n<p class=\"wrong\">%s%s</p>", Wrong, esc(r.Wrong))
	}
	p.put("</li>\n")
}

// picture puts a drawing in as an image: nothing in it can reach the page. On a
// phone it is not made so small that nothing can be read, and moves sideways.
func (p *htmlPage) picture(pic *Picture) {
	p.put("<h2>%s</h2>\n<figure><div role=\"group\" tabindex=\"0\" aria-label=\"%s\"><img src=\"data:image/svg+xml;base64,%s\" alt=\"%s\"></div><figcaption>%s</figcaption></figure>\n",
		esc(pic.Title), esc(pic.Title), base64.StdEncoding.EncodeToString([]byte(pic.SVG)), esc(pic.Words), esc(pic.Words))
}
