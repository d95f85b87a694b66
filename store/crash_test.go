package store_test

import (
	"bufio"
	"bytes"
	"errors"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"strings"
	"testing"
	"time"

	"crochet/tallyturn/counter"
	"crochet/tallyturn/store"
)

var (
	trials  = flag.Int("trials", 50, "how often TestCrash kills a child")
	damages = flag.Int("damages", 150, "how many damaged files TestLossIsBounded opens")
)

// A child is this program, told by its environment what to do with a file.
const (
	childVariable = "TALLYTURN_TEST_CHILD"
	fileVariable  = "TALLYTURN_TEST_FILE"
)

var children = map[string]func(path string) error{"tap": tapUntilKilled}

func child(name, path string) *exec.Cmd {
	cmd := exec.Command(os.Args[0])
	cmd.Env = append(os.Environ(), childVariable+"="+name, fileVariable+"="+path)
	cmd.Stderr = os.Stderr
	return cmd
}

// kindsOfWork are what a maker does; a finished row has the basket copied.
var kindsOfWork = []counter.Kind{
	counter.Tap, counter.Tap, counter.Tap, counter.Tap, counter.Back, counter.Finish, counter.Unravel, counter.Note,
}

// taken is a project that is imported while it grows, and how many events it
// has more each time.
var taken = store.Project{UID: strings.Repeat("5e", 16), Title: "Buoy", Text: "Rnd 1: 6 sc in ring (6)"}

const takenEvents = 10

// takeIn imports the project as it is after n times, and says that it is there.
func takeIn(s *store.Store, n int) error {
	var log []counter.Event
	for i := range n * takenEvents {
		log = append(log, counter.Event{Kind: counter.Tap, N: int64(i + 1)})
	}
	var b bytes.Buffer
	if err := store.ExportProject(&b, taken, log); err != nil {
		return err
	}
	if _, err := s.Import(&b); err != nil {
		return err
	}
	fmt.Printf("took %d\n", n)
	return nil
}

// tapUntilKilled imports, appends events that carry their own number, and says
// which it was told are safe.
func tapUntilKilled(path string) error {
	s, err := store.Open(path)
	if err != nil {
		return err
	}
	p, err := s.Find("", limpet.Text)
	if errors.Is(err, store.ErrNoProject) {
		p, err = s.Create(limpet)
	}
	if err != nil {
		return err
	}
	imports := 0
	all, err := s.Projects()
	if err != nil {
		return err
	}
	for _, other := range all {
		if other.UID == taken.UID {
			imports = int(other.Events) / takenEvents
		}
	}
	w, err := s.Writer(p.ID, func(safe uint64, err error) {
		fmt.Printf("safe %d %v\n", safe, err) // unbuffered: it is out when it returns
	})
	if err != nil {
		return err
	}
	for n := p.Events + 1; ; n++ {
		kind := kindsOfWork[rand.IntN(len(kindsOfWork))]
		if seq := w.Append(counter.Event{Kind: kind, N: int64(n)}); seq != n {
			return fmt.Errorf("event %d got number %d", n, seq)
		}
		if rand.IntN(20) == 0 {
			imports++
			if err := takeIn(s, imports); err != nil {
				return err
			}
		}
		if rand.IntN(3) > 0 { // some come singly, some in bursts
			time.Sleep(time.Duration(rand.IntN(400)) * time.Microsecond)
		}
	}
}

// TestCrash kills a child at random moments. What it was told is safe is
// there afterwards, in order and once.
func TestCrash(t *testing.T) {
	if testing.Short() {
		t.Skip("kills processes")
	}
	path := file(t)
	var all, lost int
	for trial := range *trials {
		if trial%10 == 0 { // begin anew: a kill may come while the file is made
			path = file(t)
		}
		safe, took := killChild(t, path)
		s, err := store.Open(path)
		if err != nil {
			t.Fatalf("trial %d: %v", trial, err)
		}
		p, err := s.Find("", limpet.Text)
		if errors.Is(err, store.ErrNoProject) && safe == 0 && took == 0 {
			shut(t, s)
			continue
		} else if err != nil {
			t.Fatal(err)
		}
		_, events := load(t, s, p.ID)
		if uint64(len(events)) < safe {
			t.Errorf("trial %d: %d events of %d that were safe", trial, len(events), safe)
			lost++
		}
		for i, e := range events {
			if e.N != int64(i+1) {
				t.Fatalf("trial %d: event %d is number %d", trial, i+1, e.N)
			}
		}
		all = len(events)
		checkTaken(t, s, took)
		shut(t, s)
	}
	t.Logf("%d trials, %d lost events; the last file has %d events", *trials, lost, all)
}

// checkTaken wants what was imported: all of it or nothing, and at least what
// was said.
func checkTaken(t *testing.T, s *store.Store, took int) {
	t.Helper()
	all, err := s.Projects()
	if err != nil {
		t.Fatal(err)
	}
	times := 0
	for _, p := range all {
		if p.UID != taken.UID {
			continue
		}
		_, events := load(t, s, p.ID)
		for i, e := range events {
			if e.N != int64(i+1) {
				t.Fatalf("imported event %d is number %d", i+1, e.N)
			}
		}
		if times = len(events) / takenEvents; len(events)%takenEvents != 0 {
			t.Errorf("half an import: %d events", len(events))
		}
	}
	if times < took {
		t.Errorf("%d imports are there of %d", times, took)
	}
}

// killChild lets a child tap for a while and gives the last number it said
// was safe, and how many imports.
func killChild(t *testing.T, path string) (safe uint64, took int) {
	cmd := child("tap", path)
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	timer := time.AfterFunc(time.Duration(rand.IntN(60_000))*time.Microsecond, func() { _ = cmd.Process.Kill() })
	defer timer.Stop()
	for lines := bufio.NewScanner(out); lines.Scan(); {
		line := lines.Text()
		var n uint64
		if _, err := fmt.Sscanf(line, "took %d", &took); err == nil {
			continue
		}
		if _, err := fmt.Sscanf(line, "safe %d <nil>", &n); err != nil || n <= safe {
			t.Errorf("the child said %q after %d", line, safe)
		}
		safe = n
	}
	if err := cmd.Wait(); err == nil || !strings.Contains(err.Error(), "killed") {
		t.Errorf("the child ended by itself: %v", err)
	}
	return safe, took
}
