package main

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"unicode"

	"go.etcd.io/bbolt"

	"crochet/tallyturn/store"
	"crochet/tallyturn/tui/ptytest"
)

// inBasket opens the buoy on a screen, with its basket in a folder and its
// config in another; before is what the shell does first.
func inBasket(t *testing.T, data, config, before string) *ptytest.Terminal {
	t.Helper()
	c := exec.Command("bash", "-c", before+` exec tallyturn-at-noon demo buoy --walk --data "$0"`, data)
	c.Env = append(os.Environ(), "TERM=xterm-256color", "XDG_CONFIG_HOME="+config, "HOME="+config)
	return ptytest.Start(t, c, 120, 24)
}

// eventsOf is what a basket holds: the number of events of each project.
func eventsOf(t *testing.T, dir string) []uint64 {
	t.Helper()
	s, err := store.Open(filepath.Join(dir, "tallyturn.db"))
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	all, err := s.Projects()
	if err != nil {
		t.Fatal(err)
	}
	var n []uint64
	for _, p := range all {
		if _, _, err := s.Load(p.ID); err != nil {
			t.Error(err)
		}
		n = append(n, p.Events)
	}
	return n
}

// A basket that is damaged is set aside as it is, and what came of it is said
// on the screen before the walk goes on from where it was.
func TestDamagedBasket(t *testing.T) {
	data, config := t.TempDir(), t.TempDir()
	file := filepath.Join(data, "tallyturn.db")
	term := inBasket(t, data, config, "")
	term.WaitFor("stitch 1 of 6")
	term.Type("  ")
	term.WaitFor("stitch 3 of 6", "✓ saved")
	term.Type("q")
	term.WaitEnd()
	broken, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	clear(broken[:2*os.Getpagesize()])
	if err := os.WriteFile(file, broken, 0o600); err != nil {
		t.Fatal(err)
	}
	term = inBasket(t, data, config, "")
	term.WaitFor("About your basket", "damaged", "It is kept", ".damaged.", "Mooring Buoy: nothing is lost", "Enter goes on")
	term.Type("\r")
	term.WaitFor("stitch 3 of 6", "✓ saved")
	term.Type("q")
	term.WaitEnd()
	if aside, err := os.ReadFile(file + ".damaged"); err != nil || !bytes.Equal(aside, broken) {
		t.Errorf("the damaged file is not as it was: %v", err)
	}
}

// A basket of nothing but noise is set aside too.
func TestBasketOfSand(t *testing.T) {
	data, config := t.TempDir(), t.TempDir()
	if err := os.WriteFile(filepath.Join(data, "tallyturn.db"), bytes.Repeat([]byte("sand"), 1<<15), 0o600); err != nil {
		t.Fatal(err)
	}
	term := inBasket(t, data, config, "")
	term.WaitFor("About your basket", "the basket is empty now")
	term.Type("\r")
	term.WaitFor("stitch 1 of 6", "✓ saved")
}

// While the folder cannot be had the walk goes on in memory and says so; once
// it can, everything is saved.
func TestFolderThatIsNotThere(t *testing.T) {
	dir, config := t.TempDir(), t.TempDir()
	data := filepath.Join(dir, "data")
	if err := os.WriteFile(data, nil, 0o600); err != nil { // a file stands in its way
		t.Fatal(err)
	}
	term := inBasket(t, data, config, "")
	term.WaitFor("NOT SAVED", "a file stands in its place", "stitch 1 of 6")
	term.Type("  ")
	term.WaitFor("NOT SAVED, the last 3 only in memory", "stitch 3 of 6")

	term.Type("w")
	term.WaitFor("Write this walk", "unsaved-mooring-buoy-")
	term.Type("\x15") // Ctrl+U
	elsewhere := filepath.Join(dir, "walk.jsonl")
	term.Type(elsewhere + "\r")
	term.WaitFor("All of this walk is in", "stitch 3 of 6")

	// The basket says so too, and goes on saying it until it is saved.
	term.Type("b")
	term.WaitFor("NOT SAVED: the last 4 of Mooring Buoy are only in memory")
	if err := os.Remove(data); err != nil {
		t.Fatal(err)
	}
	term.Wait("everything saved", func(s string) bool {
		return strings.Contains(s, "the basket") && !strings.Contains(s, "NOT SAVED")
	})
	term.Type("q")
	term.WaitEnd()
	term = inBasket(t, data, config, "")
	term.WaitFor("✓ saved", "stitch 3 of 6")
	term.Type(" ")
	term.WaitFor("✓ saved", "stitch 4 of 6")
	term.Type("q")
	if err := term.WaitEnd(); err != nil {
		t.Errorf("ended with %v", err)
	}
	if n := eventsOf(t, data); fmt.Sprint(n) != "[7]" { // two runs, and three taps
		t.Errorf("events %v", n)
	}
	// What was written elsewhere is a part of it, so it adds nothing.
	if said, err := exec.Command("tallyturn", "basket", "import", elsewhere, "--data", data).CombinedOutput(); err != nil || !strings.Contains(string(said), "nothing new") {
		t.Errorf("import: %v\n%s", err, said)
	}
}

// What could not be saved until the end is written to the config folder and
// taken in at the next start.
func TestLeftUnsaved(t *testing.T) {
	dir, config := t.TempDir(), t.TempDir()
	data := filepath.Join(dir, "data")
	if err := os.WriteFile(data, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	term := inBasket(t, data, config, "")
	term.WaitFor("NOT SAVED", "stitch 1 of 6")
	term.Type("  ")
	term.WaitFor("stitch 3 of 6")
	term.Type("q")
	if err := term.WaitEnd(); err == nil {
		t.Error("ended well")
	}
	if raw := term.Raw(); !strings.Contains(raw, "could not be saved") || !strings.Contains(raw, "taken in at the next start") {
		t.Errorf("said %q", raw[max(len(raw)-600, 0):])
	}
	if err := os.Remove(data); err != nil {
		t.Fatal(err)
	}
	term = inBasket(t, data, config, "")
	term.WaitFor("✓ saved", "stitch 3 of 6")
	if left, _ := filepath.Glob(filepath.Join(config, "tallyturn", "*")); len(left) > 0 {
		t.Errorf("left %v", left)
	}
}

// A disk that is full while taps come in.
func TestNoRoomForTheNextTap(t *testing.T) {
	data, config := t.TempDir(), t.TempDir()
	term := inBasket(t, data, config, "")
	term.WaitFor("stitch 1 of 6", "✓ saved")
	term.Type("q")
	term.WaitEnd()
	before := eventsOf(t, data)
	// No part of a file beyond 44 KB may be written to. The basket uses less,
	// so the walk goes on until a commit needs more than that.
	term = inBasket(t, data, config, "ulimit -f 44;")
	term.WaitFor("stitch 1 of 6")
	term.Type(strings.Repeat("  \x7f\x7f", 100))
	term.WaitFor("NOT SAVED", "files may grow no larger here")
	term.Type("q")
	term.WaitEnd()
	term = inBasket(t, data, config, "")
	term.WaitFor("✓ saved", "stitch 1 of 6")
	term.Type("q")
	term.WaitEnd()
	if after := eventsOf(t, data); len(after) != 1 || after[0] != before[0]+404 { // two runs, each opened and closed
		t.Errorf("events before %v and after %v", before, after)
	}
}

// The folder is taken away and comes back by itself, with everything in it.
func TestFolderVanishes(t *testing.T) {
	dir, config := t.TempDir(), t.TempDir()
	data := filepath.Join(dir, "data")
	term := inBasket(t, data, config, "")
	term.WaitFor("stitch 1 of 6", "✓ saved")
	term.Type(" ")
	term.WaitFor("stitch 2 of 6", "✓ saved")
	if err := os.RemoveAll(data); err != nil {
		t.Fatal(err)
	}
	term.Type(" ")
	term.WaitFor("stitch 3 of 6", "✓ saved")
	term.Type("q")
	term.WaitEnd()
	if n := eventsOf(t, data); fmt.Sprint(n) != "[4]" {
		t.Errorf("events %v", n)
	}
}

// Damage that shows only when a walk is opened is mended then.
func TestDamageThatShowsLate(t *testing.T) {
	data, config := t.TempDir(), t.TempDir()
	file := filepath.Join(data, "tallyturn.db")
	term := inBasket(t, data, config, "")
	term.WaitFor("stitch 1 of 6")
	term.Type("   ")
	term.WaitFor("stitch 4 of 6", "✓ saved")
	term.Type("q")
	term.WaitEnd()
	spoilEvent(t, file, 3) // the second tap; the first event is that of the start
	term = inBasket(t, data, config, "")
	term.WaitFor("About your basket", "does not add up", "Mooring Buoy: nothing is lost") // what was there before is there still
	term.Type("\r")
	term.WaitFor("stitch 4 of 6", "✓ saved")
	term.Type("q")
	term.WaitEnd()

	// From the basket as well.
	spoilEvent(t, file, 2)
	c := exec.Command("tallyturn-at-noon", "--data", data)
	c.Env = append(os.Environ(), "TERM=xterm-256color", "XDG_CONFIG_HOME="+config)
	term = ptytest.Start(t, c, 120, 24)
	term.WaitFor("1 in progress")
	term.Type("\r")
	term.WaitFor("About your basket", "Mooring Buoy: nothing is lost")
	term.Type("\r")
	term.WaitFor("1 in progress")
	term.Type("\r")
	term.WaitFor("stitch 4 of 6", "✓ saved")
}

// spoilEvent changes one event of the first project.
func spoilEvent(t *testing.T, file string, seq uint64) {
	t.Helper()
	db, err := bbolt.Open(file, 0o600, nil)
	if err != nil {
		t.Fatal(err)
	}
	number := func(n uint64) []byte { return binary.BigEndian.AppendUint64(nil, n) }
	err = db.Update(func(tx *bbolt.Tx) error {
		log := tx.Bucket([]byte("logs")).Bucket(number(1))
		b := bytes.Clone(log.Get(number(seq)))
		b[len(b)-1]++
		return log.Put(number(seq), b)
	})
	if err := errors.Join(err, db.Close()); err != nil {
		t.Fatal(err)
	}
}

// What a pattern holds does not steer the terminal it is walked on.
func TestHostilePatternOnATerminal(t *testing.T) {
	dir := t.TempDir()
	file := filepath.Join(dir, "evil\x1b]0;owned\a\x1b[3Jname.txt")
	evil := "\x1b]0;owned\a\x1b[5n\x1b[3J\x9b41m\x1bP+q544e\x1b\\\u202e\x00\r\b"
	evil = strings.ReplaceAll(evil, "\x00", "") // with which it would be no text
	text := "Evil " + evil + " mat\nUS terms\n\nBody " + evil + "\nCh 7.\nRow 1: Sc in 2nd ch from hook and in each ch across. (6 sc) " + evil +
		"\nRow 2: Ch 1, turn, sc in each st across. (6 sc)\n" + evil + "\n"
	if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	c := exec.Command("tallyturn-at-noon", file, "--data", dir)
	c.Env = append(os.Environ(), "TERM=xterm-256color", "XDG_CONFIG_HOME="+dir)
	term := ptytest.Start(t, c, 100, 30)
	term.WaitFor("stitch 1 of 6")
	term.Type("   rn?")
	term.WaitFor("Keys")
	term.Signal(os.Interrupt)
	term.WaitEnd()
	// What is left of all that was sent, but for what the library and we send,
	// must be text.
	raw := ours.ReplaceAllString(term.Raw(), "")
	if i := strings.IndexFunc(raw, func(r rune) bool {
		return r != '\n' && r != '\r' && (unicode.IsControl(r) || unicode.Is(unicode.Cf, r))
	}); i >= 0 {
		t.Errorf("the terminal was sent %q", raw[i:min(i+60, len(raw))])
	}
	for _, s := range []string{"\x1b]0;owned", "\x1b[5n", "\x1b[3J", "\x1bP"} {
		if strings.Contains(term.Raw(), s) {
			t.Errorf("the terminal was sent %q", s)
		}
	}
}

// ours are the sequences that the program has a use for: modes, the cursor,
// rubbing out, the title of the window, and asking for its ground.
var ours = regexp.MustCompile("\x1b\\[\\?(25|1049|1002|1003|1006|2004)[hl]|\x1b\\[[0-9;]*[HABCDJKm]|\x1b\\]2;[^\x00-\x1f\x7f]*\x07|\x1b\\]11;\\?\x1b\\\\")
