package pattern

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"crochet/tallyturn/pattern/stitch"
)

// writtenPatterns are all patterns of the test data and the demos, by name.
func writtenPatterns(t testing.TB) map[string]string {
	t.Helper()
	out := make(map[string]string)
	for _, glob := range []string{"../testdata/cases/*.case", "../testdata/corpus/*/*.case", "../testdata/dialects/*.txt", "demo/*.txt"} {
		files, err := filepath.Glob(glob)
		if err != nil || len(files) == 0 {
			t.Fatalf("%s: %v, %d files", glob, err, len(files))
		}
		for _, f := range files {
			if strings.HasSuffix(f, ".case") {
				out[filepath.Base(f)] = readCase(t, f).text
				continue
			}
			data, err := os.ReadFile(f)
			if err != nil {
				t.Fatal(err)
			}
			out[filepath.Base(f)] = string(data)
		}
	}
	return out
}

// unlike says in which rows two proofs differ, whatever the stitches are
// called.
func unlike(a, b *Proof) []string {
	if len(a.Pieces) != len(b.Pieces) {
		return []string{fmt.Sprintf("%d pieces and %d", len(a.Pieces), len(b.Pieces))}
	}
	var out []string
	for i, p := range a.Pieces {
		q := b.Pieces[i]
		if p.Piece.Copies != q.Piece.Copies {
			out = append(out, fmt.Sprintf("piece %d: make %d and %d", i, p.Piece.Copies, q.Piece.Copies))
		}
		if len(p.Rows) != len(q.Rows) {
			out = append(out, fmt.Sprintf("piece %d: %d rows and %d", i, len(p.Rows), len(q.Rows)))
			continue
		}
		for k, r := range p.Rows {
			if x, y := rowFigures(r), rowFigures(q.Rows[k]); x != y {
				out = append(out, fmt.Sprintf("%s: %s and %s", r.Label, x, y))
			}
		}
	}
	return out
}

func rowFigures(r *RowProof) string {
	s := fmt.Sprintf("%d-%d: %d taken %d skipped %d left %d made, %s", r.First, r.Last, r.Taken, r.Skipped, r.Left, r.Made, r.Status)
	for _, k := range r.ByKind {
		s += fmt.Sprintf(" %d", k.N)
	}
	return s
}

// settled are spellings that come back as the usual one of their line, since
// the other side has but one word for them all, or none written so.
var settled = []*regexp.Regexp{
	regexp.MustCompile(`(?i)\b(sk|skip(ped)?|miss(ed)?)(\b|[0-9])`),
	regexp.MustCompile(`(?i)\b(s d c|sdc|s\.d\.c|h\.tr|h\.d\.c|half d c|half tr|h d c|hdc|htr|(short|half) double crochet)\b`),
	regexp.MustCompile(`(?i)\b(ss|s\.s|sl st|sl-st|slip stitch|slip st|sl\. st|sl\.st|s\. s)\b`),
	regexp.MustCompile(`(?i)\b(s\.c|d\.c|sc|dc)\b`),
	regexp.MustCompile(`(?i)\b(tr c|trc|d tr c|d\.tr|d tr|triple|trebles?( crochet)?|double trebles?( crochet)?|tr|dtr)\b`),
	regexp.MustCompile(`(?i)\b(yrh|yoh)\b`),
}

// alikeOnceSettled reports whether two texts differ only in such spellings.
func alikeOnceSettled(text, back string) bool {
	for i, s := range settled {
		mark := fmt.Sprintf("\x00%d", i)
		text, back = s.ReplaceAllString(text, mark), s.ReplaceAllString(back, mark)
	}
	return text == back
}

// TestInTerms takes every pattern there is across and back again. The rows
// prove the same, and the words come back as they were.
func TestInTerms(t *testing.T) {
	back, all := 0, 0
	for name, text := range writtenPatterns(t) {
		all++
		p := Read(text)
		to := stitch.UK
		if p.terms() == stitch.UK {
			to = stitch.US
		}
		q := p.InTerms(to)
		if bad := unlike(p.Prove(Options{}), q.Prove(Options{})); len(bad) > 0 {
			t.Errorf("%s in %s terms:\n%s\n%s", name, to, strings.Join(bad, "\n"), lineDiff(text, q.Source.Text))
		}
		r := q.InTerms(p.terms())
		switch {
		case r.Source.Text == text:
			back++
		case !alikeOnceSettled(text, r.Source.Text):
			t.Errorf("%s comes back as\n%s", name, lineDiff(text, r.Source.Text))
		default:
			if again := r.InTerms(to).InTerms(p.terms()).Source.Text; again != r.Source.Text {
				t.Errorf("%s does not settle:\n%s", name, lineDiff(r.Source.Text, again))
			}
		}
	}
	t.Logf("%d of %d come back byte for byte", back, all)
	if back < 305 {
		t.Errorf("only %d of %d come back byte for byte", back, all)
	}
}

func TestInTermsWords(t *testing.T) {
	for _, c := range []struct{ us, uk string }{
		{"US terms\nRow 1: Sc in 2nd ch from hook, skip next ch, sc2tog, FPdc around next st.", "UK terms\nRow 1: Dc in 2nd ch from hook, miss next ch, dc2tog, FPtr around next st."},
		{"Terms: US\n\nGauge: 20 sc to 10 cm\n\nRow 1: 6 SC, HDC, Dc, tr, dtr in magic ring.", "Terms: UK\n\nTension: 20 dc to 10 cm\n\nRow 1: 6 DC, HTR, Tr, dtr, trtr in magic ring."},
		{"Terms: US\n\nTension/gauge: 20 sc to 10 cm\n\nRow 1: 6 sc in magic ring.", "Terms: UK\n\nTension/gauge: 20 dc to 10 cm\n\nRow 1: 6 dc in magic ring."},
		{"American terms\nYarn: double knitting wool, held double\nRow 1: 4 Single Crochets, join with sl st in first sc.", "British terms\nYarn: double knitting wool, held double\nRow 1: 4 Double Crochets, join with ss in first dc."},
		{"US terms (UK: dc = tr)\nRow 1: 6 dc in ring.", "UK terms (US: tr = dc)\nRow 1: 6 tr in ring."},
		{"US terms\nNotes\nPuff: (yo, pull up a loop) 3 times, yo, draw through all. Each square is one double and two chains.\nRow 1: Scblo in next 3 sts.", "UK terms\nNotes\nPuff: (yoh, pull up a loop) 3 times, yoh, draw through all. Each square is one treble and two chains.\nRow 1: Dcblo in next 3 sts."},
		{"Double Strap Bag\nUS terms\n\nDouble Strap\nRow 1: 9 fsc.\n\nFlap\nRow 1: Join in 2nd st of Row 1 of Double Strap, 2 dc.", "Double Strap Bag\nUK terms\n\nDouble Strap\nRow 1: 9 fdc.\n\nFlap\nRow 1: Join in 2nd st of Row 1 of Double Strap, 2 tr."},
		{"US terms\nKeep an even tension. Tell us how it went. Use a US H-8 hook.\nRow 1: 6 sc in ring.", "UK terms\nKeep an even tension. Tell us how it went. Use a US H-8 hook.\nRow 1: 6 dc in ring."},
	} {
		if got := readAs(c.us, stitch.US).InTerms(stitch.UK).Source.Text; got != c.uk {
			t.Errorf("%q\nto UK: %q\nwant:  %q", c.us, got, c.uk)
		}
		if got := readAs(c.uk, stitch.UK).InTerms(stitch.US).Source.Text; got != c.us {
			t.Errorf("%q\nto US: %q\nwant:  %q", c.uk, got, c.us)
		}
	}
}

// TestInTermsLeavesNothing holds on to the promise that no word stays behind:
// what is read of the text in the new terms has no name that belongs to the
// old ones alone.
func TestInTermsLeavesNothing(t *testing.T) {
	only := map[stitch.Terms]*regexp.Regexp{
		stitch.UK: regexp.MustCompile(`(?i)\b(sc|sc\dtog|hdc|sk|skip|skipped|gauge|single crochet|half double)\b`),
		stitch.US: regexp.MustCompile(`(?i)\b(htr|htr\dtog|miss|yrh|half treble|trtr|ss)\b`),
	}
	own := map[string]bool{ // words that the pattern uses as names of its own, or gives beside
		"049.txt": true,
	}
	for name, text := range writtenPatterns(t) {
		p := Read(text)
		to := stitch.UK
		if p.terms() == stitch.UK {
			to = stitch.US
		}
		q := p.InTerms(to)
		if m := only[to].FindString(q.Source.Text); m != "" && !own[name] {
			t.Errorf("%s in %s terms still says %q:\n%s", name, to, m, lineDiff(text, q.Source.Text))
		}
	}
}
