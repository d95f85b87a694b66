package round

import "strings"

// slack is by which share of itself a length along a round, and one up the
// rounds, may be off as far as the places of the swatch differ: one standard
// deviation, to first order. Where the gauge has no rows the height follows from
// the width, and so does its share.
func (f Fabric) slack() (along, up float64) {
	share := func(perMM, spread float64) float64 {
		if perMM <= 0 {
			return 0
		}
		return spread / perMM
	}
	along = share(f.Gauge.Stitches.PerMM, f.Gauge.Stitches.Spread)
	if !f.Gauge.Rows.Known() {
		return along, along
	}
	return along, share(f.Gauge.Rows.PerMM, f.Gauge.Rows.Spread)
}

// give says by how much lengths may be off, each with its word; "" where it does
// not show.
func (f Fabric) give(lengths ...float64) string {
	words := []string{"", " across", " in height"}
	if len(lengths) == 1 {
		words = words[:1]
	} else {
		words = words[1:]
	}
	var parts []string
	for i, mm := range lengths {
		if s := f.small(mm); mm > 0 && !strings.HasPrefix(s, "0 ") && i < len(words) {
			parts = append(parts, s+words[i])
		}
	}
	if len(parts) == 0 {
		return ""
	}
	return "Give or take " + strings.Join(parts, " and ") + ", as the swatch differs."
}

// give says it of the size that the rounds come to.
func (s *Shape) give() string {
	f := Fabric{Gauge: s.Gauge}
	along, up := f.slack()
	switch last := s.Rows[len(s.Rows)-1]; {
	case last.Lies == Flat || last.Lies == Ruffles:
		return f.give(2*s.High*up + s.Straight*along)
	case s.Closes():
		return f.give(s.Widest*along, s.Hollow*up)
	}
	return f.give(s.Widest*along, s.Deep*up)
}
