package sheet

import (
	"strings"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/stitch"
)

// level says how skilled a maker should be: the author's word where she gives
// one, and otherwise by what the rows ask for.
//
// Source: the four project levels of the Craft Yarn Council, from memory:
// basic has basic stitches and plain increases and decreases; easy has simple
// stitch patterns, colour work or shaping; intermediate has involved ones;
// complex has several techniques at once. What counts as simple and involved
// is common practice, no source.
func (b *builder) level() Block {
	if b.skill != "" {
		return Block{Kind: Facts, Pairs: [][2]string{{"Skill level:", b.skill}}}
	}
	a := asks{}
	for _, pc := range b.p.Pieces {
		for _, r := range pc.Rows {
			a.skips, a.chains, a.worked = false, false, false
			a.steps(r.Setup)
			a.steps(r.Steps)
			// one stitch passed over beside a turning chain is no pattern
			a.spaces = a.spaces || a.skips && a.chains
		}
	}
	return Block{Kind: Facts, Pairs: [][2]string{{"Skill level:", a.level()}}}
}

// asks is what the rows of a pattern ask of a maker.
type asks struct {
	tall, groups, spaces, colour, shaping    bool
	posts, clusters, crossed, onto, longLeap bool

	skips, chains bool // of the row in hand: passes over stitches, and chains between stitches
	worked        bool // the row in hand has stitches already
}

func (a *asks) steps(steps []*pattern.Step) {
	for _, s := range steps {
		a.step(s)
		a.worked = a.worked || s.Op == pattern.OpWork
		if s.Op == pattern.OpGroup || s.Op == pattern.OpInto {
			a.steps(s.Body)
		}
	}
}

func (a *asks) step(s *pattern.Step) {
	switch s.Op {
	case pattern.OpColour:
		a.colour = true
	case pattern.OpInto:
		a.groups = true
	case pattern.OpSkip:
		a.skips = true
	case pattern.OpChain:
		a.chains = a.chains || a.worked
	case pattern.OpPicot, pattern.OpOtherSide:
		a.groups = true
	case pattern.OpAttach:
		a.onto = a.onto || s.Target.Row != nil && s.Target.Row.Piece != ""
	case pattern.OpWork:
		a.work(s)
	}
	switch s.Target.Which {
	case pattern.SkippedOne:
		a.crossed = true
	case pattern.Unworked, pattern.RowEnds:
		a.onto = true
	}
	if s.Target.Row != nil && !s.Target.Row.Below && s.Op == pattern.OpWork {
		a.longLeap = true
	}
}

func (a *asks) work(s *pattern.Step) {
	a.shaping = a.shaping || s.Legs > 1 || s.N.N > 1 && s.Target.Which != pattern.InRing
	switch st := stitch.Of(s.Stitch); {
	case st.Kind == stitch.Post:
		a.posts = true
	case st.Kind == stitch.Compound && s.Stitch != stitch.Special:
		a.clusters = true
	case s.Stitch == stitch.SpikeSC:
		a.longLeap = true
	case st.Turn > 4 && st.Kind == stitch.Basic:
		a.tall = true
	}
}

// level names the level and what makes it one.
func (a *asks) level() string {
	var involved, simple []string
	note := func(list *[]string, yes bool, words string) {
		if yes {
			*list = append(*list, words)
		}
	}
	note(&involved, a.posts, "stitches round the post")
	note(&involved, a.clusters, "clusters, bobbles or the like")
	note(&involved, a.crossed, "crossed stitches")
	note(&involved, a.longLeap, "stitches into earlier rows")
	note(&involved, a.tall, "very tall stitches")
	note(&simple, a.groups || a.spaces, "a simple stitch pattern")
	note(&simple, a.colour, "changes of colour")
	note(&simple, a.onto, "pieces worked onto others")
	note(&simple, a.shaping && (a.groups || a.spaces || a.colour || a.onto), "shaping")
	switch {
	case len(involved) > 2:
		return "complex: " + list(involved)
	case len(involved) > 0:
		return "intermediate: " + list(append(involved, simple...))
	case len(simple) > 0:
		return "easy: " + list(simple)
	case a.shaping:
		return "basic: basic stitches with increases and decreases"
	}
	return "basic: basic stitches"
}

// list joins words with commas and an "and".
func list(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}
