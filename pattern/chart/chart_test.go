package chart

import (
	"bytes"
	"encoding/xml"
	"errors"
	"flag"
	"fmt"
	"image/png"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/demo"
	"crochet/tallyturn/pattern/stitch"
)

var update = flag.Bool("update", false, "write the goldens anew")

// goldens are the demos, and cases with what they do not have.
func goldens(t *testing.T) map[string]*pattern.Proof {
	t.Helper()
	out := make(map[string]*pattern.Proof)
	for _, d := range demo.All() {
		out[d.Name] = prove(d.Text)
	}
	for _, name := range []string{"013-coil", "014-filet-mesh", "015-granny-square", "016-shells", "017-v-stitches", "018-ripple",
		"021-oval", "024-bobbles", "025-loops-and-posts", "028-chain-loops", "029-picot-edge", "033-colours-and-notes", "034-a-row-that-cannot-be-read",
		"041-foundation-stitches", "042-even-increase", "048-crab-and-slip"} {
		out[name] = prove(words(t, filepath.Join("../../testdata/cases", name+".case")))
	}
	return out
}

func words(t *testing.T, file string) string {
	t.Helper()
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	text, _, _ := strings.Cut(string(data), "=== want")
	return text
}

func prove(text string) *pattern.Proof { return pattern.Read(text).Prove(pattern.Options{}) }

// whole draws the pieces of a proof that stand by themselves.
func whole(t *testing.T, p *pattern.Proof) (svg []byte, text string) {
	t.Helper()
	var charts []*Chart
	for i, onto := range Onto(p) {
		if onto >= 0 {
			continue
		}
		c, err := Draw(p, i, Options{})
		if err != nil {
			t.Fatal(err)
		}
		charts = append(charts, c)
		s, err := Text(p, i, Options{})
		if err != nil {
			t.Fatal(err)
		}
		text += s + "\n"
	}
	return Join(charts...), text
}

func TestGoldens(t *testing.T) {
	for name, p := range goldens(t) {
		t.Run(name, func(t *testing.T) {
			svg, text := whole(t, p)
			for suffix, got := range map[string][]byte{".svg": svg, ".txt": []byte(text)} {
				file := filepath.Join("testdata", name+suffix)
				if *update {
					if err := os.WriteFile(file, got, 0o666); err != nil {
						t.Fatal(err)
					}
				}
				want, err := os.ReadFile(file)
				if err != nil {
					t.Fatal(err)
				}
				if diff := cmp.Diff(string(want), string(got)); diff != "" {
					t.Errorf("%s (-want +got):\n%.3000s", file, diff)
				}
			}
			wellFormed(t, svg)
			again, _ := whole(t, p)
			if !bytes.Equal(svg, again) {
				t.Error("drawn twice, it differs")
			}
		})
	}
}

// wellFormed reads an image as XML and gives the words in it.
func wellFormed(t *testing.T, svg []byte) string {
	t.Helper()
	d := xml.NewDecoder(bytes.NewReader(svg))
	var words strings.Builder
	for {
		tok, err := d.Token()
		if errors.Is(err, io.EOF) {
			return words.String()
		}
		if err != nil {
			t.Fatalf("not well formed: %v", err)
		}
		switch x := tok.(type) {
		case xml.CharData:
			words.Write(x)
		case xml.StartElement:
			switch x.Name.Local {
			case "svg", "title", "rect", "g", "path", "text":
			default:
				t.Errorf("an element <%s>", x.Name.Local)
			}
			for _, a := range x.Attr {
				if strings.HasPrefix(strings.ToLower(a.Name.Local), "on") || a.Name.Local == "href" {
					t.Errorf("an attribute %s", a.Name.Local)
				}
			}
		}
	}
}

// rsvg-convert, which is no part of ours, draws every golden.
func TestRendered(t *testing.T) {
	if _, err := exec.LookPath("rsvg-convert"); err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatal(err)
		}
		t.Skip("rsvg-convert is not installed")
	}
	files, err := filepath.Glob("testdata/*.svg")
	if err != nil || len(files) < 10 {
		t.Fatalf("%d goldens, %v", len(files), err)
	}
	var out, said bytes.Buffer
	c := exec.Command("rsvg-convert", append([]string{"--format", "pdf"}, files...)...)
	c.Stdout, c.Stderr = &out, &said
	if err := c.Run(); err != nil || said.Len() > 0 {
		t.Errorf("%v: %s", err, &said)
	}
	if !bytes.HasPrefix(out.Bytes(), []byte("%PDF")) || out.Len() < 2000*len(files) {
		t.Errorf("%d bytes that are no pictures", out.Len())
	}
}

// Words from the pattern are only words, whatever they are.
func TestHostileWords(t *testing.T) {
	for _, name := range []string{`<script>alert("x")</script>`, `</title><image href="x"/>`, `a" onload="x`, "]]>", "&lt;&#0;", "\x1b[31mred\x00", "\u202eback", "\xff\xfe"} {
		p := prove("Strip\nCh 4.\nRow 1: Sc in 2nd ch from hook and in each ch across. (3)\n")
		p.Pieces[0].Piece.Name = name
		svg, text := whole(t, p)
		got := wellFormed(t, svg)
		if !strings.Contains(got, clean(name)) {
			t.Errorf("%q: the image says %q", name, got)
		}
		if !strings.HasPrefix(text, clean(name)) || strings.ContainsAny(text, "\x1b\x00\u202e") {
			t.Errorf("%q: the text begins %.60q", name, text)
		}
	}
}

// A pattern of any size is drawn or refused soon.
func TestTooLarge(t *testing.T) {
	for _, text := range []string{
		words(t, "../../testdata/cases/043-huge-but-simple.case"),
		"Ch 200001.\nRow 1: Sc in 2nd ch from hook and in each ch across.\n",
		"Ch 4.\nRow 1: Sc in 2nd ch from hook and in each ch across.\nRows 2-900000: Ch 1, turn, sc in each st across.\n",
		"Rnd 1: 6 sc in magic ring.\nRnd 2: 1000000000000 sc in next st.\n",
	} {
		p := prove(text)
		if _, err := Draw(p, 0, Options{}); err == nil {
			t.Errorf("%.60q is drawn", text)
		}
		if _, err := Text(p, 0, Options{}); err == nil {
			t.Errorf("%.60q is drawn in letters", text)
		}
	}
}

// No two symbols of a plain row touch, however many there are.
func TestPlainRowsDoNotOverlap(t *testing.T) {
	for _, name := range []string{"sc", "hdc", "dc", "tr", "puff", "bobble", "fpdc", "rsc"} {
		for _, round := range []bool{false, true} {
			for _, n := range []int{1, 2, 3, 6, 7, 19, 60, 133} {
				text := fmt.Sprintf("Ch %d.\nRow 1: Sc in 2nd ch from hook and in each ch across.\nRow 2: Ch 1, turn, %s in each st across.\nRow 3: Ch 1, turn, %[2]s in each st across.\n", n+1, name)
				if round {
					text = fmt.Sprintf("Rnd 1: %d sc in magic ring.\nRnd 2: %s in each st around.\nRnd 3: %[2]s in each st around.\n", n, name)
				}
				apart(t, text)
			}
		}
	}
}

// apart wants the ink of each symbol to keep clear of that of the others of its
// row.
func apart(t *testing.T, text string) {
	t.Helper()
	f, l, err := lay(prove(text), 0, Options{})
	if err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	for _, r := range f.rows {
		lines := make([][][2]pt, len(r.v.made))
		boxes := make([]box, len(r.v.made))
		for i := range r.v.made {
			g := group{}
			f.stitch(&g, l.g, r.v, i)
			boxes[i] = newBox()
			for _, s := range g.shapes {
				lines[i] = append(lines[i], strokes(s.path)...)
			}
			for _, s := range lines[i] {
				boxes[i].point(s[0])
				boxes[i].point(s[1])
			}
		}
		for i := range lines {
			for j := i + 1; j < len(lines); j++ {
				if !boxes[i].grown(0.05).meets(boxes[j].grown(0.05)) {
					continue
				}
				for _, a := range lines[i] {
					for _, b := range lines[j] {
						if d := between(a, b); d < 0.1 {
							t.Fatalf("%s: symbols %d and %d come as near as %.2f\n%s", r.title, i+1, j+1, d, text)
						}
					}
				}
			}
		}
	}
}

// strokes are the straight pieces of a path, its curves cut into short ones.
func strokes(p path) (out [][2]pt) {
	var at, start pt
	for _, s := range p {
		switch s.op {
		case 'M':
			at, start = s.p[0], s.p[0]
		case 'L':
			out = append(out, [2]pt{at, s.p[0]})
			at = s.p[0]
		case 'C':
			from := at
			for k := 1; k <= 8; k++ {
				u := float64(k) / 8
				a, b, c := from.to(s.p[0], u), s.p[0].to(s.p[1], u), s.p[1].to(s.p[2], u)
				q := a.to(b, u).to(b.to(c, u), u)
				out = append(out, [2]pt{at, q})
				at = q
			}
		case 'Z':
			out = append(out, [2]pt{at, start})
			at = start
		}
	}
	return out
}

// between is how near two straight pieces come.
func between(a, b [2]pt) float64 {
	cross := func(o, p, q pt) float64 { return (p.x-o.x)*(q.y-o.y) - (p.y-o.y)*(q.x-o.x) }
	if cross(a[0], a[1], b[0])*cross(a[0], a[1], b[1]) < 0 && cross(b[0], b[1], a[0])*cross(b[0], b[1], a[1]) < 0 {
		return 0
	}
	end := func(p pt, s [2]pt) float64 {
		d := s[1].sub(s[0])
		f := 0.0
		if n := d.x*d.x + d.y*d.y; n > 0 {
			v := p.sub(s[0])
			f = min(max((v.x*d.x+v.y*d.y)/n, 0), 1)
		}
		return p.sub(s[0].to(s[1], f)).length()
	}
	return min(end(a[0], b), end(a[1], b), end(b[0], a), end(b[1], a))
}

// Charts in UK terms name what they show in UK terms only.
func TestTerms(t *testing.T) {
	d, _ := demo.Find("star")
	p := prove(d.Text)
	us, err := Draw(p, 0, Options{})
	if err != nil {
		t.Fatal(err)
	}
	uk, err := Draw(p, 0, Options{Terms: stitch.UK})
	if err != nil {
		t.Fatal(err)
	}
	if got := wellFormed(t, us.SVG()); !strings.Contains(got, "dc: double crochet") || !strings.Contains(got, "US terms") {
		t.Errorf("in US terms: %s", got)
	}
	if got := wellFormed(t, uk.SVG()); !strings.Contains(got, "tr: treble crochet") || strings.Contains(got, "single") || !strings.Contains(got, "UK terms") {
		t.Errorf("in UK terms: %s", got)
	}
}

// A chart larger than a page comes in parts that show all of it.
func TestTiles(t *testing.T) {
	text := "Ch 131.\nRow 1: Sc in 2nd ch from hook and in each ch across.\nRows 2-90: Ch 1, turn, sc in each st across.\n"
	p := prove(text)
	c, err := Draw(p, 0, Options{})
	if err != nil {
		t.Fatal(err)
	}
	if c.Tiles() < 4 {
		t.Fatalf("%d parts", c.Tiles())
	}
	all := c.extent()
	for _, g := range c.groups {
		for _, s := range g.shapes {
			b := s.path.box()
			if b.empty() {
				continue
			}
			shown := false
			for _, t := range c.tiles {
				shown = shown || t.min.x <= b.min.x && b.max.x <= t.max.x && t.min.y <= b.min.y && b.max.y <= t.max.y
			}
			if !shown {
				t.Fatalf("%v of %v is on no part whole", b, all)
			}
		}
	}
	if _, err := Draw(p, 0, Options{Tile: c.Tiles() + 1}); err == nil {
		t.Error("a part more than there are is drawn")
	}
	one, err := Draw(p, 0, Options{Tile: 2})
	if err != nil {
		t.Fatal(err)
	}
	if got := wellFormed(t, one.SVG()); !strings.Contains(got, "Part 2 of") || strings.Contains(got, "Part 1 of") {
		t.Error("part 2 alone is not what is drawn")
	}
	// up to sixty by sixty, and twelve rounds, are one page
	for _, text := range []string{
		"Ch 61.\nRow 1: Sc in 2nd ch from hook and in each ch across.\nRows 2-60: Ch 1, turn, sc in each st across.\n",
		"Rnd 1: 12 dc in magic ring.\n" + rounds(12),
	} {
		c, err := Draw(prove(text), 0, Options{})
		if err != nil {
			t.Fatal(err)
		}
		if c.Tiles() != 1 {
			b := c.extent()
			t.Errorf("%d parts of %.0f by %.0f units: %.60q", c.Tiles(), b.max.x-b.min.x, b.max.y-b.min.y, text)
		}
	}
}

// rounds increases by twelve in each round.
func rounds(n int) string {
	var b strings.Builder
	for i := 2; i <= n; i++ {
		fmt.Fprintf(&b, "Rnd %d: (2 dc in next st, dc in next %d sts) 12 times.\n", i, i-2)
		if i == 2 {
			b.Reset()
			b.WriteString("Rnd 2: 2 dc in each st around.\n")
		}
	}
	return b.String()
}

// A piece that cannot be drawn says why.
func TestNothingToDraw(t *testing.T) {
	p := prove("Strip\nCh 4.\nRow 1: Sc in 2nd ch from hook and in each ch across.\n")
	for _, piece := range []int{-1, 1} {
		if _, err := Draw(p, piece, Options{}); err == nil {
			t.Errorf("piece %d is drawn", piece)
		}
	}
}

// The picture of dots is the same each time, shows what SVG shows, and is
// refused where it would be too large.
func TestPNG(t *testing.T) {
	d, _ := demo.Find("pennant")
	p := prove(d.Text)
	c, err := Draw(p, 0, Options{})
	if err != nil {
		t.Fatal(err)
	}
	data, err := PNG(20, c)
	if err != nil {
		t.Fatal(err)
	}
	again, err := PNG(20, c)
	if err != nil || !bytes.Equal(data, again) {
		t.Errorf("drawn twice, it differs: %v", err)
	}
	img, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	if _, err := PNG(1e5, c); err == nil {
		t.Error("a picture of a billion dots is drawn")
	}
	// every stroke of the drawing is dark where it begins
	pages, size := arrange([]*Chart{c})
	if got := img.Bounds().Size(); got.X < int(size.x*20) || got.Y < int(size.y*20) {
		t.Fatalf("%v for %v", got, size)
	}
	dark, light := 0, 0
	for i := range pages {
		for _, g := range pages[i].groups {
			for _, s := range g.shapes {
				if s.paint != stroke {
					continue
				}
				x, y := pages[i].place(s.path[0].p[0])
				r, _, _, _ := img.At(int(x), int(y)).RGBA()
				if r < 0x8000 {
					dark++
				} else {
					light++
				}
			}
		}
	}
	if dark < 100 || light > dark/20 {
		t.Errorf("%d strokes begin in the dark, %d do not", dark, light)
	}
}

// Row numbers stand clear of every symbol.
func TestNumbersAreClear(t *testing.T) {
	for name, p := range goldens(t) {
		c, err := Draw(p, 0, Options{})
		if err != nil {
			t.Fatal(err)
		}
		numbers := 0
		for _, g := range c.groups {
			for _, l := range g.labels {
				if !l.bold {
					continue
				}
				numbers++
				b := l.box()
				b.min.y += 0.2 * l.size
				for _, h := range c.groups {
					for _, s := range h.shapes {
						if s.paint == tint || s.paint == hatch || s.paint == spot || h.title == "" {
							continue
						}
						for _, line := range strokes(s.path) {
							for k := range 21 {
								if q := line[0].to(line[1], float64(k)/20); q.x > b.min.x && q.x < b.max.x && q.y > b.min.y && q.y < b.max.y {
									t.Fatalf("%s: the number %s lies on a symbol of %s", name, l.text, h.title)
								}
							}
						}
					}
				}
			}
		}
		if numbers == 0 {
			t.Errorf("%s has no numbers", name)
		}
	}
}

// Seen from the right side, a first row on the wrong side runs to the right.
func TestSides(t *testing.T) {
	for _, test := range []struct {
		side string
		want float64
	}{{"", -1}, {" (RS)", -1}, {" (WS)", 1}} {
		f, l, err := lay(prove("Ch 9.\nRow 1"+test.side+": Sc in 2nd ch from hook and in each ch across.\nRow 2: Ch 1, turn, sc in each st across.\n"), 0, Options{})
		if err != nil {
			t.Fatal(err)
		}
		for i, want := range []float64{test.want, -test.want} {
			m := f.rows[i].v.made
			if d := l.g.point(m[1].head.t, 0).x - l.g.point(m[0].head.t, 0).x; d*want < 0 {
				t.Errorf("%q: row %d runs by %g", test.side, i+1, d)
			}
		}
	}
}

// A piece on a row that has others over it is drawn above them, and joined to
// its stitches by dotted lines.
func TestOntoAnInnerRow(t *testing.T) {
	p := prove("Hull\nCh 13.\nRow 1: Sc in 2nd ch from hook and in each ch across. (12)\nRows 2-5: Ch 1, turn, sc in each st across. (12)\nFasten off.\n\nFin\nRow 1: Join yarn in 3rd st of Row 3 of Hull, sc in same st and in next 3 sts. (4)\nRow 2: Ch 1, turn, sc2tog twice. (2)\nFasten off.\n")
	f, _, err := lay(p, 0, Options{})
	if err != nil {
		t.Fatal(err)
	}
	f.draw()
	top := f.levels[[2]int{0, 4}].top
	fin := f.levels[[2]int{1, 0}]
	if fin == nil || fin.bottom <= top {
		t.Fatalf("the fin is not drawn above %g", top)
	}
	lines := 0
	for _, g := range f.front {
		for _, s := range g.shapes {
			if s.paint == dotted {
				lines++
			}
		}
	}
	if lines != 4 {
		t.Errorf("%d dotted lines for 4 stitches", lines)
	}
	host := f.levels[[2]int{0, 2}]
	for i, m := range fin.made {
		if got, want := m.lead[0][0], host.made[2+i].head; got != want {
			t.Errorf("stitch %d stands in %v, want %v", i+1, got, want)
		}
	}
}

// TestFastensOffOnce draws the end of the yarn after the last of several rows
// told together, and not after each.
func TestFastensOffOnce(t *testing.T) {
	p := prove("Mat\n\nUS terms\n\nMat\nCh 7.\nRow 1: Sc in 2nd ch from hook and in each ch across. (6 sc)\nRows 2-5: Ch 1, turn, sc in each st across. (6 sc)\nFasten off.\n")
	c, err := Draw(p, 0, Options{})
	if err != nil {
		t.Fatal(err)
	}
	n := 0
	for _, g := range c.groups {
		for _, s := range g.shapes {
			if s.paint == solid {
				n++
			}
		}
	}
	if n != 1 {
		t.Errorf("it is fastened off %d times", n)
	}
}
