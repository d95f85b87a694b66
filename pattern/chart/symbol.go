package chart

import (
	"sync"

	"crochet/tallyturn/pattern/stitch"
)

// form is the family that a symbol belongs to.
type form uint8

const (
	formNone  form = iota
	formDot        // slip stitch
	formCross      // single crochet
	formStem       // a stem with a cap and bars across it
	formLeaf       // several stems joined at both ends
	formPop        // several stems under a small ring
	formOwn        // a stitch that only this pattern has
	formAsk        // nobody has worked out what is there
)

// symbol is how a stitch is drawn.
//
// The families, the number of bars and the heights follow the symbols that the
// trade's charts share (testdata/facts/symbols.md); the bars of a stem are the
// yarn overs before the hook goes in. A symbol marked "ours" has no drawing in
// common use that we know of.
type symbol struct {
	form   form
	high   float64 // from foot to head, in units
	bars   int
	legs   int  // of a leaf or a popcorn
	post   int  // 1 in front of the post, -1 behind it
	foot   bool // a small loop at the foot: it makes its own chain
	tail   bool // a small bar near the foot: extended
	wave   bool // worked backwards
	spike  bool // reaches down
	link   bool // tied to the one before
	bead   bool // ours: a dot on the stem
	loop   bool // ours: a loop hanging beside the stem
	letter rune // in a chart of text; no figure, which would be taken for the number of a row
}

var symbols = sync.OnceValue(func() map[stitch.ID]symbol {
	return map[stitch.ID]symbol{
		stitch.Slip:       {form: formDot, high: 0.45, letter: '.'},
		stitch.SC:         {form: formCross, high: 1, letter: '+'},
		stitch.HDC:        {form: formStem, high: 1.5, letter: 'T'},
		stitch.DC:         {form: formStem, high: 2, bars: 1, letter: '†'},
		stitch.TR:         {form: formStem, high: 3, bars: 2, letter: '‡'},
		stitch.DTR:        {form: formStem, high: 4, bars: 3, letter: 'D'},
		stitch.TRTR:       {form: formStem, high: 5, bars: 4, letter: 'R'},
		stitch.QuadTR:     {form: formStem, high: 6, bars: 5, letter: 'Q'},
		stitch.ESC:        {form: formCross, high: 1.4, tail: true, letter: 'e'},
		stitch.EHDC:       {form: formStem, high: 1.9, tail: true, letter: 'h'},
		stitch.EDC:        {form: formStem, high: 2.4, bars: 1, tail: true, letter: 'd'},
		stitch.ETR:        {form: formStem, high: 3.4, bars: 2, tail: true, letter: 't'},
		stitch.ReverseSC:  {form: formCross, high: 1, wave: true, letter: '~'},
		stitch.SpikeSC:    {form: formCross, high: 1, spike: true, letter: '!'},
		stitch.LinkedDC:   {form: formStem, high: 2, bars: 1, link: true, letter: 'L'},
		stitch.FSC:        {form: formCross, high: 1.4, foot: true, letter: '+'},
		stitch.FHDC:       {form: formStem, high: 1.9, foot: true, letter: 'T'},
		stitch.FDC:        {form: formStem, high: 2.4, bars: 1, foot: true, letter: '†'},
		stitch.FTR:        {form: formStem, high: 3.4, bars: 2, foot: true, letter: '‡'},
		stitch.FPSC:       {form: formCross, high: 1, post: 1, letter: 'f'},
		stitch.FPHDC:      {form: formStem, high: 1.5, post: 1, letter: 'f'},
		stitch.FPDC:       {form: formStem, high: 2, bars: 1, post: 1, letter: 'f'},
		stitch.FPTR:       {form: formStem, high: 3, bars: 2, post: 1, letter: 'f'},
		stitch.FPDTR:      {form: formStem, high: 4, bars: 3, post: 1, letter: 'f'},
		stitch.BPSC:       {form: formCross, high: 1, post: -1, letter: 'b'},
		stitch.BPHDC:      {form: formStem, high: 1.5, post: -1, letter: 'b'},
		stitch.BPDC:       {form: formStem, high: 2, bars: 1, post: -1, letter: 'b'},
		stitch.BPTR:       {form: formStem, high: 3, bars: 2, post: -1, letter: 'b'},
		stitch.BPDTR:      {form: formStem, high: 4, bars: 3, post: -1, letter: 'b'},
		stitch.Cluster:    {form: formLeaf, high: 2, bars: 1, legs: 3, letter: 'A'},
		stitch.Bobble:     {form: formLeaf, high: 2, bars: 1, legs: 5, letter: 'O'},
		stitch.Popcorn:    {form: formPop, high: 2, bars: 1, legs: 5, letter: 'P'},
		stitch.Puff:       {form: formLeaf, high: 1.6, legs: 3, letter: '0'},
		stitch.LoopStitch: {form: formCross, high: 1, loop: true, letter: 'u'},
		stitch.BeadStitch: {form: formCross, high: 1, bead: true, letter: '*'},
		stitch.Special:    {form: formOwn, high: 2, letter: '#'},
		stitch.None:       {form: formAsk, high: 1, letter: '?'},
	}
})

// symbolOf is the symbol of a stitch; legs are worked together.
func symbolOf(id stitch.ID) symbol { return symbols()[id] }

// arms is how wide a symbol is half way up.
func (s symbol) arms() float64 {
	switch s.form {
	case formCross, formLeaf, formPop:
		return 0.85
	case formStem:
		return 0.6
	}
	return 0.5
}

// wide is the room a symbol takes along its row.
func (s symbol) wide() float64 {
	switch s.form {
	case formDot:
		return 0.6
	case formLeaf, formPop:
		return 1.1
	case formOwn:
		return 1.1
	case formAsk:
		return 0.8
	}
	return 1
}
