// Package ptytest runs a program on a real pseudo-terminal and reads its
// screen. It is for tests.
//
// The terminal is one that never answers: whatever the program asks it, it
// gets no reply, as on a serial line.
package ptytest

import (
	"bytes"
	"errors"
	"io"
	"os"
	"os/exec"
	"regexp"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/charmbracelet/x/vt"
	"github.com/creack/pty"
)

// Patience is how long to wait for a screen before a test is given up. It is
// far beyond what anything takes: no test passes or fails by a difference of
// speed.
const Patience = time.Minute

// Terminal is a pseudo-terminal with a program on it.
type Terminal struct {
	t   testing.TB
	cmd *exec.Cmd
	pty *os.File

	mu     sync.Mutex
	news   *sync.Cond // something was written, or the program has ended
	screen *vt.Emulator
	raw    bytes.Buffer
	torn   bool // a frame has begun and is not all there
	watch  func(screen string)
	ended  bool
	err    error // of the program
}

// Start runs cmd on a terminal of a size. The program is killed when the test
// ends, should it still run.
func Start(t testing.TB, cmd *exec.Cmd, width, height int) *Terminal {
	t.Helper()
	term := &Terminal{t: t, cmd: cmd, screen: vt.NewEmulator(width, height)}
	term.news = sync.NewCond(&term.mu)
	file, err := pty.StartWithSize(cmd, &pty.Winsize{Cols: uint16(width), Rows: uint16(height)})
	if err != nil {
		t.Fatal(err)
	}
	term.pty = file
	go io.Copy(io.Discard, term.screen) // the emulator's answers, which nobody gets
	go term.read()
	t.Cleanup(func() {
		cmd.Process.Kill()
		term.WaitEnd()
		file.Close()
		// The emulator's own Close races with whoever reads its answers.
		if answers, ok := term.screen.InputPipe().(io.Closer); ok {
			answers.Close()
		}
	})
	return term
}

// read draws what the program writes until it ends.
func (t *Terminal) read() {
	buf := make([]byte, 32<<10)
	for {
		n, err := t.pty.Read(buf)
		t.mu.Lock()
		t.raw.Write(buf[:n])
		t.screen.Write(buf[:n])
		t.torn = torn(t.raw.Bytes())
		if t.watch != nil && !t.torn {
			t.watch(t.lines())
		}
		t.news.Broadcast()
		t.mu.Unlock()
		if err != nil {
			break
		}
	}
	err := t.cmd.Wait()
	t.mu.Lock()
	t.ended, t.err = true, err
	t.news.Broadcast()
	t.mu.Unlock()
}

// frameEnd is how bubbletea ends a frame: the cursor goes to its last line.
var frameEnd = regexp.MustCompile(`\x1b\[\d+(;\d*)?H`)

// torn reports whether output ends within a frame, which begins with the
// cursor going home. What is read comes in pieces that know nothing of frames.
func torn(out []byte) bool {
	home := bytes.LastIndex(out, []byte("\x1b[H"))
	return home >= 0 && !frameEnd.Match(out[home:])
}

// Watch has f see every whole screen from now on. It must not call t.
func (t *Terminal) Watch(f func(screen string)) {
	t.mu.Lock()
	defer t.mu.Unlock()
	t.watch = f
	if !t.torn {
		f(t.lines())
	}
}

// Type sends keys as they are.
func (t *Terminal) Type(keys string) {
	t.t.Helper()
	if _, err := io.WriteString(t.pty, keys); err != nil {
		t.t.Errorf("typing %q: %v", keys, err)
	}
}

// Resize makes the window another size.
func (t *Terminal) Resize(width, height int) {
	t.t.Helper()
	t.mu.Lock()
	t.screen.Resize(width, height)
	t.mu.Unlock()
	if err := pty.Setsize(t.pty, &pty.Winsize{Cols: uint16(width), Rows: uint16(height)}); err != nil {
		t.t.Error(err)
	}
}

// HangUp takes the terminal away from under the program.
func (t *Terminal) HangUp() { t.pty.Close() }

// Signal sends the program a signal.
func (t *Terminal) Signal(s os.Signal) {
	t.t.Helper()
	if err := t.cmd.Process.Signal(s); err != nil {
		t.t.Error(err)
	}
}

// Screen is what stands on the screen: its lines, without ink.
func (t *Terminal) Screen() string {
	t.mu.Lock()
	defer t.mu.Unlock()
	return t.lines()
}

func (t *Terminal) lines() string {
	var b strings.Builder
	for y := range t.screen.Height() {
		line := ""
		for x := 0; x < t.screen.Width(); {
			c := t.screen.CellAt(x, y)
			if c == nil || c.Width == 0 {
				line += " "
				x++
				continue
			}
			line += c.Content
			x += c.Width
		}
		b.WriteString(strings.TrimRight(line, " "))
		b.WriteByte('\n')
	}
	return b.String()
}

// Raw is every byte the program has written.
func (t *Terminal) Raw() string {
	t.mu.Lock()
	defer t.mu.Unlock()
	return t.raw.String()
}

// RawNow is Raw within a function that Wait calls.
func (t *Terminal) RawNow() string { return t.raw.String() }

// Wait waits for a whole screen that is as it should be and gives it. What names it
// for the case that it never comes.
func (t *Terminal) Wait(what string, is func(screen string) bool) string {
	t.t.Helper()
	timeout := t.wake()
	defer timeout.Stop()
	t.mu.Lock()
	defer t.mu.Unlock()
	for deadline := time.Now().Add(Patience); ; t.news.Wait() {
		screen := t.lines()
		switch {
		case (!t.torn || t.ended) && is(screen):
			return screen
		case t.ended:
			t.t.Fatalf("the program ended (%v) before %s:\n%s", t.err, what, screen)
		case time.Now().After(deadline):
			t.t.Fatalf("never %s:\n%s", what, screen)
		}
	}
}

// WaitFor waits until the screen says all of some texts.
func (t *Terminal) WaitFor(texts ...string) string {
	t.t.Helper()
	return t.Wait("saying "+strings.Join(texts, ", "), func(screen string) bool {
		for _, s := range texts {
			if !strings.Contains(screen, s) {
				return false
			}
		}
		return true
	})
}

// WaitEnd waits until the program has ended and gives how, as [exec.Cmd.Wait]
// does.
func (t *Terminal) WaitEnd() error {
	timeout := t.wake()
	defer timeout.Stop()
	t.mu.Lock()
	defer t.mu.Unlock()
	for deadline := time.Now().Add(Patience); !t.ended; t.news.Wait() {
		if time.Now().After(deadline) {
			t.cmd.Process.Kill()
			return errors.New("the program does not end")
		}
	}
	return t.err
}

// wake wakes whoever waits once patience is at an end.
func (t *Terminal) wake() *time.Timer {
	return time.AfterFunc(Patience+time.Second, t.news.Broadcast)
}
