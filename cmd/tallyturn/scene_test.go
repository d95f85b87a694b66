package main

import (
	"os"
	"os/exec"
	"strings"
	"testing"

	"crochet/tallyturn/tui/ptytest"
)

// scenes are the screens that the README shows: the keys that lead there on a
// fresh machine, in a window of 80 columns, and words by which it is known.
var scenes = map[string]struct {
	height int
	keys   string
	shows  []string
}{
	"second row": {24, strings.Repeat(" ", 20) + "\r" + strings.Repeat(" ", 7), []string{"stitch 8 of 20", "✓ saved"}},
	"basket":     {24, strings.Repeat(" ", 20) + "\r" + strings.Repeat(" ", 7) + "b", []string{"1 in progress", "to try"}},
	"one short":  {24, strings.Repeat(" ", 20) + "19\r", []string{"you count 19", "✓ saved"}},
	"a hunt":     {24, "sss   19\rh7\r", []string{"Question 2", "✓ saved"}},
	"a ball":     {24, "j5sje e j3.6\r", []string{"Noted: 3.6 g", "✓ saved"}},
	"keys":       {39, "?", []string{"Esc closes", "leave"}},
}

// scene is what the screen shows after the keys of a scene.
func scene(t *testing.T, name string) string {
	t.Helper()
	s, ok := scenes[name]
	if !ok {
		t.Fatalf("there is no scene %q", name)
	}
	c := exec.Command("tallyturn-at-noon", "--data", t.TempDir())
	c.Env = append(os.Environ(), "TERM=xterm-256color")
	term := ptytest.Start(t, c, 80, s.height)
	term.WaitFor("stitch 1 of", "✓ saved")
	term.Type(s.keys)
	page := term.WaitFor(s.shows...)
	term.Type("\x03")
	if err := term.WaitEnd(); err != nil {
		t.Errorf("the program ended with %v", err)
	}
	return strings.TrimRight(page, "\n") + "\n"
}
