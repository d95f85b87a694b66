package round

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"crochet/tallyturn/pattern/stitch"
)

// Text is the shape as a table of its rounds, what they come to, and the rule
// behind it.
func (s *Shape) Text() string {
	var b strings.Builder
	label := len("rounds")
	for _, r := range s.Rows {
		label = max(label, len([]rune(r.Proof.Label)))
	}
	fmt.Fprintf(&b, "  %-*s  stitches      edge  flat edge\n", label, "")
	for _, r := range s.Rows {
		made, _ := r.Proof.Expect()
		fmt.Fprintf(&b, "  %-*s  %8d  %8s  %9s  %s\n", label, r.Proof.Label, made, s.tell(r.Edge), s.tell(r.Flat), r.Lies)
	}
	fmt.Fprintf(&b, "%s\n", s.Summary())
	return b.String()
}

func (s *Shape) tell(mm float64) string { return s.Gauge.Unit.Tell(mm) }

// closed is the share of its widest round below which the last round of a piece
// makes a ball of it: our own choice.
const closed = 0.4

// Summary says in a few sentences what the rounds come to, and why.
func (s *Shape) Summary() string {
	if len(s.Rows) == 0 {
		return "Nobody knows how many stitches its rounds have."
	}
	out := s.comes()
	if g := s.give(); g != "" {
		out = append(out, g)
	}
	if len(s.Rows) < len(s.Piece.Rows) {
		out = append(out, fmt.Sprintf("What comes after %s is not worked out.", s.Rows[len(s.Rows)-1].Proof.Label))
	}
	return strings.Join(append(out, s.why()), " ")
}

// comes says how large the piece is and how it lies.
func (s *Shape) comes() []string {
	last := s.Rows[len(s.Rows)-1]
	size := s.size(s.High)
	out := s.base()
	it := "It "
	if len(out) > 0 {
		it = "Then it "
	}
	switch {
	case s.FlatEnd == len(s.Rows)-1:
		return []string{"It lies flat, " + size + "."}
	case last.Lies == Flat:
		k := len(s.Rows) - 1
		for s.Rows[k].Lies == Flat {
			k--
		}
		return []string{fmt.Sprintf("It lies flat, %s; at %s it still %s.", size, s.Rows[k].Proof.Label, s.Rows[k].Lies)}
	case last.Lies == Ruffles:
		return append(out, fmt.Sprintf("%sruffles: its edge is %s, %s longer than the %s of a flat piece of its rounds, which is %s.", it, s.tell(last.Edge), percent(last.Edge/last.Flat-1), s.tell(last.Flat), size))
	case last.Lies == Upright:
		return []string{fmt.Sprintf("It stands up as a tube, %s across and %s high.", s.tell(s.Mouth), s.tell(s.Deep))}
	case s.Closes():
		return []string{fmt.Sprintf("It closes like a ball: %s across where it is widest, about %s high before it is stuffed, and %s from end to end over the curve.", s.tell(s.Widest), s.tell(s.Hollow), s.tell(s.High))}
	}
	cups := fmt.Sprintf("%scups: its edge is %s, %s shorter than the %s of a flat piece of its rounds. It", it, s.tell(last.Edge), percent(1-last.Edge/last.Flat), s.tell(last.Flat))
	if s.Straight == 0 {
		cups += fmt.Sprintf(" is %s across at its opening%s, and", s.tell(s.Mouth), s.bulge())
	}
	return append(out, cups+" stands about "+s.tell(s.Deep)+" high.")
}

func (s *Shape) bulge() string {
	if s.tell(s.Widest) == s.tell(s.Mouth) {
		return ""
	}
	return ", " + s.tell(s.Widest) + " where it is widest"
}

// base says how much of it lies flat before it leaves the table.
func (s *Shape) base() []string {
	if s.FlatEnd < 1 {
		return nil
	}
	high := 0.0
	if r := s.Rows[s.FlatEnd]; s.Flatness() > 0 {
		high = (r.Flat - s.Start) / s.Flatness()
	}
	return []string{fmt.Sprintf("It lies flat as far as %s, %s.", s.Rows[s.FlatEnd].Proof.Label, s.size(high))}
}

// Flatness is by how much the edge of a flat piece of its kind grows for each
// mm of height: 2 x pi for a circle or an oval, more with corners.
func (s *Shape) Flatness() float64 {
	if s.Corners == 0 {
		return 2 * math.Pi
	}
	m := float64(s.Corners)
	return 2 * m * math.Tan(math.Pi/m)
}

// size is how large it is, lying flat, where its rounds reach so high.
func (s *Shape) size(high float64) string {
	switch {
	case s.Straight > 0:
		return s.tell(s.Straight+2*high) + " by " + s.tell(2*high)
	case s.Corners == 4:
		return "a square of " + s.tell(2*high)
	case s.Corners > 0:
		return fmt.Sprintf("%d corners, %s from side to side", s.Corners, s.tell(2*high))
	case s.Start > 0:
		return fmt.Sprintf("a ring %s across with a hole of %s", s.tell(s.Start/math.Pi+2*high), s.tell(s.Start/math.Pi))
	}
	return s.tell(2*high) + " across"
}

// why is the rule behind it.
func (s *Shape) why() string {
	f := Fabric{Gauge: s.Gauge, Width: s.Width, Height: s.Height, Stitch: stitch.SC}
	if s.Corners == 0 {
		return f.Rule() + "."
	}
	grows := s.Flatness() * s.Height
	return fmt.Sprintf("A round is %s high, so with %d corners the edge of a flat piece grows by %s a round, which is %s stitches of %s.", f.small(s.Height), s.Corners, f.small(grows), decimals(grows/s.Width, 1), f.small(s.Width))
}

func percent(share float64) string {
	return strconv.FormatFloat(math.Round(100*share), 'f', 0, 64) + " %"
}
