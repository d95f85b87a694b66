package film

import (
	"strings"

	"crochet/tallyturn/counter"
)

// Recorder takes the events of a walk as they come.
type Recorder struct {
	begun  counter.State // before the first event
	state  counter.State
	takes  []*reel
	done   []step // what Back has not taken back
	undone []step // what it has, the newest last
	slips  []step // slips that were seen before they were taken back
	seq    int

	settled *unfolding // of the steps that are older than the newest; nil before the first session
}

// reel is a take as it is recorded.
type reel struct {
	Take
	from, to int // the events at its beginning and its end
}

// step is something done that Back can take back.
type step struct {
	seq           int // among the events
	event         counter.Event
	take          int   // the take it is in, 0 outside of any
	ms            int64 // since the clap
	before, after counter.Place
	takes         int    // how many takes there had been
	times         int    // taps outside of a take are kept by their number
	words         string // the instruction it came to
	slip          bool
	expected      int64
	from, to      *counter.Plan // of a Rewrite
}

// NewRecorder begins before the first event of a walk through a plan.
func NewRecorder(plan *counter.Plan) *Recorder {
	begun := counter.Begin(plan)
	return &Recorder{begun: begun, state: begun}
}

// Of is what a log of events comes to. Those that cannot be are passed over,
// as counter.Replay passes over them.
func Of(plan *counter.Plan, log []counter.Event) *Session {
	r := NewRecorder(plan)
	for _, e := range log {
		r.Add(e)
	}
	return r.Session()
}

// Add takes an event. Its cost does not depend on how many there were before.
// It is false for an event that cannot be.
func (r *Recorder) Add(e counter.Event) bool {
	before := r.state
	next, err := before.Apply(e)
	if err != nil {
		return false
	}
	r.seq++
	on := r.on()
	var ms int64
	if on != nil {
		ms = on.Since(e.At)
		if e.Kind != counter.Open { // until then the program was not there
			on.Length = ms
		}
	}
	switch e.Kind {
	case counter.BeginTake:
		r.takes = append(r.takes, &reel{Take: Take{Number: len(r.takes) + 1, Begun: e.At}, from: r.seq})
	case counter.EndTake:
		r.end(on, Stopped)
	case counter.Close:
		r.end(on, Left)
	case counter.Open:
		r.end(on, Broken)
	case counter.Back:
		r.back()
	case counter.Redo:
		r.again()
	default:
		if e.Kind.Work() {
			s := step{seq: r.seq, event: e, before: before.At(), after: next.At(), takes: len(r.takes), times: 1}
			if on != nil {
				s.take, s.ms = on.Number, ms
			}
			s.look(before, next)
			r.undone = nil
			r.push(s)
		}
	}
	r.state = next
	return true
}

// on is the take that is on; nil where none is.
func (r *Recorder) on() *reel {
	if n := len(r.takes); n > 0 && r.takes[n-1].End == Rolling {
		return r.takes[n-1]
	}
	return nil
}

func (r *Recorder) end(on *reel, how End) {
	if on != nil {
		on.End, on.to = how, r.seq
	}
}

// look notes what can only be seen as it happens.
func (s *step) look(before, next counter.State) {
	switch s.event.Kind {
	case counter.Tap:
		s.words = instruction(before, next)
	case counter.Count, counter.Check:
		s.expected = before.Stitch()
		s.slip = s.event.N != s.expected
		if s.event.Kind == counter.Count {
			s.words = instruction(before, next)
		}
	case counter.Finish, counter.Carry:
		at := before.At()
		if r, ok := next.Record(at.Piece, at.Copy, at.Row); ok {
			var m counter.Mismatch
			if m, s.slip = r.Mismatch(); s.slip {
				s.expected = m.Expected
				s.event.N = m.Counted
			}
		}
	case counter.Rewrite:
		s.from, s.to = before.Plan(), next.Plan()
	}
}

// instruction is the words of the instruction that comes next, where another
// one was in hand before or it begins anew.
func instruction(before, next counter.State) string {
	now := next.Here()
	if now.Step == nil {
		return ""
	}
	if was := before.Here(); was.Step == now.Step && now.InstructionEnd == was.InstructionEnd {
		return ""
	}
	return next.Plan().StepText(now.Step)
}

// push notes a step. Taps outside of any take are only counted: who films
// little is not to pay for every stitch.
func (r *Recorder) push(s step) {
	if n := len(r.done) - 1; n >= 0 && s.bare() && r.done[n].bare() &&
		s.event.N == r.done[n].event.N && s.takes == r.done[n].takes {
		r.done[n].times += s.times
		return
	}
	r.done = append(r.done, s)
}

// bare is a tap that no take shows.
func (s step) bare() bool { return s.event.Kind == counter.Tap && s.take == 0 }

// back takes the last step away.
func (r *Recorder) back() {
	n := len(r.done) - 1
	s := r.done[n]
	if s.times > 1 {
		r.done[n].times--
		s.times = 1
	} else {
		r.done = r.done[:n]
	}
	if s.slip && s.take > 0 {
		r.slips = append(r.slips, s)
	}
	r.undone = append(r.undone, s)
	// The last step that is left may take further taps in.
	if r.settled != nil && r.settled.stepped >= len(r.done) {
		r.settled = nil
	}
}

// again brings it back where it was.
func (r *Recorder) again() {
	n := len(r.undone) - 1
	s := r.undone[n]
	r.undone = r.undone[:n]
	if k := len(r.slips) - 1; s.slip && k >= 0 && r.slips[k].seq == s.seq {
		r.slips = r.slips[:k]
	}
	r.push(s)
}

// clean makes text fit for an edit list: the log may hold any bytes.
func clean(text string) string { return strings.ToValidUTF8(text, "\uFFFD") }
