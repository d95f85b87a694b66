package pattern

// Trace tells which instruction of a row makes which of its stitches. It is a
// tree of runs: a repeat of a million passes is one node.
type Trace struct {
	Step     *Step    // the instruction; nil for a bare sequence
	Times    int64    // how often Kids are gone through
	First    int64    // for a pass of a repeat: the number of the first pass, from 1
	Of       int64    // for a pass of a repeat: how many passes it has in all
	Stitches int64    // stitches one time through makes; for a leaf, all it makes
	Kids     []*Trace // nil for a leaf
}

// total is the number of stitches under t.
func (t *Trace) total() int64 {
	if t.Kids == nil {
		return t.Stitches
	}
	return t.Times * t.Stitches
}

// Pass is a time through a repeat.
type Pass struct {
	Step  *Step
	N, Of int64 // pass N of Of, from 1
}

// Here says what the next stitch of a row is.
type Here struct {
	Step   *Step   // the instruction that makes it; nil at the end of the row
	Lead   []*Step // instructions done on the way to it that make no stitch
	Nth    int64   // it is the Nth stitch, from 1, of this time through the instruction
	Of     int64   // which makes so many in all
	Passes []Pass  // the repeats it stands in, outermost first

	InstructionEnd int64 // stitches in the row once this time through the instruction is done
	PassEnd        int64 // stitches in the row once the innermost pass is done; as InstructionEnd outside repeats
}

// Here finds the instruction for the stitch that follows the first done ones.
// Where the row was not worked out, Step is nil.
func (r *RowProof) Here(done int64) Here {
	var h Here
	if r.Trace == nil {
		return h
	}
	t, base := r.Trace, int64(0)
	if done < 0 || done >= t.total() {
		h.InstructionEnd, h.PassEnd = t.total(), t.total()
		h.Lead = trailing(t, nil)
		return h
	}
	h.PassEnd = -1
	var lead []*Step
	for t.Kids != nil {
		n := (done - base) / t.Stitches
		if n > 0 {
			lead = trailing(&Trace{Times: 1, Kids: t.Kids, Stitches: t.Stitches}, nil)
		}
		base += n * t.Stitches
		if t.Of > 0 {
			h.Passes = append(h.Passes, Pass{t.Step, t.First + n, t.Of})
			h.PassEnd = base + t.Stitches
		}
		var next *Trace
		for _, k := range t.Kids {
			kn := k.total()
			if done < base+kn {
				next = k
				break
			}
			if kn > 0 {
				lead = trailing(k, nil)
			} else {
				lead = everyStep(k, lead)
			}
			base += kn
		}
		t = next
	}
	h.Step, h.Nth, h.Of = t.Step, done-base+1, t.Stitches
	h.InstructionEnd = base + t.Stitches
	if h.PassEnd < 0 {
		h.PassEnd = h.InstructionEnd
	}
	if h.Nth == 1 {
		h.Lead = lead
	}
	return h
}

// trailing gathers the steps after the last stitch under t.
func trailing(t *Trace, into []*Step) []*Step {
	if t.Kids == nil {
		return into
	}
	i := len(t.Kids)
	for i > 0 && t.Kids[i-1].total() == 0 {
		i--
	}
	if i > 0 {
		into = trailing(t.Kids[i-1], into)
	}
	for _, k := range t.Kids[i:] {
		into = everyStep(k, into)
	}
	return into
}

func everyStep(t *Trace, into []*Step) []*Step {
	if t.Kids == nil {
		if t.Step != nil {
			into = append(into, t.Step)
		}
		return into
	}
	for _, k := range t.Kids {
		into = everyStep(k, into)
	}
	return into
}
