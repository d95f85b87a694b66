package even

import (
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"crochet/tallyturn/pattern/stitch"
)

func TestWords(t *testing.T) {
	for _, test := range []struct {
		over, into int64
		ends       Ends
		want       string
	}{
		{61, 68, Whole, "sc in next 7 sts, 2 sc in next st, sc in next 6 sts, 2 sc in next st, (sc in next 7 sts, 2 sc in next st) 4 times, sc in next 6 sts, 2 sc in next st, sc in last 7 sts"},
		{80, 71, Whole, "(sc in next 6 sts, sc2tog) twice, sc in next 7 sts, sc2tog, (sc in next 6 sts, sc2tog) 4 times, sc in next 7 sts, (sc2tog, sc in next 6 sts) twice"},
		{60, 66, Halved, "sc in next 4 sts, 2 sc in next st, (sc in next 9 sts, 2 sc in next st) 5 times, sc in last 5 sts"},
		{60, 66, Joined, "(sc in next 9 sts, 2 sc in next st) 6 times"},
		{9, 16, Whole, "2 sc in each of next 2 sts, sc in next st, 2 sc in each of next 3 sts, sc in next st, 2 sc in each of last 2 sts"},
		{8, 12, Whole, "(sc in next st, 2 sc in next st) 4 times"},
		{12, 24, Joined, "2 sc in each st around"},
		{12, 30, Whole, "(2 sc in next st, 3 sc in next st) 6 times"},
		{10, 3, Whole, "sc3tog, sc4tog, sc3tog"},
		{48, 24, Whole, "sc2tog across"},
		{50, 30, Joined, "(sc2tog twice, sc in next st) 10 times"},
		{101, 102, Whole, "sc in next 50 sts, 2 sc in next st, sc in last 50 sts"},
		{1, 5, Whole, "5 sc in next st"},
		{5, 1, Whole, "sc5tog"},
	} {
		s, err := Of(test.over, test.into, test.ends)
		if err != nil {
			t.Fatal(err)
		}
		if got := s.Words(stitch.SC, stitch.US); got != test.want {
			t.Errorf("%d into %d: %s\nwant %s", test.over, test.into, got, test.want)
		}
	}
}

// cells is the row stitch by stitch: what each is worth.
func (s Spread) cells() []int64 {
	var out []int64
	for _, r := range s.Runs {
		for range r.N {
			out = append(out, r.Worth)
		}
	}
	return out
}

// any spread that can be.
func draw(t *rapid.T, most int64) Spread {
	over := rapid.Int64Range(1, most).Draw(t, "over")
	into := rapid.Int64Range(1, most).Draw(t, "into")
	s, err := Of(over, into, Ends(rapid.IntRange(0, 2).Draw(t, "ends")))
	if err != nil {
		t.Skip(err)
	}
	return s
}

func TestEverySpreadIsEven(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := draw(t, 400)
		cells := s.cells()
		sum, least, most := int64(0), cells[0], cells[0]
		for _, c := range cells {
			sum += c
			least, most = min(least, c), max(most, c)
		}
		if n := int64(len(cells)); n != min(s.Over, s.Into) || sum != max(s.Over, s.Into) {
			t.Fatalf("%d stitches worth %d for %d into %d", n, sum, s.Over, s.Into)
		}
		if most-least > 1 {
			t.Fatalf("stitches are worth %d to %d", least, most)
		}
		count := map[int64]int64{}
		for _, c := range cells {
			count[c]++
		}
		turns := count[least] == count[most]
		// runs between two of the other kind differ by one at most; those at the
		// ends of a row are as long as these, or the halves of one
		for _, worth := range []int64{least, most} {
			lo, hi := int64(0), int64(0)
			for i, r := range s.Runs {
				end := i == 0 || i == len(s.Runs)-1
				if r.Worth != worth || end && (s.Ends != Whole || turns || count[worth] < count[least+most-worth]) {
					continue
				}
				if lo == 0 || r.N < lo {
					lo = r.N
				}
				hi = max(hi, r.N)
			}
			if hi-lo > 1 {
				t.Fatalf("runs of %d to %d: %v", lo, hi, s.Runs)
			}
		}
		// a row is the same from both ends unless its count is even and either
		// kind's is odd
		odd := len(cells)%2 == 0 && count[least]%2 == 1 && most > least
		if s.Ends == Whole && !turns && s.Symmetrical() == odd {
			t.Fatalf("symmetrical: %v, %v", s.Symmetrical(), s.Runs)
		}
		if s.Symmetrical() && odd {
			t.Fatalf("%v cannot be symmetrical", s.Runs)
		}
	})
}

// A round is spread best where any two stretches of as many stitches have as
// many increases or one more: it is a balanced word. Source: M. Morse and G. A.
// Hedlund, Symbolic Dynamics II, 1940 (from memory).
func TestRoundsAreBalanced(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := draw(t, 60)
		if s.Ends != Joined {
			t.Skip()
		}
		cells := s.cells()
		n := len(cells)
		for length := 1; length < n; length++ {
			lo, hi := int64(1<<40), int64(0)
			for from := range n {
				sum := int64(0)
				for k := range length {
					sum += cells[(from+k)%n]
				}
				lo, hi = min(lo, sum), max(hi, sum)
			}
			if hi-lo > 1 {
				t.Fatalf("%d stitches are worth %d to %d: %v", length, lo, hi, s.Runs)
			}
		}
	})
}

// Source: the rounds of flat circles, testdata/facts/circles.tsv. A round that
// grows by as many stitches as it began with has its increases at equal
// distances.
func TestFlatCircles(t *testing.T) {
	data, err := os.ReadFile(filepath.Join("..", "..", "testdata", "facts", "circles.tsv"))
	if err != nil {
		t.Fatal(err)
	}
	seen := 0
	for line := range strings.Lines(string(data)) {
		fields := strings.Split(line, "\t")
		if fields[0] != "flat circle" {
			continue
		}
		counts := strings.Fields(fields[2])
		for i := 2; i < len(counts); i++ {
			over, _ := strconv.ParseInt(counts[i-1], 10, 64)
			into, _ := strconv.ParseInt(counts[i], 10, 64)
			s, err := Of(over, into, Joined)
			if err != nil {
				t.Fatal(err)
			}
			if parts := fold(s.Runs); len(parts) != 1 || int64(parts[0].times) != into-over {
				t.Errorf("%s: %d into %d is %s", fields[1], over, into, s.Words(stitch.SC, stitch.US))
			}
			seen++
		}
	}
	if seen < 30 {
		t.Errorf("only %d rounds were looked at", seen)
	}
}

func TestImpossible(t *testing.T) {
	for _, test := range []struct {
		over, into int64
		want       string
	}{
		{0, 5, "no stitches"}, {-3, 5, "no stitches"}, {5, 0, "5 decreases leave nothing of 5"}, {5, -4, "leave nothing"}, {7, 7, "nothing to increase"},
		{10, 1, "work 10 stitches together"}, {2, 30, "put 15 stitches into one"}, {100_001, 100_002, "more than 100000"}, {1 << 62, 1<<62 + 1, "more than"},
	} {
		if _, err := Of(test.over, test.into, Whole); err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%d into %d: %v, want %q", test.over, test.into, err, test.want)
		}
	}
}

func TestRead(t *testing.T) {
	for text, want := range map[string]Ask{
		"increase 7 over 61":                              {Over: 61, Into: 68},
		"Increase 7 sts evenly spaced across 61 stitches": {Over: 61, Into: 68},
		"dec 9 over 80 dc":                                {Over: 80, Into: 71, Stitch: stitch.DC},
		"decrease 9 half double crochet over 80":          {Over: 80, Into: 71, Stitch: stitch.HDC},
		"61 into 68":                                      {Over: 61, Into: 68},
		"increase from 61 to 68":                          {Over: 61, Into: 68},
		"increase over 61 by 7":                           {Over: 61, Into: 68},
		"inc 6 evenly around 48 sts":                      {Over: 48, Into: 54, Around: true},
	} {
		if got, err := Read(text, stitch.US); err != nil || got != want {
			t.Errorf("%q: %+v, %v, want %+v", text, got, err, want)
		}
	}
	for text, want := range map[string]string{
		"":                          "is not understood",
		"increase 7":                "over how many",
		"increase over 61":          "how many to increase",
		"7 over 61":                 "is not understood",
		"increase 7 decrease 3":     "not for both",
		"increase 61 into 50":       "two ways",
		"increase 7 over 61 kelp":   `"kelp" is not understood`,
		"increase 7 8 over 61":      "one number too many",
		"increase 999999 over 61":   "not a number of stitches",
		"decrease -2 over 61":       "not a number of stitches",
		"increase 7 over 61 to 90":  "two ways",
		"increase 7 fsc over 61":    "no row of foundation single crochet",
		"increase 1e3 over 10":      "is not understood",
		"increase 7 over \x1b[31m9": "is not understood",
	} {
		if _, err := Read(text, stitch.US); err == nil || !strings.Contains(err.Error(), want) || strings.Contains(err.Error(), "\n") {
			t.Errorf("%q: %v, want %q", text, err, want)
		}
	}
}

func TestAbout(t *testing.T) {
	for _, test := range []struct {
		over, into int64
		ends       Ends
		want       string
	}{
		{61, 68, Whole, "7 increases over 61 stitches make 68. Between two of them lie 6 or 7 plain stitches. The row reads the same from both ends."},
		{50, 55, Whole, "5 increases over 50 stitches make 55. Between two of them lie 7 or 8 plain stitches. With these numbers it cannot quite read the same from both ends."},
		{20, 21, Joined, "1 increase over 20 stitches makes 21."},
		{48, 42, Joined, "6 decreases over 48 stitches make 42. Between two of them lie 6 plain stitches."},
	} {
		s, err := Of(test.over, test.into, test.ends)
		if err != nil {
			t.Fatal(err)
		}
		if got := s.About(); got != test.want {
			t.Errorf("%q\nwant %q", got, test.want)
		}
	}
}
