package pattern

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// written is a pattern of the test data, with the place it comes from.
type written struct{ name, text string }

// allWritten gives every pattern of the test data: worked cases, the corpus
// and the dialects, in the order of their paths.
func allWritten(t testing.TB) []written {
	t.Helper()
	var out []written
	for _, glob := range []string{"cases/*.case", "corpus/*/*.case", "dialects/*.txt"} {
		files, err := filepath.Glob(filepath.Join("..", "testdata", filepath.FromSlash(glob)))
		if err != nil || len(files) == 0 {
			t.Fatalf("no files match %s: %v", glob, err)
		}
		for _, f := range files {
			w := written{name: filepath.Base(f)}
			if strings.HasSuffix(f, ".case") {
				w.text = readCase(t, f).text
			} else {
				data, err := os.ReadFile(f)
				if err != nil {
					t.Fatal(err)
				}
				w.text = string(data)
			}
			out = append(out, w)
		}
	}
	return out
}

// maxFuzzed keeps an input small enough for thousands of runs a second. What
// large ones cost is held by limits_test.go.
const maxFuzzed = 20_000

func FuzzLex(f *testing.F) {
	for _, w := range allWritten(f) {
		f.Add(w.text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if len(text) > maxFuzzed {
			t.Skip()
		}
		checkTokens(t, text)
	})
}

// checkTokens holds the lexer to its word: offsets stay true, tokens follow
// one another inside the text, the last of them is the end and no other is.
func checkTokens(t *testing.T, text string) {
	t.Helper()
	smoothed := smooth(text)
	if len(smoothed) != len(text) {
		t.Fatalf("smoothed to %d bytes from %d", len(smoothed), len(text))
	}
	toks := lex(smoothed)
	for _, unmarked := range []bool{false, true} {
		if unmarked {
			toks = unmark(text, toks)
		}
		at := int32(0)
		for i, tok := range toks {
			if tok.start < at || tok.end < tok.start || int(tok.end) > len(text) {
				t.Fatalf("token %d of %d spans %d-%d after %d in %d bytes", i, len(toks), tok.start, tok.end, at, len(text))
			}
			if (tok.kind == tEnd) != (i == len(toks)-1) {
				t.Fatalf("token %d of %d is of kind %d", i, len(toks), tok.kind)
			}
			if tok.num < 0 || tok.num > maxNumber {
				t.Fatalf("token %q has the number %d", tok.text, tok.num)
			}
			at = tok.end
		}
	}
}

func FuzzRead(f *testing.F) {
	for _, w := range allWritten(f) {
		f.Add(w.text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if len(text) > maxFuzzed {
			t.Skip()
		}
		checkTree(t, Read(text))
	})
}

// checkTree holds the reader to its word: every part of the tree stands
// inside the source, and every step inside its row.
func checkTree(t *testing.T, p *Pattern) {
	t.Helper()
	whole := Span{0, len(p.Source.Text)}
	inside := func(what string, sp Span) {
		t.Helper()
		if sp.Start < 0 || sp.End < sp.Start || !whole.Contains(sp) {
			t.Errorf("%s spans %d-%d of %d bytes", what, sp.Start, sp.End, whole.End)
		}
	}
	for _, h := range p.Headers {
		inside("header", h.Span)
	}
	for _, h := range p.Assembly {
		inside("assembly", h.Span)
	}
	for _, s := range p.Specials {
		inside("special", s.Span)
	}
	for _, pc := range p.Pieces {
		inside("piece", pc.Span)
		if pc.Copies < 1 || len(pc.Rows) == 0 {
			t.Errorf("piece %q has %d copies, %d rows", pc.Name, pc.Copies, len(pc.Rows))
		}
		for _, r := range pc.Rows {
			inside("row "+r.Label, r.Span)
			for _, sp := range r.bad {
				inside("words not understood in "+r.Label, sp)
			}
			if r.Total != nil {
				inside("total of "+r.Label, r.Total.Span)
			}
			checkSteps(t, r.Label, r.Setup, whole)
			checkSteps(t, r.Label, r.Steps, r.Span)
		}
	}
}

func checkSteps(t *testing.T, label string, steps []*Step, in Span) {
	t.Helper()
	for _, s := range steps {
		if !in.Contains(s.Span) || s.Span.End < s.Span.Start {
			t.Errorf("%s: step %d spans %v, outside %v", label, s.Op, s.Span, in)
		}
		if s.special == nil {
			checkSteps(t, label, s.Body, in)
		}
		if s.ending != nil {
			checkSteps(t, label, []*Step{s.ending}, in)
		}
	}
}

func FuzzProve(f *testing.F) {
	for _, w := range allWritten(f) {
		f.Add(w.text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if len(text) > maxFuzzed {
			t.Skip()
		}
		p := Read(text)
		proof := p.Prove(Options{})
		checkProof(t, proof)
		for _, size := range p.Sizes[:min(len(p.Sizes), 3)] {
			checkProof(t, p.Prove(Options{Size: size}))
		}
	})
}

// checkProof holds the prover to its word: findings stand in the source, in
// its order; counts are no negative numbers; rows follow one another.
func checkProof(t *testing.T, p *Proof) {
	t.Helper()
	whole := Span{0, len(p.Pattern.Source.Text)}
	at := 0
	for _, f := range p.Findings {
		if !whole.Contains(f.Span) || f.Span.End < f.Span.Start || f.Span.Start < at {
			t.Errorf("finding %s spans %v of %d bytes after %d", f.Code, f.Span, whole.End, at)
		}
		at = f.Span.Start
		if _, ok := Explain(f.Code); !ok || f.Message == "" {
			t.Errorf("finding %q says %q", f.Code, f.Message)
		}
	}
	for _, pc := range p.Pieces {
		index := 0
		for _, r := range pc.Rows {
			if r.Index != index || r.Last < r.First {
				t.Errorf("rows %d-%d have the index %d, want %d", r.First, r.Last, r.Index, index)
			}
			index += r.Count()
			if r.Made < -1 || r.Available < 0 || r.Taken < 0 || r.Skipped < 0 || r.Left < 0 {
				t.Errorf("%s: made %d of %d, taken %d, skipped %d, left %d", r.Label, r.Made, r.Available, r.Taken, r.Skipped, r.Left)
			}
			for _, k := range r.ByKind {
				if k.N < 0 {
					t.Errorf("%s: %d %s", r.Label, k.N, k.Name)
				}
			}
		}
		if pc.Len() != index {
			t.Errorf("the piece has %d rows, and says %d", index, pc.Len())
		}
	}
}

func FuzzWalk(f *testing.F) {
	for _, w := range allWritten(f) {
		f.Add(w.text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if len(text) > maxFuzzed {
			t.Skip()
		}
		checkWalk(t, Read(text).Prove(Options{}))
	})
}

// checkWalk holds what the walk is shown to be sound: the words of a row are
// clean text, and Here answers for every stitch of it.
func checkWalk(t *testing.T, p *Proof) {
	t.Helper()
	for _, pc := range p.Pieces {
		for _, r := range pc.Rows {
			for _, w := range p.Words(r) {
				for _, c := range w.Text {
					if c < ' ' || c >= 0x7f && c < 0xa0 {
						t.Errorf("%s: the words %q hold the control character %q", r.Label, w.Text, c)
					}
				}
			}
			checkHere(t, r)
		}
	}
}

// checkHere asks for the next stitch all along a row: for each of the first
// and last hundred, and for as many between as do not take long.
func checkHere(t *testing.T, r *RowProof) {
	t.Helper()
	if r.Trace == nil {
		if h := r.Here(0); h.Step != nil {
			t.Errorf("%s was not worked out, and has a next step", r.Label)
		}
		return
	}
	total := r.Trace.total()
	if r.Status != Trusted && r.Status != Unread && r.Made >= 0 && total != countedIn(r) {
		t.Errorf("%s: the instructions come to %d stitches, the row to %d", r.Label, total, countedIn(r))
	}
	step := max(1, (total-200)/100)
	end, pass := int64(0), int64(0)
	for k := int64(0); k < total; {
		h := r.Here(k)
		if h.Step == nil || h.Nth < 1 || h.Nth > h.Of {
			t.Fatalf("%s, stitch %d: it is the %d of %d", r.Label, k, h.Nth, h.Of)
		}
		if h.InstructionEnd <= k || h.InstructionEnd < end || h.PassEnd < h.InstructionEnd || h.PassEnd > total {
			t.Fatalf("%s, stitch %d of %d: the instruction ends at %d (after %d), the pass at %d (after %d)", r.Label, k, total, h.InstructionEnd, end, h.PassEnd, pass)
		}
		for _, ps := range h.Passes {
			if ps.N < 1 || ps.N > ps.Of {
				t.Fatalf("%s, stitch %d: pass %d of %d", r.Label, k, ps.N, ps.Of)
			}
		}
		end, pass = h.InstructionEnd, h.PassEnd
		if k < 100 || k >= total-100 {
			k++
		} else {
			k = min(k+step, total-100)
		}
	}
	if h := r.Here(total); h.Step != nil {
		t.Errorf("%s has a stitch after the last", r.Label)
	}
}

// countedIn is the number of stitches that a row was worked out to make, by
// the kinds it made: a total may count in another way.
func countedIn(r *RowProof) int64 {
	n := int64(0)
	for _, k := range r.ByKind {
		if !notCounted(k.Name) {
			n += k.N
		}
	}
	return n
}

func notCounted(kind string) bool {
	return strings.HasSuffix(kind, " sp") || kind == "picot" || kind == "sl st" || kind == "ss"
}
