package tui

import (
	"fmt"
	"strconv"

	"crochet/tallyturn/counter"
)

// tick1 ticks a step of the making up by its number, or takes the tick away.
func (w *Walk) tick1(number string) {
	n, _ := strconv.Atoi(number)
	steps := w.state.Plan().Proof().Pattern.MakingUp()
	if n < 1 || n > len(steps) {
		w.note = sentence(counter.ErrNoStep.Error())
		return
	}
	if !w.do(counter.Event{Kind: counter.Tick, N: int64(n) - 1, Text: steps[n-1]}) {
		return
	}
	done, all := w.state.Steps()
	w.note = fmt.Sprintf("%d of %s of the making up done.", done, count(int64(all), "step"))
}

// stepSign is whether a step of the making up is done.
func (f *frame) stepSign(i int) span {
	if f.w.state.Ticked(i) {
		return span{good, "✓"}
	}
	return span{quiet, "·"}
}
