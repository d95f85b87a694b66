package sheet

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"crochet/tallyturn/pattern/demo"
	"crochet/tallyturn/pattern/stitch"
)

// TestHTMLChecker gives pages to html-validate (the npm package of that name),
// which holds them to its recommended rules: the content model of HTML and the
// parts of WCAG that can be seen in the text of a page.
func TestHTMLChecker(t *testing.T) {
	name, err := exec.LookPath("html-validate")
	if err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatal("html-validate is not installed")
		}
		t.Skip("html-validate is not installed")
	}
	dir := t.TempDir()
	var pages []string
	page := func(name, text string) {
		file := filepath.Join(dir, name)
		if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		pages = append(pages, file)
	}
	both := Options{Terms: []stitch.Terms{stitch.US, stitch.UK}}
	for _, d := range demo.All() {
		_, doc := sheetOf(d.Text, both)
		page(d.Name+".html", HTML(doc))
	}
	_, doc := sheetOf(hostile, both)
	page("hostile.html", HTML(doc))
	_, doc = sheetOf(slipped, Options{})
	page("slipped.html", HTML(doc))
	for i, m := range allSheets() {
		if i%40 == 0 {
			page(fmt.Sprintf("sample%d.html", i), HTML(m.doc))
		}
	}
	if out, err := exec.Command(name, pages...).CombinedOutput(); err != nil {
		t.Errorf("%v\n%s", err, out)
	}

	// it must be able to say no
	bad := filepath.Join(dir, "bad.html")
	if err := os.WriteFile(bad, []byte("<!DOCTYPE html>\n<html lang=\"en\"><head><title>Bad</title></head><body><p><div>x</div></p><img src=\"x.png\"></body></html>\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	if exec.Command(name, bad).Run() == nil {
		t.Error("a page with a division in a paragraph and a picture without words is let through")
	}
}
