package round

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/even"
	"crochet/tallyturn/pattern/stitch"
)

// Plan is a piece worked out in rounds.
type Plan struct {
	Title  string
	Fabric Fabric
	Counts []int64 // stitches of each round
	Across float64 // how wide it comes out, mm
	Along  float64 // of an oval: how long

	name    string
	notes   []string
	caution string
	setup   string // the chain that an oval is worked round
	first   string // the first round
	lines   []string
	end     string
	err     error
}

func (f Fabric) plan(name string, rounds int) *Plan {
	return &Plan{Fabric: f, name: name, Counts: make([]int64, 0, rounds), end: "Fasten off."}
}

func (p *Plan) note(s string) { p.notes = append(p.notes, s) }

// asked notes by how much a size differs from the one asked for.
func (p *Plan) asked(want, got float64) {
	tell := p.Fabric.tell
	off := tell(math.Abs(want - got))
	switch {
	case strings.HasPrefix(off, "0 "):
	case got < want:
		p.note("It is " + off + " less than the " + tell(want) + " asked for: whole rounds come no nearer.")
	default:
		p.note("It is " + off + " more than the " + tell(want) + " asked for: whole rounds come no nearer.")
	}
}

// give notes by how much the size may be off as far as the swatch differs.
func (p *Plan) give(mm float64) {
	if s := p.Fabric.give(mm); s != "" {
		p.note(s)
	}
}

// flatRule notes why the rounds grow by n.
func (p *Plan) flatRule(n int64) {
	f := p.Fabric
	text := f.Rule()
	switch {
	case f.Exact:
		text += ". Each round has the nearest whole number."
	case usual[f.Stitch] == n:
		text += fmt.Sprintf("; %d are usual.", n)
	default:
		text += fmt.Sprintf("; %d are worked.", n)
	}
	p.note(text)
}

// magicRing begins the first round in a ring.
func (p *Plan) magicRing() {
	p.first = strconv.FormatInt(p.Counts[0], 10) + " " + p.Fabric.Stitch.Name(p.Fabric.Terms) + " in magic ring"
}

// rounds writes the rounds. With each and side they are those of an oval: so
// many increases at each end, and so many stitches along each side.
func (p *Plan) rounds(each, side int64) {
	f := p.Fabric
	// every other round begins half a run later, so that the increases do not
	// lie one above the other, which would make corners
	shift := false
	for i := 0; i < len(p.Counts); i++ {
		n := p.Counts[i]
		if i == 0 {
			p.line(1, 1, p.first, n)
			continue
		}
		below := p.Counts[i-1]
		if n == below {
			last := i
			for last+1 < len(p.Counts) && p.Counts[last+1] == n {
				last++
			}
			p.line(i+1, last+1, f.Stitch.Name(f.Terms)+" in each st around", n)
			i = last
			continue
		}
		var s even.Spread
		var err error
		if side > 0 {
			ends := even.Joined
			if shift = !shift && below/2-side > 2*each; shift {
				ends = even.Halved
			}
			s, err = ovalRound(below/2-side, n/2-side, side, ends)
		} else if s, err = even.Of(below, n, even.Joined); err == nil && !shift {
			whole := len(s.Runs)
			s = s.Begun()
			shift = len(s.Runs) > whole
		} else {
			shift = false
		}
		if err != nil {
			p.err = err
			return
		}
		p.line(i+1, i+1, s.Words(f.Stitch, f.Terms), n)
	}
}

// line writes a round, or several alike.
func (p *Plan) line(from, to int, words string, n int64) {
	f := p.Fabric
	label := "Rnd " + strconv.Itoa(from)
	if to > from {
		label = "Rnds " + strconv.Itoa(from) + "-" + strconv.Itoa(to)
	}
	name := f.Stitch.Name(f.Terms)
	if f.Joined {
		turn := strconv.Itoa(stitch.Of(f.Stitch).Turn)
		join := "join with sl st in first " + name
		if f.Terms == stitch.UK {
			join = "join with ss in first " + name
		}
		if p.setup == "" || from > 1 {
			words = "ch " + turn + " (does not count as a st), " + words
		}
		words += ", " + join
	}
	p.lines = append(p.lines, label+": "+capital(words)+". ("+strconv.FormatInt(n, 10)+" "+name+")")
}

// Text is the plan as a written pattern.
func (p *Plan) Text() string {
	var b strings.Builder
	f := p.Fabric
	fmt.Fprintf(&b, "%s\n\n", p.Title)
	if f.Terms == stitch.UK {
		fmt.Fprintf(&b, "Tension: %s\nUK terms\n", f.Gauge)
	} else {
		fmt.Fprintf(&b, "Gauge: %s\nUS terms\n", f.Gauge)
	}
	if len(p.notes) > 0 {
		fmt.Fprintf(&b, "\nNotes: %s\n", strings.Join(p.notes, " "))
	}
	if p.caution != "" {
		fmt.Fprintf(&b, "\nCaution: %s\n", p.caution)
	}
	fmt.Fprintf(&b, "\n## %s\n", p.name)
	if p.setup != "" {
		fmt.Fprintln(&b, p.setup)
	}
	for _, l := range p.lines {
		fmt.Fprintln(&b, l)
	}
	fmt.Fprintln(&b, p.end)
	return b.String()
}

// prove reads the plan as anyone would and works it. The error says that it did
// not come out as planned.
func (p *Plan) prove() error {
	if p.err != nil {
		return p.err
	}
	proof := pattern.Read(p.Text()).Prove(pattern.Options{})
	if len(proof.Findings) > 0 || len(proof.Pieces) != 1 || proof.Pieces[0].Len() != len(p.Counts) {
		return fmt.Errorf("the rounds could not be proven, so they are not printed")
	}
	for i, n := range p.Counts {
		if r, _ := proof.Pieces[0].At(i); r == nil || r.Status != pattern.Agrees || r.Made != n {
			return fmt.Errorf("round %d could not be proven, so the rounds are not printed", i+1)
		}
	}
	return nil
}

func capital(s string) string {
	for i := range len(s) {
		switch c := s[i]; {
		case 'a' <= c && c <= 'z':
			return s[:i] + strings.ToUpper(s[i:i+1]) + s[i+1:]
		case c != '(':
			return s
		}
	}
	return s
}

// decimals writes a number with so many decimals at most.
func decimals(n float64, places int) string {
	s := strconv.FormatFloat(n, 'f', places, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return s
}

func ordinal(n int64) string {
	suffix := "th"
	switch {
	case n%100 >= 11 && n%100 <= 13:
	case n%10 == 1:
		suffix = "st"
	case n%10 == 2:
		suffix = "nd"
	case n%10 == 3:
		suffix = "rd"
	}
	return strconv.FormatInt(n, 10) + suffix
}
