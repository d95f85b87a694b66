package layout

import (
	"encoding/xml"
	"errors"
	"flag"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/demo"
	"crochet/tallyturn/pattern/gauge"
	"crochet/tallyturn/pattern/stitch"
)

var update = flag.Bool("update", false, "write the goldens anew")

func layoutOf(t testing.TB, text, gaugeText string) (*Layout, *pattern.Proof) {
	t.Helper()
	p := pattern.Read(text).Prove(pattern.Options{})
	var g gauge.Gauge
	var err error
	if gaugeText == "" {
		if g, err = gauge.Stated(p); err != nil && !errors.Is(err, gauge.ErrNotSaid) {
			t.Fatal(err)
		}
	} else if g, err = gauge.Read(p.Terms, gaugeText); err != nil {
		t.Fatal(err)
	}
	return Of(p, g), p
}

func golden(t *testing.T, name, got string) {
	t.Helper()
	file := filepath.Join("testdata", name)
	if *update {
		if err := os.MkdirAll("testdata", 0o777); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(file, []byte(got), 0o666); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), got); diff != "" {
		t.Errorf("%s (-want +got):\n%s", name, diff)
	}
}

// The demos say how large they come out, and they come out so.
func TestDemosComeOutAsTheySay(t *testing.T) {
	want := map[string][]string{
		"pennant": {"A  Strip: 11.1 cm wide", "C  Second Point: 3.3 cm wide, 1.9 cm high; on stitches 8-13 of 20 of Row 3 of A", "E  Coil (make 2)"},
		"buoy":    {"A  Buoy: 3.5 cm across where it is widest; from the side"},
		"net":     {"A  Panel (make 2): 10 cm wide, 10.8 cm high"},
		"star":    {"A  Star: 11.1 cm across"},
		"cuff":    {"A  Cuff: 14.7 cm wide, 4 cm high"},
	}
	for _, d := range demo.All() {
		l, _ := layoutOf(t, d.Text, "")
		text := l.Text(76, 24)
		for _, line := range want[d.Name] {
			if !strings.Contains(text, line) {
				t.Errorf("%s: no %q in\n%s", d.Name, line, text)
			}
		}
		golden(t, d.Name+".txt", text)
		golden(t, d.Name+".svg", l.SVG(d.Name))
	}
}

const crab = `Crab Mat

Gauge: 20 sc and 22 rows = 10 cm
US terms

Body
Rnd 1: 6 sc in magic ring. (6)
Rnd 2: 2 sc in each st around. (12)
Rnd 3: (Sc in next st, 2 sc in next st) 6 times. (18)
Rnd 4: (Sc in next 2 sts, 2 sc in next st) 6 times. (24)
Rnd 5: (Sc in next 3 sts, 2 sc in next st) 6 times. (30)
Rnd 6: (Sc in next 4 sts, 2 sc in next st) 6 times. (36)

Left Claw
Row 1: Join yarn in 4th st of Rnd 6 of Body, sc in same st and in next 5 sts. (6 sc)
Rows 2-6: Ch 1, turn, sc in each st across. (6 sc)

Right Claw
Row 1: Join yarn in 28th st of Rnd 6 of Body, sc in same st and in next 5 sts. (6 sc)
Rows 2-6: Ch 1, turn, sc in each st across. (6 sc)
Row 7: Ch 1, turn, sc in next 3 sts, leave remaining sts unworked. (3 sc)
Rows 8-12: Ch 1, turn, sc in each st across. (3 sc)

Tail
Row 1: Join yarn in 9th st of Rnd 6 of Body, sc in same st and in next 5 sts. (6 sc)
Rows 2-8: Ch 1, turn, sc in each st across. (6 sc)

Wedge
Ch 21.
Row 1: Sc in 2nd ch from hook and in each ch across. (20 sc)
Row 2: Ch 1, turn, sc in next 18 sts, sc2tog. (19 sc)
Row 3: Ch 1, turn, sc2tog, sc in next 17 sts. (18 sc)

Pocket
Ch 31, join with sl st to form ring.
Rnd 1: Ch 1, sc in each ch around. (31)
Rnds 2-10: Sc in each st around. (31)

Flap
Row 1: Join yarn in 5th st of Rnd 10 of Pocket, sc in same st and in next 9 sts. (10 sc)
Rows 2-4: Ch 1, turn, sc in each st across. (10 sc)

Mat
Ch 14.
Rnd 1: 3 sc in 2nd ch from hook, sc in next 11 ch, 3 sc in last ch; working along opposite side of ch, sc in next 11 ch. (28 sc)
Rnd 2: (2 sc in each of next 3 sts, sc in next 11 sts) twice. (34 sc)

Cap
Rnd 1: 6 sc in magic ring. (6)
Rnd 2: 2 sc in each st around. (12)
Rnd 3: (Sc in next st, 2 sc in next st) 6 times. (18)
Rnds 4-9: Sc in each st around. (18)
`

func TestAllForms(t *testing.T) {
	l, p := layoutOf(t, crab, "")
	golden(t, "crab.txt", l.Text(76, 30))
	golden(t, "crab.svg", l.SVG("Crab Mat"))
	forms := []Form{Disc, Rows, Rows, Rows, Rows, Tube, Rows, Disc, Upright}
	for i, f := range forms {
		if l.Pieces[i].Form != f {
			t.Errorf("%s is drawn as %d, want %d", l.Pieces[i].Name(), l.Pieces[i].Form, f)
		}
	}
	// what the proof implies of where pieces sit, worked out another way
	for i, pi := range p.Implied().Pieces {
		s := l.Pieces[i].Seat
		if (s == nil) != (pi.Sits == nil) {
			t.Errorf("%s: sits %v, implied %v", l.Pieces[i].Name(), s, pi.Sits)
			continue
		}
		if s != nil && (s.From != pi.Sits.From || s.To != pi.Sits.To || s.Of != pi.Sits.Of || s.Number != pi.Sits.Row || p.Pieces[s.Host] != pi.Sits.Host) {
			t.Errorf("%s: %+v, implied %+v", l.Pieces[i].Name(), s, pi.Sits)
		}
	}
	if got := l.Overlaps(); len(got) != 1 || got[0] != "B and D share stitch 9 of Rnd 6 of A." {
		t.Errorf("overlaps %q", got)
	}
}

// A row that leaves stitches unworked lies over those that it works, and a row
// decreased at its end is straight at the other.
func TestRowsLieOverWhatTheyAreWorkedInto(t *testing.T) {
	l, _ := layoutOf(t, "Ch 11.\nRow 1 (RS): Sc in 2nd ch from hook and in each ch across. (10 sc)\nRow 2: Ch 1, turn, sc in next 4 sts, leave remaining sts unworked. (4 sc)\nRow 3: Ch 1, turn, sc in each st across. (4 sc)\n", "10 sc and 10 rows = 10 cm")
	b := l.Pieces[0].Bands
	// row 1 runs from right to left and ends at the left, where row 2 begins
	if b[0].Left != -50 || b[0].Right != 50 || b[1].Left != -50 || b[1].Right != -10 || b[2].Left != -50 || b[2].Right != -10 {
		t.Errorf("%+v", b)
	}
}

// The area of an outline is that of its rows, but for half a row at each change
// of width, which the outline slopes through. The area is by the surveyor's
// formula.
func TestOutlineHasTheAreaOfItsRows(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.Int64Range(3, 40).Draw(t, "stitches")
		text := fmt.Sprintf("Ch %d.\nRow 1: Sc in 2nd ch from hook and in each ch across. (%d sc)\n", n+1, n)
		stitches, slopes := float64(n), 0.0
		for row := 2; row < 12; row++ {
			next := n
			switch rapid.IntRange(0, 2).Draw(t, "row") {
			case 0:
				text += fmt.Sprintf("Row %d: Ch 1, turn, sc in each st across. (%d sc)\n", row, n)
			case 1:
				next = n + 2
				text += fmt.Sprintf("Row %d: Ch 1, turn, 2 sc in first st, sc in each st across to last st, 2 sc in last st. (%d sc)\n", row, next)
			default:
				if n < 5 {
					continue
				}
				next = n - 2
				text += fmt.Sprintf("Row %d: Ch 1, turn, sc2tog, sc in each st across to last 2 sts, sc2tog. (%d sc)\n", row, next)
			}
			slopes += float64(n-next) / 2
			stitches += float64(next)
			n = next
		}
		l := Of(pattern.Read(text).Prove(pattern.Options{}), mustGauge("10 sc and 20 rows = 10 cm"))
		if got, want := area(l.Pieces[0].Outline), (stitches+slopes)*10*5; math.Abs(got-want) > 1e-6*want {
			t.Fatalf("%v mm2, want %v\n%s", got, want, text)
		}
	})
}

func mustGauge(text string) gauge.Gauge {
	g, err := gauge.Read(stitch.US, text)
	if err != nil {
		panic(err)
	}
	return g
}

func area(polygon []Point) float64 {
	sum := 0.0
	for i, j := 0, len(polygon)-1; i < len(polygon); j, i = i, i+1 {
		sum += polygon[j].X*polygon[i].Y - polygon[i].X*polygon[j].Y
	}
	return math.Abs(sum) / 2
}

// Every piece is somewhere in the drawing, however small, and nothing that
// does not join lies over anything else.
func TestEveryPieceIsDrawn(t *testing.T) {
	l, _ := layoutOf(t, crab, "")
	for _, size := range [][2]int{{20, 10}, {40, 12}, {76, 24}, {200, 60}} {
		lines := l.Draw(size[0], size[1])
		all := strings.Join(lines, "\n")
		if len(lines) > size[1] {
			t.Errorf("%d lines in %d", len(lines), size[1])
		}
		for _, line := range lines {
			if len(line) > size[0] {
				t.Errorf("a line of %d columns in %d", len(line), size[0])
			}
		}
		for i, p := range l.Pieces {
			if !strings.Contains(all, Letter(i)) && !strings.Contains(all, both) {
				t.Errorf("%dx%d: %s is not there:\n%s", size[0], size[1], p.Name(), all)
			}
		}
	}
}

func TestHostileNamesAreOnlyText(t *testing.T) {
	title := "<script>alert('&')</script>\x1b[2J\x00\u202e"
	l, _ := layoutOf(t, "## <b onclick=\"x\">&amp;\x1b[31m\nCh 4.\nRow 1: Sc in 2nd ch from hook and in each ch across. (3 sc)\n", "10 sc = 10 cm")
	svg := l.SVG(title)
	if strings.ContainsAny(svg, "\x1b\x00") || strings.Contains(svg, "<script") || strings.Contains(svg, "<b ") {
		t.Error(svg)
	}
	d := xml.NewDecoder(strings.NewReader(svg))
	for {
		tok, err := d.Token()
		if err == io.EOF {
			break
		}
		if err != nil {
			t.Fatalf("%v\n%s", err, svg)
		}
		if s, ok := tok.(xml.StartElement); ok && !strings.Contains(" svg title rect text path ", " "+s.Name.Local+" ") {
			t.Errorf("an element %s", s.Name.Local)
		}
	}
}

func TestUnknownAndHuge(t *testing.T) {
	for text, want := range map[string]string{
		"Rnd 1: Sc evenly around.\n": "nobody knows how many stitches it has",
		"Ch 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10 sc)\nRows 2-900000: Sc in each st across. (10 sc)\n": "high",
		"Ch 900000000.\nRow 1: Sc in 2nd ch from hook and in each ch across.\n":                                                "wide",
		"": "",
	} {
		l, _ := layoutOf(t, text, "10 sc and 10 rows = 10 cm")
		if got := l.Text(76, 24); !strings.Contains(got, want) {
			t.Errorf("%q: %s", text, got)
		}
		if svg := l.SVG("x"); len(svg) > 200_000 {
			t.Errorf("%q: an SVG of %d bytes", text, len(svg))
		}
	}
}
