package pattern

import (
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// wantCase is a worked pattern and what its proof must come to.
type wantCase struct {
	text  string
	wants []wantSize
}

type wantSize struct {
	size  string
	rows  []wantRow
	finds []wantFinding
}

type wantRow struct {
	piece       string
	first, last int
	made        int64 // -1 for any
	status      string
}

type wantFinding struct {
	severity Severity
	line     int
}

func readCase(t testing.TB, path string) wantCase {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	parts := strings.Split(string(data), "\n=== ")
	c := wantCase{text: strings.TrimPrefix(parts[0], "=== pattern\n") + "\n"}
	for _, p := range parts[1:] {
		lines := strings.Split(p, "\n")
		w := wantSize{size: strings.TrimSpace(strings.TrimPrefix(strings.TrimPrefix(lines[0], "want"), " size"))}
		for _, l := range lines[1:] {
			l = strings.TrimSpace(l)
			switch {
			case l == "":
			case strings.HasPrefix(l, "! "):
				f := strings.Fields(l)
				sev := map[string]Severity{"note": Note, "warning": Warning, "error": Error}[f[1]]
				n, err := strconv.Atoi(f[2])
				if err != nil {
					t.Fatalf("%s: %q", path, l)
				}
				w.finds = append(w.finds, wantFinding{sev, n})
			default:
				f := strings.Split(l, "|")
				if len(f) != 4 {
					t.Fatalf("%s: %q", path, l)
				}
				r := wantRow{piece: f[0], status: f[3], made: -1}
				if r.piece == "-" {
					r.piece = ""
				}
				a, b, _ := strings.Cut(f[1], "-")
				if b == "" {
					b = a
				}
				r.first, _ = strconv.Atoi(a)
				r.last, _ = strconv.Atoi(b)
				if f[2] != "?" {
					r.made, _ = strconv.ParseInt(f[2], 10, 64)
				}
				w.rows = append(w.rows, r)
			}
		}
		c.wants = append(c.wants, w)
	}
	return c
}

// checkCase gives every way in which a proof falls short of the case.
func checkCase(c wantCase, w wantSize) []string {
	var bad []string
	p := Read(c.text)
	proof := p.Prove(Options{Size: w.size})
	for _, r := range w.rows {
		for n := r.first; n <= r.last; n++ {
			got := findProofRow(proof, r.piece, n)
			if got == nil {
				bad = append(bad, fmt.Sprintf("%s row %d: not there", r.piece, n))
				break
			}
			if r.made >= 0 && got.Made != r.made || got.Status.String() != r.status {
				bad = append(bad, fmt.Sprintf("%s row %d: made %d, %s; want %d, %s", r.piece, n, got.Made, got.Status, r.made, r.status))
			}
			if n = min(got.Last, r.last); n < r.first {
				n = r.last
			}
		}
	}
	allowed := map[int]Severity{}
	for _, f := range w.finds {
		allowed[f.line] = max(allowed[f.line], f.severity)
		found := false
		for _, g := range proof.Findings {
			line, _ := p.Source.Position(g.Span.Start)
			found = found || line == f.line && g.Severity >= f.severity
		}
		if !found {
			bad = append(bad, fmt.Sprintf("line %d: no %s", f.line, f.severity))
		}
	}
	for _, g := range proof.Findings {
		line, _ := p.Source.Position(g.Span.Start)
		if g.Severity == Note {
			continue
		}
		if a, ok := allowed[line]; !ok || a == Note {
			bad = append(bad, fmt.Sprintf("line %d: %s %s: %s", line, g.Severity, g.Code, g.Message))
		}
	}
	return bad
}

func findProofRow(p *Proof, piece string, n int) *RowProof {
	for _, pc := range p.Pieces {
		if !strings.EqualFold(pc.Piece.Name, piece) {
			continue
		}
		for _, r := range pc.Rows {
			if r.First <= n && n <= r.Last {
				return r
			}
		}
	}
	return nil
}

func TestCases(t *testing.T) {
	files, _ := filepath.Glob(filepath.Join("..", "testdata", "cases", "*.case"))
	if len(files) == 0 {
		t.Error("no cases")
	}
	for _, f := range files {
		t.Run(strings.TrimSuffix(filepath.Base(f), ".case"), func(t *testing.T) {
			c := readCase(t, f)
			for _, w := range c.wants {
				for _, b := range checkCase(c, w) {
					t.Errorf("%s %s", w.size, b)
				}
			}
		})
	}
}

// TestCorpus works patterns of our own in as many manners as print has, a few
// of them with one slip planted.
func TestCorpus(t *testing.T) {
	for _, dir := range []string{"modern", "booklet", "loose"} {
		files, _ := filepath.Glob(filepath.Join("..", "testdata", "corpus", dir, "*.case"))
		if len(files) == 0 {
			t.Errorf("no cases in %s", dir)
		}
		for _, f := range files {
			c := readCase(t, f)
			for _, w := range c.wants {
				for _, b := range checkCase(c, w) {
					t.Errorf("%s: %s %s", filepath.Base(f), w.size, b)
				}
			}
		}
	}
}

// TestDialects proves whole patterns in the manners met in print. Those that
// are right have no error and no row unread; the slips planted are found.
func TestDialects(t *testing.T) {
	index, err := os.ReadFile(filepath.Join("..", "testdata", "dialects", "index.tsv"))
	if err != nil {
		t.Fatal(err)
	}
	seen := 0
	for _, line := range strings.Split(strings.TrimSpace(string(index)), "\n")[1:] {
		f := strings.Split(line, "\t")
		text, err := os.ReadFile(filepath.Join("..", "testdata", "dialects", f[0]+".txt"))
		if err != nil {
			t.Error(err)
			continue
		}
		seen++
		proof := Read(string(text)).Prove(Options{})
		sum := proof.Summary()
		planted := 0
		if strings.Contains(f[1], "planted") {
			planted, _ = strconv.Atoi(strings.Fields(f[1])[0])
		}
		if planted == 0 && (proof.Errors() > 0 || sum.Unread > 0) || planted > 0 && proof.Errors() < planted || sum.Rows == 0 {
			t.Errorf("%s (%s): %d errors, %d unread of %d rows", f[0], f[1], proof.Errors(), sum.Unread, sum.Rows)
			for _, g := range proof.Findings {
				line, col := proof.Pattern.Source.Position(g.Span.Start)
				t.Logf("  %d:%d %s %s: %s", line, col, g.Severity, g.Code, g.Message)
			}
		}
	}
	if seen == 0 {
		t.Error("no dialects")
	}
}
