package cue

import (
	"encoding/json"
	"fmt"
	"maps"
	"net/url"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"crochet/tallyturn/counter/film"
)

// otioFields are the fields of each schema of OpenTimelineIO that is written,
// with the kind of JSON value or the schema that each holds; "?" may be null. From
// memory of the published serialised schema (Timeline.1, Stack.1, Track.1,
// Clip.2, Marker.2, LinearTimeWarp.1, the media references and opentime).
var otioFields = map[string]map[string]string{
	"Timeline.1":          {"metadata": "object", "name": "string", "global_start_time": "?RationalTime.1", "tracks": "Stack.1"},
	"Stack.1":             {"metadata": "object", "name": "string", "source_range": "?TimeRange.1", "effects": "[]LinearTimeWarp.1", "markers": "[]Marker.2", "enabled": "bool", "children": "[]Track.1"},
	"Track.1":             {"metadata": "object", "name": "string", "source_range": "?TimeRange.1", "effects": "[]LinearTimeWarp.1", "markers": "[]Marker.2", "enabled": "bool", "children": "[]Clip.2", "kind": "string"},
	"Clip.2":              {"metadata": "object", "name": "string", "source_range": "TimeRange.1", "effects": "[]LinearTimeWarp.1", "markers": "[]Marker.2", "enabled": "bool", "media_references": "media", "active_media_reference_key": "string"},
	"Marker.2":            {"metadata": "object", "name": "string", "color": "string", "comment": "string", "marked_range": "TimeRange.1"},
	"TimeRange.1":         {"start_time": "RationalTime.1", "duration": "RationalTime.1"},
	"RationalTime.1":      {"rate": "double", "value": "double"},
	"LinearTimeWarp.1":    {"metadata": "object", "name": "string", "effect_name": "string", "time_scalar": "double"},
	"ExternalReference.1": {"metadata": "object", "name": "string", "available_range": "?TimeRange.1", "available_image_bounds": "?none", "target_url": "string"},
	"MissingReference.1":  {"metadata": "object", "name": "string", "available_range": "?TimeRange.1", "available_image_bounds": "?none"},
}

var otioColours = strings.Fields("PINK RED ORANGE YELLOW GREEN CYAN BLUE PURPLE MAGENTA BLACK WHITE")

// checkOTIO holds a value against the schema it should be of.
func checkOTIO(v any, want string) error {
	if rest, ok := strings.CutPrefix(want, "?"); ok {
		if v == nil {
			return nil
		}
		want = rest
	}
	if rest, ok := strings.CutPrefix(want, "[]"); ok {
		list, ok := v.([]any)
		if !ok {
			return fmt.Errorf("%v is no list", v)
		}
		for i, v := range list {
			if err := checkOTIO(v, rest); err != nil {
				return fmt.Errorf("%d: %w", i, err)
			}
		}
		return nil
	}
	var ok bool
	switch want {
	case "string":
		_, ok = v.(string)
	case "bool":
		_, ok = v.(bool)
	case "object":
		_, ok = v.(map[string]any)
	case "double":
		n, is := v.(json.Number)
		ok = is && strings.Contains(n.String(), ".")
	case "media":
		refs, is := v.(map[string]any)
		ok = is && len(refs) == 1 && refs["DEFAULT_MEDIA"] != nil
		for _, ref := range refs {
			schema, _ := ref.(map[string]any)["OTIO_SCHEMA"].(string)
			if !strings.HasSuffix(schema, "Reference.1") {
				return fmt.Errorf("%q is no media reference", schema)
			}
			if err := checkOTIO(ref, schema); err != nil {
				return err
			}
		}
	default:
		return checkObject(v, want)
	}
	if !ok {
		return fmt.Errorf("%v is no %s", v, want)
	}
	return nil
}

func checkObject(v any, schema string) error {
	object, ok := v.(map[string]any)
	fields, known := otioFields[schema]
	if !ok || !known || object["OTIO_SCHEMA"] != schema {
		return fmt.Errorf("%v is no %s", v, schema)
	}
	want := append(slices.Collect(maps.Keys(fields)), "OTIO_SCHEMA")
	slices.Sort(want)
	if got := slices.Sorted(maps.Keys(object)); !slices.Equal(got, want) {
		return fmt.Errorf("%s has %s, not %s", schema, got, want)
	}
	for name, kind := range fields {
		if err := checkOTIO(object[name], kind); err != nil {
			return fmt.Errorf("%s.%s: %w", schema, name, err)
		}
	}
	if colour, ok := object["color"].(string); ok && !slices.Contains(otioColours, colour) {
		return fmt.Errorf("%q is no colour of a marker", colour)
	}
	return nil
}

// Any list at any rate is of the schema; its clips follow one another through
// the film, and their markers are in them.
func TestAnyOTIO(t *testing.T) {
	otio, _ := Named("otio")
	rapid.Check(t, func(t *rapid.T) {
		l := anyList(t)
		o := anyOptions(t, l)
		if !timecodesExist(l, o.Rate) {
			t.Skip("a clip begins where no frame is at this rate")
		}
		out, _, err := Write(l, otio, o)
		if err != nil {
			if err.Error() == "no cut is as long as a frame" {
				return
			}
			t.Fatal(err)
		}
		var v any
		d := json.NewDecoder(strings.NewReader(string(out)))
		d.UseNumber()
		if err := d.Decode(&v); err != nil {
			t.Fatal(err)
		}
		if err := checkOTIO(v, "Timeline.1"); err != nil {
			t.Fatalf("%v\n%s", err, out)
		}
		var timeline otioTimeline
		if err := json.Unmarshal(out, &timeline); err != nil {
			t.Fatal(err)
		}
		if o.Source {
			if l, err = footage(l, o.Take); err != nil {
				t.Fatal(err)
			}
		}
		num, den := o.Rate.Fraction()
		sum := double(0)
		for _, c := range timeline.Tracks.Children[0].Children {
			r := c.Range
			if r.Start.Rate != double(float64(num)/float64(den)) || r.Duration.Value < 1 {
				t.Errorf("%s has the range %v", c.Name, r)
			}
			sum += r.Duration.Value
			for _, m := range c.Markers {
				if at := m.Range.Start.Value; at < r.Start.Value || at >= r.Start.Value+r.Duration.Value {
					t.Errorf("%s: a marker at %v is not in %v", c.Name, at, r)
				}
			}
			if len(c.Effects) > 0 == (c.Meta.Ours.To-c.Meta.Ours.From == c.Meta.Ours.FilmTo-c.Meta.Ours.FilmFrom) && c.Meta.Ours.To-c.Meta.Ours.From > 1000 {
				t.Errorf("%s: %d effects, and metadata %+v", c.Name, len(c.Effects), c.Meta.Ours)
			}
			for _, ref := range c.Media {
				if ref.URL == nil {
					continue
				}
				u, err := url.Parse(*ref.URL)
				if err != nil || u.IsAbs() || u.Path != ref.Name || strings.Contains(*ref.URL, "/") {
					t.Errorf("%q is referred to as %q", ref.Name, *ref.URL)
				}
			}
		}
		if want := o.Rate.Frames(l.Length()); sum != double(want) {
			t.Errorf("the clips are %v frames, the film %d", sum, want)
		}
	})
}

func TestFileURL(t *testing.T) {
	for in, want := range map[string]string{
		"A001_0412.MOV": "A001_0412.MOV", "a b.mp4": "a%20b.mp4", "..": "%2E.", "../x": "%2E.%2Fx", "c:\\x": "c%3A%5Cx",
		"é#?%": "%C3%A9%23%3F%25",
	} {
		if got := fileURL(in); got != want {
			t.Errorf("%q is referred to as %q, want %q", in, got, want)
		}
	}
}

func TestOTIOSpeeds(t *testing.T) {
	var timeline otioTimeline
	if err := json.Unmarshal(written(t, pennant(), "otio", Options{Rate: rate(t, "25")}), &timeline); err != nil {
		t.Fatal(err)
	}
	var speeds []double
	for _, c := range timeline.Tracks.Children[0].Children {
		speed := double(1)
		for _, e := range c.Effects {
			speed = e.Scalar
		}
		speeds = append(speeds, speed)
	}
	if want := []double{1, 1, 4, 1, 20, 0.5}; !slices.Equal(speeds, want) {
		t.Errorf("speeds %v, want %v", speeds, want)
	}
	// Ten hours and 6.48 s into the day at 25: the clip's beginning, its clap
	// and four seconds.
	if at := timeline.Tracks.Children[0].Children[0].Range.Start.Value; at != 10*90_000+162 {
		t.Errorf("the first clip begins at frame %v", at)
	}
	if rows := timeline.Tracks.Markers; len(rows) != 4 || rows[1].Name != "Strip: Row 2" {
		t.Errorf("the rows are %v", rows)
	}
	if film.AsFilmed != 1000 {
		t.Error("a speed is not in thousandths")
	}
}
