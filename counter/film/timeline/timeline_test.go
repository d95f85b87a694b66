package timeline_test

import (
	"encoding/xml"
	"errors"
	"io"
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"
	"pgregory.net/rapid"

	"crochet/tallyturn/counter"
	"crochet/tallyturn/counter/film"
	"crochet/tallyturn/counter/film/timeline"
	"crochet/tallyturn/pattern"
)

const urchin = `Urchin <b>&"quoted"</b>

US terms

Body
Rnd 1: 6 sc in magic ring. (6)
Rnds 2-4: Sc in each st around. (6)
`

func filmed(log []counter.Event) *film.Session {
	return film.Of(counter.NewPlan(pattern.Read(urchin).Prove(pattern.Options{})), log)
}

// hostile is text that would do harm if it were more than text.
const hostile = "\x1b[2J\u202e</text><script>alert(1)</script>]]>&\x00\xff ẍ"

func hostileLog() []counter.Event {
	return []counter.Event{
		{Kind: counter.Open}, {Kind: counter.BeginTake}, {Kind: counter.Tap, N: 6, At: 9000},
		{Kind: counter.Remark, At: 9500, Text: hostile}, {Kind: counter.Finish, N: 7, At: 10_000},
		{Kind: counter.Tap, N: 2, At: 12_000}, {Kind: counter.FromHere, At: 15_000},
		{Kind: counter.Camera, At: 16_000, Text: hostile}, {Kind: counter.Timecode, At: 16_000, Text: hostile},
		{Kind: counter.Open, At: 20_000},
	}
}

func TestHostileTextIsText(t *testing.T) {
	s := filmed(hostileLog())
	text := strings.Join(timeline.Text(s, 200), "\n")
	picture := timeline.SVG(s, hostile)
	for _, out := range []string{text, picture} {
		for _, r := range out {
			if r < ' ' && r != '\n' || r == 0x202e || r == 0x7f {
				t.Errorf("%U is in it", r)
			}
		}
		if !strings.Contains(out, "␛[2J") || !strings.Contains(out, "counted 7 for 6") || !strings.Contains(out, "broke off") {
			t.Errorf("something is missing:\n%s", out)
		}
	}
	if strings.Contains(picture, "<script") {
		t.Error("a tag came through")
	}
	elements := map[string]int{}
	for dec := xml.NewDecoder(strings.NewReader(picture)); ; {
		tok, err := dec.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		if e, ok := tok.(xml.StartElement); ok {
			elements[e.Name.Local]++
		}
	}
	for name := range elements {
		switch name {
		case "svg", "title", "style", "defs", "pattern", "rect", "text", "path":
		default:
			t.Errorf("an element %q", name)
		}
	}
	if elements["rect"] < 6 {
		t.Errorf("%d rectangles", elements["rect"])
	}
}

// No line is wider than it may be, whatever was filmed; and nothing that is
// not used is drawn as if it were.
func TestAnyTimeline(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at := int64(0)
		log := []counter.Event{{Kind: counter.Open}}
		kinds := []counter.Kind{counter.Tap, counter.Tap, counter.Finish, counter.BeginTake, counter.EndTake, counter.Remark, counter.FromHere, counter.Open, counter.Back}
		for range rapid.IntRange(0, 40).Draw(t, "events") {
			at += rapid.Int64Range(0, 400_000).Draw(t, "pass")
			e := counter.Event{Kind: rapid.SampledFrom(kinds).Draw(t, "kind"), At: at, N: rapid.Int64Range(1, 6).Draw(t, "n")}
			if e.Kind == counter.Remark {
				e.N, e.Text = 0, rapid.SampledFrom([]string{"", "close-up", "横", hostile}).Draw(t, "word")
			}
			log = append(log, e)
		}
		s := filmed(log)
		width := rapid.IntRange(0, 250).Draw(t, "width")
		unused := false
		for _, x := range s.Tries {
			unused = unused || x.Unused != film.Used
		}
		lines := timeline.Text(s, width)
		for _, l := range lines {
			if w := ansi.StringWidth(l); w > max(width, timeline.Narrowest) || strings.ContainsAny(l, "\n\x1b") {
				t.Fatalf("%d columns of %d: %q", w, width, l)
			}
		}
		if got := strings.Contains(strings.Join(lines, "\n"), "╌ not used"); got != unused {
			t.Fatalf("not used %v, said %v\n%s", unused, got, strings.Join(lines, "\n"))
		}
		if err := xml.Unmarshal([]byte(timeline.SVG(s, "x")), new(struct{})); err != nil {
			t.Fatal(err)
		}
	})
}

func TestNothingFilmed(t *testing.T) {
	s := filmed(nil)
	if got := timeline.Text(s, 80); len(got) != 1 || got[0] != "Nothing was filmed yet." {
		t.Errorf("%q", got)
	}
	if !strings.Contains(timeline.SVG(s, "x"), "Nothing was filmed yet.") {
		t.Error("the picture does not say so")
	}
}

func TestClock(t *testing.T) {
	for ms, want := range map[int64]string{-5: "0:00", 999: "0:00", 59_999: "0:59", 60_000: "1:00", 3_599_999: "59:59", 3_661_000: "1:01:01", 86_400_000: "24:00:00"} {
		if got := timeline.Clock(ms); got != want {
			t.Errorf("%d: %s, want %s", ms, got, want)
		}
	}
}
