package tui

import (
	"fmt"
	"slices"
	"strings"
	"time"
)

// The slate is what the camera sees at the clap: the pattern, the piece, the
// row, the number of the take and the time of day, as large as they go.

// slateSeconds is how long the slate stays, if no key is pressed.
const slateSeconds = 3

// clapTime is how long the flash of the clap is seen: two or three frames of
// a camera.
const clapTime = 100 * time.Millisecond

// flash fills the window.
func (w *Walk) flash() string {
	c := newCanvas(w.theme, w.width, w.height)
	for range w.height {
		c.line(span{base, strings.Repeat("█", w.width)})
	}
	return c.String()
}

// slate draws the slate.
func (w *Walk) slate() string {
	c := newCanvas(w.theme, w.width, w.height)
	f := &frame{canvas: c, w: w, sc: w.scene, inner: w.width, margin: span{}}
	take := fmt.Sprintf("Take %d", w.film.slate.take)
	clock := time.UnixMilli(w.film.slate.at).In(w.cfg.Now().Location()).Format("15:04:05")
	row := f.sc.label
	if f.sc.finished {
		row = ""
	}
	row, _, _ = strings.Cut(row, " (") // the side is not to be read from afar
	small := []span{{strong, f.sc.title}}
	if p := f.sc.pieceLine(); p != "" {
		small = append(small, span{quiet, " · "}, span{base, p})
	}
	// As much in block letters as there is room for: the take and the time
	// before the row.
	for _, blocks := range [][]string{{row, take, clock}, {take, clock}, {take}} {
		if blocks[0] == "" {
			continue
		}
		scale := f.slateScale(blocks)
		if scale == 0 {
			continue
		}
		var said []string // what is not in block letters
		for _, s := range []string{row, take, clock} {
			if s != "" && !slices.Contains(blocks, s) {
				said = append(said, s)
			}
		}
		high, _ := w.cfg.Look.brush().cells(scale)
		used := 1 + len(blocks)*high + min(len(said), 1)
		gap := min(max((w.height-used)/(len(blocks)+2), 0), high)
		f.blank(min(gap, max(w.height-used, 0)))
		f.middle(small...)
		if len(said) > 0 {
			f.middle(span{accent, strings.Join(said, " · ")})
		}
		between := max(gap, min(1, (w.height-used)/len(blocks)))
		for i, text := range blocks {
			if len(f.lines)+between+(len(blocks)-i)*high <= w.height {
				f.blank(between)
			}
			for _, l := range w.cfg.Look.brush().text(text, scale) {
				f.middle(span{[]role{figure2, figure}[min(i, 1)], l})
			}
		}
		return f.String()
	}
	f.blank(max((w.height-4)/2, 0))
	f.middle(small...)
	for _, s := range []string{row, take, clock} {
		f.middle(span{strong, s})
	}
	return f.String()
}

// slateScale is the largest scale at which lines of text fit the window; 0
// where there is none.
func (f *frame) slateScale(blocks []string) int {
	pen := f.w.cfg.Look.brush()
	for scale := biggest; scale > 0; scale-- {
		high, _ := pen.cells(scale)
		fits := len(blocks)*high+2 <= f.height
		for _, text := range blocks {
			n, ok := pen.textWidth(text, scale)
			fits = fits && ok && n <= f.width
		}
		if fits {
			return scale
		}
	}
	return 0
}

// middle adds a line in the middle of the window.
func (f *frame) middle(spans ...span) {
	spans = clipSpans(spans, f.width)
	pad := span{base, strings.Repeat(" ", max((f.width-spanCells(spans))/2, 0))}
	f.line(append([]span{pad}, spans...)...)
}
