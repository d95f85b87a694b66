package demo

import (
	"fmt"
	"strings"
	"testing"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/stitch"
)

// Every demo proves: each row states a total and agrees with it, in every
// size, and nothing worse than a note is found.
func TestDemosProve(t *testing.T) {
	for _, d := range All() {
		p := pattern.Read(d.Text)
		sizes := p.Sizes
		if len(sizes) == 0 {
			sizes = []string{""}
		}
		for _, size := range sizes {
			proof := p.Prove(pattern.Options{Size: size})
			if proof.Size != size {
				t.Errorf("%s: proven in size %q, want %q", d.Name, proof.Size, size)
			}
			for _, f := range proof.Findings {
				if f.Severity > pattern.Note {
					line, _ := p.Source.Position(f.Span.Start)
					t.Errorf("%s %s, line %d: %s: %s", d.Name, size, line, f.Severity, f.Message)
				}
			}
			for _, pc := range proof.Pieces {
				for _, r := range pc.Rows {
					if r.Stated == nil || r.Status != pattern.Agrees {
						t.Errorf("%s %s, %s %s: %s, made %d", d.Name, size, pc.Piece.Name, r.Label, r.Status, r.Made)
					}
				}
			}
		}
	}
}

// The shape of each demo, worked out by hand: what is walked, and in what
// terms.
func TestDemosAreWhole(t *testing.T) {
	want := map[string]struct {
		terms    stitch.Terms
		pieces   string // each with its copies and rows
		stitches int64  // in all copies of the first size
	}{
		"pennant": {stitch.US, "Strip 1x3, First Point 1x4, Second Point 1x4, Third Point 1x4, Coil 2x1", 60 + 3*13 + 2*18},
		"buoy":    {stitch.US, "Buoy 1x11, Ring 1x1", 6 + 12 + 18 + 5*24 + 18 + 12 + 6 + 12},
		"net":     {stitch.UK, "Panel 2x7, Handle 1x2", 2*(6*7+19) + 60},
		"star":    {stitch.US, "Star 1x4", 10 + 20 + 25 + 40},
		"cuff":    {stitch.US, "Cuff 1x7", 6*28 + 24},
	}
	for _, d := range All() {
		w, ok := want[d.Name]
		if !ok {
			t.Errorf("%s: no shape is given for it", d.Name)
			continue
		}
		proof := pattern.Read(d.Text).Prove(pattern.Options{})
		if proof.Terms != w.terms {
			t.Errorf("%s: %v terms, want %v", d.Name, proof.Terms, w.terms)
		}
		var pieces []string
		var stitches int64
		for _, pc := range proof.Pieces {
			pieces = append(pieces, fmt.Sprintf("%s %dx%d", pc.Piece.Name, pc.Piece.Copies, pc.Len()))
			for _, r := range pc.Rows {
				stitches += r.Made * int64(r.Count()) * int64(pc.Piece.Copies)
			}
		}
		if got := strings.Join(pieces, ", "); got != w.pieces {
			t.Errorf("%s: pieces %s, want %s", d.Name, got, w.pieces)
		}
		if stitches != w.stitches {
			t.Errorf("%s: %d stitches in all, want %d", d.Name, stitches, w.stitches)
		}
	}
}

func TestFind(t *testing.T) {
	if d, ok := Find("BUOY"); !ok || d.Name != "buoy" || !strings.Contains(d.Text, "Mooring Buoy") {
		t.Errorf("Find(BUOY) = %q, %v", d.Name, ok)
	}
	if d, ok := Find("kraken"); ok {
		t.Errorf("Find(kraken) gives %q", d.Name)
	}
}
