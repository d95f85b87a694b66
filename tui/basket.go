package tui

import (
	"fmt"
	"time"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
)

// Part is the part of the basket that a thing is in.
type Part uint8

// The parts of the basket.
const (
	InWork Part = iota
	SetAside
	Completed
	TakenOut // put back at any time

	parts
)

var partNames = [parts]string{"In work", "Aside", "Finished", "Out"}

func (p Part) String() string { return partNames[p] }

// Item is a thing in the basket.
type Item struct {
	ID          string
	Title       string // as it is shown
	Name        string // what it is called, to be changed
	Part        Part
	Done, Total int64     // stitches
	Millis      int64     // ms of work so far
	Unknown     int64     // rows to come whose stitches nobody knows, and Total has not
	Low, High   int64     // ms of work to come, from and to; High 0 where nobody can know
	Touched     time.Time // when it was last worked on; zero for never
	Demo        bool      // not begun: offered to try
}

// BasketConfig is what a basket needs.
type BasketConfig struct {
	Items []Item
	// Counts, if there are any, are how many things each part has, by its
	// number. Items are then only the first of those in work: such a basket
	// is shown until the whole one is there (see [Options.Then]).
	Counts []int
	// The functions below are called aside from the screen: they may wait for
	// the disk. Any but Open may be nil where there is no such thing to do.
	Open   func(Item) (*Walk, error)
	Begin  func(file string) (*Walk, error) // the walk of a pattern's file
	Change func(Item) (Item, error)         // keeps the Name and the Part of a thing
	Again  func(Item) (Item, error)         // another of the same pattern
	// Erase takes a thing that was taken out off the disk for good.
	Erase func(Item) error
	// History, if there is one, is of the baskets shown before, and goes on.
	History *History
	Now     func() time.Time
	Look    Look
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
	part          Part
	find          string // what is looked for
	shown         []int  // the items of the part that are found
	lit           int    // among the shown
	typed         string
	field         field
	tried         field // the file named last, to be named better where it cannot be begun
	undo          *History
	note          string
	opening       bool
	changing      bool         // a change is on its way to the disk
	waiting       []tea.KeyMsg // keys pressed meanwhile
	broken        bool         // the note says what went wrong
	unsaved       error
	width, height int
}

// NewBasket makes a basket.
func NewBasket(cfg BasketConfig) *Basket {
	b := &Basket{cfg: cfg, theme: newTheme(cfg.Look), undo: cfg.History}
	if b.undo == nil {
		b.undo = &History{}
	}
	b.cfg.Items = make([]Item, len(cfg.Items))
	for i, it := range cfg.Items {
		b.cfg.Items[i] = cleanItem(it)
	}
	if cfg.LookOnly != "" {
		b.note = "Only looking: " + Clean(cfg.LookOnly)
	}
	b.gather()
	b.tick()
	return b
}

func cleanItem(it Item) Item {
	it.Title, it.Name = Clean(it.Title), Clean(it.Name)
	it.Part = min(it.Part, parts-1)
	return it
}

func (b *Basket) open() tea.Cmd            { return tea.SetWindowTitle("tallyturn") }
func (b *Basket) close() error             { return nil }
func (b *Basket) resize(width, height int) { b.width, b.height = width, height }
func (b *Basket) draw()                    {}
func (b *Basket) ink() *theme              { return b.theme }

func (b *Basket) fail(err error) {
	b.opening, b.changing, b.broken = false, false, true
	b.note = sentence(err.Error())
	if !b.typing() {
		b.field = b.tried
	}
	b.tried = field{}
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
	b.note = fmt.Sprintf("%s does nothing here. %s shows every key.", Clean(keyName(name)), b.named(keyHelp))
}

// light lights one of the things shown, the nearest there is.
func (b *Basket) light(i int) { b.lit = max(min(i, len(b.shown)-1), 0) }

// item is the lit thing; nil where none is shown.
func (b *Basket) item() *Item {
	if b.lit >= len(b.shown) {
		return nil
	}
	return &b.cfg.Items[b.shown[b.lit]]
}

// choose opens the lit thing.
func (b *Basket) choose() tea.Cmd {
	it := b.item()
	switch {
	case it == nil && b.find != "":
		b.note = "Nothing is called that. Esc shows everything again."
		return nil
	case it == nil:
		b.note = "There is nothing here. Tab shows the other parts of the basket."
		return nil
	case it.Part == TakenOut:
		b.note = fmt.Sprintf("It is taken out. %s puts it back.", b.named(keyOut))
		return nil
	}
	item, open := *it, b.cfg.Open
	return b.take(func() (*Walk, error) { return open(item) })
}

// take goes to a walk that is got aside from the screen.
func (b *Basket) take(open func() (*Walk, error)) tea.Cmd {
	if b.opening {
		b.note = "It is being opened."
		return nil
	}
	b.opening = true
	return func() tea.Msg {
		w, err := open()
		if err != nil {
			return turnMsg{err: err}
		}
		return turnMsg{page: w}
	}
}

func (b *Basket) key(k tea.KeyMsg) tea.Cmd {
	if b.changing {
		b.waiting = append(b.waiting, k)
		return nil
	}
	b.note, b.broken, b.tried = "", false, field{}
	if b.typing() {
		return b.fieldKey(k)
	}
	typed := b.typed
	b.typed = ""
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
		b.light(len(b.shown) - 1)
	case key.Matches(k, keyPart):
		b.turnPart(1)
	case key.Matches(k, keyPartB):
		b.turnPart(-1)
	case key.Matches(k, keyNumber):
		b.number(typed, k.String())
	case key.Matches(k, keyChoose):
		return b.choose()
	case key.Matches(k, keyEsc):
		b.showAll()
	default:
		return b.changeKey(k)
	}
	return nil
}

// number lights the thing of a number, of which a digit is typed.
func (b *Basket) number(typed, digit string) {
	e := entry{digits: typed}
	e.add(digit)
	n, err := e.number()
	if err != nil || n < 1 || n > int64(len(b.shown)) {
		b.note = fmt.Sprintf("There are %d here.", len(b.shown))
		return
	}
	b.typed = e.digits
	b.light(int(n) - 1)
}

func (b *Basket) mouse(m tea.MouseMsg) tea.Cmd {
	if m.Action != tea.MouseActionPress {
		return nil
	}
	if b.changing {
		return nil // what is under the pointer may move
	}
	b.note, b.broken = "", false
	switch m.Button {
	case tea.MouseButtonWheelUp:
		b.light(b.lit - 1)
	case tea.MouseButtonWheelDown:
		b.light(b.lit + 1)
	case tea.MouseButtonLeft:
		if b.typing() {
			b.note = "Enter keeps what is typed, Esc leaves it."
			return nil
		}
		first, n := b.window()
		if i := (m.Y - b.top()) / b.pace(); m.Y >= b.top() && i < n {
			b.light(first + i)
			return b.choose()
		}
		if p, ok := b.partAt(m.X, m.Y); ok {
			b.turnPart(int(p) - int(b.part))
			return nil
		}
		b.note = "Click a thing to take it up."
	default:
		b.idle("that button of the mouse")
	}
	return nil
}

const (
	basketFoot = 2 // lines under the list
	itemText   = 2 // lines of text a thing takes
)

// top is the line on which the list begins.
func (b *Basket) top() int {
	if b.height < 16 {
		return 2
	}
	return 3
}

// pace is how many lines it is from one thing to the next.
func (b *Basket) pace() int {
	if (itemText+1)*len(b.shown) <= b.height-b.top()-basketFoot {
		return itemText + 1
	}
	return itemText
}

// room is how many things fit; window is the first shown and how many.
func (b *Basket) room() int { return max((b.height-b.top()-basketFoot)/b.pace(), 1) }

func (b *Basket) window() (first, n int) {
	first = max(min(b.lit-b.room()/2, len(b.shown)-b.room()), 0)
	return first, min(b.room(), len(b.shown)-first)
}
