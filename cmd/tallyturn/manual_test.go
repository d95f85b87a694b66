package main

import (
	"bytes"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/spf13/cobra"
	"github.com/spf13/cobra/doc"

	"crochet/tallyturn/tui"
)

// quietWorld is a world that prints into a buffer.
func quietWorld(out *bytes.Buffer) world {
	return world{in: strings.NewReader(""), out: out, err: out, now: time.Now, look: func(io.Writer) tui.Look { return tui.Look{} }}
}

// eachCommand calls f with every command that a user can give.
func eachCommand(c *cobra.Command, f func(*cobra.Command)) {
	f(c)
	for _, sub := range c.Commands() {
		eachCommand(sub, f)
	}
}

// TestEveryCommandHasAnExample: --help in every command says what it does and
// shows how, with the command's own name in the example.
func TestEveryCommandHasAnExample(t *testing.T) {
	n := 0
	eachCommand(newRoot(quietWorld(new(bytes.Buffer))), func(c *cobra.Command) {
		n++
		if c.Short == "" || strings.HasSuffix(c.Short, ".") {
			t.Errorf("%s: it says of itself %q", c.CommandPath(), c.Short)
		}
		if !strings.Contains(c.Example, c.CommandPath()) {
			t.Errorf("%s: no example shows it: %q", c.CommandPath(), c.Example)
		}
		var out bytes.Buffer
		args := append(strings.Fields(c.CommandPath())[1:], "--help")
		if status := run(args, quietWorld(&out)); status != 0 || !strings.Contains(out.String(), "Examples:") {
			t.Errorf("%s --help ends with %d and shows no example:\n%s", c.CommandPath(), status, out.String())
		}
	})
	if n < 8 {
		t.Errorf("only %d commands were looked at", n)
	}
}

// TestCompletions: every shell gets a script, and the names of files and demos
// are offered.
func TestCompletions(t *testing.T) {
	for _, shell := range []string{"bash", "zsh", "fish", "powershell"} {
		var out bytes.Buffer
		if status := run([]string{"completion", shell}, quietWorld(&out)); status != 0 || !strings.Contains(out.String(), "tallyturn") {
			t.Errorf("completion %s ends with %d: %.200s", shell, status, out.String())
		}
	}
	for _, c := range []struct{ args, want string }{
		{"demo bu", "buoy"},
		{"che", "check"},
		{"config --ch", "--check"},
	} {
		var out bytes.Buffer
		run(append([]string{"__complete"}, strings.Split(c.args, " ")...), quietWorld(&out))
		if !strings.Contains(out.String(), c.want) {
			t.Errorf("%q is not completed to %q:\n%s", c.args, c.want, out.String())
		}
	}
}

// TestManual: the pages in the program are those of its commands, byte for
// byte; `go test ./cmd/tallyturn -run TestManual -update` writes them anew.
func TestManual(t *testing.T) {
	dir := t.TempDir()
	root := newRoot(quietWorld(new(bytes.Buffer)))
	root.InitDefaultCompletionCmd("man")
	root.DisableAutoGenTag = true
	// The date changes with the pages and not with the day they are written, so
	// that the same commands give the same bytes.
	date := time.Date(2026, time.November, 1, 0, 0, 0, 0, time.UTC)
	head := &doc.GenManHeader{Title: "TALLYTURN", Section: "1", Source: "tallyturn", Manual: "tallyturn", Date: &date}
	if err := doc.GenManTree(root, head, dir); err != nil {
		t.Fatal(err)
	}
	if *update {
		if err := os.RemoveAll("manual"); err != nil {
			t.Fatal(err)
		}
		if err := os.CopyFS("manual", os.DirFS(dir)); err != nil {
			t.Fatal(err)
		}
		return
	}
	written := filepath.Join(t.TempDir(), "man1")
	var out bytes.Buffer
	if status := run([]string{"man", written}, quietWorld(&out)); status != 0 {
		t.Fatalf("man ends with %d: %s", status, out.String())
	}
	want, got := pagesIn(t, dir), pagesIn(t, written)
	for name := range want {
		if got[name] != want[name] {
			t.Errorf("%s is not what the commands say by now; -update writes it anew", name)
		}
	}
	if len(got) != len(want) || len(want) < 20 {
		t.Errorf("there are %d pages of %d commands", len(got), len(want))
	}
	out.Reset()
	if status := run([]string{"man"}, quietWorld(&out)); status != 0 || out.String() != want["tallyturn.1"] {
		t.Errorf("man ends with %d and prints another page: %.200s", status, out.String())
	}
	for _, want := range []string{".TH", "SH EXAMPLE", "tallyturn check pennant.txt", "tap-key"} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("the manual does not have %q:\n%.2000s", want, out.String())
		}
	}
}

func pagesIn(t *testing.T, dir string) map[string]string {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	pages := map[string]string{}
	for _, e := range entries {
		b, err := os.ReadFile(filepath.Join(dir, e.Name()))
		if err != nil {
			t.Fatal(err)
		}
		pages[e.Name()] = string(b)
	}
	return pages
}
