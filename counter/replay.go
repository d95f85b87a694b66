package counter

// Refusal is an event of a log that could not be applied.
type Refusal struct {
	Index int // in the log, from 0
	Event Event
	Err   error
}

// Replay is the state after a log of events. Those that cannot be are passed
// over and given out: a log has none unless the pattern it was made with has
// changed since, and has lost the row that an event speaks of.
func Replay(plan *Plan, log []Event) (State, []Refusal) {
	s := Begin(plan)
	var refused []Refusal
	for i, e := range log {
		if err := s.take(e); err != nil {
			refused = append(refused, Refusal{i, e, err})
		}
	}
	return s, refused
}
