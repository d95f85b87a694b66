package even

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"crochet/tallyturn/pattern/stitch"
)

// Ask is what is to be spread.
type Ask struct {
	Over, Into int64     // stitches in the row below, and in the row
	Stitch     stitch.ID // stitch.None where none is named
	Around     bool      // it is a round
}

const example = `"increase 7 over 61", "decrease 9 over 80" or "61 into 68"`

// Read reads what is to be spread: "increase 7 evenly over 61 sts", "dec 6
// around 48", "61 into 68". Names of stitches are read in the terms given. Its
// error says in one line what is missing.
//
//	ask = [ "increase" | "decrease" ] { filler } numbers .
//	numbers = by ( "over" | "around" ) over | over ( "into" | "to" ) into .
func Read(text string, terms stitch.Terms) (Ask, error) {
	var a Ask
	x := asking{lex: stitch.LexiconFor(terms), by: -1, over: -1, into: -1}
	if err := x.read(strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return strings.ContainsRune(" \t\n\r,.", r) })); err != nil {
		return a, err
	}
	a.Stitch, a.Around = x.stitch, x.around
	if a.Stitch == stitch.Slip || a.Stitch != stitch.None && stitch.Of(a.Stitch).Takes == 0 {
		return a, fmt.Errorf("no row of %s increases or decreases", a.Stitch.Words(terms))
	}
	switch {
	case x.over >= 0 && x.into >= 0:
		if x.by >= 0 || x.sign > 0 && x.into < x.over || x.sign < 0 && x.into > x.over {
			return a, fmt.Errorf("%q says it in two ways that differ; write %s", text, example)
		}
		a.Over, a.Into = x.over, x.into
	case x.over >= 0 && x.by >= 0 && x.sign != 0:
		a.Over, a.Into = x.over, x.over+int64(x.sign)*x.by
	case x.by >= 0 && x.over < 0 && x.sign != 0:
		return a, fmt.Errorf("%q does not say over how many stitches; write %s", text, example)
	case x.sign != 0 && x.over >= 0:
		return a, fmt.Errorf("%q does not say how many to %s; write %s", text, map[int]string{1: "increase", -1: "decrease"}[x.sign], example)
	default:
		return a, fmt.Errorf("%q is not understood; write %s", text, example)
	}
	return a, nil
}

// asking takes the words of an ask one by one.
type asking struct {
	lex            *stitch.Lexicon
	sign           int
	by, over, into int64 // -1 where not said
	stitch         stitch.ID
	around         bool
}

func (x *asking) read(words []string) error {
	place := &x.by
	for i := 0; i < len(words); i++ {
		switch w := words[i]; w {
		case "increase", "increases", "increasing", "inc", "decrease", "decreases", "decreasing", "dec":
			sign := 1
			if w[0] == 'd' {
				sign = -1
			}
			if x.sign == -sign {
				return errors.New("ask for increases or for decreases, not for both at once")
			}
			x.sign = sign
		case "over", "across", "in", "from", "on", "of":
			place = &x.over
		case "around", "round", "rnd":
			x.around = true
			place = &x.over
		case "to", "into", "->", "→":
			if x.by >= 0 && x.over < 0 {
				x.over, x.by = x.by, -1
			}
			place = &x.into
		case "by":
			place = &x.by
		case "evenly", "spaced", "st", "sts", "stitch", "stitches", "row", "the", "a", "and":
		default:
			n, err := strconv.ParseInt(w, 10, 64)
			if err != nil {
				used := x.named(words[i:])
				if used == 0 {
					return fmt.Errorf("%q is not understood; write %s", w, example)
				}
				i += used - 1
				continue
			}
			if n < 0 || n > 2*MaxStitches {
				return fmt.Errorf("%s is not a number of stitches from 1 to %d", w, MaxStitches)
			}
			if *place >= 0 {
				return fmt.Errorf("%s is one number too many; write %s", w, example)
			}
			*place = n
		}
	}
	return nil
}

// named takes the longest name of a stitch that words begin with, and says how
// many words it has.
func (x *asking) named(words []string) int {
	for n := min(len(words), 4); n > 0; n-- {
		if id, _ := x.lex.Find(strings.Join(words[:n], " ")); id != stitch.None && id != stitch.Special {
			x.stitch = id
			return n
		}
	}
	return 0
}
