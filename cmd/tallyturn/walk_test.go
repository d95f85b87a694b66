package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/creack/pty"

	"crochet/tallyturn/store"
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
	status = run(args, streams{in: tty, out: tty, err: &b})
	return status, b.String()
}

func TestBasketThatCannotBeOpened(t *testing.T) {
	for _, test := range []struct {
		name    string
		prepare func(t *testing.T, file string)
		want    string
	}{
		{"in use", func(t *testing.T, file string) {
			s, err := store.Open(file)
			if err != nil {
				t.Fatal(err)
			}
			t.Cleanup(func() { s.Close() })
		}, "the basket is open in another window; leave it there first, or keep another with --data"},
		{"damaged", func(t *testing.T, file string) {
			if err := os.WriteFile(file, bytes.Repeat([]byte("sand"), 1<<15), 0o600); err != nil {
				t.Fatal(err)
			}
		}, "tallyturn.db: the basket's file is damaged"},
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
