package main

import (
	"bytes"
	"io"
	"strings"
	"testing"
	"time"

	"github.com/spf13/cobra"

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
		if sub.Name() != "completion" && sub.Parent().Name() != "completion" {
			eachCommand(sub, f)
		}
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

func TestManual(t *testing.T) {
	var one, two bytes.Buffer
	for _, out := range []*bytes.Buffer{&one, &two} {
		if status := run([]string{"man"}, quietWorld(out)); status != 0 {
			t.Fatalf("man ends with %d: %s", status, out.String())
		}
	}
	if one.String() != two.String() {
		t.Error("the manual differs from one time to the next")
	}
	for _, want := range []string{".TH", "SH EXAMPLE", "tallyturn check pennant.txt", "tap-key"} {
		if !strings.Contains(one.String(), want) {
			t.Errorf("the manual does not have %q:\n%.2000s", want, one.String())
		}
	}
}
