package main

import (
	"encoding/xml"
	"errors"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"crochet/tallyturn/tui/ptytest"
)

// pictures are those in the README: the keys that lead to each on a fresh
// machine, and words by which it is known. go test -run Pictures -update makes
// them anew from the running program.
var pictures = []struct {
	name  string
	args  []string
	keys  string
	shows []string
}{
	{"row", nil, strings.Repeat(" ", 20) + "\r" + strings.Repeat(" ", 7), []string{"stitch 8 of 20", "✓ saved"}},
	{"shell", []string{"demo", "star", "--walk"}, strings.Repeat(" ", 10) + "\r" + strings.Repeat(" ", 20) + "\r" + strings.Repeat(" ", 7), []string{"stitch 8 of 25", "✓ saved"}},
	{"overview", nil, strings.Repeat(" ", 20) + "\r" + strings.Repeat(" ", 20) + "\r" + strings.Repeat(" ", 9) + "o", []string{"to the scale of the gauge", "stitch 10 of 20", "✓ saved"}},
}

// TestPictures runs the program on a pseudo-terminal and wants the pictures of
// its screens to be those that are kept, on a dark ground and on a light one.
func TestPictures(t *testing.T) {
	for _, p := range pictures {
		t.Run(p.name, func(t *testing.T) {
			kept(t, p.name, show(t, "tallyturn-in-colour", p.args, p.keys, p.shows, (*ptytest.Terminal).Picture))
			kept(t, p.name+"-light", show(t, "tallyturn-in-light", p.args, p.keys, p.shows, (*ptytest.Terminal).LightPicture))
		})
	}
}

// show runs a program to a screen and gives its picture.
func show(t *testing.T, program string, args []string, keys string, shows []string, picture func(*ptytest.Terminal) string) string {
	t.Helper()
	c := exec.Command(program, append(args[:len(args):len(args)], "--data", t.TempDir())...)
	c.Env = append(os.Environ(), "TERM=xterm-256color")
	term := ptytest.Start(t, c, 90, 30)
	term.WaitFor("stitch 1 of", "✓ saved")
	term.Type(keys)
	term.WaitFor(shows...)
	got := picture(term)
	term.Type("\x03")
	if err := term.WaitEnd(); err != nil {
		t.Errorf("the program ended with %v", err)
	}
	return got
}

// kept wants a picture to be XML, and the one that is kept.
func kept(t *testing.T, name, got string) {
	t.Helper()
	d := xml.NewDecoder(strings.NewReader(got))
	for {
		if _, err := d.Token(); errors.Is(err, io.EOF) {
			break
		} else if err != nil {
			t.Fatalf("%s is no XML: %v", name, err)
		}
	}
	path := filepath.Join("..", "..", "testdata", "pictures", name+".svg")
	if *update {
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if string(want) != got {
		t.Errorf("%s.svg is not what the program shows; run again with -update", name)
	}
}
