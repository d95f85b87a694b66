package tui

import (
	"fmt"

	tea "github.com/charmbracelet/bubbletea"
)

// What is taken out can be erased, and that is all in the basket that cannot
// be taken back. So it is asked twice, and the second time for a word: no knock
// on the keys comes to that.

// eraseWord is what is to be typed.
const eraseWord = "erase"

// askErase asks whether the lit thing is to be erased.
func (b *Basket) askErase() {
	it := b.item()
	switch {
	case it == nil:
		b.note = "There is nothing here to do that with."
	case it.Part != TakenOut:
		b.note = fmt.Sprintf("Only what is taken out can be erased. %s takes it out.", b.named(keyOut))
	case b.cfg.Erase == nil:
		b.mayChange()
		if b.note == "" {
			b.note = "Nothing can be erased in this basket."
		}
	case b.mayChange():
		b.field = field{of: erasing, item: *it}
	}
}

// question is what is asked before a thing is erased; "" for other fields.
func (f field) question() string {
	switch f.of {
	case erasing:
		if f.item.Done == 0 {
			return fmt.Sprintf("Erase %s for good? Nothing brings it back.", f.item.Title)
		}
		return fmt.Sprintf("Erase %s for good, with its %s, notes and times? Nothing brings it back.", f.item.Title, count(f.item.Done, "stitch"))
	case erasingSurely:
		return fmt.Sprintf("This cannot be taken back. Type %s to erase %s, or press Esc.", eraseWord, f.item.Title)
	}
	return ""
}

// erase asks once more, or erases.
func (b *Basket) erase(f field, text string) tea.Cmd {
	if f.of == erasing {
		b.field = field{of: erasingSurely, item: f.item}
		return nil
	}
	if text != eraseWord {
		b.note = f.item.Title + " is kept: the word was not typed."
		return nil
	}
	b.changing = true
	erase, it := b.cfg.Erase, f.item
	return func() tea.Msg {
		return changedMsg{change: change{after: it}, erased: true, err: erase(it), note: it.Title + " is erased for good."}
	}
}
