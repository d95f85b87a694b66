package film

import (
	"fmt"
	"strconv"

	"crochet/tallyturn/counter"
)

// Way is what can be done with the footage of a row.
type Way uint8

// The ways.
const (
	AsUsual Way = iota // what is usual: in full, and rows alike as [Session.Alike] says
	Full               // all of it at the speed it was filmed at
	Slow               // slowed until it is as long as the words
	Speed              // sped up by N, a whole number
	Within             // sped up by the least whole number that brings it within N ms; 0 is the most that leaves room for the words
	Shorten            // the beginning and then the end of the row, N ms in all; 0 is the words
	Out                // left out
)

// wayWords are kept on disk: see counter.Choose.
var wayWords = [...]string{AsUsual: "", Full: "full", Slow: "slow", Speed: "speed", Within: "within", Shorten: "cut", Out: "out"}

// Choice is a way, with the number that goes with it.
type Choice struct {
	Way Way
	N   int64
}

// Usual is what becomes of rows alike where the maker has not said otherwise:
// six seconds are enough to see that it is the same again. The figure is our
// own choice.
var Usual = Choice{Within, 6000}

// fastest is the most that footage is sped up.
const fastest = MaxSpeed / AsFilmed

// choiceOf is what an event chooses. A word that is not known is no choice.
func choiceOf(e counter.Event) Choice {
	for way, word := range wayWords {
		if word == e.Text {
			return Choice{Way(way), e.N}.sound()
		}
	}
	return Choice{}
}

// sound brings the number within what can be.
func (c Choice) sound() Choice {
	switch c.Way {
	case Speed:
		c.N = min(max(c.N, 1), fastest)
	case Within, Shorten:
		c.N = min(max(c.N, 0), MaxTime)
	default:
		c.N = 0
	}
	return c
}

// For is the event that chooses c for a row.
func (c Choice) For(piece, copy, row int) counter.Event {
	c = c.sound()
	return counter.Event{Kind: counter.Choose, Piece: piece, Copy: copy, Row: row, N: c.N, Text: wayWords[c.Way]}
}

// ForAlike is the event that chooses c for rows alike.
func (c Choice) ForAlike() counter.Event {
	c = c.sound()
	return counter.Event{Kind: counter.Alike, N: c.N, Text: wayWords[c.Way]}
}

// String puts a choice in a few words.
func (c Choice) String() string {
	switch c.Way {
	case Full:
		return "in full"
	case Slow:
		return "slowed to the words"
	case Speed:
		return "×" + strconv.FormatInt(c.N, 10)
	case Within:
		return "sped up to " + c.length()
	case Shorten:
		return "cut to " + c.length()
	case Out:
		return "left out"
	}
	return "as usual"
}

func (c Choice) length() string {
	if c.N == 0 {
		return "the words"
	}
	return Seconds(c.N) + " s"
}

// Seconds is ms in seconds with one decimal, rounded to the nearest, halves
// up: "7.5".
func Seconds(ms int64) string {
	sign := ""
	if ms < 0 {
		sign, ms = "−", -ms
	}
	tenths := (ms + 50) / 100
	return fmt.Sprintf("%s%d.%d", sign, tenths/10, tenths%10)
}

// stretch is a part of a take at a speed.
type stretch struct {
	take     int
	from, to int64
	speed    int64
}

func (s stretch) film() int64 { return FilmLength(s.to-s.from, s.speed) }

// do does a choice with the footage of a row, whose words take speech ms.
func (c Choice) do(footage []stretch, speech int64) []stretch {
	var all int64
	for _, f := range footage {
		all += f.to - f.from
	}
	speed := int64(AsFilmed)
	switch c.Way {
	case Out:
		return nil
	case Slow:
		if speech > all {
			speed = max(all*AsFilmed/speech, MinSpeed)
		}
	case Speed:
		speed = c.N * AsFilmed
	case Within:
		if c.N > 0 {
			speed = factor(all, c.N) * AsFilmed
		} else {
			speed = room(all, speech) * AsFilmed
		}
	case Shorten:
		if goal := c.goal(speech); goal < all {
			return shorten(footage, all, goal)
		}
	}
	out := make([]stretch, len(footage))
	for i, f := range footage {
		f.speed = speed
		out[i] = f
	}
	return out
}

// goal is the length that is to be reached, in ms.
func (c Choice) goal(speech int64) int64 {
	if c.N > 0 {
		return c.N
	}
	return speech
}

// factor is the least whole number that brings ms within goal; 1 where there
// is no goal.
func factor(ms, goal int64) int64 {
	if goal <= 0 {
		return 1
	}
	return min(max((ms+goal-1)/goal, 1), fastest)
}

// room is the most whole times that ms can be sped up and still be as long as
// the words.
func room(ms, speech int64) int64 {
	if speech <= 0 {
		return 1
	}
	n := min(max(ms/speech, 1), fastest)
	for n > 1 && FilmLength(ms, n*AsFilmed) < speech { // rounding
		n--
	}
	return n
}

// longestTail is how much of a row's end is kept at most where it is cut, in
// ms: enough to see how the last stitches lie. Our own choice.
const longestTail = 3000

// shorten keeps goal ms of footage that is all ms long: the beginning, which
// is what the words are about, and the end, a third of it at most.
func shorten(footage []stretch, all, goal int64) []stretch {
	tail := min(goal/3, longestTail)
	head := goal - tail
	var out []stretch
	var at int64
	for _, f := range footage {
		f.speed = AsFilmed
		n := f.to - f.from
		if at < head {
			first := f
			first.to = f.from + min(n, head-at)
			out = append(out, first)
		}
		if at+n > all-tail {
			last := f
			last.from = f.from + max(all-tail-at, 0)
			if k := len(out) - 1; k >= 0 && out[k].take == last.take && out[k].to >= last.from {
				out[k].to = last.to
			} else {
				out = append(out, last)
			}
		}
		at += n
	}
	return out
}
