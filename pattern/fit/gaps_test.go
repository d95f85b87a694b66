package fit

import (
	"slices"
	"testing"

	"pgregory.net/rapid"
)

func TestShare(t *testing.T) {
	for _, test := range []struct {
		name string
		gaps []int64
		free int64
		want []int64
	}{
		{"points from edge to edge", []int64{0, 1, 1, 0}, 22, []int64{0, 11, 11, 0}},
		{"one stitch too many between the first two", []int64{0, 1, 1, 0}, 23, []int64{0, 11, 12, 0}},
		{"centred", []int64{7, 7}, 20, []int64{10, 10}},
		{"centred over an odd number", []int64{7, 7}, 21, []int64{10, 11}},
		{"from the first stitch", []int64{0, 14}, 20, []int64{0, 20}},
		{"to the last stitch", []int64{14, 0}, 20, []int64{20, 0}},
		{"a corner shared", []int64{3, -1, 3}, 8, []int64{4, -1, 4}},
		{"evenly along the row", []int64{4, 4, 4}, 18, []int64{6, 6, 6}},
		{"evenly, with one over", []int64{4, 4, 4}, 19, []int64{6, 7, 6}},
		{"evenly, with two over", []int64{4, 4, 4}, 20, []int64{7, 6, 7}},
		{"straps with a wide neck", []int64{5, 12, 5}, 44, []int64{10, 24, 10}},
		{"straps, a stitch more", []int64{5, 12, 5}, 45, []int64{10, 25, 10}},
		{"off centre on purpose", []int64{2, 10}, 24, []int64{4, 20}},
		{"it filled the row", []int64{0, 0}, 7, []int64{3, 4}},
		{"too little room", []int64{3, 3}, -1, nil},
	} {
		if got := share(test.gaps, test.free); !slices.Equal(got, test.want) {
			t.Errorf("%s: %v dealt %d: %v, want %v", test.name, test.gaps, test.free, got, test.want)
		}
	}
}

// However many stitches are dealt: all of them are, equal gaps differ by one
// at most, a mirror image stays one but for an odd stitch, and what was shut
// stays shut.
func TestShareKeepsItsCharacter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		half := rapid.SliceOfN(rapid.Int64Range(-1, 9), 1, 4).Draw(t, "half")
		gaps := append([]int64(nil), half...)
		mirrored := rapid.Bool().Draw(t, "mirrored")
		if mirrored {
			if rapid.Bool().Draw(t, "middle") {
				gaps = append(gaps, rapid.Int64Range(0, 9).Draw(t, "in the middle"))
			}
			for i := len(half) - 1; i >= 0; i-- {
				gaps = append(gaps, half[i])
			}
		}
		if len(gaps) < 2 {
			gaps = append(gaps, 3)
		}
		free := rapid.Int64Range(0, 400).Draw(t, "free")
		out := share(gaps, free)
		open := slices.ContainsFunc(gaps, func(g int64) bool { return g > 0 })
		sum := int64(0)
		uneven := int64(0)
		for i, g := range out {
			if gaps[i] > 0 || !open && (i == 0 || i == len(out)-1) {
				sum += g
				if !open {
					sum -= gaps[i]
				}
			} else if g != gaps[i] {
				t.Fatalf("%v dealt %d: %v moves a gap that was shut", gaps, free, out)
			}
			uneven += max(g-out[len(out)-1-i], out[len(out)-1-i]-g)
			for k, h := range out {
				if gaps[i] == gaps[k] && gaps[i] > 0 && max(g-h, h-g) > 1 {
					t.Fatalf("%v dealt %d: %v: equal gaps differ by more than one", gaps, free, out)
				}
			}
		}
		if sum != free {
			t.Fatalf("%v dealt %d: %v has %d", gaps, free, out, sum)
		}
		if slices.Equal(gaps, reversed(gaps)) && uneven > 2 {
			t.Fatalf("%v dealt %d: %v is no mirror image", gaps, free, out)
		}
	})
}

func reversed(s []int64) []int64 {
	r := slices.Clone(s)
	slices.Reverse(r)
	return r
}
