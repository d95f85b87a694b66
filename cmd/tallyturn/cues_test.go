package main

import (
	"bytes"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"crochet/tallyturn/tui"
)

// TestFilmedCues holds on to all formats of the scripted session, in film time
// and in source time, and to what is said beside them.
func TestFilmedCues(t *testing.T) {
	data := t.TempDir()
	runIn(t, data, "basket", "import", filepath.Join(filmFolder, "session.jsonl"))
	var said strings.Builder
	for _, g := range []struct{ file, args string }{
		{"cues.txt", ""},
		{"cues.csv", "--as csv --rate 25"},
		{"cues.vtt", "--as vtt"},
		{"cues.srt", "--as srt"},
		{"cues.chapters", "--as chapters"},
		{"cues.ffmetadata", "--as ffmetadata"},
		{"cues.edl", "--as edl --rate 25"},
		{"cues.otio", "--as otio --rate 25"},
		{"source.txt", "--source"},
		{"source.csv", "--source --as csv"},
		{"source.edl", "--source --as edl --rate 25"},
		{"source.otio", "--source --as otio --rate 25"},
		{"take3.vtt", "--source --take 3 --as vtt"},
		{"take3.srt", "--source --take 3 --as srt"},
		{"take3.chapters", "--source --take 3 --as chapters"},
		{"take3.ffmetadata", "--source --take 3 --as ffmetadata"},
	} {
		var out, complaints bytes.Buffer
		args := append([]string{"cues", "pennant"}, strings.Fields(g.args)...)
		if status := run(args, world{in: strings.NewReader(""), out: &out, err: &complaints, now: time.Now, look: tui.FindLook}); status != exitGood {
			t.Fatalf("%v: status %d, %s", args, status, complaints.String())
		}
		filmGolden(t, g.file, out.String())
		said.WriteString("$ tallyturn " + strings.Join(args, " ") + "\n" + complaints.String())
	}
	filmGolden(t, "cues-said.txt", said.String())
}
