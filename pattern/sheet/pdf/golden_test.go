package pdf

import (
	"flag"
	"fmt"
	"image"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/demo"
	"crochet/tallyturn/pattern/sheet"
	"crochet/tallyturn/pattern/stitch"
)

var update = flag.Bool("update", false, "write the goldens anew")

var spaces = regexp.MustCompile(` {2,}`)

// TestGoldens has the print of all demos with their yarn and layout, in both
// terms, on both papers: the text of each page by pdftotext, and how it looks by pdftoppm
// (both of poppler), within a tolerance, since versions smooth edges otherwise.
func TestGoldens(t *testing.T) {
	for _, d := range demo.All() {
		proof := pattern.Read(d.Text).Prove(pattern.Options{})
		pics := drawings(t, proof, stitch.US)
		pics = pics[len(pics)-1:] // the layout; charts have goldens of their own
		doc := sheet.New(proof, sheet.Options{Terms: []stitch.Terms{stitch.US, stitch.UK}, Yarn: d.Name != "net", Pictures: pics})
		for _, paper := range []Paper{A4, Letter} {
			name := d.Name + "-" + strings.ToLower(string(paper))
			out := write1(t, doc, paper)
			text := spaces.ReplaceAllString(printed(t, "pdftotext", out, "-layout", "-"), "  ")
			golden(t, filepath.Join("testdata", name+".txt"), strings.ReplaceAll(text, "\f", "----\n"))
			pages := strings.Count(text, "\f")
			for _, field := range strings.Split(printed(t, "pdfinfo", out), "\n") {
				if n, ok := strings.CutPrefix(field, "Pages:"); ok && strings.TrimSpace(n) != fmt.Sprint(pages) {
					t.Errorf("%s: %s pages by pdfinfo, %d by pdftotext", name, n, pages)
				}
			}
			looks(t, name, out, pages)
		}
	}
}

func golden(t *testing.T, file, got string) {
	t.Helper()
	if *update {
		if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(strings.Split(string(want), "\n"), strings.Split(got, "\n")); diff != "" {
		t.Errorf("%s (- want, + got; -update writes it anew):\n%s", file, diff)
	}
}

// mostOff is how far a page may be from its golden, as the mean over its dots of
// how much darker or lighter they are, of 255. A line of text that is gone, or
// has moved by its height, is beyond it.
const mostOff = 0.4

// looks holds the pages to small pictures of them.
func looks(t *testing.T, name string, pdf []byte, pages int) {
	t.Helper()
	path := tool(t, "pdftoppm")
	dir := t.TempDir()
	file := filepath.Join(dir, "sheet.pdf")
	if err := os.WriteFile(file, pdf, 0o644); err != nil {
		t.Fatal(err)
	}
	if out, err := exec.Command(path, "-r", "30", "-gray", "-png", file, filepath.Join(dir, "page")).CombinedOutput(); err != nil {
		t.Fatalf("pdftoppm: %v\n%s", err, out)
	}
	drawn, err := filepath.Glob(filepath.Join(dir, "page*.png"))
	if err != nil || len(drawn) != pages {
		t.Fatalf("%s: %d of %d pages are drawn", name, len(drawn), pages)
	}
	for i, got := range drawn {
		want := filepath.Join("testdata", fmt.Sprintf("%s-%d.png", name, i+1))
		if *update {
			data, err := os.ReadFile(got)
			if err == nil {
				err = os.WriteFile(want, data, 0o644)
			}
			if err != nil {
				t.Fatal(err)
			}
			continue
		}
		if off := apart(t, want, got); off > mostOff {
			t.Errorf("%s, page %d looks otherwise than its golden: by %.2f; -update draws it anew", name, i+1, off)
		}
	}
}

// apart is how far two pictures are from one another.
func apart(t *testing.T, a, b string) float64 {
	t.Helper()
	var pics [2]image.Image
	for i, file := range []string{a, b} {
		f, err := os.Open(file)
		if err != nil {
			t.Fatal(err)
		}
		pics[i], err = png.Decode(f)
		f.Close()
		if err != nil {
			t.Fatal(err)
		}
	}
	r := pics[0].Bounds()
	if r != pics[1].Bounds() {
		return 255
	}
	sum := 0.0
	for y := r.Min.Y; y < r.Max.Y; y++ {
		for x := r.Min.X; x < r.Max.X; x++ {
			p, _, _, _ := pics[0].At(x, y).RGBA()
			q, _, _, _ := pics[1].At(x, y).RGBA()
			sum += max(float64(p)-float64(q), float64(q)-float64(p)) / 257
		}
	}
	return sum / float64(r.Dx()*r.Dy())
}

// TestApart holds the tolerance: a page and the next are beyond it.
func TestApart(t *testing.T) {
	if *update {
		t.Skip("the goldens are being written")
	}
	file := func(i int) string { return filepath.Join("testdata", fmt.Sprintf("pennant-a4-%d.png", i)) }
	if off := apart(t, file(1), file(1)); off != 0 {
		t.Errorf("a page is %.2f from itself", off)
	}
	if off := apart(t, file(1), file(2)); off < 2*mostOff {
		t.Errorf("two pages are only %.2f apart", off)
	}
}
