package tui

import (
	"io"
	"strings"
	"testing"
	"time"

	"github.com/charmbracelet/lipgloss"
	"github.com/muesli/termenv"
)

// bareFrame is a bordered frame of 100x30 with a styled span on every line, as
// lipgloss makes it: what there is to be measured against.
func bareFrame() func() string {
	r := lipgloss.NewRenderer(io.Discard)
	r.SetColorProfile(termenv.TrueColor)
	ink := r.NewStyle().Foreground(lipgloss.Color("#ffc86b"))
	box := r.NewStyle().Border(lipgloss.RoundedBorder()).Padding(0, 1).Width(98).Height(28)
	return func() string {
		lines := make([]string, 28)
		for i := range lines {
			lines[i] = ink.Render("sc in next 3 sts") + strings.Repeat(" of the row ", 4)
		}
		return box.Render(strings.Join(lines, "\n"))
	}
}

// BenchmarkFrame is a frame of the walk at 100x30, in true colour, in the
// middle of a row, as it is drawn between taps. "of-bare" is its time by that of a bare lipgloss frame.
func BenchmarkFrame(b *testing.B) {
	w, _ := walkOf(b, harbourCrab(), Look{Colours: TrueColour, Dark: true}, 100, 30)
	press(w, times(" ", 30)...)
	w.draw()
	bare := bareFrame()
	const n = 200
	start := time.Now()
	for range n {
		bare()
	}
	perBare := float64(time.Since(start)) / n
	b.ReportAllocs()
	for b.Loop() {
		_ = w.view()
	}
	b.ReportMetric(float64(b.Elapsed())/float64(b.N)/perBare, "of-bare")
}

// BenchmarkTap is all that a tap costs on this side of the disk: the event,
// the look at the state, the frame.
func BenchmarkTap(b *testing.B) {
	book := newBook()
	book.row(book.piece("Net", 1), "Row 1", 1, 1, 0, 1, words(rep(1_000_000_000, do("sc in next 2 sts", 2), do("2 sc in next st", 2))))
	w, shelf := walkOf(b, book, Look{Colours: TrueColour, Dark: true}, 100, 30)
	tap := keyOf(" ")
	b.ReportAllocs()
	for b.Loop() {
		w.key(tap)
		w.draw()
		_ = w.view()
		shelf.events = shelf.events[:0]
	}
}
