package tui

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
)

// purpose is what a text is typed for.
type purpose uint8

const (
	nothing       purpose = iota
	finding               // words to look for
	renaming              // another name
	beginning             // the file of a pattern
	erasing               // whether a thing is to be erased
	erasingSurely         // and the word for it
)

// field is a text being typed in the basket.
type field struct {
	of   purpose
	text string
	item Item // the one to be renamed or erased
}

// mostTyped is how many characters a name or the path of a file may have.
const mostTyped = 400

// typing reports whether keys are letters at the moment.
func (b *Basket) typing() bool { return b.field.of != nothing }

// fieldKey takes a key while a text is typed.
func (b *Basket) fieldKey(k tea.KeyMsg) tea.Cmd {
	f := &b.field
	switch {
	case key.Matches(k, keyKeepNote):
		return b.fieldDone()
	case key.Matches(k, keyDrop):
		if f.of == finding {
			b.find = ""
			b.gather()
		}
		b.field = field{}
		return nil
	case f.of == finding && key.Matches(k, keyUp):
		b.light(b.lit - 1)
		return nil
	case f.of == finding && key.Matches(k, keyDown):
		b.light(b.lit + 1)
		return nil
	case key.Matches(k, keyErase):
		if f.of == erasing {
			b.field = field{} // as Esc does: there is nothing to rub out
			return nil
		}
		_, n := utf8.DecodeLastRuneInString(f.text)
		f.text = f.text[:len(f.text)-n]
	case f.of == erasing:
		b.note = keyName(Clean(k.String())) + " does nothing here. Enter asks once more, Esc keeps it."
	case k.Type == tea.KeyRunes || k.Type == tea.KeySpace:
		text := string(k.Runes)
		if k.Paste {
			text = strings.Join(strings.Fields(text), " ")
		}
		if utf8.RuneCountInString(f.text)+utf8.RuneCountInString(text) > mostTyped {
			b.note = fmt.Sprintf("There is room for %d letters.", mostTyped)
			return nil
		}
		f.text += text
	default:
		b.note = keyName(Clean(k.String())) + " does nothing here. Enter keeps what is typed, Esc leaves it."
		return nil
	}
	if f.of == finding {
		b.find = f.text
		b.lit = 0
		b.gather()
	}
	return nil
}

// fieldDone does what the text was typed for.
func (b *Basket) fieldDone() tea.Cmd {
	f := b.field
	b.field = field{}
	text := strings.TrimSpace(f.text)
	switch f.of {
	case finding:
		return b.choose()
	case renaming:
		if text == f.item.Name {
			b.note = "The name is as it was."
			return nil
		}
		after := f.item
		after.Name = text
		note := "It has its new name."
		if text == "" {
			note = "It is called as its pattern is."
		}
		return b.keep(change{f.item, after, "the new name of " + f.item.Title}, note)
	case erasing, erasingSurely:
		return b.erase(f, text)
	case beginning:
		if text == "" {
			b.note = "No file was named."
			return nil
		}
		begin := b.cfg.Begin
		b.tried = f
		return b.take(func() (*Walk, error) { return begin(text) })
	}
	return nil
}

// asks is the line on which the text is typed.
func (f field) asks(width int) []span {
	words := map[purpose]string{
		finding: "find ", renaming: "its name ", beginning: "the file of a pattern ", erasingSurely: "the word, then Enter ",
	}[f.of]
	if f.of == erasing {
		return []span{{strong, "Enter asks once more, Esc keeps it."}}
	}
	text := Clean(f.text)
	for cells(text) > max(width-cells(words)-3, 1) { // what is typed last is seen
		_, n := utf8.DecodeRuneInString(text)
		text = text[n:]
	}
	return []span{{strong, words}, {hand, handOpen + text + handClose}}
}
