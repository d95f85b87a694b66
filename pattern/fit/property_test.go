package fit

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"crochet/tallyturn/pattern"
)

// madeUp is a strip with pieces on its last row, as a designer lays them out.
type madeUp struct {
	text   string
	of     int64 // the strip comes out on any multiple of this many stitches
	width  int64
	last   int64   // its last row
	least  int64   // and from this many up
	gaps   []int64 // along that row
	pieces []int64 // the widths of the pieces
}

// drawMadeUp makes up a strip of random rows, and pieces of random widths in a
// layout drawn by lot: centred, evenly spaced, from edge to edge, with a stitch
// shared, or anyhow.
func drawMadeUp(t *rapid.T) madeUp {
	var m madeUp
	m.of = rapid.SampledFrom([]int64{1, 2, 3, 4, 5, 6, 8}).Draw(t, "multiple")
	pieces := rapid.IntRange(0, 4).Draw(t, "pieces")
	layout := rapid.SampledFrom([]string{"margins", "even", "edges", "shared", "anyhow"}).Draw(t, "layout")
	margin := rapid.Int64Range(1, 9).Draw(t, "margin")
	gap := rapid.Int64Range(1, 7).Draw(t, "gap")
	size := rapid.Int64Range(2, 7).Draw(t, "size of a piece")
	for i := range pieces {
		g := gap
		switch {
		case layout == "even" || layout == "margins" && i == 0:
			g = margin
		case layout == "edges" && i == 0:
			g = 0
		case layout == "shared" && i > 0:
			g = -1
		case layout == "anyhow":
			g = rapid.Int64Range(0, 9).Draw(t, "any gap")
		}
		m.gaps = append(m.gaps, g)
		m.pieces = append(m.pieces, size)
		m.width += g + size
	}
	if pieces > 0 {
		end := m.gaps[0]
		if layout == "anyhow" {
			end = rapid.Int64Range(0, 9).Draw(t, "the rest")
		}
		// the row must be a multiple: what is missing goes to the last margin, and
		// to the first where both are alike
		for (m.width+end)%m.of != 0 {
			if layout != "anyhow" && layout != "edges" && (m.width+end+2)%m.of == 0 {
				m.gaps[0]++
				m.width++
			}
			end++
		}
		m.gaps = append(m.gaps, end)
		m.width += end
	} else {
		m.width = m.of * rapid.Int64Range(3, 12).Draw(t, "repeats")
	}
	var b strings.Builder
	fmt.Fprintf(&b, "Jetty Strip\n\nStrip\nCh %d.\nRow 1: Sc in 2nd ch from hook and in each ch across. (%d sc)\n", m.width+1, m.width)
	m.last = 1
	for range rapid.IntRange(1, 3).Draw(t, "rows") {
		m.last++
		b.WriteString(m.row(t))
	}
	b.WriteString("Fasten off.\n")
	at := int64(0)
	for i, w := range m.pieces {
		at += m.gaps[i]
		name := fmt.Sprintf("%s Flag", []string{"First", "Second", "Third", "Fourth"}[i])
		fmt.Fprintf(&b, "\n%s\nRow 1: ", name)
		if i > 0 && m.gaps[i] > 0 && rapid.Bool().Draw(t, "told from the one before") {
			before := fmt.Sprintf("%s Flag", []string{"First", "Second", "Third", "Fourth"}[i-1])
			sts := "sts"
			if m.gaps[i] == 1 {
				sts = "st"
			}
			fmt.Fprintf(&b, "Skip %d %s from %s, join yarn in next st", m.gaps[i], sts, before)
		} else {
			shared := ""
			if m.gaps[i] < 0 {
				shared = " (the corner is shared)"
			}
			fmt.Fprintf(&b, "Join yarn in %s st of Row %d of Strip%s", ordinal(at+1), m.last, shared)
		}
		fmt.Fprintf(&b, ", sc in same st and in next %d sts. (%d sc)\nRow 2: Ch 1, turn, sc in each st across. (%d sc)\nFasten off.\n", w-1, w, w)
		at += w
	}
	m.text = strings.ReplaceAll(b.String(), "next 1 sts", "next st")
	return m
}

// row makes up a row that works over any multiple.
func (m *madeUp) row(t *rapid.T) string {
	n := m.last
	k := m.of
	if k == 1 {
		return fmt.Sprintf("Row %d: Ch 1, turn, sc in each st across. (%d sc)\n", n, m.width)
	}
	a := rapid.Int64Range(1, k-1).Draw(t, "first part")
	body := fmt.Sprintf("sc in next %d sts, hdc in next %d sts", a, k-a)
	body = strings.ReplaceAll(body, "next 1 sts", "next st")
	kinds := fmt.Sprintf("(%d sc, %d hdc)", m.width/k*a, m.width/k*(k-a))
	switch rapid.IntRange(0, 3).Draw(t, "way") {
	case 0:
		return fmt.Sprintf("Row %d: Ch 1, turn, *%s; rep from * across. %s\n", n, body, kinds)
	case 1:
		if m.width/k > 1 {
			more := "times more"
			if m.width/k == 2 {
				more = "time more"
			}
			m.least = 2 * k // "0 times more" is never written
			return fmt.Sprintf("Row %d: Ch 1, turn, *%s; rep from * %d %s. %s\n", n, body, m.width/k-1, more, kinds)
		}
	case 2:
		return fmt.Sprintf("Row %d: Ch 1, turn, sc in each st across. (%d sc)\n", n, m.width)
	}
	times := "times"
	if m.width == k {
		times = "time"
	}
	return fmt.Sprintf("Row %d: Ch 1, turn, (%s) %d %s. %s\n", n, body, m.width/k, times, kinds)
}

func ordinal(n int64) string {
	end := "th"
	if n%100 < 11 || n%100 > 13 {
		switch n % 10 {
		case 1:
			end = "st"
		case 2:
			end = "nd"
		case 3:
			end = "rd"
		}
	}
	return fmt.Sprint(n, end)
}

// Random patterns in random sizes: what is printed proves, it is the nearest
// width that there is, and the layout keeps its character.
func TestAnyPatternInAnySize(t *testing.T) {
	g := testGauge(t)
	rapid.Check(t, func(t *rapid.T) {
		m := drawMadeUp(t)
		proof := pattern.Read(m.text).Prove(pattern.Options{})
		if proof.Errors() > 0 {
			t.Fatalf("the pattern made up is wrong: %v\n%s", proof.Findings, m.text)
		}
		want := rapid.Int64Range(2, 160).Draw(t, "stitches")
		wish := Wish{Stitches: want}
		if rapid.Bool().Draw(t, "by the tape") {
			wish = Wish{Wide: float64(want) * 5} // 20 stitches in 10 cm
		}
		res, err := To(proof, g, wish)
		taken := int64(0)
		for i, w := range m.pieces {
			taken += w + min(m.gaps[i], 0)
		}
		// the multiples that the pieces fit on: any repeat may be what limits it
		near := int64(-1)
		for n := m.of; n <= 400; n += m.of {
			if n < max(taken, m.least, 1) {
				continue
			}
			if near < 0 || abs64(n-want) < abs64(near-want) || abs64(n-want) == abs64(near-want) && n > near {
				near = n
			}
		}
		if err != nil {
			var far *NotWithinReach
			if errors.As(err, &far) && (abs64(near-want) >= reachLeast || 2*abs64(near-want) > want) {
				return
			}
			t.Fatalf("%d stitches, and %d can be had: %v\n%s", want, near, err, m.text)
		}
		now := pattern.Read(res.Text).Prove(pattern.Options{})
		if now.Errors() > 0 || now.Summary().Agrees != proof.Summary().Agrees {
			t.Fatalf("it does not prove: %v\n%s", now.Findings, res.Text)
		}
		if a, b := wordsOnly(m.text), wordsOnly(res.Text); a != b {
			t.Fatalf("more than numbers has changed:\n%s", res.Text)
		}
		got := now.Pieces[0].Rows[0].Made
		if abs64(got-want) > abs64(near-want) {
			t.Fatalf("%d stitches for %d, and %d can be had\n%s", got, want, near, res.Text)
		}
		m.layout(t, now, got)
	})
}

func abs64(n int64) int64 { return max(n, -n) }

// layout holds the layout in the new size against that of old.
func (m *madeUp) layout(t *rapid.T, now *pattern.Proof, of int64) {
	if len(m.pieces) == 0 {
		return
	}
	var gaps []int64
	end := int64(0)
	for i, w := range m.pieces {
		s := now.Pieces[1+i].Sits()
		if s == nil || s.Of != of || s.To-s.From+1 != w || int64(s.Row) != m.last {
			t.Fatalf("piece %d sits at %+v", i, s)
		}
		gaps = append(gaps, s.Before()-end)
		end = max(end, s.To)
	}
	gaps = append(gaps, of-end)
	open := false
	for i, g := range m.gaps {
		open = open || g > 0
		if g <= 0 && gaps[i] != g && slices.Max(m.gaps) > 0 {
			t.Fatalf("gaps %v have become %v: what was shut is open", m.gaps, gaps)
		}
		for k, h := range m.gaps {
			if g == h && g > 0 && abs64(gaps[i]-gaps[k]) > 1 {
				t.Fatalf("gaps %v have become %v: equal ones differ", m.gaps, gaps)
			}
		}
	}
	if slices.Equal(m.gaps, reversed(m.gaps)) {
		uneven := int64(0)
		for i := range gaps {
			uneven += abs64(gaps[i] - gaps[len(gaps)-1-i])
		}
		if uneven > 2 || abs64(gaps[0]-gaps[len(gaps)-1]) > 1 {
			t.Fatalf("gaps %v have become %v: no mirror image any more", m.gaps, gaps)
		}
	}
}
