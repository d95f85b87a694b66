package cue

import (
	"fmt"
	"path"
	"strings"

	"crochet/tallyturn/counter/film"
)

// ReelLength is how many characters the name of a reel has at most.
const ReelLength = 8

// clip is what a cut's footage is in.
type clip struct {
	name, start string
	take        int // where the camera's name was not noted
}

func clipOf(c film.Cut) clip {
	if c.Clip == "" {
		return clip{start: c.Start, take: c.Take}
	}
	return clip{name: c.Clip, start: c.Start}
}

// reels names the reel of every clip: the last eight letters and digits of its
// file's name, where cameras count, or TAKE001. Two clips never share a name,
// and none has one that means something else.
func reels(cuts []film.Cut) map[clip]string {
	taken := map[string]bool{"AX": true, "BL": true, "B": true, "AA": true, "V": true, "A": true, "NONE": true, "": true}
	out := map[clip]string{}
	for _, c := range cuts {
		k := clipOf(c)
		if _, ok := out[k]; ok {
			continue
		}
		name := reel(c.Clip)
		if c.Clip == "" {
			name = fmt.Sprintf("TAKE%03d", c.Take)
		}
		for n := 1; taken[name] || len(name) > ReelLength; n++ {
			name = fmt.Sprintf("R%03d", n)
		}
		taken[name], out[k] = true, name
	}
	return out
}

func reel(file string) string {
	file = file[strings.LastIndexAny(file, `/\`)+1:]
	stem := strings.TrimSuffix(file, path.Ext(file))
	name := strings.Map(func(r rune) rune {
		switch {
		case r >= 'a' && r <= 'z':
			return r - 'a' + 'A'
		case r >= 'A' && r <= 'Z', r >= '0' && r <= '9', r == '_':
			return r
		}
		return -1
	}, stem)
	return name[max(0, len(name)-ReelLength):]
}
