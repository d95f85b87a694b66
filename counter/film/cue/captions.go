package cue

import "fmt"

// When a caption is on the screen, in ms. Five sixths of a second to seven
// seconds and two frames between are in the guides for timed text (the frames
// here are those of 24 a second, the longest). The reading speeds are quoted
// from memory of them: 17 characters a second for children, 20 for adults;
// captions are held for the slower one where there is time for it.
const (
	ShownLeast = 834
	ShownMost  = 7000
	Gap        = 84
	ReadEasily = 17
	ReadFast   = 20
)

// saidPerSecond is how many characters are said in a second where nobody knows:
// about 150 words a minute.
const saidPerSecond = 15

// caption is some text on the screen.
type caption struct {
	from, to int64 // ms
	block    block
}

// captions are those of a line of time. What is said begins with its cut and
// ends before the next cut that has something to say.
func (j job) captions() []caption {
	var out []caption
	for i, s := range j.line {
		text := oneLine(s.Say)
		if text == "" {
			continue
		}
		end := j.line[len(j.line)-1].to
		for _, later := range j.line[i+1:] {
			if oneLine(later.Say) != "" {
				end = later.from
				break
			}
		}
		out = append(out, j.spread(text, s, end)...)
	}
	if len(out) == 0 {
		j.note("nothing is said in it, so it has no captions")
	}
	return out
}

// spread puts what is said over a cut on the screen, from its beginning until
// end at most.
func (j job) spread(text string, s span, end int64) []caption {
	chars := int64(len([]rune(text)))
	said := s.SayFor
	if said == 0 {
		said = chars * 1000 / saidPerSecond
	}
	window := end - s.from
	if said > window {
		j.note("%s: its words take %s s, and there are %s s for them", nameOf(s.Cut), seconds(said), seconds(window))
		said = window
	}
	// Two full lines must be over in the time that one caption may last; who
	// speaks slowly gets shorter ones.
	width, lines := int64(LineLength), Lines
	if inTime := chars * ShownMost / max(said, 1); inTime < 2*LineLength {
		width = max(inTime/2, LineLength*3/4)
		if inTime < LineLength*3/2 {
			width, lines = LineLength, 1
		}
	}
	parts := blocks(text, int(width), lines)
	if window < int64(len(parts))*100 {
		// A flicker nobody could read: it is kept as one, for the editor to
		// give it time.
		var all block
		for _, b := range parts {
			all = append(all, b...)
		}
		parts = []block{all}
	}
	slots := share(parts, said, window)
	out := make([]caption, len(parts))
	from := s.from
	for i, b := range parts {
		c := caption{from: from, to: from + slots[i], block: b}
		from = c.to
		if slots[i] >= 4*Gap {
			c.to -= Gap
		}
		c.to = min(c.to, c.from+ShownMost)
		out[i] = c
	}
	if hurried := hurry(out); hurried != "" {
		j.note("%s: %s", nameOf(s.Cut), hurried)
	}
	return out
}

// share shares a window of time out among captions of words that are said in a
// part of it: each as long as it is said and as long as it takes to read; where
// that is too much, as long as it takes to read; where that is too, in
// proportion to it. The slots hold the gap after a caption.
func share(parts []block, said, window int64) []int64 {
	var chars, needs, wishes int64
	for _, b := range parts {
		chars += int64(b.chars())
	}
	need, more := make([]int64, len(parts)), make([]int64, len(parts))
	for i, b := range parts {
		n := int64(b.chars())
		need[i] = max(ShownLeast, (n*1000+ReadEasily-1)/ReadEasily) + Gap
		more[i] = max(0, said*n/chars-need[i])
		needs += need[i]
		wishes += more[i]
	}
	slots := need
	switch spare := window - needs; {
	case spare >= wishes:
		for i := range slots {
			slots[i] += more[i]
		}
	case spare >= 0:
		var sum int64
		for i := range slots {
			was := spare * sum / wishes
			sum += more[i]
			slots[i] += spare*sum/wishes - was
		}
	default:
		var sum int64
		for i, n := range need {
			was := window * sum / needs
			sum += n
			slots[i] = window*sum/needs - was
		}
	}
	return slots
}

// hurry says what cannot be read in its time, or nothing.
func hurry(captions []caption) string {
	fastest, shortest := int64(0), int64(ShownMost)
	for _, c := range captions {
		shown := c.to - c.from
		fastest = max(fastest, (int64(c.block.chars())*1000+shown-1)/shown)
		shortest = min(shortest, shown)
	}
	switch {
	case fastest > ReadFast:
		return fmt.Sprintf("its captions would have to be read at %d characters a second; %d is fast", fastest, ReadFast)
	case shortest < ShownLeast:
		return fmt.Sprintf("a caption is on the screen for %s s; %s s is the least", seconds(shortest), seconds(ShownLeast))
	}
	return ""
}
