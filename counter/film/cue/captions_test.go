package cue

import (
	"bytes"
	"slices"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	astisub "github.com/asticode/go-astisub"
	"pgregory.net/rapid"

	"crochet/tallyturn/counter/film"
	"crochet/tallyturn/counter/film/timecode"
)

var rateNames = strings.Split(timecode.Names(), ", ")

func rateNamed(s string) (timecode.Rate, error) { return timecode.ParseRate(s) }

func TestSense(t *testing.T) {
	for _, c := range []struct {
		text string
		want string // / ends a line, // a caption
	}{
		{"", ""},
		{"Fasten off.", "Fasten off."},
		{"Row two. Chain one and turn. Single crochet in each of the next two stitches, then half double crochet in each of the next two stitches; do this five times in all.",
			"Row two. Chain one and turn. // Single crochet / in each of the next two stitches, // then half double crochet / in each of the next two stitches; // do this five times in all."},
		{"Round three. Single crochet in the next stitch, then two single crochet in the next stitch. Do that six times around. You have eighteen stitches.",
			"Round three. / Single crochet in the next stitch, // then two single crochet / in the next stitch. // Do that six times around. / You have eighteen stitches."},
		// A number stays with its stitches, and one in words in one piece.
		{"This row and the one after it come to one hundred and twenty-five stitches",
			"This row and the one after it come / to one hundred and twenty-five stitches"},
		{strings.Repeat("y", 50), strings.Repeat("y", 42) + " / " + strings.Repeat("y", 8)},
	} {
		var parts []string
		for _, b := range blocks(c.text, LineLength, Lines) {
			parts = append(parts, strings.Join(b, " / "))
		}
		if got := strings.Join(parts, " // "); got != c.want {
			t.Errorf("%s\n got %s\nwant %s", c.text, got, c.want)
		}
	}
}

// A number is never parted from what it counts.
func TestNumbersKeepTheirStitches(t *testing.T) {
	phrases := []string{"three stitches", "twenty-one chain", "2 times,", "in the", "and then", "crochet around.",
		"one hundred and five stitches", "row two,", "Rounds two through nine,", "the twelfth chain"}
	rapid.Check(t, func(t *rapid.T) {
		text := strings.Join(rapid.SliceOfN(rapid.SampledFrom(phrases), 1, 30).Draw(t, "phrases"), " ") + " end"
		for _, b := range blocks(text, LineLength, Lines) {
			for _, line := range b {
				words := strings.Fields(line)
				switch last := words[len(words)-1]; last {
				case "three", "twenty-one", "2", "one", "hundred", "row", "through":
					t.Errorf("%q is parted after %q", text, line)
				}
			}
		}
	})
}

// Of any list, in film time and in that of a take: captions are read back by
// the strict reader as what was said, in order, within the film, and none is on
// with another; they keep to the limits, or a note says that they do not.
func TestCaptionsOfAnyList(t *testing.T) {
	vtt, _ := Named("vtt")
	rapid.Check(t, func(t *rapid.T) {
		l := anyList(t)
		o := anyOptions(t, l)
		out, notes, err := Write(l, vtt, o)
		if err != nil {
			t.Fatal(err)
		}
		cues, err := readVTT(string(out))
		if err != nil {
			t.Fatalf("%v\n%s", err, out)
		}
		cuts, length := l.Cuts, l.Length()
		if o.Source {
			used, err := footage(l, o.Take)
			if err != nil {
				t.Fatal(err)
			}
			cuts = used.Cuts
			length = cuts[len(cuts)-1].To + cuts[0].ClapAt
		}
		var end int64
		var got, want strings.Builder
		for _, c := range cues {
			shown, chars := c.to-c.from, int64(len(c.lines)-1)
			for _, line := range c.lines {
				chars += int64(utf8.RuneCountInString(line))
				if n := utf8.RuneCountInString(line); n > LineLength {
					t.Errorf("a line of %d characters: %q", n, line)
				}
				got.WriteString(strings.ReplaceAll(line, " ", ""))
			}
			if c.from < end || c.to > length {
				t.Errorf("a caption from %d to %d, after one to %d, in a film of %d", c.from, c.to, end, length)
			}
			end = c.to
			if shown > ShownMost {
				t.Errorf("a caption is on for %d ms", shown)
			}
			if len(notes) == 0 && (len(c.lines) > Lines || shown < ShownLeast || chars*1000 > ReadFast*shown) {
				t.Errorf("no note says that %q is on for %d ms", c.lines, shown)
			}
		}
		for _, c := range cuts {
			want.WriteString(strings.ReplaceAll(oneLine(c.Say), " ", ""))
		}
		if got.String() != want.String() {
			t.Errorf("said is\n%s\nnot\n%s", got.String(), want.String())
		}
	})
}

// Three captions of which the first and last take 918 ms to read with their
// gap, and the second 20 characters at 17 a second, 1177 ms, and 84.
func TestShare(t *testing.T) {
	parts := []block{{"one."}, {"twenty characters it"}, {"two."}}
	for _, c := range []struct {
		said, window int64
		want         []int64
	}{
		{0, 60_000, []int64{918, 1261, 918}},         // as long as they are read
		{28_000, 60_000, []int64{4000, 20000, 4000}}, // as long as they are said
		{28_000, 28_000, []int64{4000, 20000, 4000}}, // and just so
		{2_800, 3_300, []int64{918, 1464, 918}},      // of what is over, as more is said
		{28_000, 15_549, []int64{2459, 10630, 2460}}, // half of what is over
		{2_800, 1_549, []int64{459, 630, 460}},       // half of what it takes
	} {
		got := share(parts, c.said, c.window)
		if !slices.Equal(got, c.want) {
			t.Errorf("%d ms said in %d: %d, want %d", c.said, c.window, got, c.want)
		}
	}
}

func TestSRTText(t *testing.T) {
	for in, want := range map[string]string{
		"3 < 4 & so on": "3 <~ 4 & so on", "<b>": "<~b>", `{\an8}`: `{~\an8}`, "a --> b": "a --~> b", "&lt;": "&~lt;", "&#60;": "&~#60;",
	} {
		if got := strings.ReplaceAll(srtText(in), wordJoiner, "~"); got != want {
			t.Errorf("%q is written %q, want %q", in, got, want)
		}
	}
}

// Marks stay with the letter that they are on where a word has to be cut.
func TestCutWords(t *testing.T) {
	got := cutWords([]string{"abcde\u0301f", "\u0301\u0301\u0301\u0301\u0301\u0301"}, 5)
	want := []string{"abcd", "e\u0301f", "\u0301", "\u0301\u0301\u0301\u0301\u0301"}
	if !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
}

// Speech that has its time keeps all the limits, two frames between captions
// among them, and needs no note.
func TestCaptionsInTime(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		words := rapid.SliceOfN(rapid.SampledFrom(plainWords), 1, 80).Draw(t, "words")
		text := strings.Join(words, " ")
		perMinute := rapid.Int64Range(110, 160).Draw(t, "words a minute")
		said := int64(len(words)) * 60_000 / perMinute
		length := said + int64(len(words))*ShownLeast
		l := film.EditList{Cuts: []film.Cut{{Take: 1, To: length, FilmTo: length, Speed: film.AsFilmed, Say: text, SayFor: said}}}
		var notes []string
		captions := job{list: l, line: filmLine(l), notes: &notes}.captions()
		if len(notes) > 0 {
			t.Errorf("%q said in %d ms: %s", text, said, notes)
		}
		for i, c := range captions {
			if i > 0 && c.from-captions[i-1].to < Gap {
				t.Errorf("between captions %d and %d are %d ms", i, i+1, c.from-captions[i-1].to)
			}
		}
	})
}

func TestCaptionNotes(t *testing.T) {
	one := func(ms, said int64, say string) film.EditList {
		return film.EditList{Cuts: []film.Cut{{Take: 1, To: ms, FilmTo: ms, Speed: film.AsFilmed, Row: "Row 1", Say: say, SayFor: said}}}
	}
	long := strings.TrimSpace(strings.Repeat("single crochet in the next stitch, ", 8))
	for _, c := range []struct {
		list film.EditList
		want []string
	}{
		{one(60_000, 20_000, long), nil},
		{one(60_000, 0, " \n "), []string{"nothing is said in it, so it has no captions"}},
		{one(15_000, 20_000, long), []string{"Row 1: its words take 20.000 s, and there are 15.000 s for them"}},
		{one(8_000, 8_000, long), []string{"Row 1: its captions would have to be read at 37 characters a second; 20 is fast"}},
		{one(50, 0, long), []string{"Row 1: its words take 18.600 s, and there are 0.050 s for them",
			"Row 1: its captions would have to be read at 5580 characters a second; 20 is fast"}},
		{one(500, 0, "Turn."), []string{"Row 1: a caption is on the screen for 0.416 s; 0.834 s is the least"}},
	} {
		vtt, _ := Named("vtt")
		_, notes, err := Write(c.list, vtt, Options{})
		if err != nil || !slices.Equal(notes, c.want) {
			t.Errorf("got %q (%v), want %q", notes, err, c.want)
		}
	}
}

// A library that has nothing to do with ours reads both formats as the same
// captions, and hostile text in them as text.
func TestCaptionsReadByALibrary(t *testing.T) {
	l := pennant()
	for _, s := range hostile {
		c := film.Cut{Take: 4, From: l.Length(), To: l.Length() + 10_000, Speed: film.AsFilmed, Row: s, Say: "Say " + s}
		c.FilmFrom, c.FilmTo = c.From, c.To
		l.Cuts = append(l.Cuts, c)
	}
	l.Title = "a --> b"
	var vtt, srt *astisub.Subtitles
	var err error
	if vtt, err = astisub.ReadFromWebVTT(bytes.NewReader(written(t, l, "vtt", Options{}))); err != nil {
		t.Fatal(err)
	}
	if srt, err = astisub.ReadFromSRT(bytes.NewReader(written(t, l, "srt", Options{}))); err != nil {
		t.Fatal(err)
	}
	ours := job{list: l, line: filmLine(l), notes: new([]string)}.captions()
	if len(vtt.Items) != len(ours) || len(srt.Items) != len(ours) {
		t.Fatalf("%d captions are read as %d and %d", len(ours), len(vtt.Items), len(srt.Items))
	}
	for i, c := range ours {
		for format, item := range map[string]*astisub.Item{"vtt": vtt.Items[i], "srt": srt.Items[i]} {
			from, to := time.Duration(c.from)*time.Millisecond, time.Duration(c.to)*time.Millisecond
			if item.StartAt != from || item.EndAt != to {
				t.Errorf("%q is read from %v to %v, not %v to %v", c.block, item.StartAt, item.EndAt, from, to)
			}
			got, want := strings.TrimRight(itemText(item), "\n"), strings.Join(c.block, "\n")
			if format == "vtt" {
				// Of the escapes it leaves &gt; as it is, and takes others off
				// twice; the strict reader sees to them.
				got, want = unescape.Replace(got), unescape.Replace(want)
			}
			if got != want {
				t.Errorf("%s: %q is read as %q", format, want, got)
			}
		}
	}
}

var unescape = strings.NewReplacer("&amp;", "&", "&lt;", "<", "&gt;", ">")

func itemText(item *astisub.Item) string {
	var lines []string
	for _, l := range item.Lines {
		var b strings.Builder
		for _, part := range l.Items {
			b.WriteString(part.Text)
		}
		lines = append(lines, strings.ReplaceAll(b.String(), wordJoiner, ""))
	}
	return strings.Join(lines, "\n")
}
