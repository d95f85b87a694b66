package main

import (
	"bytes"
	"encoding/binary"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"crochet/tallyturn/counter"
	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/demo"
	"crochet/tallyturn/store"
)

// TestDemosSayWhatIsInThem: the demos are offered by what stands beside them,
// which is what comes of reading and proving them.
func TestDemosSayWhatIsInThem(t *testing.T) {
	for _, d := range demo.All() {
		proof := pattern.Read(d.Text).Prove(pattern.Options{})
		_, total := counter.Begin(counter.NewPlan(proof)).Stitches()
		if got := title(proof, ""); got != d.Title || total != d.Stitches {
			t.Errorf("%s: %q of %d stitches, want %q of %d", d.Name, d.Title, d.Stitches, got, total)
		}
	}
}

// TestKeysBeforeTheFirstFrame: keys that are pressed as soon as the program is
// started are all counted.
func TestKeysBeforeTheFirstFrame(t *testing.T) {
	program, data := built(t), t.TempDir()
	term := onScreen(t, program, data, "demo", "buoy", "--walk")
	term.Type("  ") // of the six stitches of the first round
	term.WaitFor("stitch 3 of 6", "✓ saved")
	term.Type("q")
	if err := term.WaitEnd(); err != nil {
		t.Fatal(err)
	}
	// From the basket, those go to the walk that come after it was chosen.
	term = onScreen(t, program, data)
	term.Type("\r  ")
	term.WaitFor("stitch 5 of 6", "✓ saved")
	term.Type("q")
	if err := term.WaitEnd(); err != nil {
		t.Fatal(err)
	}
}

// TestTheFirstFrameIsWhole: the one that is drawn before the renderer's first
// beat says all that its place has, and leaves the cursor where the renderer
// does, on the last line.
func TestTheFirstFrameIsWhole(t *testing.T) {
	program, data := built(t), t.TempDir()
	term := onScreen(t, program, data, "demo", "buoy", "--walk")
	term.WaitFor("stitch 1 of 6", "✓ saved")
	term.Type("q")
	if err := term.WaitEnd(); err != nil {
		t.Fatal(err)
	}
	for _, frame := range strings.Split(term.Raw(), "\x1b[H") {
		if strings.Contains(frame, "of 6") {
			if !strings.Contains(frame, "\x1b[30H") {
				t.Errorf("the first frame ends otherwise: %q", frame)
			}
			return
		}
	}
	t.Errorf("no frame in %q", term.Raw())
}

// TestDamageBehindTheFirstFrame: the logs are gone through behind the basket's
// first frame. What is wrong in the middle of one is said, the file is set
// aside as it was, and what can be read of it is in the next.
func TestDamageBehindTheFirstFrame(t *testing.T) {
	data := t.TempDir()
	file := filepath.Join(data, "tallyturn.db")
	kept, err := store.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	p, err := kept.Create(store.Project{Title: "Limpet", Text: demo.All()[0].Text, Created: 1})
	if err != nil {
		t.Fatal(err)
	}
	w, err := kept.Writer(p.ID, nil)
	if err != nil {
		t.Fatal(err)
	}
	const taps = 3000
	for n := range taps / 2 {
		w.Append(counter.Event{Kind: counter.Tap, At: int64(2 * n), N: 1})
		w.Append(counter.Event{Kind: counter.Back, At: int64(2*n) + 1})
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	if err := kept.SetProgress(p.ID, store.Progress{Events: taps, Done: 20, Total: 135}); err != nil {
		t.Fatal(err)
	}
	if err := kept.Close(); err != nil {
		t.Fatal(err)
	}
	copies, err := filepath.Glob(file + ".copy-*") // they would save everything
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range copies {
		if err := os.Remove(c); err != nil {
			t.Fatal(err)
		}
	}
	broken, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	clear(broken[pageOf(t, broken, taps/2):][:os.Getpagesize()])
	if err := os.WriteFile(file, broken, 0o600); err != nil {
		t.Fatal(err)
	}
	term := onScreen(t, built(t), data)
	term.WaitFor("About your basket", "damaged", "It is kept", "Limpet: all but the last")
	if aside, err := os.ReadFile(file + ".damaged"); err != nil || !bytes.Equal(aside, broken) {
		t.Errorf("the damaged file is not as it was: %v", err)
	}
	term.Type("\r")
	term.WaitFor("1 in progress", "Limpet")
	term.Type("q")
	if err := term.WaitEnd(); err != nil {
		t.Fatal(err)
	}
}

// pageOf is where the page begins that has the event with a number: a full leaf
// with that key on it.
func pageOf(t *testing.T, data []byte, seq uint64) int {
	t.Helper()
	const leaf = 2
	for at := 0; at < len(data); at += os.Getpagesize() {
		page := data[at:][:os.Getpagesize()]
		full := binary.NativeEndian.Uint16(page[10:]) > 50
		if binary.NativeEndian.Uint16(page[8:]) == leaf && full && bytes.Contains(page, binary.BigEndian.AppendUint64(nil, seq)) {
			return at
		}
	}
	t.Fatalf("no page has event %d", seq)
	return 0
}
