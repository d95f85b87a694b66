package even

import (
	"errors"
	"fmt"
)

// How far a row is spread out. More than nine stitches in one, and more than
// five together, are not usual in print (common practice, no source).
const (
	MaxStitches = 100_000 // in the row, and in the row below
	maxInto     = 9       // into one stitch
	maxTogether = 5       // worked together
)

// How a row begins and ends.
type Ends uint8

// The ends of a row.
const (
	Whole  Ends = iota // rows: a run of plain stitches at both ends, as long as those between
	Halved             // rows and rounds: half a run at both ends
	Joined             // rounds: the end is the beginning, and the round ends with an increase
)

// Run is so many neighbouring stitches that are worked alike. Of an increase
// it is so many stitches of the row below, each of which takes Worth stitches;
// of a decrease it is so many stitches, each of which takes in Worth of the
// row below.
type Run struct{ N, Worth int64 }

// Spread is a row with its increases or decreases spread over it.
type Spread struct {
	Over, Into int64 // stitches in the row below, and in the row
	Ends       Ends
	Runs       []Run // neighbours differ in Worth
}

// Increases is how many stitches the row has more than the row below; it is
// negative for decreases.
func (s Spread) Increases() int64 { return s.Into - s.Over }

// Of spreads what makes into stitches of over. Its error says in one line why
// it cannot be.
func Of(over, into int64, ends Ends) (Spread, error) {
	s := Spread{Over: over, Into: into, Ends: ends}
	switch {
	case over < 1:
		return s, errors.New("there is no row to spread anything over: it has no stitches")
	case over > MaxStitches || into > MaxStitches:
		return s, fmt.Errorf("rows of more than %d stitches are not spread out", MaxStitches)
	case into < 1:
		return s, fmt.Errorf("%d decreases leave nothing of %d stitches", over-into, over)
	case into == over:
		return s, errors.New("there is nothing to increase or decrease")
	}
	cells, total := over, into
	if into < over {
		cells, total = into, over
	}
	least, extra := total/cells, total%cells
	switch worth := (total + cells - 1) / cells; {
	case into > over && worth > maxInto:
		return s, fmt.Errorf("%d into %d would put %d stitches into one; increase over several rows", over, into, worth)
	case into < over && worth > maxTogether:
		return s, fmt.Errorf("%d into %d would work %d stitches together; decrease over several rows", over, into, worth)
	}
	few, many := Run{1, least + 1}, least
	separators, rest := extra, cells-extra
	if separators > rest { // the rarer kind parts the other
		few.Worth, many = least, least+1
		separators, rest = rest, separators
	}
	for i, n := range s.between(rest, separators) {
		if i > 0 {
			s.add(few)
		}
		s.add(Run{n, many})
	}
	return s, nil
}

// between shares the stitches of the commoner kind out over the runs that the
// others part them into.
func (s *Spread) between(rest, separators int64) []int64 {
	switch {
	case separators == 0:
		return []int64{rest}
	case s.Ends == Joined || rest == separators: // by turns, rather than two together for the sake of symmetry
		return append(around(rest, separators), 0)
	case s.Ends == Halved:
		return halved(rest, separators)
	}
	return share(rest, separators+1)
}

// around shares out over the runs of a round, in which none is the first. Each
// stretch of it has as many of the longer runs as any other of that many runs,
// or one more: a balanced word.
func around(total, n int64) []int64 {
	base, more := total/n, total%n
	out := make([]int64, n, n+1)
	for i := range out {
		k := int64(i)
		out[i] = base + (k+1)*more/n - k*more/n
	}
	return out
}

// halved shares out over the runs of a round that is cut open in the middle of
// one of them.
func halved(total, n int64) []int64 {
	base, more := total/n, total%n
	cut := base
	// the run that is cut is of even length, so that its halves are equal, and
	// leaves the others symmetrical, where there is such a run
	for _, run := range []int64{base, base + 1} {
		left := more - (run - base)
		if run%2 == 0 && left >= 0 && left <= n-1 && (left%2 == 0 || (n-1)%2 == 1) {
			cut = run
			break
		}
	}
	out := []int64{cut / 2}
	if n > 1 {
		out = append(out, share(total-cut, n-1)...)
	}
	return append(out, cut-cut/2)
}

// add puts a run at the end.
func (s *Spread) add(r Run) {
	if r.N == 0 {
		return
	}
	if k := len(s.Runs); k > 0 && s.Runs[k-1].Worth == r.Worth {
		s.Runs[k-1].N += r.N
		return
	}
	s.Runs = append(s.Runs, r)
}

// Begun is a round that begins in the middle of its first run of plain
// stitches, so that its increases do not lie above those of a round that begins
// with the whole of it.
func (s Spread) Begun() Spread {
	if len(s.Runs) == 0 || s.Runs[0].Worth != 1 || s.Runs[0].N < 2 {
		return s
	}
	first := s.Runs[0].N
	runs := append([]Run{{first / 2, 1}}, s.Runs[1:]...)
	s.Runs = append(runs, Run{first - first/2, 1})
	return s
}

// Symmetrical reports whether the row reads the same from both ends.
func (s Spread) Symmetrical() bool {
	for i, j := 0, len(s.Runs)-1; i < j; i, j = i+1, j-1 {
		if s.Runs[i] != s.Runs[j] {
			return false
		}
	}
	return true
}

// plainBetween is the least and the most plain stitches that lie between two
// increases. It is false where some increases lie side by side, or there is one.
func (s Spread) plainBetween() (least, most int64, ok bool) {
	inner := s.Runs
	if len(inner) > 0 && inner[0].Worth == 1 {
		inner = inner[1:]
	}
	if k := len(inner); k > 0 && inner[k-1].Worth == 1 {
		inner = inner[:k-1]
	}
	for _, r := range inner {
		switch {
		case r.Worth == 1:
			if least == 0 || r.N < least {
				least = r.N
			}
			most = max(most, r.N)
		case r.N > 1:
			return 0, 0, false
		}
	}
	return least, most, most > 0
}
