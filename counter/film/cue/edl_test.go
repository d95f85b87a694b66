package cue

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"crochet/tallyturn/counter/film"
	"crochet/tallyturn/counter/film/timecode"
)

// edlEvent is an event as a strict reader has it, in frames.
type edlEvent struct {
	reel              string
	in, out, from, to int64
	speed             string // of its M2 line
	comments          []string
}

var (
	edlLine  = regexp.MustCompile(`^(\d{3})  ([A-Z0-9_ ]{8}) (V    ) (C   )     (\S{11}) (\S{11}) (\S{11}) (\S{11})$`)
	edlSpeed = regexp.MustCompile(`^M2   ([A-Z0-9_ ]{8})       (\d{3,5}\.\d)                (\S{11})$`)
)

// readEDL reads a list in the form of CMX 3600, strictly. The widths of the
// fields and the rules are from memory of the common accounts: events are
// numbered from 001 to 999, a reel has eight characters at most, timecode is of
// the rate that FCM says, out points come after in points, and footage is as
// long as its place in the film unless an M2 line tells its speed.
func readEDL(list string, r timecode.Rate) ([]edlEvent, error) {
	lines := strings.Split(strings.TrimSuffix(list, "\n"), "\n")
	fcm := "FCM: NON-DROP FRAME"
	if strings.Contains(r.String(), "df") && !strings.Contains(r.String(), "ndf") {
		fcm = "FCM: DROP FRAME"
	}
	if len(lines) < 3 || !strings.HasPrefix(lines[0], "TITLE: ") || lines[1] != fcm {
		return nil, fmt.Errorf("it begins with %q", lines[:2])
	}
	var events []edlEvent
	for _, line := range lines[2:] {
		switch {
		case line == "":
		case strings.HasPrefix(line, "* "):
			if len(events) == 0 {
				return nil, fmt.Errorf("%q is of no event", line)
			}
			last := &events[len(events)-1]
			last.comments = append(last.comments, line[2:])
		case edlSpeed.MatchString(line):
			m := edlSpeed.FindStringSubmatch(line)
			last := &events[len(events)-1]
			if in, err := r.Parse(m[3]); err != nil || in != last.in || strings.TrimRight(m[1], " ") != last.reel {
				return nil, fmt.Errorf("%q is not of its event (%v)", line, err)
			}
			last.speed = m[2]
		default:
			m := edlLine.FindStringSubmatch(line)
			if m == nil || m[1] != fmt.Sprintf("%03d", len(events)+1) {
				return nil, fmt.Errorf("%q is no event", line)
			}
			var frames [4]int64
			for i := range frames {
				var err error
				if frames[i], err = r.Parse(m[5+i]); err != nil {
					return nil, fmt.Errorf("%q: %v", line, err)
				}
				if strings.Contains(m[5+i], ";") != (fcm == "FCM: DROP FRAME") {
					return nil, fmt.Errorf("%q: %s is not as FCM says", line, m[5+i])
				}
			}
			events = append(events, edlEvent{reel: strings.TrimRight(m[2], " "),
				in: frames[0], out: frames[1], from: frames[2], to: frames[3]})
		}
	}
	return events, nil
}

// Of any list at any rate: the film of an edit list goes from one hour to its
// end without a gap and without an overlap, to the frame.
func TestAnyEDL(t *testing.T) {
	edl, _ := Named("edl")
	rapid.Check(t, func(t *rapid.T) {
		l := anyList(t)
		o := anyOptions(t, l)
		if o.Take = 0; !timecodesExist(l, o.Rate) {
			t.Skip("a clip begins where no frame is at this rate")
		}
		length := l.Length()
		if o.Source {
			used, err := footage(l, 0)
			if err != nil {
				t.Fatal(err)
			}
			length = used.Length()
		}
		out, _, err := Write(l, edl, o)
		if err != nil {
			if o.Rate.Frames(length) > 0 || err.Error() != "no cut is as long as a frame" {
				t.Fatal(err)
			}
			return
		}
		events, err := readEDL(string(out), o.Rate)
		if err != nil {
			t.Fatalf("%v\n%s", err, out)
		}
		hour, _ := o.Rate.Parse("01:00:00:00")
		end := hour
		for i, e := range events {
			if e.from != end || e.to <= e.from {
				t.Errorf("event %d goes from %d to %d, after %d", i+1, e.from, e.to, end)
			}
			end = e.to
			shown := (e.out - e.in + o.Rate.Day()) % o.Rate.Day() // midnight may lie in it
			if shown == 0 || e.speed == "" && shown != e.to-e.from {
				t.Errorf("event %d shows %d frames in %d", i+1, shown, e.to-e.from)
			}
			if o.Source && e.speed != "" {
				t.Errorf("event %d is filmed at speed %s", i+1, e.speed)
			}
			for _, c := range e.comments {
				if code, ok := strings.CutPrefix(c, "LOC: "); ok {
					if at, err := o.Rate.Parse(code[:11]); err != nil || at < e.from || at >= e.to {
						t.Errorf("event %d has a marker at %s (%v)", i+1, code, err)
					}
				}
			}
		}
		if want := hour + o.Rate.Frames(length); end != want {
			t.Errorf("the film ends at frame %d, not %d", end, want)
		}
	})
}

// timecodesExist tells whether the noted beginnings do at a rate.
func timecodesExist(l film.EditList, r timecode.Rate) bool {
	for _, c := range l.Cuts {
		if _, err := startOf(c, r); err != nil {
			return false
		}
	}
	return true
}

// Ten minutes of 29.97 drop are 17,982 frames and are written ;00 again, an hour
// 107,892 (published values; see the timecode package).
func TestEDLKeepsTheClock(t *testing.T) {
	l := film.EditList{Cuts: []film.Cut{
		{Take: 1, To: 599_999, FilmTo: 599_999, Speed: film.AsFilmed},
		{Take: 1, From: 599_999, To: 3_599_996, FilmFrom: 599_999, FilmTo: 3_599_996, Speed: film.AsFilmed},
	}}
	out := string(written(t, l, "edl", Options{Rate: rate(t, "29.97df")}))
	for _, want := range []string{"00:00:00;00 00:10:00;00 01:00:00;00 01:10:00;00", "00:10:00;00 01:00:00;00 01:10:00;00 02:00:00;00"} {
		if !strings.Contains(out, want) {
			t.Errorf("%s is not in\n%s", want, out)
		}
	}
	events, err := readEDL(out, rate(t, "29.97df"))
	if err != nil || events[0].to-events[0].from != 17_982 || events[1].to-events[0].from != 107_892 {
		t.Errorf("%v: %v", events, err)
	}
}

func TestEDLSpeeds(t *testing.T) {
	for _, c := range []struct {
		rate  string
		speed int64
		want  string
	}{
		{"25", 4_000, "100.0"}, {"25", 500, "012.5"}, {"24", 1_333, "032.0"}, {"29.97df", 2_000, "059.9"},
		{"23.976", 1_500, "036.0"}, {"60", 1_000_000, "60000.0"}, {"24", 10, "000.2"},
	} {
		l := film.EditList{Cuts: []film.Cut{{Take: 1, To: 60_000_000, FilmTo: film.FilmLength(60_000_000, c.speed), Speed: c.speed}}}
		if c.speed < film.AsFilmed {
			l.Cuts[0].To, l.Cuts[0].FilmTo = 60_000, film.FilmLength(60_000, c.speed)
		}
		events, err := readEDL(string(written(t, l, "edl", Options{Rate: rate(t, c.rate)})), rate(t, c.rate))
		if err != nil || events[0].speed != c.want {
			t.Errorf("%d thousandths of %s are %v (%v), want %s", c.speed, c.rate, events, err, c.want)
		}
	}
}

// A note says of each take once what the edit will have to find by eye.
func TestEDLNotes(t *testing.T) {
	l := pennant()
	for i := range l.Cuts[:3] {
		l.Cuts[i].ClapAt = 0
	}
	edl, _ := Named("edl")
	_, notes, err := Write(l, edl, Options{Rate: rate(t, "25")})
	if err != nil || !slices.Equal(notes, []string{
		"take 1: the clap's place in its clip is not noted, so the clip is taken to begin with it",
		"take 3: no camera file is noted; no starting timecode is noted, so it counts from 0; the clap's place in its clip is not noted, so the clip is taken to begin with it",
	}) {
		t.Errorf("%q, %v", notes, err)
	}
}

// many is a list of n cuts of a second, each right after the one before or of
// another take.
func many(n int, oneTake bool) film.EditList {
	var l film.EditList
	for i := range int64(n) {
		c := film.Cut{Take: 1, From: i * 1000, To: i*1000 + 1000, FilmFrom: i * 1000, FilmTo: i*1000 + 1000, Speed: film.AsFilmed,
			Row: fmt.Sprintf("Row %d", i+1)}
		if !oneTake {
			c.Take += int(i)
		}
		l.Cuts = append(l.Cuts, c)
	}
	return l
}

// apart leaves something out between the cuts of a list.
func apart(l film.EditList) film.EditList {
	for i := range l.Cuts {
		l.Cuts[i].From += int64(i)
		l.Cuts[i].To += int64(i)
	}
	return l
}

func TestEDLEventLimit(t *testing.T) {
	edl, _ := Named("edl")
	at25 := Options{Rate: rate(t, "25")}
	for _, c := range []struct {
		list   film.EditList
		events int
		err    string
	}{
		{many(999, true), 999, ""},
		{many(999, false), 999, ""},
		{many(1000, true), 1, ""}, // they are one stretch of one take
		{apart(many(1000, true)), 0, "the film has 1000 cuts"},
		{many(1000, false), 0, "the film has 1000 cuts, and an edit decision list holds 999"},
		{many(film.MaxTime/1000, false), 0, "the film has 86400 cuts"},
	} {
		out, _, err := Write(c.list, edl, at25)
		if c.err != "" {
			if err == nil || !strings.HasPrefix(err.Error(), c.err) {
				t.Errorf("%d cuts: %v", len(c.list.Cuts), err)
			}
			continue
		}
		if err != nil {
			t.Fatal(err)
		}
		if events, err := readEDL(string(out), at25.Rate); err != nil || len(events) != c.events {
			t.Errorf("%d cuts are %d events (%v), want %d", len(c.list.Cuts), len(events), err, c.events)
		}
	}
}

func TestReels(t *testing.T) {
	var l film.EditList
	names := []string{"A001_C0003.MP4", "b/mvi_0001.mov", `c:\dcim\MVI_0001.MOV`, "", "20260401_101530.mp4", "20260402_101530.mp4",
		"ax.mp4", "針.mov", ".mp4", "clip one (2).mts", "R001.mov", ""}
	want := []string{"01_C0003", "MVI_0001", "R001", "TAKE004", "1_101530", "2_101530", "R002", "R003", "R004", "LIPONE2", "R005", "TAKE012"}
	want[9] = "CLIPONE2"
	for i, n := range names {
		l.Cuts = append(l.Cuts, film.Cut{Take: i + 1, Clip: n})
	}
	reel := reels(l.Cuts)
	for i, c := range l.Cuts {
		if got := reel[clipOf(c)]; got != want[i] {
			t.Errorf("%q is %s, want %s", c.Clip, got, want[i])
		}
	}
}

func TestTooShortForAFrame(t *testing.T) {
	l := film.EditList{Cuts: []film.Cut{
		{Take: 1, To: 1_000, FilmTo: 1_000, Speed: film.AsFilmed, Row: "Row 1"},
		{Take: 1, From: 1_000, To: 1_010, FilmFrom: 1_000, FilmTo: 1_010, Speed: film.AsFilmed, Row: "Row 2"},
		{Take: 1, From: 1_010, To: 2_000, FilmFrom: 1_010, FilmTo: 2_000, Speed: film.AsFilmed, Row: "Row 3"},
	}}
	edl, _ := Named("edl")
	out, notes, err := Write(l, edl, Options{Rate: rate(t, "25")})
	if err != nil || !slices.Equal(notes, []string{
		"Row 2: 0.010 s of it are too short for a frame, and are left out",
		"take 1: no camera file is noted; no starting timecode is noted, so it counts from 0; the clap's place in its clip is not noted, so the clip is taken to begin with it",
	}) {
		t.Errorf("%q, %v", notes, err)
	}
	events, err := readEDL(string(out), rate(t, "25"))
	if err != nil || len(events) != 2 || events[0].to != events[1].from {
		t.Errorf("%v, %v", events, err)
	}
}
