package tui

import (
	"strings"
	"testing"

	"crochet/tallyturn/counter"
)

// Steps of the making up are ticked by their words, a number that none has is
// said, and a tick whose step is there no more is told until the next one.
func TestTicking(t *testing.T) {
	const text = "Limpet\n\nUS terms\n\nRow 1: Ch 5. (5 ch)\nFasten off.\n\nFinishing\nSew the cap shut. Secure every end.\n"
	w, shelf := walkTextLook(t, text, Look{Colours: Plain}, 80, 24)
	toTheEnd(t, w)
	press(w, "2")
	if e := shelf.last(); e.Kind != counter.Tick || e.Text != "Secure every end." {
		t.Errorf("the journal has %+v", e)
	}
	if frame := plainFrame(w); !strings.Contains(frame, "✓  2 Secure every end.") || !strings.Contains(frame, "1 of 2 steps") || strings.Contains(frame, "otherwise by now") {
		t.Errorf("the second step is not ticked:\n%s", frame)
	}
	n := len(shelf.events)
	press(w, "7")
	if frame := plainFrame(w); len(shelf.events) != n || !strings.Contains(frame, "The making up has no such step") {
		t.Errorf("a step that is not there:\n%s", frame)
	}

	w.do(counter.Event{Kind: counter.Tick, Text: "Block it."}) // as a log of another text has it
	w.resize(40, 16)
	if frame := strings.Join(strings.Fields(plainFrame(w)), " "); !strings.Contains(frame, "≠ 1 tick belonged to a step that reads otherwise by now: tick again what is done.") {
		t.Errorf("the lost tick is not told: %s", frame)
	}
	press(w, "1")
	if frame := plainFrame(w); strings.Contains(frame, "otherwise by now") || !strings.Contains(frame, "2 of 2 steps") {
		t.Errorf("it is told still:\n%s", frame)
	}
}
