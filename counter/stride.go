package counter

import "crochet/tallyturn/pattern"

// Stride is how far a tap goes, as SetStride has it: a number of stitches, or
// one of ByInstruction, ByPass and ByRow.
func (s State) Stride() int64 {
	if s.stride == 0 {
		return 1
	}
	return s.stride
}

// Reach is how many stitches the next tap covers: never more than the row
// lacks, and one where the row was not worked out and the stride depends on
// that.
func (s State) Reach() int64 {
	left, known := s.Left()
	n := s.Stride()
	switch here := s.Here(); {
	case n == ByRow && known:
		n = left
	case n > 0:
	case here.Step == nil:
		n = 1
	case n == ByInstruction:
		n = here.InstructionEnd - s.at.Stitch
	case n == ByPass:
		n = here.PassEnd - s.at.Stitch
	default:
		n = 1
	}
	if known {
		n = min(n, left)
	}
	return max(n, 1)
}

// Part is what one instruction has under a tap.
type Part struct {
	Step     *pattern.Step
	Stitches int64
}

// Under is what lies under the next tap: its instructions in the order they
// are worked, the same one again for each pass, but at most so many; more
// counts the stitches beyond them. It is empty where the row was not worked
// out.
func (s State) Under(most int) (parts []Part, more int64) {
	row, _ := s.Proof()
	if row == nil {
		return nil, 0
	}
	at, end := s.at.Stitch, s.at.Stitch+s.Reach()
	for at < end {
		here := row.Here(at)
		if here.Step == nil {
			break
		}
		if len(parts) == most {
			return parts, end - at
		}
		to := min(here.InstructionEnd, end)
		parts = append(parts, Part{here.Step, to - at})
		at = to
	}
	return parts, 0
}

func checkStride(n int64) error {
	if n == 0 || n < ByRow {
		return ErrBadCount
	}
	if n > MaxStitches {
		return ErrTooMany
	}
	return nil
}
