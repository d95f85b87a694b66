package tui

import (
	"fmt"
	"slices"
	"strings"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
)

// What can be done with the things of a basket, besides taking them up. Each
// can be taken back.

// change is something done to a thing, to be taken back.
type change struct {
	before, after Item
	words         string // "the new name"
}

// changedMsg tells a basket what came of a change.
type changedMsg struct {
	change
	added  bool // the thing was not there before
	undone bool // it was the taking back of a change
	note   string
	err    error
}

// gather lists the things of the part in front that are looked for.
func (b *Basket) gather() {
	b.shown = b.shown[:0]
	for i, it := range b.cfg.Items {
		if it.Part == b.part && (b.find == "" || contains(it.Title, b.find)) {
			b.shown = append(b.shown, i)
		}
	}
	b.light(b.lit)
}

// contains reports whether all words of what is looked for stand in a text,
// whatever their case.
func contains(text, words string) bool {
	text = strings.ToLower(text)
	for _, w := range strings.Fields(strings.ToLower(words)) {
		if !strings.Contains(text, w) {
			return false
		}
	}
	return true
}

// in counts the things in a part, without the demos that are only offered.
func (b *Basket) in(p Part) (n int) {
	if int(p) < len(b.cfg.Counts) {
		return b.cfg.Counts[p]
	}
	for _, it := range b.cfg.Items {
		if it.Part == p && !it.Demo {
			n++
		}
	}
	return n
}

// turnPart shows another part of the basket.
func (b *Basket) turnPart(step int) {
	b.part = Part((int(b.part) + step + int(parts)) % int(parts))
	b.find, b.lit = "", 0
	b.gather()
}

// showAll leaves off looking for something.
func (b *Basket) showAll() {
	if b.find == "" {
		b.note = "Nothing is open here. " + b.named(keyQuit) + " leaves, with everything kept."
		return
	}
	it := b.item()
	b.find = ""
	b.gather()
	if it != nil {
		b.lightItem(it.ID)
	}
}

func (b *Basket) lightItem(id string) {
	if i := slices.IndexFunc(b.shown, func(i int) bool { return b.cfg.Items[i].ID == id }); i >= 0 {
		b.light(i)
	}
}

// changeKey does what a key says to the lit thing.
func (b *Basket) changeKey(k tea.KeyMsg) tea.Cmd {
	switch {
	case key.Matches(k, keyFind):
		b.field = field{of: finding, text: b.find}
		return nil
	case key.Matches(k, keyBegin):
		if b.cfg.Begin == nil || !b.mayChange() {
			return nil
		}
		b.field = field{of: beginning}
		return nil
	case key.Matches(k, keyUndo):
		return b.takeBack()
	}
	var do func(Item) tea.Cmd
	switch {
	case key.Matches(k, keyRename):
		do = b.rename
	case key.Matches(k, keyAnew):
		do = b.again
	case key.Matches(k, keyAside):
		do = func(it Item) tea.Cmd { return b.put(it, SetAside, "set aside") }
	case key.Matches(k, keyComplete):
		do = func(it Item) tea.Cmd { return b.put(it, Completed, "with the finished") }
	case key.Matches(k, keyOut):
		do = func(it Item) tea.Cmd { return b.put(it, TakenOut, "taken out of the basket") }
	default:
		b.idle(k.String())
		return nil
	}
	it := b.item()
	switch {
	case it == nil:
		b.note = "There is nothing here to do that with."
		return nil
	case it.Demo:
		b.note = "It is only offered to try. Enter begins it."
		return nil
	case !b.mayChange():
		return nil
	}
	return do(*it)
}

// mayChange reports whether things can be changed now, and says why not.
func (b *Basket) mayChange() bool {
	switch {
	case b.cfg.LookOnly != "":
		b.note = "Only looking: " + Clean(b.cfg.LookOnly)
	case b.cfg.Change == nil || b.cfg.Again == nil:
		b.note = "Nothing can be changed in this basket."
	default:
		return true
	}
	return false
}

// put puts a thing into a part of the basket or, where it is there, back with
// the work.
func (b *Basket) put(it Item, to Part, words string) tea.Cmd {
	after := it
	after.Part = to
	note := fmt.Sprintf("%s is %s. %s takes that back.", it.Title, words, b.named(keyUndo))
	if it.Part == to {
		after.Part = InWork
		note = it.Title + " is in work again."
	}
	return b.keep(change{it, after, "where " + it.Title + " was put"}, note)
}

func (b *Basket) rename(it Item) tea.Cmd {
	b.field = field{of: renaming, text: it.Name, item: it}
	return nil
}

// keep has a change kept.
func (b *Basket) keep(c change, note string) tea.Cmd {
	b.changing = true
	keep := b.cfg.Change
	return func() tea.Msg {
		var err error
		c.after, err = keep(c.after)
		return changedMsg{change: c, note: note, err: err}
	}
}

// again begins another of the same pattern.
func (b *Basket) again(it Item) tea.Cmd {
	b.changing = true
	again := b.cfg.Again
	return func() tea.Msg {
		after, err := again(it)
		before := after
		before.Part = TakenOut
		return changedMsg{change: change{before, after, "the new " + it.Title}, added: true, err: err,
			note: "It can be made again: Enter begins it."}
	}
}

// takeBack takes the last change back.
func (b *Basket) takeBack() tea.Cmd {
	if len(b.undo) == 0 {
		b.note = "Nothing was changed in the basket that could be taken back."
		return nil
	}
	if !b.mayChange() {
		return nil
	}
	c := b.undo[len(b.undo)-1]
	b.changing = true
	keep := b.cfg.Change
	return func() tea.Msg {
		after, err := keep(c.before)
		return changedMsg{change: change{after: after}, undone: true, err: err, note: sentence("taken back: " + c.words)}
	}
}

// changed shows what came of a change, and does what the keys say that were
// pressed meanwhile.
func (b *Basket) changed(m changedMsg) tea.Cmd {
	waiting := b.waiting
	b.changing, b.waiting = false, nil
	if m.err != nil {
		b.fail(m.err)
		return nil
	}
	b.shelve(m)
	var cmds []tea.Cmd
	for _, k := range waiting {
		cmds = append(cmds, b.key(k))
	}
	return tea.Sequence(cmds...)
}

// shelve puts the thing where it is now.
func (b *Basket) shelve(m changedMsg) {
	it := cleanItem(m.after)
	switch i := slices.IndexFunc(b.cfg.Items, func(x Item) bool { return x.ID == it.ID }); {
	case i >= 0:
		b.cfg.Items[i] = it
	default:
		b.cfg.Items = slices.Insert(b.cfg.Items, 0, it)
	}
	if m.undone {
		b.undo = b.undo[:len(b.undo)-1]
	} else {
		b.undo = append(b.undo, m.change)
	}
	if m.added || m.undone && it.Part != b.part && it.Part != TakenOut {
		b.part, b.find = it.Part, "" // it is to be seen
	}
	b.gather()
	b.lightItem(it.ID)
	b.note = Clean(m.note)
}
