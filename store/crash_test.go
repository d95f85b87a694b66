package store_test

import (
	"bufio"
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

// tapUntilKilled appends events that carry their own number, and says which
// it was told are safe.
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
	w, err := s.Writer(p.ID, func(safe uint64, err error) {
		fmt.Printf("safe %d %v\n", safe, err) // unbuffered: it is out when it returns
	})
	if err != nil {
		return err
	}
	for n := p.Events + 1; ; n++ {
		if seq := w.Append(counter.Event{Kind: counter.Tap, N: int64(n)}); seq != n {
			return fmt.Errorf("event %d got number %d", n, seq)
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
		safe := killChild(t, path)
		s, err := store.Open(path)
		if err != nil {
			t.Fatalf("trial %d: %v", trial, err)
		}
		p, err := s.Find("", limpet.Text)
		if errors.Is(err, store.ErrNoProject) && safe == 0 {
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
		shut(t, s)
	}
	t.Logf("%d trials, %d lost events; the last file has %d events", *trials, lost, all)
}

// killChild lets a child tap for a while and gives the last number it said
// was safe.
func killChild(t *testing.T, path string) (safe uint64) {
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
		if _, err := fmt.Sscanf(line, "safe %d <nil>", &n); err != nil || n <= safe {
			t.Errorf("the child said %q after %d", line, safe)
		}
		safe = n
	}
	if err := cmd.Wait(); err == nil || !strings.Contains(err.Error(), "killed") {
		t.Errorf("the child ended by itself: %v", err)
	}
	return safe
}
