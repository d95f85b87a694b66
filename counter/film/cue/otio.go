package cue

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strconv"
	"strings"

	"crochet/tallyturn/counter/film"
	"crochet/tallyturn/counter/film/timecode"
)

// writeOTIO writes a timeline in the JSON of OpenTimelineIO. Names and fields of
// its schemas are written from memory of the published ones.
//
// A clip's source_range begins where its footage does and is as long as it is
// on the screen; where that is not as long as it was filmed, a LinearTimeWarp
// says by how much. Times in a clip (its markers) count from the same place.
// The exact times, in ms, are in the metadata.
func writeOTIO(j job) ([]byte, error) {
	events, err := j.events()
	if err != nil {
		return nil, err
	}
	track := otioTrack{Schema: "Track.1", Name: "V1", Kind: "Video", Enabled: true,
		Effects: []otioWarp{}, Markers: []otioMarker{}, Children: []otioClip{}}
	for _, e := range events {
		track.Children = append(track.Children, j.otioClip(e))
	}
	stack := otioStack{Schema: "Stack.1", Name: "tracks", Enabled: true,
		Effects: []otioWarp{}, Markers: []otioMarker{}, Children: []otioTrack{track}}
	for _, c := range rows(j.line) {
		from := j.Rate.Frames(c.from)
		stack.Markers = append(stack.Markers, otioMarker{Schema: "Marker.2", Name: c.title(), Color: markColour[film.RowBegun],
			Range: otioRange(j.Rate, from, j.Rate.Frames(c.to)-from)})
	}
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	err = enc.Encode(otioTimeline{Schema: "Timeline.1", Name: oneLine(j.list.Title), Tracks: stack})
	return b.Bytes(), err
}

func (j job) otioClip(e event) otioClip {
	s := e.cuts[0]
	clip := otioClip{Schema: "Clip.2", Name: nameOf(s.Cut), Enabled: true, Active: "DEFAULT_MEDIA",
		Range:   otioRange(j.Rate, e.in, e.to-e.from),
		Effects: []otioWarp{}, Markers: []otioMarker{},
		Media: map[string]otioMedia{"DEFAULT_MEDIA": media(s.Cut)},
		Meta: otioMeta{Ours: &otioOurs{Take: s.Take, From: s.From, To: s.To, ClapAt: s.ClapAt,
			FilmFrom: s.FilmFrom, FilmTo: s.FilmTo, Try: s.Again + 1, Unused: s.Unused, Says: oneLine(s.Say)}}}
	if s.Speed != film.AsFilmed {
		clip.Effects = append(clip.Effects, otioWarp{Schema: "LinearTimeWarp.1", Name: "Speed", Effect: "LinearTimeWarp",
			Scalar: double(float64(s.Speed) / film.AsFilmed)})
	}
	for _, m := range s.Marks {
		at := min(max(j.Rate.Frames(s.at(m.At)), e.from), e.to-1) - e.from
		clip.Markers = append(clip.Markers, otioMarker{Schema: "Marker.2", Name: markText(m), Color: markColour[m.Kind],
			Range: otioRange(j.Rate, e.in+at, 1)})
	}
	return clip
}

// media is where the footage is. Of a clip only the name is known: it is a
// reference to a file of that name beside the timeline.
func media(c film.Cut) otioMedia {
	name := oneLine(c.Clip)
	if name == "" {
		return otioMedia{Schema: "MissingReference.1", Name: fmt.Sprintf("Take %d", c.Take)}
	}
	url := fileURL(name)
	return otioMedia{Schema: "ExternalReference.1", Name: name, URL: &url}
}

// fileURL is a name as a relative reference to one file: all but letters,
// digits and what never means anything is written as its bytes (RFC 3986).
func fileURL(name string) string {
	var b bytes.Buffer
	for i := range len(name) {
		switch c := name[i]; {
		case c >= 'a' && c <= 'z', c >= 'A' && c <= 'Z', c >= '0' && c <= '9', c == '-', c == '_', c == '~',
			c == '.' && i > 0:
			b.WriteByte(c)
		default:
			fmt.Fprintf(&b, "%%%02X", c)
		}
	}
	return b.String()
}

// double is a number that a reader must take for a fraction, whole or not.
type double float64

func (d double) MarshalJSON() ([]byte, error) {
	s := strconv.FormatFloat(float64(d), 'f', -1, 64)
	if !strings.Contains(s, ".") {
		s += ".0"
	}
	return []byte(s), nil
}

type otioTime struct {
	Schema string `json:"OTIO_SCHEMA"`
	Rate   double `json:"rate"`
	Value  double `json:"value"`
}

type otioTimeRange struct {
	Schema   string   `json:"OTIO_SCHEMA"`
	Start    otioTime `json:"start_time"`
	Duration otioTime `json:"duration"`
}

func otioRange(r timecode.Rate, start, length int64) otioTimeRange {
	num, den := r.Fraction()
	at := func(frames int64) otioTime {
		return otioTime{"RationalTime.1", double(float64(num) / float64(den)), double(frames)}
	}
	return otioTimeRange{"TimeRange.1", at(start), at(length)}
}

type otioMarker struct {
	Schema  string        `json:"OTIO_SCHEMA"`
	Meta    otioMeta      `json:"metadata"`
	Name    string        `json:"name"`
	Color   string        `json:"color"`
	Comment string        `json:"comment"`
	Range   otioTimeRange `json:"marked_range"`
}

type otioWarp struct {
	Schema string   `json:"OTIO_SCHEMA"`
	Meta   otioMeta `json:"metadata"`
	Name   string   `json:"name"`
	Effect string   `json:"effect_name"`
	Scalar double   `json:"time_scalar"`
}

type otioMedia struct {
	Schema    string         `json:"OTIO_SCHEMA"`
	Meta      otioMeta       `json:"metadata"`
	Name      string         `json:"name"`
	Available *otioTimeRange `json:"available_range"` // not known
	Bounds    *struct{}      `json:"available_image_bounds"`
	URL       *string        `json:"target_url,omitempty"`
}

type otioClip struct {
	Schema  string               `json:"OTIO_SCHEMA"`
	Meta    otioMeta             `json:"metadata"`
	Name    string               `json:"name"`
	Range   otioTimeRange        `json:"source_range"`
	Effects []otioWarp           `json:"effects"`
	Markers []otioMarker         `json:"markers"`
	Enabled bool                 `json:"enabled"`
	Media   map[string]otioMedia `json:"media_references"`
	Active  string               `json:"active_media_reference_key"`
}

type otioTrack struct {
	Schema   string         `json:"OTIO_SCHEMA"`
	Meta     otioMeta       `json:"metadata"`
	Name     string         `json:"name"`
	Range    *otioTimeRange `json:"source_range"`
	Effects  []otioWarp     `json:"effects"`
	Markers  []otioMarker   `json:"markers"`
	Enabled  bool           `json:"enabled"`
	Children []otioClip     `json:"children"`
	Kind     string         `json:"kind"`
}

type otioStack struct {
	Schema   string         `json:"OTIO_SCHEMA"`
	Meta     otioMeta       `json:"metadata"`
	Name     string         `json:"name"`
	Range    *otioTimeRange `json:"source_range"`
	Effects  []otioWarp     `json:"effects"`
	Markers  []otioMarker   `json:"markers"`
	Enabled  bool           `json:"enabled"`
	Children []otioTrack    `json:"children"`
}

type otioTimeline struct {
	Schema string    `json:"OTIO_SCHEMA"`
	Meta   otioMeta  `json:"metadata"`
	Name   string    `json:"name"`
	Start  *otioTime `json:"global_start_time"`
	Tracks otioStack `json:"tracks"`
}

// otioMeta is the metadata of anything: an object, empty but for clips.
type otioMeta struct {
	Ours *otioOurs `json:"tallyturn,omitempty"`
}

type otioOurs struct {
	Take     int    `json:"take"`
	From     int64  `json:"from_ms"` // since the clap
	To       int64  `json:"to_ms"`
	ClapAt   int64  `json:"clap_at_ms"`
	FilmFrom int64  `json:"film_from_ms"`
	FilmTo   int64  `json:"film_to_ms"`
	Try      int    `json:"try"`
	Unused   bool   `json:"unused"`
	Says     string `json:"says"`
}
