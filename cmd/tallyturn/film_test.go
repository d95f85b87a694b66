package main

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"crochet/tallyturn/counter"
	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/demo"
	"crochet/tallyturn/store"
	"crochet/tallyturn/tui"
)

// filmFolder holds a scripted session and all that is made of it.
const filmFolder = "../../testdata/film"

// sessionLog is the log of a session written as testdata/film/session.txt is.
func sessionLog(t *testing.T, script string, proof *pattern.Proof) []counter.Event {
	t.Helper()
	state := counter.Begin(counter.NewPlan(proof))
	at := time.Date(2026, 4, 12, 10, 0, 0, 0, time.UTC).UnixMilli()
	var log []counter.Event
	do := func(e counter.Event) {
		e.At = at
		next, err := state.Apply(e)
		if err != nil {
			t.Fatalf("%+v: %v", e, err)
		}
		state, log = next, append(log, e)
	}
	for i, line := range strings.Split(script, "\n") {
		words := strings.Fields(line)
		if len(words) == 0 || words[0] == "#" {
			continue
		}
		n := func(k int) int64 {
			if k >= len(words) {
				t.Fatalf("line %d: %s: a number is missing", i+1, line)
			}
			v, err := strconv.ParseFloat(words[k], 64)
			if err != nil {
				t.Fatalf("line %d: %v", i+1, err)
			}
			return int64(v)
		}
		pass := func(k int) {
			d, err := time.ParseDuration(words[k] + "s")
			if err != nil {
				t.Fatalf("line %d: %v", i+1, err)
			}
			at += d.Milliseconds()
		}
		row := func() counter.Event { return counter.Event{Piece: int(n(1)), Copy: int(n(2)), Row: int(n(3))} }
		switch words[0] {
		case "open":
			do(counter.Event{Kind: counter.Open})
		case "close":
			do(counter.Event{Kind: counter.Close})
		case "take":
			do(counter.Event{Kind: counter.BeginTake})
		case "cut":
			do(counter.Event{Kind: counter.EndTake})
		case "wait":
			pass(1)
		case "taps":
			for range n(1) {
				pass(2)
				do(counter.Event{Kind: counter.Tap, N: 1})
			}
		case "row":
			for !state.AtRowEnd() {
				pass(1)
				do(counter.Event{Kind: counter.Tap, N: 1})
			}
			at += 2000
			do(counter.Event{Kind: counter.Finish, N: state.Stitch()})
		case "carry":
			do(counter.Event{Kind: counter.Carry, N: n(1)})
		case "back":
			for range n(1) {
				do(counter.Event{Kind: counter.Back})
			}
		case "rip", "jump":
			e := row()
			e.Kind, e.N = counter.Unravel, n(4)
			if words[0] == "jump" {
				e.Kind = counter.Jump
			}
			do(e)
		case "again":
			do(counter.Event{Kind: counter.FromHere})
		case "mark":
			do(counter.Event{Kind: counter.Remark, Text: strings.Join(words[1:], " ")})
		case "count":
			do(counter.Event{Kind: counter.Count, N: n(1)})
		case "camera":
			do(counter.Event{Kind: counter.Camera, Row: int(n(1)) - 1, Text: words[2]})
		case "timecode":
			do(counter.Event{Kind: counter.Timecode, Row: int(n(1)) - 1, Text: words[2]})
		case "clap":
			do(counter.Event{Kind: counter.Clap, Row: int(n(1)) - 1, N: n(2)})
		case "note":
			here := state.At()
			do(counter.Event{Kind: counter.Note, Piece: here.Piece, Copy: here.Copy, Text: strings.Join(words[1:], " ")})
		case "rate":
			do(counter.Event{Kind: counter.SpeakAt, N: n(1)})
		case "choose":
			e := row()
			e.Kind, e.Text, e.N = counter.Choose, words[4], n(5)
			do(e)
		case "alike":
			do(counter.Event{Kind: counter.Alike, Text: words[1], N: n(2)})
		case "tick":
			do(counter.Event{Kind: counter.Tick, N: n(1)})
		default:
			t.Fatalf("line %d: what is %q?", i+1, words[0])
		}
	}
	return log
}

// filmGolden compares with a file of the scripted session, or writes it anew.
func filmGolden(t *testing.T, name, got string) {
	t.Helper()
	path := filepath.Join(filmFolder, name)
	if *update {
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(string(want), got); d != "" {
		t.Errorf("%s (go test -update writes it anew):\n%s", name, d)
	}
}

// runIn runs a command on a basket of its own.
func runIn(t *testing.T, data string, args ...string) string {
	t.Helper()
	var out, complaints bytes.Buffer
	t.Setenv("TALLYTURN_DATA", data)
	status := run(args, world{in: strings.NewReader(""), out: &out, err: &complaints, now: time.Now, look: tui.FindLook})
	if status != exitGood || complaints.Len() > 0 {
		t.Fatalf("%v: status %d, %s", args, status, complaints.String())
	}
	return out.String()
}

// TestFilmedSession plays the scripted session and holds on to all that is made
// of it.
func TestFilmedSession(t *testing.T) {
	script, err := os.ReadFile(filepath.Join(filmFolder, "session.txt"))
	if err != nil {
		t.Fatal(err)
	}
	d, _ := demo.Find("pennant")
	log := sessionLog(t, string(script), pattern.Read(d.Text).Prove(pattern.Options{}))
	p := store.Project{UID: "f11e0000000000000000000000000001", Title: "Harbour Pennant", Text: d.Text, Created: log[0].At}
	var b bytes.Buffer
	if err := store.ExportProject(&b, p, log); err != nil {
		t.Fatal(err)
	}
	filmGolden(t, "session.jsonl", b.String())
	data := t.TempDir()
	runIn(t, data, "basket", "import", filepath.Join(filmFolder, "session.jsonl"))
	filmGolden(t, "film.txt", runIn(t, data, "film", "pennant"))
	picture := runIn(t, data, "film", "pennant", "--as", "svg")
	filmGolden(t, "film.svg", picture)
	wellFormed(t, picture)
}

// wellFormed reads a picture as XML.
func wellFormed(t *testing.T, picture string) {
	t.Helper()
	for dec := xml.NewDecoder(strings.NewReader(picture)); ; {
		_, err := dec.Token()
		if errors.Is(err, io.EOF) {
			return
		}
		if err != nil {
			t.Fatal(err)
		}
	}
}

// TestPictureIsDrawn has rsvg-convert, which is no part of ours, draw the
// picture of the scripted session.
func TestPictureIsDrawn(t *testing.T) {
	if _, err := exec.LookPath("rsvg-convert"); err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatal(err)
		}
		t.Skip(err)
	}
	out, err := exec.Command("rsvg-convert", "--format", "png", filepath.Join(filmFolder, "film.svg")).Output()
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.HasPrefix(out, []byte("\x89PNG")) || len(out) < 5000 {
		t.Errorf("%d bytes that are no picture", len(out))
	}
}
