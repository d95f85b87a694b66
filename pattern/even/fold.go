package even

// part is one run, or several that come times times.
type part struct {
	runs  []Run
	times int
}

// longestFold is the most runs that are repeated together.
const longestFold = 16

// fold writes runs as few instructions as can be, by repeats that follow one
// another. Of ways as short as one another it takes the one whose repeats begin
// with the plain stitches, as print has them.
func fold(runs []Run) []part {
	n := len(runs)
	// cost[i] is how many instructions runs[i:] take; by[i] is how the first
	// of them goes
	cost := make([]int, n+1)
	by := make([]part, n)
	var again [longestFold + 1]int // from i on, how many runs are as those p further on
	for i := n - 1; i >= 0; i-- {
		cost[i], by[i] = 1+cost[i+1], part{runs[i : i+1], 1}
		for p := 1; p <= longestFold; p++ {
			switch {
			case i+p >= n:
				continue
			case runs[i] == runs[i+p]:
				again[p]++
			default:
				again[p] = 0
			}
			for times := again[p]/p + 1; times > 1 && times > again[p]/p-1; times-- {
				if c := p + cost[i+p*times]; c < cost[i] || c == cost[i] && by[i].times == 1 && runs[i].Worth < runs[i+1].Worth {
					cost[i], by[i] = c, part{runs[i : i+p], times}
				}
			}
		}
	}
	var out []part
	for i := 0; i < n; i += len(by[i].runs) * by[i].times {
		out = append(out, by[i])
	}
	return out
}
