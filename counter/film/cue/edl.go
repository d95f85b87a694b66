package cue

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"

	"crochet/tallyturn/counter/film"
	"crochet/tallyturn/counter/film/timecode"
)

// EventsMost is how many events the three digits of a CMX 3600 list can number.
const EventsMost = 999

// writeEDL writes an edit decision list in the form of CMX 3600, from the
// common accounts of it: a line for each event with its number, reel, track,
// transition and four timecodes, of which the second and fourth are the first
// frames that are not shown any more. The film begins at one hour, as is usual.
// A change of speed is an M2 line with frames a second to one place, which is
// all the format has; markers are LOC comments, which are an extension that
// many programs read. The list itself cannot say what its rate is.
func writeEDL(j job) ([]byte, error) {
	events, err := j.events()
	if err != nil {
		return nil, err
	}
	if len(events) > EventsMost {
		if events = together(events); len(events) > EventsMost {
			return nil, fmt.Errorf("the film has %d cuts, and an edit decision list holds %d: take otio, or write it take by take", len(events), EventsMost)
		}
		j.note("cuts that follow one another in a take are one event, to stay within %d", EventsMost)
	}
	hour, err := j.Rate.Parse("01:00:00:00")
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	fmt.Fprintf(&b, "TITLE: %s\n", cmp.Or(capitals(j.list.Title), "UNTITLED"))
	if j.Rate.Drops() {
		b.WriteString("FCM: DROP FRAME\n")
	} else {
		b.WriteString("FCM: NON-DROP FRAME\n")
	}
	reel := reels(j.list.Cuts)
	for i, e := range events {
		code := j.Rate.Format
		name := reel[clipOf(e.cuts[0].Cut)]
		fmt.Fprintf(&b, "\n%03d  %-8s V     C        %s %s %s %s\n", i+1, name,
			code(e.in), code(e.out), code(hour+e.from), code(hour+e.to))
		if speed := e.cuts[0].Speed; speed != film.AsFilmed {
			num, den := j.Rate.Fraction()
			tenths := (2*speed*num*10/film.AsFilmed + den) / (2 * den)
			fmt.Fprintf(&b, "M2   %-8s       %03d.%d                %s\n", name, tenths/10, tenths%10, code(e.in))
		}
		if clip := oneLine(e.cuts[0].Clip); clip != "" {
			fmt.Fprintf(&b, "* FROM CLIP NAME: %s\n", clip)
		}
		for _, s := range e.cuts {
			fmt.Fprintf(&b, "* COMMENT: %s\n", capitals(nameOf(s.Cut)))
			for _, m := range s.Marks {
				at := min(max(j.Rate.Frames(s.at(m.At)), e.from), e.to-1)
				fmt.Fprintf(&b, "* LOC: %s %-7s %s\n", code(hour+at), markColour[m.Kind], capitals(markText(m)))
			}
		}
	}
	return b.Bytes(), nil
}

// markColour is how marks are told apart in programs that colour them. The
// words say the same.
var markColour = [...]string{
	film.RowBegun: "GREEN", film.RowEnded: "CYAN", film.Instruction: "WHITE", film.Counted: "BLUE",
	film.Slipped: "RED", film.Unravelled: "MAGENTA", film.Again: "YELLOW", film.OwnWord: "PURPLE",
}

// event is footage on the screen, in frames: of the clip's timecode, and from
// the beginning of the film.
type event struct {
	in, out, from, to int64
	cuts              []span
}

// events are the cuts of the list in frames. One too short for a frame is left
// out, with a note.
func (j job) events() ([]event, error) {
	var out []event
	for _, s := range filmLine(j.list) {
		start, err := startOf(s.Cut, j.Rate)
		if err != nil {
			return nil, err
		}
		e := event{from: j.Rate.Frames(s.from), to: j.Rate.Frames(s.to), cuts: []span{s}}
		if e.from == e.to {
			j.note("%s: %s s of it are too short for a frame, and are left out", nameOf(s.Cut), seconds(s.to-s.from))
			continue
		}
		e.in = start + j.Rate.Frames(s.ClapAt+s.From)
		if e.out = e.in + e.to - e.from; s.Speed != film.AsFilmed {
			e.out = max(start+j.Rate.Frames(s.ClapAt+s.To), e.in+1)
		}
		out = append(out, e)
	}
	if len(out) == 0 {
		return nil, errors.New("no cut is as long as a frame")
	}
	j.unnoted()
	return out, nil
}

// unnoted says for which takes the footage cannot be found to the frame.
func (j job) unnoted() {
	said := map[int]bool{}
	for _, c := range j.list.Cuts {
		var missing []string
		if oneLine(c.Clip) == "" {
			missing = append(missing, "no camera file is noted")
		}
		if strings.TrimSpace(c.Start) == "" {
			missing = append(missing, "no starting timecode is noted, so it counts from 0")
		}
		if c.ClapAt == 0 {
			missing = append(missing, "the clap's place in its clip is not noted, so the clip is taken to begin with it")
		}
		if len(missing) > 0 && !said[c.Take] {
			j.note("take %d: %s", c.Take, strings.Join(missing, "; "))
		}
		said[c.Take] = true
	}
}

// startOf is the frame of the clip's beginning, 0 where it was not noted.
func startOf(c film.Cut, r timecode.Rate) (int64, error) {
	noted := strings.TrimSpace(c.Start)
	if noted == "" {
		return 0, nil
	}
	frame, err := r.Parse(noted)
	if err != nil {
		return 0, fmt.Errorf("take %d: its starting timecode %w", c.Take, err)
	}
	return frame, nil
}

// together makes one event of those that follow one another without a jump.
func together(events []event) []event {
	var out []event
	for _, e := range events {
		if n := len(out); n > 0 {
			last := &out[n-1]
			a, b := last.cuts[len(last.cuts)-1], e.cuts[0]
			if a.Take == b.Take && a.Speed == b.Speed && a.To == b.From {
				if last.to = e.to; a.Speed == film.AsFilmed {
					last.out = last.in + last.to - last.from
				} else {
					last.out = max(e.out, last.in+1)
				}
				last.cuts = append(last.cuts, e.cuts...)
				continue
			}
		}
		out = append(out, e)
	}
	return out
}

// capitals is text as old readers take it: one line of printable ASCII in upper
// case, accents off, a question mark for what has no such letter.
func capitals(s string) string {
	return strings.ToUpper(strings.Map(func(r rune) rune {
		switch {
		case unicode.Is(unicode.Mn, r):
			return -1
		case r < ' ' || r > '~':
			return '?'
		}
		return r
	}, norm.NFKD.String(oneLine(s))))
}
