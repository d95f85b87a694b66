package pattern

// What those need to know of a step who say it in other words.

// Defined is the stitch or group of the pattern's own that the step works, or
// nil.
func (s *Step) Defined() *Special { return s.special }

// Unsaid reports a step that nobody wrote and everybody understands.
func (s *Step) Unsaid() bool { return s.implicit }

// Ending is how the last pass of a repeat ends, or nil where it ends as the
// others do.
func (s *Step) Ending() *Step { return s.ending }

// StopsAfter is how many steps of the body the last pass of a repeat goes
// through, where it stops before its end ("ending last repeat at **").
func (s *Step) StopsAfter() (steps int, ok bool) { return s.partial - 1, s.stopAt && s.partial > 0 }

// Remark is what a repeat says of its last pass that changes no count.
func (s *Step) Remark() Span { return s.note }

// Said reports whether the text names the place.
func (t *Target) Said() bool { return t.said }

// NextUnsaid reports a place that is named without "next": "in ch-2 sp".
func (t *Target) NextUnsaid() bool { return t.plain }

// Keeping tells which words of a pattern's steps the tree does not keep. It is
// not safe for use by several goroutines at once.
type Keeping struct{ w *writer }

// Keeping looks at the words of p.
func (p *Pattern) Keeping() *Keeping {
	w := newWriter(p)
	w.back.aliases = p.aliases
	return &Keeping{w}
}

// Lost gives the words of a step, in lower case, whose sense is not in the
// tree: "back", "loops" and "only", "loosely". A step that has none can be said
// in other words without loss. Words of the steps in its body are not among
// them.
func (k *Keeping) Lost(s *Step) []string {
	var out []string
	if s.Span.Empty() {
		return nil
	}
	at := s.Span.Start
	for _, b := range s.Body {
		if s.special == nil && s.Span.Contains(b.Span) && b.Span.Start >= at {
			out = k.lost(out, at, b.Span.Start)
			at = b.Span.End
		}
	}
	return k.lost(out, at, s.Span.End)
}

func (k *Keeping) lost(out []string, from, to int) []string {
	if from >= to {
		return out
	}
	toks := lex(k.w.smooth[from:to])
	k.w.back.unalias(toks)
	x := k.w.back.rowReaderFor(toks[:len(toks)-1], &Row{})
	for x.p = 0; !x.end(); x.p++ {
		if t := x.peek(); t.kind == tWord && !plainWord()[t.text] {
			if _, n := x.specialAt(0); n > 0 {
				x.p += n - 1
				continue
			}
			if _, n := x.stitchAt(0); n > 0 {
				x.p += n - 1
				continue
			}
			out = append(out, t.text)
		} else if t.kind == tPunct && !t.isAny(",", ";", ".", "(", ")", "[", "]", "{", "}", "*", "-", "x", ":") || t.frac {
			out = append(out, t.text)
		}
	}
	return out
}
