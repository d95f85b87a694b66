package tui

import (
	"errors"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
)

// TestPageThatFollows: a first page is looked at only; keys pressed on it are
// for the page that follows, which looks the same.
func TestPageThatFollows(t *testing.T) {
	whole := basketOf(Look{})
	first := NewBasket(BasketConfig{Items: whole.cfg.Items[:2], Counts: []int{whole.in(InWork), whole.in(SetAside), whole.in(Completed), whole.in(TakenOut)}, Now: whole.cfg.Now})
	m := &model{page: first, then: func() (Page, error) { return whole, nil }, said: "Sit up straight."}
	m.size(80, 12)
	m.Init()
	top := func() string { return strings.Join(strings.Split(m.View(), "\n")[:2], "\n") }
	before := top()
	for _, k := range []string{"down", "down", "?"} {
		m.Update(keyOf(k))
	}
	m.Update(tea.MouseMsg{Action: tea.MouseActionPress, Button: tea.MouseButtonLeft, X: 5, Y: 5})
	if m.help != nil || first.lit != 0 || first.opening {
		t.Errorf("the first page did something: %d lit, help %v, opening %v", first.lit, m.help != nil, first.opening)
	}
	page, err := m.then()
	m.Update(thenMsg{page, err})
	if m.page != page || whole.lit != 2 || m.help == nil {
		t.Errorf("the page that follows has %d lit, help %v; want 2 and the help", whole.lit, m.help != nil)
	}
	m.Update(keyOf("esc"))
	if after := top(); after != before {
		t.Errorf("before it stood there\n%s\nand after\n%s", before, after)
	}
}

// TestNoPageFollows: where the page that follows cannot be had, the screen ends.
func TestNoPageFollows(t *testing.T) {
	broken := errors.New("the basket is on the sea floor")
	m := &model{page: basketOf(Look{}), then: func() (Page, error) { return nil, broken }}
	m.Init()
	_, cmd := m.Update(thenMsg{nil, broken})
	if cmd == nil || m.failed != broken {
		t.Fatalf("it goes on, with %v", m.failed)
	}
	if _, quits := cmd().(tea.QuitMsg); !quits {
		t.Error("it does not quit")
	}
}
