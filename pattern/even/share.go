package even

// share gives each of n places total/n things or one more, and says which
// places get one more: so that they lie evenly, and the same from both ends
// wherever that can be. It cannot where an odd number of places out of an even
// number get more; then all but the last place are symmetrical.
func share(total, n int64) []int64 {
	out := make([]int64, n)
	base, more := total/n, total%n
	for i := range out {
		out[i] = base
	}
	if more%2 == 1 && n%2 == 0 {
		if 2*more < n { // more of a kind are left to lie evenly
			out[n-1]++
			more--
		}
		n--
	}
	half := n / 2
	for i := int64(0); i < half; i++ {
		if nearest((i+1)*more, n) > nearest(i*more, n) {
			out[i]++
			out[n-1-i]++
		}
	}
	if n%2 == 1 && more%2 == 1 {
		out[half]++
	}
	return out
}

// nearest is a/b to the nearest whole number, and the lower of two as near.
func nearest(a, b int64) int64 { return (2*a + b - 1) / (2 * b) }
