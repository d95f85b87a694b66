package tui

import (
	"fmt"
	"time"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
)

// Item is a thing in the basket.
type Item struct {
	ID          string
	Title       string
	Done, Total int64     // stitches
	Touched     time.Time // when it was last worked on; zero for never
	Demo        bool      // not begun: offered to try
}

// BasketConfig is what a basket needs.
type BasketConfig struct {
	Items []Item
	Open  func(Item) (*Walk, error) // called aside from the screen; it may wait for the disk
	Now   func() time.Time
	Look  Look
	// Unsaved, if there is one, says what is not on the disk for the time being,
	// or that nothing can be; nil where all is well. It must not wait.
	Unsaved func() error
	// LookOnly says why things can only be looked at; "" where they can be
	// worked.
	LookOnly string
}

// Basket is the screen with the things in progress.
type Basket struct {
	cfg           BasketConfig
	theme         *theme
	lit           int
	typed         string
	note          string
	opening       bool
	broken        bool // the note says what went wrong
	unsaved       error
	width, height int
}

// NewBasket makes a basket.
func NewBasket(cfg BasketConfig) *Basket {
	b := &Basket{cfg: cfg, theme: newTheme(cfg.Look)}
	b.cfg.Items = make([]Item, len(cfg.Items))
	for i, it := range cfg.Items {
		it.Title = Clean(it.Title)
		b.cfg.Items[i] = it
	}
	if cfg.LookOnly != "" {
		b.note = "Only looking: " + Clean(cfg.LookOnly)
	}
	b.tick()
	return b
}

func (b *Basket) open() tea.Cmd            { return tea.SetWindowTitle("tallyturn") }
func (b *Basket) close() error             { return nil }
func (b *Basket) resize(width, height int) { b.width, b.height = width, height }
func (b *Basket) draw()                    {}
func (b *Basket) ink() *theme              { return b.theme }

func (b *Basket) fail(err error) {
	b.opening, b.broken = false, true
	b.note = sentence(err.Error())
}

// tick asks what is not saved.
func (b *Basket) tick() {
	if b.cfg.Unsaved != nil {
		b.unsaved = b.cfg.Unsaved()
	}
}

func (b *Basket) tell(note string) {
	if note != "" && !b.broken {
		b.note = Clean(note)
	}
}

func (b *Basket) idle(name string) {
	b.note = fmt.Sprintf("%s does nothing here. ? shows every key.", Clean(keyName(name)))
}

func (b *Basket) light(i int) { b.lit = max(min(i, len(b.cfg.Items)-1), 0) }

// choose opens the lit thing.
func (b *Basket) choose() tea.Cmd {
	if len(b.cfg.Items) == 0 {
		b.note = "The basket is empty."
		return nil
	}
	if b.opening {
		b.note = "It is being opened."
		return nil
	}
	b.opening = true
	item, open := b.cfg.Items[b.lit], b.cfg.Open
	return func() tea.Msg {
		w, err := open(item)
		if err != nil {
			return turnMsg{err: err}
		}
		return turnMsg{page: w}
	}
}

func (b *Basket) key(k tea.KeyMsg) tea.Cmd {
	b.note, b.broken = "", false
	typed := ""
	page := max(b.room(), 1)
	switch {
	case key.Matches(k, keyUp):
		b.light(b.lit - 1)
	case key.Matches(k, keyDown):
		b.light(b.lit + 1)
	case key.Matches(k, keyPageUp):
		b.light(b.lit - page)
	case key.Matches(k, keyPageDn):
		b.light(b.lit + page)
	case key.Matches(k, keyTop):
		b.light(0)
	case key.Matches(k, keyBottom):
		b.light(len(b.cfg.Items) - 1)
	case key.Matches(k, keyNumber):
		e := entry{digits: b.typed}
		e.add(k.String())
		n, err := e.number()
		if err != nil || n < 1 || n > int64(len(b.cfg.Items)) {
			b.note = fmt.Sprintf("The basket holds %d.", len(b.cfg.Items))
			break
		}
		typed = e.digits
		b.light(int(n) - 1)
	case key.Matches(k, keyChoose):
		return b.choose()
	default:
		b.idle(k.String())
	}
	b.typed = typed
	return nil
}

func (b *Basket) mouse(m tea.MouseMsg) tea.Cmd {
	if m.Action != tea.MouseActionPress {
		return nil
	}
	b.note, b.broken = "", false
	switch m.Button {
	case tea.MouseButtonWheelUp:
		b.light(b.lit - 1)
	case tea.MouseButtonWheelDown:
		b.light(b.lit + 1)
	case tea.MouseButtonLeft:
		first, n := b.window()
		if i := (m.Y - basketTop) / b.pace(); m.Y >= basketTop && i < n {
			b.light(first + i)
			return b.choose()
		}
		b.note = "Click a thing to take it up."
	default:
		b.idle("that button of the mouse")
	}
	return nil
}

const (
	basketTop = 2 // the line on which the list begins
	itemText  = 2 // lines of text a thing takes
)

// pace is how many lines it is from one thing to the next.
func (b *Basket) pace() int {
	if (itemText+1)*len(b.cfg.Items) <= b.height-basketTop-1 {
		return itemText + 1
	}
	return itemText
}

// room is how many things fit; window is the first shown and how many.
func (b *Basket) room() int { return max((b.height-basketTop-1)/b.pace(), 1) }

func (b *Basket) window() (first, n int) {
	first = max(min(b.lit-b.room()/2, len(b.cfg.Items)-b.room()), 0)
	return first, min(b.room(), len(b.cfg.Items)-first)
}
