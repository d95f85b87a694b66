package skein

import (
	"fmt"
	"strings"

	"crochet/tallyturn/pattern/yarn"
)

// Over tells what is left over, or lacks.
func Over(over yarn.Range) string {
	switch {
	case over.Low >= 0:
		return over.String() + " g left over"
	case over.High <= 0:
		return yarn.Range{Low: -over.High, Mid: -over.Mid, High: -over.Low}.String() + " g too little"
	}
	return fmt.Sprintf("from %s g too little to %s g left over", yarn.Grams(-over.Low), yarn.Grams(over.High))
}

// By tells what the weights of a yarn rest on, in a sentence; "" where there are
// none.
func (y *Yarn) By() string {
	sure, often := "; it may be off by a tenth", "; nine times of ten it lies in the range"
	if y.Rests >= 3 {
		sure = often
	}
	switch y.Basis {
	case ByScale:
		return "By " + stretches(y.Rests) + " of your own work, weighed" + sure + "."
	case ByOthers:
		return "By what you weighed of the other yarns" + sure + "."
	case BySwatch:
		if y.Rests > 1 {
			sure = often
		}
		return "By the swatch that was given" + sure + "."
	case RoughModel:
		return "Roughly, from the gauge alone. Two weighings some rows apart come nearer."
	}
	return ""
}

func stretches(n int) string {
	if n == 1 {
		return "1 stretch"
	}
	return fmt.Sprintf("%d stretches", n)
}

// Text is the account in lines: of each yarn its stitches, what they took, and
// whether what is left lasts.
func (a *Account) Text() string {
	var b strings.Builder
	for i := range a.Yarns {
		y := &a.Yarns[i]
		fmt.Fprintf(&b, "%s: %d of %d stitches", y.Name, y.Stitches, y.All)
		switch {
		case y.Used.Mid > 0:
			fmt.Fprintf(&b, ", %s g used", y.Used)
		case y.Length.Mid > 0 && y.Stitches > 0:
			fmt.Fprintf(&b, ", %s m used", y.Length.Times(0.001))
		}
		b.WriteString(".\n")
		if l := y.Left; l != nil {
			when := "when it was weighed last"
			if l.AtFirst {
				when = "at the start"
			}
			fmt.Fprintf(&b, "  %s g %s", yarn.Grams(l.Grams), when)
			if l.Known {
				fmt.Fprintf(&b, "; the rest takes %s g from here: %s. It %s", y.Rest, Over(l.Over), l.Verdict)
			}
			b.WriteString(".\n")
		}
		if by := y.By(); by != "" && (y.Used.Mid > 0 || y.Left != nil) {
			b.WriteString("  " + by + "\n")
		}
	}
	if a.Blind > 0 {
		fmt.Fprintf(&b, "Without %d rows of no known number of stitches.\n", a.Blind)
	}
	return b.String()
}
