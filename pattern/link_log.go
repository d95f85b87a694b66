package pattern

import "slices"

// linkLog is what a row did, in the order done, where somebody asks which
// stitch stands where. Without it, working a row keeps only how many. Its
// methods do nothing on nil, which is what every proof has.
type linkLog struct {
	events  []linkEvent
	sources []linkSource
	next    int32 // the id of the next place numbered
	limit   int64
	over    bool // something was larger than the limit
	in      *linking
}

type linkEventKind uint8

const (
	evTake   linkEventKind = iota // n places taken, from id on
	evOwn                         // n chains of a chain made in this row, down to chain id
	evEach                        // what is made next goes into n places in turn
	evInto                        // what is made next is the body of step
	evMake                        // n places made
	evPass                        // a step that makes nothing
	evTurn                        // the work turned in mid-row
	evTravel                      // what was taken was only travelled over
	evStart                       // n chains at the start that are not a stitch
	evGone                        // taken back
)

type linkEvent struct {
	kind linkEventKind
	ring bool // evMake: worked into the ring
	step *Step
	p    place
	id   int32
	n    int64
	per  int64 // evEach
}

// linkSource is a row of places that were numbered.
type linkSource struct {
	kind     BaseKind
	from     int32
	n        int64
	reversed bool // met from its last place on
	piece    *pieceWork
	number   int
}

func (l *linkLog) len() int {
	if l == nil {
		return 0
	}
	return len(l.events)
}

func (l *linkLog) cut(n int) {
	if l != nil {
		l.events = l.events[:n]
	}
}

func (l *linkLog) add(e linkEvent) {
	if int64(len(l.events)) > 64*l.limit+4096 {
		l.over = true
		return
	}
	l.events = append(l.events, e)
}

func (l *linkLog) take(r *run, off, n int64) {
	if l != nil {
		l.add(linkEvent{kind: evTake, id: later(r.id, off), n: n, p: r.place})
	}
}

func (l *linkLog) own(at, n int64) {
	if l != nil {
		l.add(linkEvent{kind: evOwn, id: int32(min(at, 1<<30)), n: n})
	}
}

func (l *linkLog) each(n, per int64) {
	if l != nil {
		l.add(linkEvent{kind: evEach, n: n, per: per})
	}
}

func (l *linkLog) into(s *Step) {
	if l != nil {
		l.add(linkEvent{kind: evInto, step: s})
	}
}

func (l *linkLog) work(s *Step, p place, n int64, ring bool) {
	if l != nil {
		l.add(linkEvent{kind: evMake, step: s, p: p, n: n, ring: ring})
	}
}

func (l *linkLog) pass(s *Step, n int64) {
	if l != nil && n == 0 {
		l.add(linkEvent{kind: evPass, step: s})
	}
}

func (l *linkLog) travel() {
	if l != nil {
		l.add(linkEvent{kind: evTravel})
	}
}

func (l *linkLog) start(n int64) {
	if l != nil && n > 0 {
		l.add(linkEvent{kind: evStart, n: n})
	}
}

// turn notes that what follows is worked back over what the row has made.
func (l *linkLog) turn(f *fabric) {
	if l != nil {
		l.add(linkEvent{kind: evTurn})
		l.number(f, BaseSelf, true)
	}
}

// unmake takes back what was made, but not what was taken, since there were n
// events.
func (l *linkLog) unmake(n int) {
	if l == nil {
		return
	}
	for i := n; i < len(l.events); i++ {
		if k := l.events[i].kind; k == evMake || k == evEach {
			l.events[i].kind = evGone
		}
	}
}

// later is the id of the place off places on from the one with an id.
func later(id int32, off int64) int32 {
	if id == 0 {
		return 0
	}
	return id + int32(off)
}

// number gives the places of a fabric their ids, in the order they are met.
func (l *linkLog) number(f *fabric, kind BaseKind, reversed bool) {
	l.numberOf(f, linkSource{kind: kind, reversed: reversed})
}

func (l *linkLog) host(f *fabric, piece *pieceWork, number int, reversed bool) {
	l.numberOf(f, linkSource{kind: BaseHost, piece: piece, number: number, reversed: reversed})
}

func (l *linkLog) numberOf(f *fabric, s linkSource) {
	if l == nil || f == nil || f.free {
		return
	}
	s.n = f.size()
	if s.n > l.limit {
		l.over = true
		return
	}
	f.runs = slices.Clone(f.runs)
	s.from = l.next
	for i := range f.runs {
		f.runs[i].id = l.next
		l.next += int32(f.runs[i].n)
	}
	l.sources = append(l.sources, s)
}

// source finds the row of places that an id belongs to.
func (l *linkLog) source(id int32) *linkSource {
	for i := len(l.sources) - 1; i >= 0; i-- {
		if s := &l.sources[i]; id >= s.from && int64(id) < int64(s.from)+s.n {
			return s
		}
	}
	return nil
}

// make puts a place into the row that is not an ordinary stitch.
func (w *rowWork) make(p place, n int64) {
	w.log.work(nil, p, n, w.inRing() || p.turn && w.below != nil && w.below.ring)
	w.out.add(p, n)
}

// inRing reports whether what is worked now goes into a ring.
func (w *rowWork) inRing() bool { return w.below != nil && w.below.ring && w.ended() }
