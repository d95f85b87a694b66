package spoken

import (
	"encoding/binary"
	"errors"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"crochet/tallyturn/pattern/demo"
	"crochet/tallyturn/pattern/stitch"
)

// espeak gives how long espeak-ng reads a text at a stated rate, in ms, from
// the length of the sound it writes.
func espeak(t *testing.T, program, text string, wpm int) int64 {
	t.Helper()
	file := filepath.Join(t.TempDir(), "o.wav")
	if out, err := exec.Command(program, "-s", strconv.Itoa(wpm), "-w", file, text).CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	// RIFF: 44 bytes of header, the bytes of sound a second at 28
	if len(data) < 44 || string(data[:4]) != "RIFF" || string(data[36:40]) != "data" {
		t.Fatalf("%d bytes are no sound", len(data))
	}
	return int64(len(data)-44) * 1000 / int64(binary.LittleEndian.Uint32(data[28:]))
}

// TestModelAgainstEspeak times the lines of the demos' scripts with a voice
// from outside, espeak-ng at its stated rate, and holds the times we tell
// against it. The rate is found as a maker finds her own: from one passage of
// prose that is read aloud. (By the words in that passage the voice is faster
// than it states; the log says how much.)
func TestModelAgainstEspeak(t *testing.T) {
	voice := program(t, "espeak-ng")
	prose, err := os.ReadFile("testdata/prose.txt")
	if err != nil {
		t.Fatal(err)
	}
	var lines []string
	seen := map[string]bool{}
	for _, d := range demo.All() {
		for _, terms := range []stitch.Terms{stitch.US, stitch.UK} {
			for _, p := range Of(demoProof(t, d.Name), Options{Terms: terms}).Parts {
				for _, l := range p.Lines {
					if !seen[l.Text] {
						seen[l.Text] = true
						lines = append(lines, l.Text)
					}
				}
			}
		}
	}
	for _, stated := range []struct{ wpm, every int }{{130, 2}, {110, 8}, {175, 8}} {
		rate, err := Timed(string(prose), espeak(t, voice, string(prose), stated.wpm))
		if err != nil {
			t.Fatal(err)
		}
		n, sum, worst := 0, 0.0, 0.0
		for i := 0; i < len(lines); i += stated.every {
			want := espeak(t, voice, lines[i], stated.wpm)
			off := float64(Milliseconds(lines[i], rate)-want) / float64(want)
			n, sum, worst = n+1, sum+math.Abs(off), max(worst, math.Abs(off))
			if math.Abs(off) > 0.12 {
				t.Errorf("%.0f %% off: %q", 100*off, lines[i])
			}
		}
		mean := sum / float64(n)
		t.Logf("espeak-ng -s %d reads prose at %.0f words a minute: %d lines, %.1f %% off on average, %.1f %% at most", stated.wpm, rate, n, 100*mean, 100*worst)
		if mean > 0.04 || stated.wpm == 130 && n < 30 {
			t.Errorf("%d lines, %.1f %% off on average", n, 100*mean)
		}
	}
}

// TestRateIsWordsOfProse wants ordinary prose to have as many words a minute
// as the rate says, within a twentieth.
func TestRateIsWordsOfProse(t *testing.T) {
	prose, err := os.ReadFile("testdata/prose.txt")
	if err != nil {
		t.Fatal(err)
	}
	words := float64(len(strings.Fields(string(prose))))
	for _, rate := range []Rate{110, DefaultRate, 160} {
		got := words * 60_000 / float64(Milliseconds(string(prose), rate))
		if math.Abs(got/float64(rate)-1) > 0.05 {
			t.Errorf("at %.0f words a minute prose has %.1f", rate, got)
		}
	}
}

// TestTimed finds the rate again that a reading was timed at.
func TestTimed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := strings.Repeat("Chain one and turn, then single crochet in each stitch across. ", rapid.IntRange(1, 9).Draw(t, "sentences"))
		ms := rapid.Int64Range(Milliseconds(text, FastestRate)+10, Milliseconds(text, SlowestRate)-10).Draw(t, "ms")
		rate, err := Timed(text, ms)
		if err != nil {
			t.Fatal(err)
		}
		if got := Milliseconds(text, rate); got != ms {
			t.Fatalf("%d ms at %v, timed %d", got, rate, ms)
		}
	})
	for _, bad := range []struct {
		text string
		ms   int64
	}{{"", 1000}, {"chain one", 0}, {"chain one", -5}, {"chain one", 1}, {"chain one", math.MaxInt64}, {"*", 500}} {
		if rate, err := Timed(bad.text, bad.ms); !errors.Is(err, ErrTiming) || rate != 0 {
			t.Errorf("%q in %d ms: %v, %v", bad.text, bad.ms, rate, err)
		}
	}
}

func TestMilliseconds(t *testing.T) {
	if Milliseconds("", 0) != 0 {
		t.Error("nothing takes time")
	}
	for _, same := range [][2]string{{"chain 21", "chain twenty-one"}, {"chain one", "Chain one"}, {"don't", "don't"}} {
		if a, b := Milliseconds(same[0], 0), Milliseconds(same[1], 0); a != b || a == 0 {
			t.Errorf("%q takes %d ms and %q %d", same[0], a, same[1], b)
		}
	}
	for _, less := range [][2]string{{"chain one", "chain seven"}, {"turn", "turn."}, {"a b", "a, b"}, {"a, b", "a. b"}} {
		if a, b := Milliseconds(less[0], 0), Milliseconds(less[1], 0); a >= b {
			t.Errorf("%q takes %d ms and %q %d", less[0], a, less[1], b)
		}
	}
	if slow, usual := Milliseconds("chain one and turn", 65), Milliseconds("chain one and turn", DefaultRate); slow < 2*usual-1 || slow > 2*usual+1 {
		t.Errorf("%d ms at half the rate of %d", slow, usual)
	}
	for _, r := range []Rate{-1, 0, Rate(math.NaN())} {
		if Milliseconds("chain one", r) != Milliseconds("chain one", DefaultRate) {
			t.Errorf("rate %v is not the usual one", r)
		}
	}
}

func TestSyllables(t *testing.T) {
	for word, want := range map[string]int{"chain": 1, "single": 2, "crochet": 2, "double": 2, "treble": 2, "stitch": 1, "stitches": 2, "space": 1, "turn": 1, "joined": 1, "counted": 2, "the": 1, "seven": 2, "repeat": 2, "magic": 2, "one": 1, "mm": 1} {
		if got := syllables(word); got != want {
			t.Errorf("%s: %d syllables, want %d", word, got, want)
		}
	}
}
