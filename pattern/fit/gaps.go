package fit

import "math"

// share deals a number of stitches out among gaps, so that the row keeps its
// character: what was equal stays equal where the number allows it, what was a
// mirror image stays one, and the proportions are those there were. Gaps that
// were nothing, or less where a stitch was shared, stay as they were and are
// left out of the number. It is nil where the number is negative.
func share(gaps []int64, free int64) []int64 {
	out := append([]int64(nil), gaps...)
	var open []int // gaps that may change
	sum := int64(0)
	for i, g := range gaps {
		if g > 0 {
			open = append(open, i)
			sum += g
		}
	}
	if free < 0 {
		return nil
	}
	if len(open) == 0 {
		// nothing was free: what is now goes to both ends alike
		out[0] += free / 2
		out[len(out)-1] += free - free/2
		return out
	}
	// gaps of one size are a class; each class is dealt a whole number a gap
	var classes []class
	for _, i := range open {
		k := 0
		for k < len(classes) && classes[k].size != gaps[i] {
			k++
		}
		if k == len(classes) {
			classes = append(classes, class{size: gaps[i], ideal: float64(gaps[i]) * float64(free) / float64(sum)})
		}
		classes[k].at = append(classes[k].at, i)
	}
	if best := whole(classes, free); best != nil {
		for k, c := range classes {
			for _, i := range c.at {
				out[i] = best[k]
			}
		}
		return out
	}
	remainder(out, classes, free)
	return out
}

// class is the gaps of one size.
type class struct {
	size  int64
	at    []int
	ideal float64 // what each of them would get if stitches could be divided
}

// maxClasses bounds the search for whole numbers: a row with more sizes of gap
// than this keeps their proportions only roughly.
const maxClasses = 5

// whole finds a number for each class so that all of them come to free, as
// near to the proportions as can be, and each within a stitch or two of them.
// It is nil where there is none.
func whole(classes []class, free int64) []int64 {
	if len(classes) > maxClasses {
		return nil
	}
	var best []int64
	least := math.Inf(1)
	pick := make([]int64, len(classes))
	var deal func(k int, left int64, cost float64)
	deal = func(k int, left int64, cost float64) {
		if k == len(classes) {
			if left == 0 && cost < least {
				least, best = cost, append([]int64(nil), pick...)
			}
			return
		}
		c := classes[k]
		for n := max(1, int64(math.Floor(c.ideal))-1); n <= int64(math.Ceil(c.ideal))+1; n++ {
			off := (float64(n) - c.ideal)
			pick[k] = n
			deal(k+1, left-n*int64(len(c.at)), cost+off*off*float64(len(c.at)))
		}
	}
	deal(0, free, 0)
	return best
}

// remainder deals whole numbers below the proportions and then what is left
// over, one stitch at a time, to the gaps that are the furthest below: from
// the middle of the row outward, and to both halves alike as long as there are
// two left.
func remainder(out []int64, classes []class, free int64) {
	n := len(out)
	want := make([]float64, n)
	left := free
	for _, c := range classes {
		for _, i := range c.at {
			out[i] = int64(math.Floor(c.ideal))
			want[i] = c.ideal
			left -= out[i]
		}
	}
	given := make([]bool, n)
	for left > 0 {
		best := -1
		for i := range out {
			if want[i] == 0 || given[i] {
				continue
			}
			if best < 0 || better(out, want, i, best, left) {
				best = i
			}
		}
		if best < 0 {
			for i := range given {
				given[i] = false
			}
			continue
		}
		give := func(i int) {
			out[i]++
			given[i] = true
			left--
		}
		mirror := n - 1 - best
		give(best)
		if left > 0 && mirror != best && want[mirror] == want[best] && !given[mirror] {
			give(mirror)
		}
	}
}

// better reports whether the gap at i should be given a stitch before that at
// j.
func better(out []int64, want []float64, i, j int, left int64) bool {
	n := len(out)
	// an odd stitch goes to the middle, where it spoils no symmetry; of two
	// none does
	if n%2 == 1 && (i == n/2 || j == n/2) {
		return (i == n/2) == (left%2 == 1)
	}
	a, b := want[i]-float64(out[i]), want[j]-float64(out[j])
	if math.Abs(a-b) > 1e-9 {
		return a > b
	}
	// further from the middle comes later, and the end of the row last
	di, dj := abs(2*i-(n-1)), abs(2*j-(n-1))
	if di != dj {
		return di < dj
	}
	return i > j
}

func abs(n int) int {
	if n < 0 {
		return -n
	}
	return n
}
