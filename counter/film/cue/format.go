package cue

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"crochet/tallyturn/counter/film"
	"crochet/tallyturn/counter/film/timecode"
)

// Format is one way to hand a list over.
type Format struct {
	Name  string // what Write calls it
	About string // in half a line
	Frame bool   // it counts frames, so it needs a rate

	single bool // it has one line of time: in source time that of one take
	write  func(job) ([]byte, error)
}

// job is what a format is written from.
type job struct {
	list film.EditList
	line []span // the cuts on the line of time that was asked for
	Options
	notes *[]string
}

func (j job) note(format string, args ...any) {
	*j.notes = append(*j.notes, fmt.Sprintf(format, args...))
}

var formats = []Format{
	{Name: "table", About: "a table to read", write: writeTable},
	{Name: "csv", About: "the same for a spreadsheet (RFC 4180)", write: writeCSV},
	{Name: "vtt", About: "captions, WebVTT", single: true, write: writeVTT},
	{Name: "srt", About: "captions, SubRip", single: true, write: writeSRT},
	{Name: "chapters", About: "a chapter list for a video page", single: true, write: writeChapters},
	{Name: "ffmetadata", About: "chapters as ffmpeg takes them in (FFMETADATA1)", single: true, write: writeFFMetadata},
	{Name: "edl", About: "an edit decision list, CMX 3600", Frame: true, write: writeEDL},
	{Name: "otio", About: "a timeline, OpenTimelineIO", Frame: true, write: writeOTIO},
}

// Formats are all there are.
func Formats() []Format { return slices.Clone(formats) }

// Names are what Formats are called, in one line.
func Names() string {
	names := make([]string, len(formats))
	for i, f := range formats {
		names[i] = f.Name
	}
	return strings.Join(names, ", ")
}

// Named is the format of that name.
func Named(name string) (Format, error) {
	for _, f := range formats {
		if f.Name == name {
			return f, nil
		}
	}
	return Format{}, fmt.Errorf("there is no format %q; there are %s", name, Names())
}

// Options are how a list is written.
type Options struct {
	Rate   timecode.Rate // of the film; a table without one is told in ms
	Source bool          // footage as it was filmed, not as the film shows it
	Take   int           // only this one, or 0; with Source
}

// Write writes a list in a format. Notes say what came out other than one might
// expect: words that are too many for their time, cuts too short for a frame.
//
// In source time the list's footage is taken as it was filmed, each stretch
// once, one take after the other. A format with one line of time (captions,
// chapters) then tells that of one take, from the first frame of its clip
// where it is noted how far into the clip the clap is, or else from the clap.
func Write(l film.EditList, f Format, o Options) (out []byte, notes []string, err error) {
	if f.write == nil {
		return nil, nil, errors.New("no format was chosen")
	}
	if err := l.Check(); err != nil {
		return nil, nil, err
	}
	if f.Frame && o.Rate.IsZero() {
		return nil, nil, fmt.Errorf("%s counts frames and has to be told the rate: one of %s", f.Name, timecode.Names())
	}
	line := filmLine(l)
	if o.Source {
		if l, err = footage(l, o.Take); err != nil {
			return nil, nil, err
		}
		if line = filmLine(l); f.single {
			if line, err = sourceLine(l); err != nil {
				return nil, nil, err
			}
		}
	} else if o.Take != 0 {
		return nil, nil, errors.New("a take is chosen in source time only")
	}
	if len(l.Cuts) == 0 {
		return nil, nil, errors.New("nothing has been filmed yet")
	}
	out, err = f.write(job{l, line, o, &notes})
	return out, notes, err
}
