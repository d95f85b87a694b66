package pattern

import "fmt"

// A row with words that are not understood leaves nobody knows what. Yet mostly the
// words were talk, and the rows behind it can tell: where they come out to the stitch on
// what the row makes without them, they are worked on that. They are told to be wrong
// only once a total has shown that it was so.

// ground is what a row was worked on.
type ground uint8

const (
	onBelow    ground = iota // what the row below left
	onGuess                  // what a row that was not understood may have left
	onRightOne               // that, and the total of the row shows that it was right
	onTold                   // the count that the words before it tell
)

// guessLeft works a row without its words that were not understood, and keeps what it
// then leaves as a guess, if it comes out on what it is worked on.
func (w *pieceWork) guessLeft(row *Row, below *fabric) {
	if w.trial != nil && w.links == nil || below == nil || below.free || len(row.Steps) == 0 || w.host != nil {
		return
	}
	var o outcome
	w.tried(func() { o = w.judge(w.attempt(row, below, w.usual(row)), nil) })
	if o.trouble < 2 && o.status == Unstated && o.made > 0 && o.left == 0 && !o.rw.leave && !o.rw.deltaSet {
		w.guess = &o.rw.out
	}
}

// guessed puts a row on what the row below may have left, where that was not understood,
// if it comes out on it to the stitch. It gives what the row is worked on.
func (w *pieceWork) guessed(row, label *Row, below *fabric, total *Total) (*fabric, bool) {
	guess := w.guess
	if w.guess = nil; guess == nil || below == nil || !below.free {
		return below, false
	}
	save := *w
	w.below = guess
	on := w.orient(row)
	if w.links != nil {
		if was, _ := w.links.base.At(w.links.row1); was != nil && was.on != onBelow && was.on != onTold {
			return on, true
		}
	} else if w.comesOutOn(on, row, label, total) {
		return on, true
	}
	further := w.guess
	*w = save
	w.guess = further
	return below, false
}

// comesOutOn reports whether a row comes out on a guess to the stitch. Where it has words
// itself that are not understood, and does not come out without them, what it leaves
// is a guess again.
func (w *pieceWork) comesOutOn(on *fabric, row, label *Row, total *Total) (ok bool) {
	var further *fabric
	w.tried(func() {
		if len(row.bad) == 0 && (label == row || len(label.bad) == 0) {
			ok = w.anyReading(row, on, total, func(o outcome) bool {
				return !o.rw.free && (o.status == Agrees || o.status == Unstated)
			})
		} else if ok = w.comesOutWithout(row, label, on, total); !ok {
			w.guessLeft(row, on)
			further = w.guess
		}
	})
	w.guess = further
	return ok
}

// tried does something to see what comes of it: nothing is said, and the piece stands as
// it did.
func (w *pieceWork) tried(do func()) {
	asked, save, quiet := len(w.pr.asked), *w, w.pr.quiet
	w.pr.quiet = true
	do()
	*w = save
	w.pr.quiet, w.pr.asked = quiet, w.pr.asked[:asked]
}

// anyReading reports whether a row has no trouble under one of its readings, and is then as
// it is wanted.
func (w *pieceWork) anyReading(row *Row, below *fabric, total *Total, wanted func(outcome) bool) bool {
	carry, host := w.carry, w.host
	for _, o := range append([]options{w.usual(row)}, w.readings(row, below)...) {
		w.carry, w.host = carry, host
		if out := w.judge(w.attempt(row, below, o), total); out.trouble < 2 && wanted(out) {
			return true
		}
	}
	return false
}

// onGuessed marks a row that was worked on a guess, and keeps what it left as a guess
// until a total agrees with it.
func (w *pieceWork) onGuessed(rp *RowProof, label *Row, total *Total) {
	rp.on = onGuess
	if n := len(w.proof.Rows); n > 0 && w.proof.Rows[n-1].Status == Unread && w.trial == nil {
		w.pr.say(Note, CodeReading, label.labelSpan, fmt.Sprintf("%s comes out on what %s makes without the words that are not understood, and is worked on that", rp.Label, w.proof.Rows[n-1].Label), "")
	}
	if rp.Status == Agrees && total != nil && !total.delta && checkable(total) {
		rp.on = onRightOne
	}
	if w.links != nil {
		if was, _ := w.links.base.At(w.links.row1 - 1); was != nil {
			rp.on = was.on
		}
	}
	if rp.on == onGuess {
		w.leaveGuess()
	}
}

// leaveGuess makes a guess of what the row just worked has left.
func (w *pieceWork) leaveGuess() {
	w.guess, w.below, w.other, w.counted = w.below, &fabric{free: true}, nil, false
}
