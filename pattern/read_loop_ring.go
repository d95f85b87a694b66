package pattern

// loopIsRing takes "loop" for the ring where a first round begins with the one chain that
// raises it, "ch 1, work 9 sc into loop": one chain makes no loop to work into, so the loop
// is that of the yarn.
func loopIsRing(steps []*Step) {
	raised := false
	for _, s := range steps {
		switch {
		case s.Op == OpNote, s.Op == OpColour:
		case s.Op == OpChain && !raised && s.N.N == 1:
			raised = true
		case s.Op == OpWork && raised && s.Target.said && len(s.Target.Of) == 1 && s.Target.Of[0] == (Filter{Kind: Space, Name: "loop"}) && s.Target.N.N <= 1:
			s.Target.Which, s.Target.Of = InRing, nil
		default:
			return
		}
	}
}
