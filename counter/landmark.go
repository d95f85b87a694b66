package counter

import (
	"fmt"
	"strings"

	"crochet/tallyturn/pattern"
)

// LandmarkKind is how a maker knows a spot of a row on the fabric.
type LandmarkKind uint8

// The kinds of landmark, the plainest to see first.
const (
	AtEdge        LandmarkKind = iota // the beginning or the end of the row
	AtHook                            // as far as the row is worked
	AtMarker                          // a marker that hangs in it
	AtColour                          // a change of colour
	AtPass                            // the end of a pass of a repeat
	AtInstruction                     // the end of an instruction
	AlongBelow                        // so many places along the row below
)

// Landmark is a spot of a row that can be found on the fabric.
type Landmark struct {
	Kind   LandmarkKind
	Stitch int64 // stitches of the row before it, by the pattern
	Words  string
}

// ease weighs how hard a landmark is to see: the halving goes a little out of
// its way for a plain one.
var ease = [...]int64{AtEdge: 8, AtHook: 8, AtMarker: 8, AtColour: 8, AtPass: 9, AtInstruction: 12, AlongBelow: 16}

// landmark says how the spot after so many stitches of a row is known.
func (h *Hunt) landmark(stitch int64) Landmark {
	l := Landmark{Stitch: stitch}
	row := h.line.row
	noun := row.Kind.String()
	switch {
	case stitch <= 0:
		l.Words = "the beginning of the " + noun
		return l
	case stitch >= h.end && h.end < h.line.stitches:
		l.Kind, l.Words = AtHook, "the hook"
		return l
	case stitch >= h.end:
		l.Words = "the end of the " + noun
		return l
	}
	for _, m := range h.markers {
		if m.Stitch == stitch {
			l.Kind, l.Words = AtMarker, "the stitch with the marker"
			if m.Text != "" {
				l.Words += " “" + m.Text + "”"
			}
			return l
		}
	}
	before, after := row.Here(stitch-1), row.Here(stitch)
	for _, s := range after.Lead {
		if s.Op == pattern.OpColour {
			l.Kind, l.Words = AtColour, "the change of colour"
			return l
		}
	}
	passes := passWords(before.Passes)
	switch {
	case len(before.Passes) > 0 && before.PassEnd == stitch:
		l.Kind, l.Words = AtPass, "the end of "+passes
	case before.InstructionEnd == stitch:
		l.Kind, l.Words = AtInstruction, "the end of "+h.plan.quote(before.Step)
		if passes != "" {
			l.Words += " in " + passes
		}
	default:
		l.Kind = AlongBelow
		begin := before.InstructionEnd - before.Of
		unit, places := unitOf(before.Step)
		n := stitch - begin
		if unit > 0 {
			n = (stitch - begin) / unit * places
		}
		l.Words = fmt.Sprintf("%s of the %s below, from where %s begins", plural(n, "place"), noun, h.plan.quote(before.Step))
	}
	return l
}

// passWords names a pass, the innermost first.
func passWords(passes []pattern.Pass) string {
	var parts []string
	for i := len(passes) - 1; i >= 0; i-- {
		if passes[i].Of > 1 {
			parts = append(parts, fmt.Sprintf("pass %d of %d", passes[i].N, passes[i].Of))
		}
	}
	return strings.Join(parts, " in ")
}

// quote is the words of an instruction as the pattern has them.
func (p *Plan) quote(s *pattern.Step) string {
	text := p.StepText(s)
	if text == "" {
		return "the instruction"
	}
	return "“" + text + "”"
}

// StepText is the words of an instruction as the pattern has them, on one
// line; "" where they are not known.
func (p *Plan) StepText(s *pattern.Step) string {
	if s == nil || p.proof == nil || p.proof.Pattern == nil || p.proof.Pattern.Source == nil {
		return ""
	}
	text := p.proof.Pattern.Source.Text
	if s.Span.Empty() || s.Span.Start < 0 || s.Span.End > len(text) {
		return ""
	}
	return strings.Trim(strings.Join(strings.Fields(text[s.Span.Start:s.Span.End]), " "), "*([])")
}

// plural puts a number before a noun.
func plural(n int64, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	if strings.HasSuffix(noun, "ch") {
		noun += "e"
	}
	return fmt.Sprintf("%d %ss", n, noun)
}
