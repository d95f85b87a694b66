package chart

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"crochet/tallyturn/pattern"
)

// ripple writes a piece that goes up over its increases and down over its
// decreases: waves of them, side stitches on each slope, rows high.
func ripple(name string, waves, side, rows int) string {
	n := waves * (2*side + 6)
	return fmt.Sprintf("Ch %d.\nRow 1: Sc in 2nd ch from hook and in each ch across. (%d)\n"+
		"Rows 2-%d: Ch 1, turn, *2 %[4]s in next st, %[4]s in next %[5]d sts, (%[4]s2tog) twice, %[4]s in next %[5]d sts, 2 %[4]s in next st; rep from * across. (%[2]d)\n",
		n+1, n, rows, name, side)
}

// A ripple's peaks stand over each other and are higher than what is beside
// them; its rows keep clear of each other, and the symbols of a row too.
func TestRipple(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		waves, side, rows := rapid.IntRange(1, 4).Draw(t, "waves"), rapid.IntRange(1, 9).Draw(t, "side"), rapid.IntRange(3, 9).Draw(t, "rows")
		text := ripple(rapid.SampledFrom([]string{"sc", "hdc", "dc"}).Draw(t, "stitch"), waves, side, rows)
		f, l, err := lay(prove(text), 0, Options{})
		if err != nil {
			t.Fatal(err)
		}
		if l.g.ridge == nil || len(l.g.ridge.t) != 2*waves+1 {
			t.Fatalf("no ridge of %d waves\n%s", waves, text)
		}
		for i := range f.rows {
			if i == 0 {
				continue
			}
			v := f.rows[i].v
			at := func(pos int) pt { // from the left
				if v.dir < 0 {
					pos = len(v.made) - 1 - pos
				}
				return l.g.point(v.made[pos].head.t, v.made[pos].head.r)
			}
			whole := 2*side + 6
			for w := range waves {
				first, valley, last := at(w*whole), at(w*whole+side+2), at(w*whole+whole-1)
				if first.y <= valley.y || last.y <= valley.y {
					t.Fatalf("row %d: wave %d goes from %v through %v to %v\n%s", i+1, w+1, first, valley, last, text)
				}
				if below := f.rows[i-1].v; i > 1 {
					k := w * whole
					if below.dir < 0 {
						k = len(below.made) - 1 - k
					}
					if p := l.g.point(below.made[k].head.t, below.made[k].head.r); math.Abs(p.x-first.x) > 1e-6 || p.y >= first.y {
						t.Fatalf("row %d: the peak at %v does not stand over that at %v\n%s", i+1, first, p, text)
					}
				}
			}
		}
		toldApart(t, f, l, text)
		joined(t, f, text)
	})
}

// motif writes rounds with so many corners.
func motif(sides, rounds int, name string, turn int) string {
	var b strings.Builder
	fmt.Fprintf(&b, "Ch 4, join with sl st in first ch to form ring.\nRnd 1: Ch 1, (3 %s in ring, ch 2) %d times, join with sl st in first %[1]s.\n", name, sides)
	for r := 2; r <= rounds; r++ {
		n := 3 + turn*(r-2)*2
		a := 3 + turn*(r-2) // as far as the first corner
		fmt.Fprintf(&b, "Rnd %d: Ch 1, %s in next %d sts, (%[4]d %[2]s, ch 2, %[4]d %[2]s) in next ch-2 sp, (%[2]s in next %[5]d sts, (%[4]d %[2]s, ch 2, %[4]d %[2]s) in next ch-2 sp) %[6]d times", r, name, a, turn, n, sides-1)
		if n > a {
			fmt.Fprintf(&b, ", %s in next %d sts", name, n-a)
		}
		fmt.Fprintf(&b, ", join with sl st in first %s.\n", name)
	}
	return b.String()
}

// Rounds that turn at the same places have straight sides between them, and
// corners as far from each other as those of a regular figure.
func TestMotifs(t *testing.T) {
	for _, sides := range []int{3, 4, 5, 6} {
		for _, name := range []string{"sc", "dc"} {
			for _, rounds := range []int{2, 3, 12} {
				text := motif(sides, rounds, name, 2)
				f, l, err := lay(prove(text), 0, Options{})
				if err != nil {
					t.Fatal(err)
				}
				c := l.g.corners
				if c == nil || c.n != sides {
					t.Fatalf("not %d corners\n%s", sides, text)
				}
				for i := range f.rows {
					v := f.rows[i].v
					high := 0.0
					for k := range v.made {
						if v.made[k].link.Kind == pattern.LinkStitch {
							high = math.Max(high, v.made[k].head.r)
						}
					}
					corners := 0
					for k := range v.made {
						m := &v.made[k]
						p := l.g.point(m.head.t, m.head.r)
						if m.link.Kind == pattern.LinkSpace {
							corners++
							a := math.Atan2(p.y, p.x) - c.lean()
							step := 2 * math.Pi / float64(sides)
							if off := a - math.Round(a/step)*step; math.Abs(off)*p.length() > 1.2 {
								t.Errorf("%d sides, round %d: the corner at %v is %.2f off", sides, i+1, p, off*p.length())
							}
							continue
						}
						// how far out it lies over the side it is on
						far := math.Inf(-1)
						for s := range sides {
							b := c.lean() + (float64(s)+0.5)*2*math.Pi/float64(sides)
							far = math.Max(far, p.x*math.Cos(b)+p.y*math.Sin(b))
						}
						if math.Abs(far-high) > 1e-6 {
							t.Errorf("%d sides, round %d: %v lies %.3f out and not %.3f", sides, i+1, p, far, high)
						}
					}
					if corners != sides {
						t.Errorf("%d corners in round %d", corners, i+1)
					}
				}
				if b := c.t0; math.IsNaN(b) {
					t.Error("no first corner")
				}
				toldApart(t, f, l, text)
				joined(t, f, text)
			}
		}
	}
}

// toldApart wants the symbols of a row to be told apart: their heads do not meet,
// nor the middles of those that stand in places of their own.
func toldApart(t interface{ Fatalf(string, ...any) }, f *figure, l *layer, text string) {
	for _, r := range f.rows {
		var heads []pt
		for i := range r.v.made {
			m := &r.v.made[i]
			p := l.g.point(m.head.t, m.head.r)
			if math.IsNaN(p.x+p.y) || math.IsInf(p.x+p.y, 0) {
				t.Fatalf("%s: symbol %d is nowhere\n%s", r.title, i+1, text)
			}
			for k, q := range heads {
				if p.sub(q).length() < 0.6 {
					t.Fatalf("%s: symbols %d and %d are %.2f apart\n%s", r.title, k+1, i+1, p.sub(q).length(), text)
				}
			}
			heads = append(heads, p)
		}
	}
}

// joined wants every stitch to stand on what the links say.
func joined(t interface{ Fatalf(string, ...any) }, f *figure, text string) {
	for n, r := range f.rows {
		for i := range r.v.made {
			m := &r.v.made[i]
			if m.link.Kind != pattern.LinkStitch {
				continue
			}
			if len(m.feet) == 0 {
				t.Fatalf("%s: stitch %d has no foot\n%s", r.title, i+1, text)
			}
			for b, s := range m.feet {
				if b >= len(m.link.Bases) || m.link.Bases[b].Kind != pattern.BaseRow {
					continue
				}
				below := &f.rows[n-1].v.made[m.link.Bases[b].At]
				p, q := r.l.g.point(s.t, s.r), r.l.g.point(below.head.t, below.head.r)
				if p.sub(q).length() > 1 {
					t.Fatalf("%s: stitch %d stands at %v, and its base is at %v\n%s", r.title, i+1, p, q, text)
				}
			}
		}
	}
}

// What does not rise and fall stays straight, and what has other corners round.
func TestPlainShapes(t *testing.T) {
	for name, p := range goldens(t) {
		_, l, err := lay(p, 0, Options{})
		if err != nil {
			t.Fatal(err)
		}
		if got, want := l.g.ridge != nil, name == "018-ripple"; got != want {
			t.Errorf("%s is a ripple: %v", name, got)
		}
		if got, want := l.g.corners != nil, name == "015-granny-square" || name == "star"; got != want {
			t.Errorf("%s has corners: %v", name, got)
		}
		if got, want := l.tall > 1, name == "014-filet-mesh"; got != want {
			t.Errorf("%s is filet: %v", name, got)
		}
	}
	for _, text := range []string{
		"Rnd 1: 12 dc in magic ring.\n" + rounds(6),
		"Rnd 1: 6 sc in magic ring.\nRnd 2: 2 sc in each st around.\nRnd 3: (2 sc in next st, sc in next st) 6 times.\n",
	} {
		if _, l, err := lay(prove(text), 0, Options{}); err != nil || l.g.corners != nil {
			t.Errorf("%v: a circle has corners\n%s", err, text)
		}
	}
}

// An oval lies as far to the right of the middle of its chain as to the left, and
// as far up as down, wherever in the end of the chain its rounds begin; what
// comes back along the chain stands in the chains that were met on the way out.
func TestOvals(t *testing.T) {
	for _, text := range []string{
		"Ch 9.\nRnd 1: 3 sc in 2nd ch from hook, sc in next 6 ch, 3 sc in last ch; working along opposite side of ch, sc in next 6 ch. (18)\nRnd 2: (2 sc in each of next 3 sts, sc in next 6 sts) twice. (24)\n",
		"Ch 9.\nRnd 1: 2 sc in 2nd ch from hook, sc in next 6 ch, 4 sc in last ch; working along opposite side of ch, sc in next 6 ch, 2 sc in last ch. (20)\nRnd 2: Sc in each st around. (20)\n",
	} {
		f, l, err := lay(prove(text), 0, Options{})
		if err != nil {
			t.Fatal(err)
		}
		b := newBox()
		feet := map[float64]int{}
		for _, r := range f.rows {
			for i := range r.v.made {
				m := &r.v.made[i]
				b.point(l.g.point(m.head.t, m.head.r))
				if foot := l.g.point(m.feet[0].t, m.feet[0].r); r.row == 0 && math.Abs(foot.x) < l.g.length/2-0.1 {
					feet[math.Round(foot.x*100)/100]++
				}
			}
		}
		if math.Abs(b.min.x+b.max.x) > 1 || math.Abs(b.min.y+b.max.y) > 0.5 {
			t.Errorf("it reaches from %v to %v\n%s", b.min, b.max, text)
		}
		if len(feet) != 6 {
			t.Errorf("there are stitches in %d chains between the ends\n%s", len(feet), text)
		}
		for x, n := range feet {
			if n != 2 {
				t.Errorf("there are %d stitches in the chain at %g\n%s", n, x, text)
			}
		}
	}
}

// feather writes waves of increases side by side and decreases side by side, with
// plain rows between.
func feather(waves, side, plain, times int) string {
	n := 6 * side * waves
	var b strings.Builder
	fmt.Fprintf(&b, "Ch %d.\nRow 1: Sc in 2nd ch from hook and in each ch across. (%d)\n", n+1, n)
	row := 2
	for range times {
		fmt.Fprintf(&b, "Row %d: Ch 2 (does not count as a st), turn, *2 dc in each of next %d sts, (dc2tog) %d times, 2 dc in each of next %[2]d sts; rep from * across. (%[4]d)\n", row, side, 2*side, n)
		row++
		for range plain {
			fmt.Fprintf(&b, "Row %d: Ch 1, turn, sc in each st across.\n", row)
			row++
		}
	}
	return b.String()
}

// Increases side by side make a peak and decreases side by side a valley, with
// plain rows between them or without.
func TestFeatherAndFan(t *testing.T) {
	for waves := 1; waves <= 3; waves++ {
		for plain := 0; plain <= 3; plain++ {
			text := feather(waves, 3, plain, 3)
			f, l, err := lay(prove(text), 0, Options{})
			if err != nil {
				t.Fatal(err)
			}
			if l.g.ridge == nil || !l.g.ridge.soft || len(l.g.ridge.t) != 2*waves+1 {
				t.Fatalf("no %d waves\n%s", waves, text)
			}
			for k := range l.g.ridge.t {
				if up := l.g.ridge.high(l.g.ridge.t[k]); up < -1e-9 == (k%2 == 0) {
					t.Errorf("turning %d is at %g\n%s", k, up, text)
				}
			}
			toldApart(t, f, l, text)
			joined(t, f, text)
		}
	}
	// one increase beside one decrease is a texture
	if _, l, err := lay(prove("Ch 22.\nRow 1: Sc in 2nd ch from hook and in each ch across. (21)\nRows 2-5: Ch 1, turn, (2 sc in next st, sc2tog) across. (21)\n"), 0, Options{}); err != nil || l.g.ridge != nil {
		t.Errorf("%v: a texture waves", err)
	}
}

// The meshes of filet are as high as they are wide.
func TestSquareMeshes(t *testing.T) {
	f, l, err := lay(goldens(t)["014-filet-mesh"], 0, Options{})
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range f.rows {
		last := math.NaN()
		for i := range r.v.made {
			m := &r.v.made[i]
			if m.link.Kind != pattern.LinkStitch {
				continue
			}
			head, foot := l.g.point(m.head.t, m.head.r), l.g.point(m.feet[0].t, m.feet[0].r)
			if wide, high := math.Abs(head.x-last), head.sub(foot).length(); !math.IsNaN(last) && math.Abs(wide-high) > 0.3 {
				t.Errorf("%s: a mesh of %.2f by %.2f", r.title, wide, high)
			}
			last = head.x
		}
	}
}

// Twelve rounds of a square, and a ripple sixty stitches wide and sixty rows
// high, are one page.
func TestShapesOnOnePage(t *testing.T) {
	for _, text := range []string{motif(4, 12, "sc", 1), motif(6, 8, "dc", 1), ripple("sc", 4, 5, 40)} {
		c, err := Draw(prove(text), 0, Options{})
		if err != nil {
			t.Fatal(err)
		}
		if b := c.extent(); c.Tiles() != 1 {
			t.Errorf("%d parts of %.0f by %.0f: %.60q", c.Tiles(), b.max.x-b.min.x, b.max.y-b.min.y, text)
		}
	}
}
