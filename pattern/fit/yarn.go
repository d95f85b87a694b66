package fit

import (
	"fmt"
	"strconv"

	"crochet/tallyturn/pattern/yarn"
)

// yarnNeed is what one size takes.
type yarnNeed struct {
	colours []yarn.Amount
	all     yarn.Amount // of all colours together
}

// NeedsYarn adds to what Lines says how much yarn each size takes, at a rate and,
// if its band is known, in balls.
func (s *Several) NeedsYarn(r yarn.Rate, b yarn.Ball) {
	s.yarn, s.basis, s.ball = nil, r.Basis(), b
	for _, p := range s.Proofs {
		n := yarnNeed{colours: yarn.Of(p).Amounts(r, b, yarn.Margin)}
		for _, a := range n.colours {
			n.all.MM = n.all.MM.Add(a.MM)
			n.all.Grams = n.all.Grams.Add(a.Grams)
			n.all.Balls += a.Balls
		}
		s.yarn = append(s.yarn, n)
	}
}

// yarnHead heads the columns of yarnCells.
var yarnHead = []string{"metres", "grams", "balls"}

// yarnCells are the columns of what a size takes; empty where it is not known.
func yarnCells(a yarn.Amount) []string {
	out := []string{"", "", ""}
	if a.MM.Mid > 0 {
		out[0] = a.MM.Times(0.001).String()
	}
	if a.Grams.Mid > 0 {
		out[1] = a.Grams.String()
	}
	if a.Balls > 0 {
		out[2] = strconv.FormatFloat(a.Balls, 'f', -1, 64)
	}
	return out
}

// yarnLines say what the columns of yarn rest on and, where there are several
// colours, what each of them takes.
func (s *Several) yarnLines() (out []string) {
	if len(s.yarn) == 0 {
		return nil
	}
	out = append(out, "", "Yarn, ends with it")
	if len(s.yarn[0].colours) > 1 {
		rows := [][]string{append([]string{"", ""}, yarnHead...)}
		for i, n := range s.yarn {
			name := s.Sizes[i].Name
			for _, a := range n.colours {
				rows = append(rows, append([]string{name, a.Colour}, yarnCells(a)...))
				name = ""
			}
		}
		out = append(out, table(rows)...)
	}
	out = append(out, "  "+s.basis)
	if s.ball != (yarn.Ball{}) {
		out = append(out, fmt.Sprintf("  Balls are for the most it may take and %.0f %% more.", 100*yarn.Margin))
	}
	return out
}
