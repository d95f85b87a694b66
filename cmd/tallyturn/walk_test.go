package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/creack/pty"

	"crochet/tallyturn/store"
	"crochet/tallyturn/tui"
)

// onPty runs a command line on a terminal that nobody looks at, for what must
// be said before any screen is shown.
func onPty(t *testing.T, args ...string) (status int, said string) {
	t.Helper()
	keyboard, tty, err := pty.Open()
	if err != nil {
		t.Fatal(err)
	}
	defer keyboard.Close()
	defer tty.Close()
	var b bytes.Buffer
	status = run(args, world{in: tty, out: tty, err: &b, now: time.Now, look: tui.FindLook})
	return status, b.String()
}

func TestBasketThatCannotBeOpened(t *testing.T) {
	for _, test := range []struct {
		name    string
		prepare func(t *testing.T, file string)
		want    string
	}{
		{"a folder where the file should be", func(t *testing.T, file string) {
			if err := os.Mkdir(file, 0o700); err != nil {
				t.Fatal(err)
			}
		}, "tallyturn.db: "},
	} {
		t.Run(test.name, func(t *testing.T) {
			dir := t.TempDir()
			test.prepare(t, filepath.Join(dir, "tallyturn.db"))
			status, said := onPty(t, "--data", dir)
			if status != exitFailed {
				t.Errorf("exit status %d, want %d", status, exitFailed)
			}
			if !strings.Contains(said, test.want) || strings.Count(said, "\n") != 1 {
				t.Errorf("said %q, want one line with %q", said, test.want)
			}
		})
	}
}

func TestSaved(t *testing.T) {
	p := store.Project{Title: "Mooring Buoy"}
	for want, r := range map[string]store.RescuedProject{
		"Mooring Buoy: nothing is lost":                                                                   {Project: p},
		"Mooring Buoy: all but the last 3 taps and the like is there":                                     {Project: p, Lost: 3},
		"Mooring Buoy: every tap is there; the pattern is not, so open its file again":                    {Project: p, NoText: true},
		"Mooring Buoy: every tap is there; its name, size and file are not":                               {Project: p, NoHead: true},
		"Mooring Buoy: 0 taps and the like are there; the file may be cut off, so perhaps there was more": {Project: p, Cut: true},
	} {
		if got := saved(r); got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
}
