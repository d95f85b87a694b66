package counter

func (s *State) checkRewrite(e Event) error { return ErrNoText }
func (s *State) rewrite(e Event)            {}
func (s *State) unwrite(st step)            {}
