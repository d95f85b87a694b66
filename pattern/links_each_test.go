package pattern

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"crochet/tallyturn/pattern/stitch"
)

// However many are worked into each of however many places, each place gets
// that many.
func TestLinksIntoEach(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 14).Draw(t, "places")
		per := rapid.IntRange(1, 6).Draw(t, "per")
		name := rapid.SampledFrom([]string{"sc", "hdc", "dc", "tr", "bobble"}).Draw(t, "stitch")
		first := rapid.IntRange(1, 3).Draw(t, "first") // in the place joined
		where := rapid.SampledFrom([]string{"each st around", "each of next %d sts"}).Draw(t, "where")
		if where != "each st around" {
			where = fmt.Sprintf(where, n-1)
		}
		text := fmt.Sprintf("Ch 4, join with sl st in first ch to form ring.\nRnd 1: Ch 3 (counts as dc), %d dc in ring, join with sl st in top of beg ch-3.\n"+
			"Rnd 2: Ch 3 (counts as dc), %d dc in same st, %d %s in %s, join with sl st in top of beg ch-3.\n", n-1, first, per, name, where)
		rows := Read(text).Prove(Options{}).Links(0, 1000)
		got := make([]int, n)
		for _, l := range rows[1].Made {
			if len(l.Bases) != 1 || l.Bases[0].Kind != BaseRow {
				t.Fatalf("stands in %v\n%s", l.Bases, text)
			}
			got[l.Bases[0].At]++
		}
		for i, k := range got {
			want := per
			if i == 0 {
				want = 1 + first
			}
			if k != want {
				t.Fatalf("%v stand in the places\n%s\n%s", got, linkWords(rows[1].Made), text)
			}
		}
	})
}

// Over all patterns that are kept as tests: the places stood in follow each
// other the way the row runs, and a place holds as many stitches of an
// instruction as the words put into one.
func TestLinksFollowTheWords(t *testing.T) {
	ordered, counted := 0, 0
	eachKept(t, func(name string, p *Proof) {
		for i, pc := range p.Pieces {
			for _, r := range p.Links(i, 2000) {
				if !r.Known || r.Row.Status == Differs || r.Even {
					continue
				}
				where := name + " " + pc.Piece.Name + " " + r.Row.Label
				words := p.Pattern.Source.Slice(r.Row.Row.Span)
				if len(r.Earlier) == 0 {
					back := 0 // times that the row goes back over the way it came
					last := -1
					for _, l := range r.Made {
						if l.Kind != LinkStitch || l.Step == nil || wanders(l.Step) {
							continue
						}
						for _, b := range l.Bases {
							if b.Kind != BaseRow {
								continue
							}
							at := b.At
							if r.Turned {
								at = -at
							}
							if last != -1 && at < last {
								back++
							}
							last = at
						}
					}
					ordered++
					if back > 1 || back == 1 && !r.Round {
						t.Errorf("%s: goes back %d times: %s\n%s", where, back, linkWords(r.Made), words)
					}
				}
				type into struct {
					step *Step
					base Base
				}
				got := make(map[into]int64)
				for _, l := range r.Made {
					s := l.Step
					if l.Kind != LinkStitch || l.Turn || s == nil || s.Op != OpWork || s.Legs > 1 || s.plainFirst() || wanders(s) || s.Target.Which != Each && s.Target.Which != Next || l.Stitch == stitch.Slip {
						continue
					}
					if len(l.Bases) != 1 || l.Bases[0].Kind != BaseRow {
						continue
					}
					got[into{s, l.Bases[0]}]++
				}
				for k, n := range got {
					counted++
					if per := max(k.step.N.At(p.size), 1); n%per != 0 {
						t.Errorf("%s: %d stand in place %d, and the words put %d into one: %s\n%s", where, n, k.base.At, per, linkWords(r.Made), words)
					}
				}
			}
		}
	})
	if ordered < 300 || counted < 2000 {
		t.Errorf("only %d rows and %d places were looked at", ordered, counted)
	}
}

// wanders reports whether an instruction says itself that it goes elsewhere
// than on along the row below.
func wanders(s *Step) bool {
	return s.Target.Row != nil || s.Target.Which != Each && s.Target.Which != Next
}
