// Package stitch is the vocabulary of the trade: one table of what each stitch
// is called on both sides of the Atlantic, what it takes and makes, how high
// it stands and how it is said. Everything else asks this table.
package stitch

// ID is a stitch, whatever it is called. The names below are the US ones.
type ID uint16

// The stitches of the table. A stitch worked over several places at once
// (sc2tog) has the ID of its base: the number of legs is the step's.
const (
	None ID = iota
	Slip
	SC
	HDC
	DC
	TR
	DTR
	TRTR
	QuadTR
	ESC
	EHDC
	EDC
	ETR
	ReverseSC
	SpikeSC
	LinkedDC
	FSC
	FHDC
	FDC
	FTR
	FPSC
	FPHDC
	FPDC
	FPTR
	FPDTR
	BPSC
	BPHDC
	BPDC
	BPTR
	BPDTR
	Cluster
	Bobble
	Popcorn
	Puff
	LoopStitch
	BeadStitch
	Special // a stitch that the pattern defines for itself
	count
)
