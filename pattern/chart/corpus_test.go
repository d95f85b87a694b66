package chart

import (
	"bytes"
	"io/fs"
	"os"
	"strings"
	"testing"
)

// Every pattern that is kept as a test is drawn, or refused with a reason:
// with numbers in it that are numbers, no wider than its stitches warrant.
func TestCorpus(t *testing.T) {
	drawn, refused, shaped := 0, 0, 0
	repo := os.DirFS("../../testdata")
	err := fs.WalkDir(repo, ".", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".case") && !strings.HasPrefix(path, "dialects/") {
			return err
		}
		data, err := fs.ReadFile(repo, path)
		if err != nil {
			return err
		}
		text, _, _ := strings.Cut(string(data), "=== want")
		p := prove(text)
		for i, onto := range Onto(p) {
			if onto >= 0 || p.Pieces[i].Len() == 0 {
				continue
			}
			c, err := Draw(p, i, Options{})
			if err != nil {
				refused++
				if !strings.Contains(path, "huge") {
					t.Logf("%s: %v", path, err)
				}
				continue
			}
			drawn++
			svg := c.SVG()
			if bytes.Contains(svg, []byte("NaN")) || bytes.Contains(svg, []byte("Inf")) {
				t.Errorf("%s: a place that is no number", path)
			}
			b := c.extent()
			places := 10.0
			for _, g := range c.groups {
				places += float64(len(g.shapes))
			}
			if w, h := b.max.x-b.min.x, b.max.y-b.min.y; w > 10*places || h > 10*places {
				t.Errorf("%s: %.0f by %.0f for %.0f shapes", path, w, h, places)
			}
			if _, err := Text(p, i, Options{}); err != nil {
				t.Errorf("%s: in letters: %v", path, err)
			}
			if holdsStitches(t, path, p, i) {
				shaped++
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if shaped < 15 {
		t.Errorf("only %d charts in letters show a shape", shaped)
	}
	if drawn < 300 || refused > drawn/20 {
		t.Errorf("%d pieces drawn, %d refused", drawn, refused)
	}
}

// Whatever the text, drawing it ends, and what it gives is an image.
func FuzzDraw(f *testing.F) {
	for _, s := range []string{
		"Rnd 1: 6 sc in magic ring.\nRnd 2: 2 sc in each st around.\n",
		"Ch 12.\nRow 1: Dc in 6th ch from hook, *ch 2, skip 2 ch, dc in next ch; rep from * to end.\nRow 2: Ch 1, turn, sc2tog, 3 dc in next sp, picot, sl st in last st.\n",
		"Ch 8.\nRnd 1: Sc in 2nd ch from hook, 3 sc in last ch; working along opposite side of ch, sc in next 5 ch.\n",
		"Ch 5.\nRow 1: Sc in each ch.\nFasten off.\nFin\nRow 1: Join yarn in 2nd st of Row 1 of Body, puff in next 2 sts.\n",
	} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if len(text) > 2000 {
			return
		}
		p := prove(text)
		for i := range p.Pieces {
			c, err := Draw(p, i, Options{})
			if err != nil {
				continue
			}
			if svg := c.SVG(); bytes.Contains(svg, []byte("NaN")) || bytes.Contains(svg, []byte("Inf")) {
				t.Error("a place that is no number")
			}
			if _, err := Text(p, i, Options{}); err != nil {
				t.Error(err)
			}
		}
	})
}
