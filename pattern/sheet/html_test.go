package sheet

import (
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"golang.org/x/net/html"

	"crochet/tallyturn/pattern/demo"
	"crochet/tallyturn/pattern/stitch"
)

// pageText is the text of a page as a reader copies it, after the rules of
// innerText in the HTML standard: white space folded, a line to a block, a
// blank line round a paragraph, a tab between cells.
func pageText(n *html.Node) string {
	var b strings.Builder
	breaks, space := 0, false
	need := func(n int) { breaks = max(breaks, n) }
	var walk func(*html.Node)
	walk = func(n *html.Node) {
		switch n.Type {
		case html.TextNode:
			for i, w := range strings.Fields(n.Data) {
				if i > 0 || strings.TrimLeft(n.Data, " \n") != n.Data {
					space = true
				}
				if b.Len() > 0 && breaks > 0 {
					b.WriteString(strings.Repeat("\n", breaks))
					space = false
				}
				if space && b.Len() > 0 {
					b.WriteByte(' ')
				}
				b.WriteString(w)
				breaks, space = 0, false
			}
			if strings.TrimRight(n.Data, " \n") != n.Data {
				space = true
			}
			return
		case html.ElementNode:
			if slices.Contains([]string{"script", "style", "head"}, n.Data) || slices.ContainsFunc(n.Attr, func(a html.Attribute) bool { return a.Key == "hidden" }) {
				return
			}
		}
		around := 0
		switch n.Data {
		case "p", "h1", "h2", "h3", "h4":
			around = 2
		case "li", "tr", "ul", "ol", "table", "div", "figure", "figcaption", "nav", "article", "label": // a label is a flex box here
			around = 1
		case "br":
			b.WriteByte('\n')
			space = false
		case "td":
			b.WriteByte('\t')
			space = false
		}
		need(around)
		for c := n.FirstChild; c != nil; c = c.NextSibling {
			walk(c)
		}
		need(around)
	}
	walk(n)
	return b.String() + "\n"
}

func parsePage(t testing.TB, page string) *html.Node {
	t.Helper()
	root, err := html.Parse(strings.NewReader(page))
	if err != nil {
		t.Fatal(err)
	}
	return root
}

// voids are the elements without an end.
var voids = []string{"meta", "input", "br", "img"}

// checkPage holds a page to the structure that the HTML standard asks for, and
// to what a screen reader needs.
func checkPage(t *testing.T, name, page string) {
	t.Helper()
	// Every element that is opened is closed, in order, as written.
	var open []string
	ids := map[string]bool{}
	level := 0
	z := html.NewTokenizer(strings.NewReader(page))
	for z.Next() != html.ErrorToken {
		tok := z.Token()
		switch tok.Type {
		case html.StartTagToken:
			for _, a := range tok.Attr {
				if strings.HasPrefix(a.Key, "on") || strings.Contains(a.Val, "http") || a.Key == "src" && !strings.HasPrefix(a.Val, "data:image/svg+xml;base64,") {
					t.Errorf("%s: <%s %s=%q>", name, tok.Data, a.Key, a.Val)
				}
				if a.Key == "id" {
					if ids[a.Val] {
						t.Errorf("%s: two elements have the id %q", name, a.Val)
					}
					ids[a.Val] = true
				}
			}
			if tok.Data == "th" && !slices.ContainsFunc(tok.Attr, func(a html.Attribute) bool { return a.Key == "scope" }) {
				t.Errorf("%s: a th without a scope", name)
			}
			if tok.Data == "img" && !slices.ContainsFunc(tok.Attr, func(a html.Attribute) bool { return a.Key == "alt" && a.Val != "" }) {
				t.Errorf("%s: an image without words", name)
			}
			if tok.Data == "input" && !slices.Contains(open, "label") {
				t.Errorf("%s: an input without a label", name)
			}
			if len(tok.Data) == 2 && tok.Data[0] == 'h' && tok.Data != "hr" {
				l := int(tok.Data[1] - '0')
				if l > level+1 || l == 1 && level > 0 {
					t.Errorf("%s: a heading of level %d follows one of level %d", name, l, level)
				}
				level = l
			}
			if !slices.Contains(voids, tok.Data) {
				open = append(open, tok.Data)
			}
		case html.EndTagToken:
			if len(open) == 0 || open[len(open)-1] != tok.Data {
				t.Fatalf("%s: </%s> within %v", name, tok.Data, open)
			}
			open = open[:len(open)-1]
		}
	}
	if len(open) > 0 {
		t.Errorf("%s: %v not closed", name, open)
	}
	// A parser finds the elements where they were put: it moves none, adds none
	// and leaves none out. (p in li, label around input and span: all phrasing
	// content where it must be.)
	var out strings.Builder
	if err := html.Render(&out, parsePage(t, page)); err != nil {
		t.Fatal(err)
	}
	tags := regexp.MustCompile(`</?[a-z][a-z0-9]*`)
	if a, b := tags.FindAllString(page, -1), tags.FindAllString(out.String(), -1); !slices.Equal(a, b) {
		t.Errorf("%s: a parser mends the page: %d tags and %d", name, len(a), len(b))
	}
}

func TestHTMLStructure(t *testing.T) {
	for _, d := range demo.All() {
		for _, terms := range [][]stitch.Terms{{stitch.US}, {stitch.UK, stitch.US}} {
			_, doc := sheetOf(d.Text, Options{Terms: terms, Pictures: []Picture{{Title: "Chart", SVG: "<svg xmlns=\"http://www.w3.org/2000/svg\"/>", Words: "A chart."}}})
			checkPage(t, d.Name, HTML(doc))
		}
	}
	_, doc := sheetOf(slipped, Options{})
	if page := HTML(doc); !strings.Contains(page, `<p class="wrong">Not right yet: the row makes 10 sc, and states 11 sc</p>`) {
		t.Errorf("the row that is wrong is not marked:\n%s", page)
	} else {
		checkPage(t, "slipped", page)
	}
}

const slipped = "Strip\nCh 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10 sc)\nRow 2: Ch 1, turn, sc in each st across. (11 sc)\n"

// colours are the variables of the style, on a light ground and on a dark one.
func colours(t *testing.T) (light, dark map[string]string) {
	t.Helper()
	one := regexp.MustCompile(`--([a-z]+):(#[0-9a-f]{3,6})`)
	light, dark = map[string]string{}, map[string]string{}
	before, rest, _ := strings.Cut(pageStyle, "@media (prefers-color-scheme:dark)")
	rest, _, _ = strings.Cut(rest, "\n")
	for _, m := range one.FindAllStringSubmatch(before, -1) {
		light[m[1]] = m[2]
	}
	for _, m := range one.FindAllStringSubmatch(rest, -1) {
		dark[m[1]] = m[2]
	}
	if len(light) < 8 || len(dark) != len(light) {
		t.Fatalf("%d colours on light, %d on dark", len(light), len(dark))
	}
	return light, dark
}

// luminance is the relative luminance of a colour (WCAG 2.2).
func luminance(t *testing.T, c string) float64 {
	t.Helper()
	n, err := strconv.ParseUint(c[1:], 16, 32)
	if err != nil || len(c) != 7 {
		t.Fatalf("%q", c)
	}
	var l float64
	for i, weight := range []float64{0.2126, 0.7152, 0.0722} {
		v := float64(n>>(16-8*i)&0xff) / 255
		if v <= 0.04045 {
			v /= 12.92
		} else {
			v = math.Pow((v+0.055)/1.055, 2.4)
		}
		l += weight * v
	}
	return l
}

// TestContrast holds the colours to WCAG 2.2, level AA: 4.5 to 1 for text
// (criterion 1.4.3), 3 to 1 for the edges of what is worked (1.4.11).
func TestContrast(t *testing.T) {
	light, dark := colours(t)
	for name, c := range map[string]map[string]string{"light": light, "dark": dark} {
		for _, pair := range []struct {
			on, what string
			least    float64
		}{
			{"ground", "ink", 4.5}, {"ground", "quiet", 4.5}, {"ground", "accent", 4.5}, {"ground", "wrong", 4.5}, {"box", "ink", 4.5}, {"ground", "line", 3},
		} {
			a, b := luminance(t, c[pair.on]), luminance(t, c[pair.what])
			if ratio := (max(a, b) + 0.05) / (min(a, b) + 0.05); ratio < pair.least {
				t.Errorf("%s: %s on %s is %.2f to 1", name, pair.what, pair.on, ratio)
			}
		}
	}
}

// hostile is a pattern whose words are written to break out of a form.
const hostile = "<script>alert(1)</script> \"Quoted\" & 'so' **bold** _it_ [link](javascript:alert(1)) (Tj) ET BT \\) \x1b[31m\x07\u202egnirts\n\n" +
	"</style></title><img src=x onerror=alert(1)> &lt;b&gt; `code` ~~gone~~ ![i](http://example.invalid/x.png) #1 <!-- ]]>\n\n" +
	"US terms\n\nYarn: \"><svg onload=alert(1)> wool\n\nNotes\n<iframe src=javascript:alert(1)>. [x]: http://example.invalid\n- # not a heading | a | b |\n\n" +
	"Strip </ul></li><h1>\nCh 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10 sc)\nRow 2: Ch 1, turn, *sc in next st, 2 sc in next st; rep from * across. (15 sc)\n\nFinishing\nSew it </ol><script>alert(2)</script> together.\n"

func TestHostileText(t *testing.T) {
	_, d := sheetOf(hostile, Options{Terms: []stitch.Terms{stitch.US, stitch.UK}})
	page := HTML(d)
	checkPage(t, "hostile", page)
	root := parsePage(t, page)
	counts := map[string]int{}
	var walk func(*html.Node)
	walk = func(n *html.Node) {
		if n.Type == html.ElementNode {
			counts[n.Data]++
		}
		for c := n.FirstChild; c != nil; c = c.NextSibling {
			walk(c)
		}
	}
	walk(root)
	if counts["script"] != 1 || counts["h1"] != 1 || counts["img"]+counts["svg"]+counts["iframe"]+counts["b"] != 0 {
		t.Errorf("elements of the hostile text: %v", counts)
	}
	text := pageText(root)
	for _, want := range []string{"<script>alert(1)</script>", "onerror=alert(1)", "</style></title>"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not shown as text:\n%s", want, text)
		}
	}
	for name, form := range map[string]string{"html": page, "md": Markdown(d), "txt": Text(d)} {
		for _, r := range form {
			if r < ' ' && r != '\n' || r >= 0x7f && r < 0xa0 || r >= 0x202a && r <= 0x202e {
				t.Errorf("%s has the character %U", name, r)
			}
		}
	}
}
