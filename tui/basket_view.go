package tui

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"crochet/tallyturn/counter"
)

// barWide is how many columns the bar of a thing's progress takes at most.
const barWide = 30

func (b *Basket) view() string {
	c := newCanvas(b.theme, b.width, b.height)
	m := span{base, strings.Repeat(" ", marginFor(b.width))}
	inner := b.width - 2*len(m.text)
	put := func(spans ...span) { c.line(append([]span{m}, clipSpans(spans, inner)...)...) }
	if b.unsaved != nil {
		text := clip(" ✗ NOT SAVED: "+Clean(b.unsaved.Error()), b.width)
		c.line(span{alarm, text + strings.Repeat(" ", max(b.width-cells(text), 0))})
	} else {
		c.sides([]span{m, {strong, "tallyturn"}, {quiet, " · the basket"}}, []span{{quiet, b.held()}, m})
	}
	put(b.tabs()...)
	c.blank(b.top() - len(c.lines))
	first, n := b.window()
	for i := first; i < first+n; i++ {
		for _, l := range b.entry(i, inner) {
			put(l...)
		}
		c.blank(b.pace() - itemText)
	}
	if n == 0 {
		put(span{quiet, b.empty()})
	}
	large := b.large(inner, b.height-basketFoot-2-len(c.lines))
	if q := b.field.question(); q != "" { // over the list, if need be
		large = fold(lead, q, inner)
		c.lines = c.lines[:max(min(len(c.lines), b.height-basketFoot-len(large)), 0)]
	}
	if b.typing() && b.note != "" && b.field.text != "" { // beside what is typed
		ink, sign := base, ""
		if b.broken {
			ink, sign = alarm, "✗ "
		}
		large = append(large, fold(ink, sign+b.note, inner)...)
		c.lines = c.lines[:max(min(len(c.lines), b.height-basketFoot-len(large)), 0)]
	}
	says := [][]span{b.says(inner)}
	if !b.typing() && spanCells(says[0]) > inner { // told whole, over the list if need be
		says = foldSpans(says[0], inner)
		if len(says) > mostNoteLines {
			says = says[:mostNoteLines]
			says[mostNoteLines-1] = goesOn(says[mostNoteLines-1], inner)
		}
		large = append(large, says[:len(says)-1]...)
		c.lines = c.lines[:max(min(len(c.lines), b.height-basketFoot-len(large)), 0)]
	}
	for len(c.lines) < b.height-basketFoot-len(large) {
		c.line()
	}
	for _, l := range large {
		put(l...)
	}
	c.lines = c.lines[:max(b.height-basketFoot, 0)]
	put(says[len(says)-1]...)
	put(b.hints(inner)...)
	return c.String()
}

// large is the lit thing and how far it is in block letters, with a blank line
// under them; nil where they do not fit n lines.
func (b *Basket) large(width, n int) [][]span {
	it := b.item()
	if it == nil {
		return nil
	}
	text := it.Title
	if !it.Demo && it.Total > 0 {
		text += fmt.Sprintf(": %d%%", it.percent())
		if it.Unknown > 0 {
			text = fmt.Sprintf("%s: up to %d%%", it.Title, it.percent())
		}
	}
	out := b.theme.look.brush().largest(figure2, text, 2, width, n-1)
	if out == nil {
		return nil
	}
	return append(out, nil)
}

// percent is how far a thing is.
func (it Item) percent() int {
	if it.Total <= 0 {
		return 0
	}
	return min(max(int(100*float64(it.Done)/float64(it.Total)), 0), 100)
}

// share is the percentage in words: at most that where rows are to come whose
// stitches nobody knows.
func (it Item) share() string {
	if it.Unknown > 0 && it.Done > 0 {
		return fmt.Sprintf("≤%d%%", it.percent())
	}
	return fmt.Sprintf("%d%%", it.percent())
}

// held is how much is in progress.
func (b *Basket) held() string {
	if n := b.in(InWork); n > 0 {
		return fmt.Sprintf("%d in progress", n)
	}
	return "nothing in progress"
}

// tabs are the parts of the basket, the one in front lit.
func (b *Basket) tabs() (line []span) {
	for p := range parts {
		name := partNames[p]
		if n := b.in(p); n > 0 {
			name += fmt.Sprintf(" %d", n)
		}
		if p == b.part {
			line = append(line, span{lit, handOpen + name + handClose})
		} else {
			line = append(line, span{quiet, " " + name + " "})
		}
		line = append(line, span{base, " "})
	}
	return line
}

// partAt is the part whose tab is under a point of the window.
func (b *Basket) partAt(x, y int) (Part, bool) {
	at := marginFor(b.width)
	for i, s := range b.tabs() {
		if x >= at && x < at+cells(s.text) && y == 1 && i%2 == 0 {
			return Part(i / 2), true
		}
		at += cells(s.text)
	}
	return 0, false
}

// empty says why nothing is shown.
func (b *Basket) empty() string {
	switch {
	case b.find != "":
		return "Nothing here is called that."
	case b.part == InWork && b.cfg.Begin != nil:
		return "Nothing is in work. " + b.named(keyBegin) + " begins something."
	case b.part == InWork:
		return "Nothing is in work."
	case b.part == TakenOut:
		return "Nothing is taken out."
	}
	return "Nothing is " + strings.ToLower(partNames[b.part]) + "."
}

// says is the line above the last: what is typed, or what the last key came to.
func (b *Basket) says(width int) []span {
	switch {
	case b.typing() && b.note != "" && b.field.text == "":
		return []span{{base, b.note}}
	case b.field.of == erasing:
		return nil // the hints say all there is
	case b.typing():
		return b.field.asks(width)
	case b.broken:
		return []span{{alarm, "✗ " + b.note}}
	case b.note != "":
		return []span{{base, b.note}}
	case b.opening:
		return []span{{quiet, "Opening…"}}
	case b.find != "":
		return []span{{quiet, fmt.Sprintf("%d found for ", len(b.shown))}, {base, Clean(b.find)}, {quiet, " · Esc shows everything"}}
	case b.part == SetAside && len(b.shown) > 0:
		return []span{{quiet, "Taking one up puts it back in work."}}
	case b.part == TakenOut && len(b.shown) > 0:
		return []span{{quiet, b.named(keyOut) + " puts it back; " + b.named(keyForGood) + " erases it for good."}}
	}
	return nil
}

// hints are the keys that do something here, as many as there is room for.
func (b *Basket) hints(width int) (line []span) {
	list := []struct{ key, does string }{
		{b.named(keyChoose), "take up"}, {b.named(keyHelp), "keys"}, {b.named(keyQuit), "leave"},
		{b.named(keyFind), "find"}, {b.named(keyBegin), "begin"}, {b.named(keyRename), "rename"},
		{b.named(keyAnew), "make again"}, {b.named(keyAside), "aside"}, {b.named(keyComplete), "finish"},
		{b.named(keyOut), "take out"}, {b.named(keyUndo), "undo"},
	}
	if b.typing() {
		list = list[:0]
		list = append(list, struct{ key, does string }{"Enter", "keeps"}, struct{ key, does string }{"Esc", "leaves it"})
		switch b.field.of {
		case finding:
			list[0].does = "takes the lit one up"
		case erasing:
			list[0].does, list[1].does = "asks once more", "keeps it"
		case erasingSurely:
			list[0].does, list[1].does = "erases it, after the word", "keeps it"
		}
	} else if b.part == TakenOut {
		list[0] = struct{ key, does string }{b.named(keyOut), "put back"}
		list = slices.Insert(list, 1, struct{ key, does string }{b.named(keyForGood), "erase for good"})
	}
	used := 0
	for i, h := range list {
		n := cells(h.key) + 1 + cells(h.does)
		if i > 0 {
			n += 2
		}
		if used+n > width {
			break
		}
		if i > 0 {
			line = append(line, span{base, "  "})
		}
		line = append(line, span{keycap, h.key}, span{quiet, " " + h.does})
		used += n
	}
	return line
}

// entry is the two lines of one of the things shown.
func (b *Basket) entry(i, width int) [itemText][]span {
	it := b.cfg.Items[b.shown[i]]
	number := fmt.Sprintf("%3d ", i+1)
	title, ink := " "+it.Title+" ", base
	if i == b.lit {
		title, ink = handOpen+it.Title+handClose, hand
	}
	when := b.when(it)
	if w := max(width-len(number)-cells(when)-2, 4); cells(title) > w {
		title = clip(title, w)
		if i == b.lit {
			title = clip(title, w-1) + handClose
		}
	}
	gap := max(width-len(number)-cells(title)-cells(when), 1)
	bar := b.bar(width)
	full := 0
	if it.Total > 0 {
		full = int(float64(bar) * float64(it.Done) / float64(it.Total))
	}
	full = min(max(full, 0), bar)
	line := []span{{base, "     "}, {figure2, strings.Repeat("━", full)}, {edge, strings.Repeat("╌", bar-full)}}
	if it.Demo {
		line = append(line, span{quiet, "  " + count(it.Total, "stitch")})
	} else {
		line = append(line, span{accent, fmt.Sprintf(" %4s", it.share())}, span{quiet, "  " + b.far(it, width)})
	}
	return [itemText][]span{
		{{keycap, number}, {ink, title}, {base, strings.Repeat(" ", gap)}, {quiet, when}},
		line,
	}
}

// bar is how many columns the bar of a thing takes.
func (b *Basket) bar(width int) int { return min(barWide, max(width/6, 6)) }

// far is how far a thing is, in what time, and how long the rest may take: in
// columns, where there is room for them.
func (b *Basket) far(it Item, width int) string {
	var spent, more, unknown string
	if it.Millis > 0 {
		spent = clockTime(it.Millis)
		if width >= 64 {
			spent += " so far"
		}
	}
	if it.High > 0 {
		more = stretchWords(counter.Forecast{Low: it.Low, High: it.High}) + " to come"
	}
	total, stitches, _ := strings.Cut(count(it.Total, "stitch"), " ")
	if it.Unknown > 0 {
		total += "+"
		unknown = "and " + count(it.Unknown, "row") + " unknown"
	}
	far := fmt.Sprintf("%d of %s", it.Done, total)
	if width >= 90 || spent == "" {
		far += " " + stitches
	}
	if it.Total > 0 && it.Done >= it.Total {
		far = doneSign + " all " + count(it.Total, "stitch")
	}
	if width < 90 {
		room := width - b.bar(width) - len("      100%  ")
		line := far
		for _, s := range []string{spent, more, unknown} {
			if next := line + " · " + s; s != "" && cells(next) <= room {
				line = next
			}
		}
		return line
	}
	line := strings.TrimRight(fmt.Sprintf("%-26s%-22s%s", far, spent, more), " ")
	if next := line + "  " + unknown; unknown != "" && cells(next) <= width-b.bar(width)-len("      100%  ") {
		line = next
	}
	return line
}

// when tells how long ago a thing was last worked on.
func (b *Basket) when(it Item) string {
	if it.Demo {
		return "to try"
	}
	if it.Touched.IsZero() {
		return "not begun"
	}
	switch ago := b.cfg.Now().Sub(it.Touched); {
	case ago < time.Minute:
		return "just now"
	case ago < time.Hour:
		return fmt.Sprintf("%d min ago", int(ago.Minutes()))
	case ago < 24*time.Hour:
		return fmt.Sprintf("%d h ago", int(ago.Hours()))
	case ago < 14*24*time.Hour:
		return count(int64(ago.Hours()/24), "day") + " ago"
	}
	return it.Touched.Format("2 Jan 2006")
}
