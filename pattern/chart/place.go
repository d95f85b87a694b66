package chart

import "math"

// settle finds places along a line for things that want to stand at want and
// must keep their order and their distances: gap[i] is the least way from the
// i-th to the next. Of all such places it gives those with the least sum of
// squared moves. What has to give way is averaged with its neighbours until
// nothing presses any more.
func settle(want, gap []float64) []float64 {
	n := len(want)
	type block struct {
		sum float64
		n   int
	}
	var blocks []block
	off := 0.0
	offs := make([]float64, n)
	for i := range want {
		if i > 0 {
			off += gap[i-1]
		}
		offs[i] = off
		blocks = append(blocks, block{want[i] - off, 1})
		for k := len(blocks); k > 1 && blocks[k-2].sum*float64(blocks[k-1].n) > blocks[k-1].sum*float64(blocks[k-2].n); k = len(blocks) {
			blocks[k-2].sum += blocks[k-1].sum
			blocks[k-2].n += blocks[k-1].n
			blocks = blocks[:k-1]
		}
	}
	out := make([]float64, 0, n)
	for _, b := range blocks {
		for range b.n {
			out = append(out, b.sum/float64(b.n)+offs[len(out)])
		}
	}
	return out
}

// settleRound is settle on a closed line once around long, where the last must
// keep its distance, gap[n-1], from the first as well.
func settleRound(want, gap []float64, around float64) []float64 {
	out := settle(want, gap)
	n := len(out)
	if n == 0 || out[n-1]+gap[n-1]-out[0] <= around {
		return out
	}
	// all within one turn: what lies outside is brought to its ends
	total := 0.0
	for _, g := range gap {
		total += g
	}
	room := math.Max(around-total, 0)
	off, lo, hi := 0.0, math.Inf(1), math.Inf(-1)
	for i := range out {
		lo, hi = math.Min(lo, out[i]-off), math.Max(hi, out[i]-off)
		off += gap[i]
	}
	lo = (lo + hi - room) / 2
	hi = lo + room
	off = 0
	for i := range out {
		out[i] = math.Min(math.Max(out[i]-off, lo), hi) + off
		off += gap[i]
	}
	return out
}
