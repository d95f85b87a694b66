package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"strings"
	"time"

	"github.com/charmbracelet/x/term"

	"crochet/tallyturn/tui"
)

// The exit statuses, which the manual promises.
const (
	exitGood   = 0
	exitFound  = 1 // check found at least one error in a pattern
	exitFailed = 2 // a file could not be read, or the command line is wrong
)

// errFound ends the program with exitFound; all there is to say has been said.
var errFound = errors.New("errors were found")

// errSaid ends the program with exitFailed; the lines about it are out already.
var errSaid = errors.New("said already")

// world is what the program has to do with besides its arguments.
type world struct {
	in       io.Reader
	out, err io.Writer
	now      func() time.Time
	look     func(io.Writer) tui.Look // what a terminal can show
}

// run carries out one command line and gives the exit status.
func run(args []string, w world) int {
	switch err := w.carryOut(args); {
	case err == nil:
		return exitGood
	case errors.Is(err, errFound):
		return exitFound
	case errors.Is(err, errSaid):
		return exitFailed
	default:
		w.complain(err)
		return exitFailed
	}
}

func (w world) carryOut(args []string) error {
	if walk := walkAtOnce(w, args); walk != nil {
		return walk.RunE(walk, walk.Flags().Args())
	}
	root := newRoot(w)
	root.SetArgs(args)
	root.SetIn(w.in)
	root.SetOut(w.out)
	root.SetErr(w.err)
	return root.Execute()
}

// complain says what went wrong, each thing on a line.
func (w world) complain(err error) {
	for _, line := range strings.Split(err.Error(), "\n") {
		fmt.Fprintf(w.err, "tallyturn: %s\n", tui.Clean(line))
	}
}

// onTerminal reports whether the stream is a terminal, and its width in
// columns, 0 where it does not say.
func onTerminal(stream any) (width int, ok bool) {
	f, isFile := stream.(*os.File)
	if !isFile || !term.IsTerminal(f.Fd()) {
		return 0, false
	}
	width, _, err := term.GetSize(f.Fd())
	return width, err == nil
}
