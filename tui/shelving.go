package tui

import (
	"fmt"
	"slices"
	"strings"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
)

// What can be done with the things of a basket, besides taking them up. Each
// but the erasing can be taken back.

// change is something done to a thing, to be taken back.
type change struct {
	before, after Item
	words         string // "the new name"
}

// back is a thing as it was before the change, in all that the change changed;
// false where that has changed again since, as the part of a thing does that is
// taken up.
func (c change) back(now Item) (Item, bool) {
	if c.before.Part != c.after.Part && now.Part != c.after.Part || c.before.Name != c.after.Name && now.Name != c.after.Name {
		return now, false
	}
	if c.before.Part != c.after.Part {
		now.Part = c.before.Part
	}
	if c.before.Name != c.after.Name {
		now.Name = c.before.Name
	}
	return now, true
}

// History is what was changed in a basket, so that it can be taken back in
// another that is shown after it. The zero History is one of no changes.
type History struct{ changes []change }

// last is the newest change that can be taken back, with the thing as it was
// before. Those that cannot any more are forgotten.
func (h *History) last(items []Item) (c change, before Item, ok bool) {
	for n := len(h.changes); n > 0; n = len(h.changes) {
		c = h.changes[n-1]
		if i := slices.IndexFunc(items, func(it Item) bool { return it.ID == c.after.ID }); i >= 0 {
			if before, ok = c.back(items[i]); ok {
				return c, before, true
			}
		}
		h.drop()
	}
	return change{}, Item{}, false
}

func (h *History) drop() { h.changes = h.changes[:max(len(h.changes)-1, 0)] }

// forget forgets what was done to a thing.
func (h *History) forget(id string) {
	h.changes = slices.DeleteFunc(h.changes, func(c change) bool { return c.after.ID == id })
}

// changedMsg tells a basket what came of a change.
type changedMsg struct {
	change
	added  bool // the thing was not there before
	undone bool // it was the taking back of a change
	erased bool // the thing is no more
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
	case key.Matches(k, keyForGood):
		b.askErase()
		return nil
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
	c, before, ok := b.undo.last(b.cfg.Items)
	if !ok {
		b.note = "Nothing was changed in the basket that could be taken back."
		return nil
	}
	if !b.mayChange() {
		return nil
	}
	b.changing = true
	keep := b.cfg.Change
	return func() tea.Msg {
		after, err := keep(before)
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
	if m.erased {
		b.cfg.Items = slices.DeleteFunc(b.cfg.Items, func(it Item) bool { return it.ID == m.after.ID })
		b.undo.forget(m.after.ID)
		b.gather()
		b.note = Clean(m.note)
		return
	}
	it := cleanItem(m.after)
	switch i := slices.IndexFunc(b.cfg.Items, func(x Item) bool { return x.ID == it.ID }); {
	case i >= 0:
		b.cfg.Items[i] = it
	default:
		b.cfg.Items = slices.Insert(b.cfg.Items, 0, it)
	}
	if m.undone {
		b.undo.drop()
	} else {
		m.change.after = it
		b.undo.changes = append(b.undo.changes, m.change)
	}
	if m.added || m.undone && it.Part != b.part && it.Part != TakenOut {
		b.part, b.find = it.Part, "" // it is to be seen
	}
	b.gather()
	b.lightItem(it.ID)
	b.note = Clean(m.note)
}
