package pdf

import (
	"bytes"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/demo"
	"crochet/tallyturn/pattern/sheet"
	"crochet/tallyturn/pattern/stitch"
)

// tool finds a program of poppler-utils.
func tool(t *testing.T, name string) string {
	t.Helper()
	path, err := exec.LookPath(name)
	if err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatalf("%s is not installed", name)
		}
		t.Skipf("%s is not installed", name)
	}
	return path
}

// printed is what a program of poppler-utils says of a PDF.
func printed(t *testing.T, name string, pdf []byte, args ...string) string {
	t.Helper()
	path := tool(t, name)
	file := filepath.Join(t.TempDir(), "sheet.pdf")
	if err := os.WriteFile(file, pdf, 0o644); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(path, append(append([]string{}, file), args...)...).CombinedOutput()
	if err != nil {
		t.Fatalf("%s: %v\n%s", name, err, out)
	}
	return string(out)
}

func docOf(text string, terms ...stitch.Terms) (*pattern.Proof, *sheet.Doc) {
	proof := pattern.Read(text).Prove(pattern.Options{})
	return proof, sheet.New(proof, sheet.Options{Terms: terms})
}

func write1(t *testing.T, d *sheet.Doc, paper Paper) []byte {
	t.Helper()
	out, err := Write(d, paper)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

var everything = flag.Bool("everything", false, "read back the print of all test data, in both terms")

// TestReadsBack reads what pdftotext (poppler) finds in the print of every
// demo, in both terms and on both papers, and of some patterns of print; with
// -everything, of all there are.
func TestReadsBack(t *testing.T) {
	texts := map[string]string{}
	for _, d := range demo.All() {
		texts[d.Name] = d.Text
	}
	files, _ := filepath.Glob("../../../testdata/corpus/modern/10*.case")
	cases, _ := filepath.Glob("../../../testdata/cases/0[0-2]*.case")
	files = append(files, cases...)
	// what once read otherwise from print: a dash and a title at a line's end, a
	// page's last lines, a line that begins with "around", two dashes at a line's end,
	// a title joined by one hyphen, an edging behind words of the making up
	for _, name := range []string{"corpus/booklet/340-harbour-pullover-back.case", "corpus/loose/360-grey-seal-face-cloth-uk.case", "corpus/modern/550-breakwater-ear-warmer.case", "corpus/booklet/488-net-mender-mitten-top.case", "corpus/booklet/592-mitten-copied-from-print.case", "corpus/modern/786-slipway-slipover.case", "dialects/040.txt"} {
		more, _ := filepath.Glob("../../../testdata/" + name)
		if len(more) != 1 {
			t.Fatalf("there is no %s", name)
		}
		files = append(files, more...)
	}
	if *everything {
		files = nil
		for _, glob := range []string{"corpus/*/*.case", "cases/*.case", "dialects/*.txt"} {
			more, _ := filepath.Glob("../../../testdata/" + glob)
			files = append(files, more...)
		}
	}
	for _, f := range files {
		data, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		text, _, _ := strings.Cut(string(data), "\n=== want")
		texts[filepath.Base(f)] = strings.TrimPrefix(text, "=== pattern\n") + "\n"
	}
	papers, all := []Paper{A4, Letter}, 0
	for name, text := range texts {
		terms := []stitch.Terms{stitch.US, stitch.UK}
		if !*everything && strings.HasSuffix(name, ".case") {
			terms = terms[len(name)%2:][:1]
		}
		for i, terms := range terms {
			proof, d := docOf(text, terms)
			// Refused, or marked: pdftotext leaves no line between a row and
			// what is said to be wrong with it.
			if len(d.Unlike) > 0 || proof.Errors() > 0 {
				continue
			}
			all++
			got := printed(t, "pdftotext", write1(t, d, papers[i]), "-")
			if unlike := sheet.Unlike(proof.Pattern, proof.Terms, pattern.Read(got)); len(unlike) > 0 {
				t.Errorf("%s in %s terms: %s", name, terms, strings.Join(unlike, "\n\t"))
			}
		}
	}
	if all < 35 {
		t.Errorf("only %d sheets were printed", all)
	}
}

// long is a pattern of many pages with long rows.
func long() string {
	var b strings.Builder
	b.WriteString("Long Jetty\n\nUS terms\n\nStrip\nCh 61.\nRow 1: Sc in 2nd ch from hook and in each ch across. (60 sc)\n")
	for i := 2; i < 120; i++ {
		fmt.Fprintf(&b, "Row %d: Ch 1, turn, sc in next 10 sts, (sc in next st, sc in next st) 5 times, sc in next 10 sts, (sc in next st, sc in next st) 5 times, sc in next 10 sts, sc in last 10 sts. (60 sc)\n", i)
	}
	b.WriteString("Fasten off.\n")
	return b.String()
}

// TestOrphans has no heading last on its page, and no line of a paragraph alone
// at the foot or the head of one.
func TestOrphans(t *testing.T) {
	d := &sheet.Doc{Title: "Skerry", Says: "Written in US terms."}
	var blocks []sheet.Block
	for i := range 120 {
		var text []string
		for k := range 12 + (i*37)%150 {
			text = append(text, fmt.Sprintf("w%d.%d", i, k))
		}
		k := sheet.Block{Kind: sheet.Para, Text: strings.Join(text, " ")}
		switch i % 4 {
		case 1:
			k = sheet.Block{Kind: sheet.Facts, Pairs: [][2]string{{"Yarn:", k.Text}}}
		case 2:
			k = sheet.Block{Kind: sheet.Cautions, Pairs: [][2]string{{"Cords:", k.Text}}}
		case 3:
			k = sheet.Block{Kind: sheet.Steps, Items: []string{k.Text}}
		}
		blocks = append(blocks, sheet.Block{Kind: sheet.Heading, Text: fmt.Sprintf("Heading %d", i)}, k)
	}
	d.Versions = []sheet.Version{{Terms: stitch.US, Blocks: blocks}}
	for _, paper := range []Paper{A4, Letter} {
		pages := strings.Split(strings.TrimRight(printed(t, "pdftotext", write1(t, d, paper), "-layout", "-"), "\f"), "\f")
		if len(pages) < 10 {
			t.Fatalf("only %d pages", len(pages))
		}
		for i, p := range pages {
			lines := strings.FieldsFunc(p, func(r rune) bool { return r == '\n' })
			lines = lines[:len(lines)-1] // the number of the page
			last, before := lines[len(lines)-1], lines[len(lines)-2]
			if i < len(pages)-1 && (strings.HasPrefix(last, "Heading") || strings.HasPrefix(before, "Heading") && strings.Contains(pages[i+1][:20], "w")) {
				t.Errorf("%s, page %d ends in\n%s\n%s", paper, i+1, before, last)
			}
			if strings.HasPrefix(strings.TrimSpace(lines[0]), "w") && strings.HasPrefix(lines[1], "Heading") {
				t.Errorf("%s, page %d begins with a lone line:\n%s\n%s", paper, i+1, lines[0], lines[1])
			}
		}
	}
}

// TestPages has each row whole on one page, pages numbered, on the paper asked
// for.
func TestPages(t *testing.T) {
	proof, d := docOf(long(), stitch.US)
	for paper, size := range map[Paper]string{A4: "595.28 x 841.89 pts (A4)", Letter: "612 x 792 pts (letter)"} {
		out := write1(t, d, paper)
		if info := printed(t, "pdfinfo", out); !strings.Contains(info, size) || !strings.Contains(info, "Long Jetty") {
			t.Errorf("%s:\n%s", paper, info)
		}
		text := printed(t, "pdftotext", out, "-")
		pages := strings.Split(strings.TrimRight(text, "\f"), "\f")
		if len(pages) < 5 {
			t.Fatalf("%d pages", len(pages))
		}
		for i, p := range pages {
			if !strings.Contains(p, fmt.Sprintf("Page %d of %d", i+1, len(pages))) {
				t.Errorf("page %d has no number", i+1)
			}
			if strings.Count(p, "Row ") != strings.Count(p, "(60 sc)") {
				t.Errorf("%s, page %d: %d rows begin and %d end", paper, i+1, strings.Count(p, "Row "), strings.Count(p, "(60 sc)"))
			}
		}
		if bad := sheet.Unlike(proof.Pattern, proof.Terms, pattern.Read(text)); len(bad) > 0 {
			t.Error(bad)
		}
	}
}

// TestFonts has every font embedded, with a way back from its glyphs to
// Unicode, and names in other letters told rightly.
func TestFonts(t *testing.T) {
	_, d := docOf("Żółw Ærø – Πλώρη “Невод”\n\nUS terms\n\nStrip\nCh 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10 sc)\n", stitch.US)
	out := write1(t, d, A4)
	fonts := strings.Split(strings.TrimSpace(printed(t, "pdffonts", out)), "\n")[2:]
	if len(fonts) == 0 {
		t.Error("no fonts")
	}
	for _, f := range fonts {
		if fields := strings.Fields(f); !strings.Contains(f, " yes ") || fields[len(fields)-5] != "yes" || fields[len(fields)-3] != "yes" {
			t.Errorf("not embedded, or no Unicode: %s", f)
		}
	}
	if text := printed(t, "pdftotext", out, "-"); !strings.Contains(text, "Żółw Ærø – Πλώρη “Невод”") {
		t.Errorf("the title is not there:\n%s", text)
	}
}

// TestSameBytes prints twice.
func TestSameBytes(t *testing.T) {
	_, a := docOf(demo.All()[0].Text, stitch.UK)
	_, b := docOf(demo.All()[0].Text, stitch.UK)
	if !bytes.Equal(write1(t, a, A4), write1(t, b, A4)) {
		t.Error("the same sheet is not the same bytes")
	}
}

// TestHostileText prints words that are written to break out of a PDF.
func TestHostileText(t *testing.T) {
	title := `) Tj ET Q endstream endobj << /JS (x) >> \ (( ))) %%EOF`
	_, d := docOf(title+"\n\n"+"A \x1b[31mred\x07 net \U0001F980.\n\nUS terms\n\nStrip\nCh 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10 sc)\n", stitch.US)
	text := printed(t, "pdftotext", write1(t, d, A4), "-")
	if got := strings.Join(strings.Fields(text), " "); !strings.Contains(got, title) || !strings.Contains(got, "[escape][31mred[bell] net [crab]") {
		t.Errorf("%q is not shown as text:\n%s", title, text)
	}
	if info := printed(t, "pdfinfo", write1(t, d, A4)); !strings.Contains(info, "JavaScript:      no") {
		t.Error(info)
	}
}
