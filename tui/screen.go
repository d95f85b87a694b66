package tui

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"strings"
	"syscall"
	"time"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/term"
)

// page is what a screen shows: the basket or a walk.
type page interface {
	open() tea.Cmd
	resize(width, height int)
	key(tea.KeyMsg) tea.Cmd
	mouse(tea.MouseMsg) tea.Cmd
	idle(key string) // a key that nothing listens to
	tick()
	fail(error) // a page asked for could not be had
	tell(note string)
	draw() // makes ready for view
	view() string
	ink() *theme
	close() error
}

// What a page asks of the screen.
type (
	helpMsg  struct{}
	leaveMsg struct{}
	tickMsg  struct{}
	thenMsg  struct {
		page page
		err  error
	}
	turnMsg struct {
		page page
		err  error
		note string
	}
)

// Page is what a screen shows: a [*Basket], a [*Walk] or a [*Notice].
type Page = page

// Screen is the terminal, with a basket or a walk on it.
type Screen struct {
	model *model
	prog  *tea.Program
	keys  *os.File // to be made raw for lines; nil for frames
}

// Options says where a screen is. The zero Options are the terminal the
// program was started on.
type Options struct {
	In  io.Reader
	Out io.Writer
	// Lines has lines printed in place of frames.
	Lines bool
	// AskGround has the terminal asked whether its ground is light or dark.
	// Nothing waits for the answer.
	AskGround bool
	// Then, if not nil, gives the page that follows the first at once. It is
	// called aside from the screen, when the first frame has been drawn. The
	// keys pressed before are for the page it gives; an error of its ends the
	// screen, and comes from Run.
	Then func() (Page, error)
}

// NewScreen makes a screen that shows first, a *Basket or a *Walk.
func NewScreen(first page, o Options) *Screen {
	s := &Screen{model: &model{page: first, then: o.Then}}
	opts := []tea.ProgramOption{
		// bubbletea quits on a signal without telling the model, and not at
		// all on a hang-up: Run listens itself.
		tea.WithoutSignalHandler(),
	}
	in := cmp.Or[io.Reader](o.In, os.Stdin)
	keys, isFile := in.(*os.File)
	if o.Lines {
		opts = append(opts, tea.WithoutRenderer())
		s.model.lines = &teller{out: cmp.Or[io.Writer](o.Out, os.Stdout)}
		s.keys = keys
	} else {
		opts = append(opts, tea.WithAltScreen(), tea.WithMouseCellMotion(), tea.WithFPS(120))
		if o.AskGround && isFile {
			s.model.asking = true
			in = &listener{File: keys, tell: func(dark bool) { go s.Send(groundMsg{dark}) }}
		}
	}
	opts = append(opts, tea.WithInput(in))
	out := cmp.Or[io.Writer](o.Out, os.Stdout)
	// The first frame is drawn at once, and not when bubbletea tells the size.
	if f, ok := out.(*os.File); ok {
		if width, height, err := term.GetSize(f.Fd()); err == nil {
			s.model.size(width, height)
			s.model.early = !o.Lines
		}
	}
	opts = append(opts, tea.WithOutput(out))
	s.model.out = out
	s.prog = tea.NewProgram(s.model, opts...)
	return s
}

// Send gives the screen a message, as a rule a [Safe]. It may be called from
// any goroutine, before Run and after it.
func (s *Screen) Send(m tea.Msg) { s.prog.Send(m) }

// Show puts another page in front, with a note that says why.
func (s *Screen) Show(p Page, note string) { s.Send(turnMsg{page: p, note: note}) }

// Tell says something on the page in front, before Run.
func (s *Screen) Tell(note string) { s.model.said = note }

// Run shows the screen until the maker leaves, a signal says so or ctx ends.
// On every way out the terminal is put back and the journal is on disk; the
// error says what went wrong, a signal or an ended ctx being nothing wrong.
func (s *Screen) Run(ctx context.Context) error {
	ctx, stop := signal.NotifyContext(ctx, os.Interrupt, syscall.SIGTERM, syscall.SIGHUP)
	defer stop()
	done := make(chan struct{})
	go func() {
		select {
		case <-ctx.Done():
			s.prog.Send(leaveMsg{})
		case <-done:
		}
	}()
	restore := s.raw()
	_, err := s.prog.Run()
	restore()
	close(done)
	switch {
	case err == nil, errors.Is(err, tea.ErrInterrupted):
		err = nil
	case errors.Is(err, tea.ErrProgramPanic):
		err = fmt.Errorf("the screen broke down: %w", err)
	case ctx.Err() != nil:
		err = nil // the terminal went away with the signal
	}
	if b := s.model.broken; b != nil {
		err = b
	}
	err = errors.Join(s.model.failed, err)
	return errors.Join(err, s.model.close())
}

// raw has keys come one by one where bubbletea does not see to that.
func (s *Screen) raw() (restore func()) {
	if s.keys == nil {
		return func() {}
	}
	before, err := term.MakeRaw(s.keys.Fd())
	if err != nil {
		return func() {} // no terminal: keys come as they come
	}
	return func() { _ = term.Restore(s.keys.Fd(), before) }
}

// model is what bubbletea runs: the page in front, and the help over it.
type model struct {
	page          page
	out           io.Writer            // for bells; nil for none
	lines         *teller              // prints lines in place of frames; nil for frames
	asking        bool                 // the terminal is asked for its ground
	ground        *bool                // dark or light, as it answered; nil before
	early         bool                 // the first frame can be drawn at once: the terminal told its size
	then          func() (Page, error) // gives the page that follows this one at once; nil where it is the page
	failed        error                // what that came to, if it could not be had
	said          string               // to be told once the page is open
	flash         string               // what the first line says for a moment
	flashes       int                  // how many there have been
	locked        bool                 // no key does anything but unlock
	knocks        int                  // keys pressed while locked
	ahead         []tea.KeyMsg         // keys pressed while a walk is being opened: they are for it
	help          *helpSheet           // nil while closed
	sheet         *elsewhereSheet      // nil while closed
	broken        *Breakdown           // what the screen broke down with
	frame         string               // as it was drawn last; "" where something has happened since
	still         bool                 // the last message changed nothing
	width, height int
}

func (m *model) Init() (cmd tea.Cmd) {
	defer m.breakdown(&cmd)
	cmd = tea.Batch(m.page.open(), second(), m.ask(), m.follow())
	m.page.tell(m.said)
	m.printLines()
	m.drawEarly()
	return cmd
}

// follow gets the page that follows the first at once.
func (m *model) follow() tea.Cmd {
	if m.then == nil {
		return nil
	}
	then := m.then
	return func() tea.Msg {
		p, err := then()
		return thenMsg{p, err}
	}
}

// drawEarly draws the first frame, for which bubbletea would wait until the
// first beat of its renderer. That draws the same again where it stands.
func (m *model) drawEarly() {
	if m.early {
		// The cursor ends where bubbletea leaves it: on the last line.
		_, _ = fmt.Fprintf(m.out, "\x1b[H%s\x1b[%dH", strings.ReplaceAll(m.View(), "\n", "\r\n"), m.height) // a terminal that is gone shows by other ways
	}
}

// second is the beat of the clock on the screen.
func second() tea.Cmd {
	return tea.Tick(time.Second, func(time.Time) tea.Msg { return tickMsg{} })
}

func (m *model) Update(msg tea.Msg) (_ tea.Model, cmd tea.Cmd) {
	defer m.breakdown(&cmd)
	if m.broken != nil {
		return m, tea.Quit
	}
	m.still = false
	if cmd = m.update(msg); m.still {
		return m, cmd
	}
	m.frame = ""
	if told := m.signal(); told != nil {
		cmd = tea.Batch(cmd, told)
	}
	m.page.draw()
	m.printLines()
	return m, cmd
}

// printLines prints what is new, where there are lines in place of frames.
func (m *model) printLines() {
	if m.lines != nil {
		m.lines.tell(m.spoken())
	}
}

func (m *model) update(msg tea.Msg) tea.Cmd {
	switch msg := msg.(type) {
	case tea.WindowSizeMsg:
		if m.still = msg.Width == m.width && msg.Height == m.height; m.still {
			return nil // as the first one is
		}
		m.size(msg.Width, msg.Height)
	case tea.KeyMsg:
		return m.keys(msg)
	case tea.MouseMsg:
		if m.locked {
			m.knocks++
			return nil
		}
		if m.then != nil {
			return nil // what is under the pointer is not there yet
		}
		if m.help != nil {
			return m.helpMouse(msg)
		}
		if m.sheet != nil {
			return nil
		}
		return m.page.mouse(msg)
	case Safe:
		if w, ok := m.page.(*Walk); ok {
			w.saved(msg)
		}
	case changedMsg:
		if b, ok := m.page.(*Basket); ok {
			return b.changed(msg)
		}
	case bellMsg:
		if m.out != nil {
			_, _ = io.WriteString(m.out, "\a") // a terminal that is gone hears nothing
		}
	case flashMsg:
		if w, ok := m.page.(*Walk); ok {
			w.film.flash = false
		}
	case tickMsg:
		m.page.tick()
		return tea.Batch(second(), m.fit())
	case groundMsg:
		m.ground = &msg.dark
		m.inkFor(msg.dark)
	case flashOverMsg:
		if msg.n == m.flashes {
			m.flash = ""
		}
	case wroteMsg:
		m.wrote(msg)
	case helpMsg:
		m.help = m.newHelp()
	case leaveMsg:
		return tea.Quit
	case turnMsg:
		return m.turn(msg)
	case thenMsg:
		if m.failed = msg.err; msg.err != nil {
			return tea.Quit
		}
		return m.turn(turnMsg{page: msg.page, note: m.said})
	case fmt.Stringer:
		// Bytes that bubbletea does not know come as types of its own; all
		// they can do is say what they are.
		m.idle("that key")
	default: // bubbletea's own
		m.still = true
	}
	return nil
}

// idle says, where the maker looks, that a key does nothing.
func (m *model) idle(name string) {
	if m.help != nil {
		m.help.idle(name)
		return
	}
	m.page.idle(name)
}

// fit has bubbletea measure the terminal where it has another size than the
// frames. What tells it of a new size goes unheard until it listens, some time
// after the first frame, and some systems tell nothing.
func (m *model) fit() tea.Cmd {
	f, ok := m.out.(*os.File)
	if !ok || m.lines != nil {
		return nil
	}
	width, height, err := term.GetSize(f.Fd())
	if err != nil || width == m.width && height == m.height {
		return nil
	}
	return tea.WindowSize()
}

func (m *model) size(width, height int) {
	m.width, m.height, m.frame = width, height, ""
	m.page.resize(width, height)
}

// turn puts another page in front.
func (m *model) turn(to turnMsg) tea.Cmd {
	ahead := m.ahead
	m.ahead = nil
	if to.err != nil {
		m.page.fail(to.err)
		return nil
	}
	m.page, m.sheet = to.page, nil
	defer m.page.tell(to.note) // open leaves no note
	if m.ground != nil {
		m.inkFor(*m.ground)
	}
	m.page.resize(m.width, m.height)
	cmds := []tea.Cmd{m.page.open()}
	if _, ok := m.page.(*Walk); ok || m.then != nil {
		m.then = nil
		for _, k := range ahead {
			cmds = append(cmds, m.keys(k))
		}
	}
	return tea.Sequence(cmds...)
}

// opening reports whether the page in front is about to give way to another.
func (m *model) opening() bool {
	b, ok := m.page.(*Basket)
	return m.then != nil || ok && b.opening && m.help == nil
}

// keys splits what was read at one go into single keys: fingers are faster
// than the reading, and every key counts.
func (m *model) keys(msg tea.KeyMsg) tea.Cmd {
	if m.locked {
		m.unlock(msg)
		return nil
	}
	if m.sheet != nil {
		return m.sheetKey(msg)
	}
	if m.opening() && msg.Type != tea.KeyCtrlC {
		m.ahead = append(m.ahead, msg)
		return nil
	}
	if m.typing() {
		return m.page.key(msg)
	}
	if msg.Paste {
		m.idle("pasted text")
		return nil
	}
	if msg.Type != tea.KeyRunes || len(msg.Runes) < 2 {
		return m.key(msg)
	}
	var cmds []tea.Cmd
	for _, r := range msg.Runes {
		one := msg
		one.Runes = []rune{r}
		cmds = append(cmds, m.key(one))
	}
	return tea.Sequence(cmds...)
}

// typing reports whether the page in front takes keys for letters.
func (m *model) typing() bool {
	p, ok := m.page.(interface{ typing() bool })
	return ok && m.help == nil && p.typing()
}

func (m *model) key(k tea.KeyMsg) tea.Cmd {
	if m.typing() && k.String() != "ctrl+c" {
		return m.page.key(k) // letters, all of them
	}
	if m.help == nil {
		turned, does := m.keymap().turn(k, flat(m.here()))
		if !does {
			m.idle(k.String())
			return nil
		}
		k = turned
	}
	if key.Matches(k, keyLock) {
		m.locked, m.knocks = true, 0
		return nil
	}
	switch {
	case key.Matches(k, keyQuit):
		if w, ok := m.page.(*Walk); ok && m.help == nil && w.asksBeforeLeaving() {
			return nil
		}
		return tea.Quit
	case key.Matches(k, keyRest) && m.lines == nil:
		return tea.Suspend
	case m.help != nil:
		m.helpKey(k)
		return nil
	case key.Matches(k, keyHelp):
		m.help = m.newHelp()
		return nil
	case key.Matches(k, keyElsewhere) && m.canElsewhere(k):
		m.elsewhere()
		return nil
	}
	return m.page.key(k)
}

// View draws what Update has left.
func (m *model) View() string {
	defer m.breakdown(nil)
	if m.broken != nil || m.width <= 0 || m.height <= 0 {
		return ""
	}
	if m.frame == "" {
		m.frame = m.drawn()
	}
	return m.frame
}

func (m *model) drawn() string {
	switch {
	case m.sheet != nil:
		return m.sheet.view(m.page.ink(), m.width, m.height)
	case m.help != nil:
		return m.help.view(m.page.ink(), m.width, m.height)
	}
	return m.over(m.page.view())
}
