package main

import (
	"errors"
	"flag"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/testscript"

	"crochet/tallyturn/tui"
)

var update = flag.Bool("update", false, "write the expected output of the scripts anew")

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		"tallyturn": main,
		// As above, but for a clock that breaks once there is a certain file.
		"tallyturn-breaks": func() {
			broken := false
			os.Exit(run(os.Args[1:], world{
				in: os.Stdin, out: os.Stdout, err: os.Stderr, look: tui.FindLook,
				now: func() time.Time {
					if !broken && exists(os.Getenv("BREAK")) {
						broken = true
						panic("the clock fell off the wall")
					}
					return time.Now()
				},
			}))
		},
		// As above, but for a clock that stands, in all colours.
		"tallyturn-in-colour": func() {
			noon := time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC)
			os.Exit(run(os.Args[1:], world{
				in: os.Stdin, out: os.Stdout, err: os.Stderr,
				now:  func() time.Time { return noon },
				look: func(io.Writer) tui.Look { return tui.Look{Colours: tui.TrueColour, Dark: true} },
			}))
		},
		// As above, on a light ground.
		"tallyturn-in-light": func() {
			noon := time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC)
			os.Exit(run(os.Args[1:], world{
				in: os.Stdin, out: os.Stdout, err: os.Stderr,
				now:  func() time.Time { return noon },
				look: func(io.Writer) tui.Look { return tui.Look{Colours: tui.TrueColour} },
			}))
		},
		// As above, but for a clock that stands and a screen without ink, so
		// that what is shown is the same each time.
		"tallyturn-at-noon": func() {
			noon := time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC)
			os.Exit(run(os.Args[1:], world{
				in: os.Stdin, out: os.Stdout, err: os.Stderr,
				now:  func() time.Time { return noon },
				look: func(io.Writer) tui.Look { return tui.Look{Colours: tui.Plain} },
			}))
		},
	})
}

func TestScripts(t *testing.T) {
	repo, err := filepath.Abs("../..")
	if err != nil {
		t.Fatal(err)
	}
	testscript.Run(t, testscript.Params{
		Dir:                 filepath.Join(repo, "testdata", "script"),
		UpdateScripts:       *update,
		RequireExplicitExec: true,
		RequireUniqueNames:  true,
		Setup: func(e *testscript.Env) error {
			e.Setenv("XDG_DATA_HOME", filepath.Join(e.WorkDir, "data"))
			e.Setenv("TESTDATA", filepath.Join(repo, "testdata"))
			return nil
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"bigfile": bigFile,
			"exits":   exits,
			"oneline": oneLine,
		},
	})
}

// bigFile makes a file of so many megabytes: bigfile NAME MB. It is sparse, so
// that it costs no disk.
func bigFile(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: bigfile NAME MB")
	}
	mb, err := strconv.ParseInt(args[1], 10, 64)
	ts.Check(err)
	f, err := os.Create(ts.MkAbs(args[0]))
	ts.Check(err)
	ts.Check(f.Truncate(mb << 20))
	ts.Check(f.Close())
}

// exits runs a command and wants this exit status of it: exits 2 NAME ARGS...
func exits(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: exits STATUS NAME [ARGS...]")
	}
	got := "0"
	if err := ts.Exec(args[1], args[2:]...); err != nil {
		var exit *exec.ExitError
		if !errors.As(err, &exit) {
			ts.Fatalf("%v", err)
		}
		got = strconv.Itoa(exit.ExitCode())
	}
	if got != args[0] {
		ts.Fatalf("%s: exit status %s, want %s", strings.Join(args[1:], " "), got, args[0])
	}
}

// oneLine wants the last standard error to be one line: no more is owed to a
// maker who mistyped, and no stack trace ever.
func oneLine(ts *testscript.TestScript, neg bool, args []string) {
	text := ts.ReadFile("stderr")
	if strings.Count(text, "\n") != 1 || !strings.HasSuffix(text, "\n") {
		ts.Fatalf("standard error is not one line:\n%s", text)
	}
}
