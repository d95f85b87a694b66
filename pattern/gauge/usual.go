package gauge

import (
	"fmt"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/stitch"
)

// How far from the guidelines a gauge may lie before it is worth a word. Toys
// are worked tight and shawls loose on purpose, so both are wide; they are our
// own choice.
const (
	farGauge = 1.25 // beyond the end of the range, once the hook is allowed for
	farHook  = 1.7  // beyond the end of the range
)

// Unusual says where a gauge lies far from what the Craft Yarn Council's
// Standard Yarn Weight System gives for the yarn and hook that a pattern
// states. The guidelines are for single crochet and for the hooks that they
// name; a gauge is taken to change with the size of the hook. It says nothing
// where the yarn is not known.
func Unusual(p *pattern.Pattern, g Gauge) []string {
	weights := StatedYarn(p)
	hook, hooked := StatedHook(p)
	if len(weights) == 0 || weights[0].Number == 0 { // that of lace is in double crochet
		return nil
	}
	low, high := weights[0], weights[len(weights)-1]
	var out []string
	hooks := Range{low.Hook.Least, high.Hook.Most}
	if hooked && (hook < hooks.Least/farHook || hooks.Most > 0 && hook > hooks.Most*farHook) {
		out = append(out, fmt.Sprintf("a hook of %s mm is far from the %s mm that the Craft Yarn Council gives for %s yarn", figure(hook), hooks, names(weights)))
	}
	if !g.Stitches.Known() || g.Kind != ByStitch || g.Stitch != stitch.None && g.Stitch != stitch.SC && g.Stitch != stitch.HDC {
		return out
	}
	n := g.Stitches.In(4 * Inch)
	usual := Range{high.Stitches.Least, low.Stitches.Most} // finer yarn has more
	least, most := usual.Least, usual.Most
	if hooked && hooks.Most > 0 {
		least *= min(1, hooks.Most/hook)
		most *= max(1, hooks.Least/hook)
	}
	switch {
	case n > most*farGauge:
		out = append(out, fmt.Sprintf("%s stitches in 4 in is closer than the %s that the Craft Yarn Council gives for %s yarn; count the swatch once more", figure(n), usual, names(weights)))
	case n < least/farGauge:
		out = append(out, fmt.Sprintf("%s stitches in 4 in is looser than the %s that the Craft Yarn Council gives for %s yarn; count the swatch once more", figure(n), usual, names(weights)))
	}
	return out
}

func names(weights []Weight) string {
	s := ""
	for i, w := range weights {
		if i > 0 {
			s += " or "
		}
		s += w.Name
	}
	return s
}

// String tells a range: "11-14", "15 or more", "6 or fewer".
func (r Range) String() string {
	switch {
	case r.Most == 0:
		return figure(r.Least) + " or more"
	case r.Least == 0:
		return figure(r.Most) + " or fewer"
	}
	return figure(r.Least) + "-" + figure(r.Most)
}
