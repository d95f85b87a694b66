package tui

import (
	"bytes"
	"io"
	"os"
	"strconv"

	tea "github.com/charmbracelet/bubbletea"
)

// The ground of the terminal is asked of it once the first frame is drawn, by
// the request that xterm calls OSC 11. Nothing waits for the answer: it comes
// with the keys, is taken out of them, and the screen is inked anew. A
// terminal that never answers keeps the ground it was given.

const askGround = "\x1b]11;?\x1b\\"

// groundMsg says what the terminal answered.
type groundMsg struct{ dark bool }

// listener reads the keys and takes the answer out of them.
type listener struct {
	*os.File
	held  []byte // the beginning of an answer that is not all there
	heard bool
	tell  func(dark bool)
}

var answerHead = []byte("\x1b]11;")

// longestAnswer is more than any terminal has to say of a colour.
const longestAnswer = 64

func (l *listener) Read(p []byte) (int, error) {
	if l.heard && len(l.held) == 0 {
		return l.File.Read(p)
	}
	buf := make([]byte, max(len(p)-len(l.held), 1))
	n, err := l.File.Read(buf)
	out := l.sift(buf[:n])
	if err != nil {
		out, l.held = append(out, l.held...), nil
	}
	return copy(p, out), err
}

// sift takes the answer out of what was read.
func (l *listener) sift(in []byte) []byte {
	data := append(l.held, in...)
	l.held = nil
	if l.heard {
		return data
	}
	start := bytes.Index(data, answerHead)
	if start < 0 {
		// It may just have begun; a lone escape is a key.
		for n := len(answerHead) - 1; n >= 2; n-- {
			if bytes.HasSuffix(data, answerHead[:n]) {
				l.held = bytes.Clone(data[len(data)-n:])
				return data[:len(data)-n]
			}
		}
		return data
	}
	rest := data[start+len(answerHead):]
	end, after := -1, 0
	if i := bytes.IndexByte(rest, '\a'); i >= 0 {
		end, after = i, i+1
	}
	if i := bytes.Index(rest, []byte("\x1b\\")); i >= 0 && (end < 0 || i < end) {
		end, after = i, i+2
	}
	if end < 0 {
		if len(rest) > longestAnswer { // it is something else
			l.heard = true
			return data
		}
		l.held = bytes.Clone(data[start:])
		return data[:start]
	}
	l.heard = true
	if dark, ok := darkColour(string(rest[:end])); ok {
		l.tell(dark)
	}
	return append(data[:start:start], rest[after:]...)
}

// darkColour reads a colour as X11 writes it, "rgb:10ff/18ff/1fff", and tells
// whether light letters stand out from it better than dark ones.
func darkColour(s string) (dark, ok bool) {
	parts := bytes.Split(bytes.TrimPrefix([]byte(s), []byte("rgb:")), []byte("/"))
	if len(parts) != 3 {
		return false, false
	}
	sum := 0.0
	for i, weight := range []float64{0.2126, 0.7152, 0.0722} { // of WCAG's relative luminance
		n, err := strconv.ParseUint(string(parts[i]), 16, 16)
		if err != nil {
			return false, false
		}
		most := float64(uint64(1)<<(4*len(parts[i])) - 1)
		v := float64(n) / most
		sum += weight * v * v // near enough to the curve of displays to tell dark from light
	}
	return sum < 0.25, true
}

// ask has the terminal asked for its ground.
func (m *model) ask() tea.Cmd {
	if !m.asking {
		return nil
	}
	out := m.out
	return func() tea.Msg { _, _ = io.WriteString(out, askGround); return nil }
}

// ground inks the page in front for the ground that the terminal has.
func (m *model) inkFor(dark bool) {
	t := m.page.ink()
	if t.look.Dark == dark {
		return
	}
	look := t.look
	look.Dark = dark
	*t = *newTheme(look)
	if p, ok := m.page.(interface{ repaint() }); ok {
		p.repaint()
	}
}

func (w *Walk) repaint() { w.still = nil }
