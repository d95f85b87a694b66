package cue

import (
	"bytes"
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"crochet/tallyturn/counter/film"
)

// outside runs a program from outside, or skips the test where it is missing.
func outside(t *testing.T, name string, args ...string) []byte {
	t.Helper()
	if _, err := exec.LookPath(name); err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatalf("%s is missing", name)
		}
		t.Skipf("%s is missing", name)
	}
	var said bytes.Buffer
	c := exec.Command(name, args...)
	c.Stderr = &said
	out, err := c.Output()
	if err != nil {
		t.Fatalf("%s %s: %v\n%s", name, strings.Join(args, " "), err, said.String())
	}
	return out
}

// hostileList is the pennant with hostile text in every field that may hold it.
func hostileList() film.EditList {
	l := pennant()
	l.Title = "a; b = c # d \\ e\n[CHAPTER]\x00"
	for i, s := range hostile {
		c := film.Cut{Take: 10 + i, From: 1_000, To: 13_000, FilmFrom: l.Length(), FilmTo: l.Length() + 12_000, Speed: film.AsFilmed,
			Clip: s, Piece: s, Row: "Row 1 " + s, Say: s, Marks: []film.Mark{{At: 2_000, Kind: film.OwnWord, Text: s}}}
		l.Cuts = append(l.Cuts, c)
	}
	return l
}

// ffprobe reads captions back as captions, at the times they were given. It
// tells times of both formats to the millisecond.
func TestCaptionsReadByFFprobe(t *testing.T) {
	l := hostileList()
	ours := job{list: l, line: filmLine(l), notes: new([]string)}.captions()
	for format, codec := range map[string]string{"vtt": "webvtt", "srt": "subrip"} {
		path := filepath.Join(t.TempDir(), "film."+format)
		if err := os.WriteFile(path, written(t, l, format, Options{}), 0o600); err != nil {
			t.Fatal(err)
		}
		var probe struct {
			Streams []struct {
				Codec string `json:"codec_name"`
			}
			Packets []struct {
				From string `json:"pts_time"`
				For  string `json:"duration_time"`
			}
		}
		if err := json.Unmarshal(outside(t, "ffprobe", "-v", "error", "-show_streams", "-show_packets", "-of", "json", path), &probe); err != nil {
			t.Fatal(err)
		}
		if len(probe.Streams) != 1 || probe.Streams[0].Codec != codec {
			t.Errorf("%s: the streams are %v", format, probe.Streams)
		}
		if len(probe.Packets) != len(ours) {
			t.Fatalf("%s: %d captions are read as %d", format, len(ours), len(probe.Packets))
		}
		for i, c := range ours {
			if p := probe.Packets[i]; p.From != seconds(c.from)+"000" || p.For != seconds(c.to-c.from)+"000" {
				t.Errorf("%s: caption %d from %d to %d is read from %s for %s", format, i+1, c.from, c.to, p.From, p.For)
			}
		}
	}
}

// ffmpeg turns WebVTT into SubRip and the other way round, and the text comes
// out as it went in.
func TestCaptionTextThroughFFmpeg(t *testing.T) {
	l := hostileList()
	dir := t.TempDir()
	vtt, out := filepath.Join(dir, "film.vtt"), filepath.Join(dir, "out.vtt")
	if err := os.WriteFile(vtt, written(t, l, "vtt", Options{}), 0o600); err != nil {
		t.Fatal(err)
	}
	outside(t, "ffmpeg", "-v", "error", "-nostdin", "-i", vtt, "-c", "copy", out)
	data, err := os.ReadFile(out)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range (job{list: l, line: filmLine(l), notes: new([]string)}).captions() {
		if text := vttEscape.Replace(strings.Join(c.block, "\n")); !bytes.Contains(data, []byte(text+"\n")) {
			t.Errorf("%q is not among what ffmpeg made of it", text)
		}
	}
}

// ffprobe reads the chapters and titles of FFMETADATA1 back, whatever is in
// them.
func TestChaptersReadByFFprobe(t *testing.T) {
	l := hostileList()
	path := filepath.Join(t.TempDir(), "film.ffmetadata")
	if err := os.WriteFile(path, written(t, l, "ffmetadata", Options{}), 0o600); err != nil {
		t.Fatal(err)
	}
	type tags struct{ Title string }
	var probe struct {
		Chapters []struct {
			Start, End int64
			Base       string `json:"time_base"`
			Tags       tags
		}
		Format struct{ Tags tags }
	}
	if err := json.Unmarshal(outside(t, "ffprobe", "-v", "error", "-f", "ffmetadata", "-show_chapters", "-show_format", "-of", "json", path), &probe); err != nil {
		t.Fatal(err)
	}
	if want := oneLine(l.Title); probe.Format.Tags.Title != want {
		t.Errorf("the title is read as %q, not %q", probe.Format.Tags.Title, want)
	}
	want := rows(filmLine(l))
	if len(probe.Chapters) != len(want) {
		t.Fatalf("%d chapters are read as %d:\n%s", len(want), len(probe.Chapters), written(t, l, "ffmetadata", Options{}))
	}
	for i, c := range want {
		got := probe.Chapters[i]
		if got.Start != c.from || got.End != c.to || got.Base != "1/1000" || strings.TrimSuffix(got.Tags.Title, " ") != c.title() {
			t.Errorf("%q from %d to %d is read as %+v", c.title(), c.from, c.to, got)
		}
	}
}
