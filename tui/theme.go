package tui

import (
	"io"
	"os"
	"strings"

	"github.com/charmbracelet/lipgloss"
	"github.com/muesli/termenv"

	"crochet/tallyturn/tui/ground"
)

// Colours is how much colour the terminal shows.
type Colours uint8

// From nothing at all to everything.
const (
	Plain       Colours = iota // letters only: no colour, no bold, nothing
	NoColour                   // bold, underline and reverse, no colour
	Sixteen                    // the terminal's own sixteen
	TwoFiftySix                // the fixed palette of 256
	TrueColour                 // 24 bits
)

// Look is what the terminal can show and on what ground.
type Look struct {
	Colours Colours
	Dark    bool
	ASCII   bool // no signs but those of ASCII
	Wants   *Wants
}

// FindLook tells from the environment what out can show. It asks the
// terminal nothing, so it never waits.
func FindLook(out io.Writer) Look {
	look := Look{Dark: ground.Dark(), Colours: NoColour, ASCII: asciiOnly(os.Getenv)}
	if os.Getenv("TERM") == "dumb" {
		look.Colours = Plain
		return look
	}
	// A full-screen program is always on a terminal: termenv need not guess,
	// and CI in the environment does not take the colours away.
	switch termenv.NewOutput(out, termenv.WithTTY(true)).EnvColorProfile() {
	case termenv.TrueColor:
		look.Colours = TrueColour
	case termenv.ANSI256:
		look.Colours = TwoFiftySix
	case termenv.ANSI:
		look.Colours = Sixteen
	}
	return look
}

// role is what a piece of text is for; the theme says how it is inked.
type role uint8

const (
	base       role = iota // text to read
	strong                 // text to find at once: titles, counts
	quiet                  // captions and hints
	done                   // worked
	hand                   // the instruction in hand
	lead                   // to be done before the stitch in hand, makes none
	accent                 // where in the repeat, the row in hand
	figure                 // the stitch in block figures
	figure2                // the row in block figures
	edge                   // lines and rulers
	markDone               // marks of the strip
	markHand               //
	markNear               // to come, in the instruction in hand
	markCome               //
	good                   // safe, agrees
	alarm                  // not saved, does not agree
	button                 //
	letter                 // of a button's name: the key that presses it
	lit                    // the button that Enter presses
	keycap                 // a key's name
	yarnRed                // yarn, and so on
	yarnOrange             //
	yarnYellow             //
	yarnGreen              //
	yarnTeal               //
	yarnBlue               //
	yarnPurple             //
	yarnPink               //
	yarnBrown              //
	yarnPale               // white, grey, black
	roles
)

// attributes holds however many colours there are.
type attributes struct{ bold, underline, reverse bool }

var attributesOf = [roles]attributes{
	strong:   {bold: true},
	hand:     {bold: true, reverse: true},
	lead:     {bold: true, underline: true},
	accent:   {bold: true},
	figure:   {bold: true},
	markHand: {bold: true, reverse: true},
	markDone: {},
	markNear: {bold: true},
	good:     {bold: true},
	alarm:    {bold: true, reverse: true},
	lit:      {bold: true, reverse: true},
	letter:   {bold: true, underline: true},
	keycap:   {bold: true},
}

// ink is a role made ready for one terminal: what to send before the text
// and after it.
type ink struct{ on, off string }

// theme is every role, inked once so that a frame is put together from
// strings alone.
type theme struct {
	look  Look
	inks  [roles]ink
	paint bool // the ground is painted, so lines are filled to their end
}

func newTheme(look Look) *theme {
	t := &theme{look: look, paint: look.Colours >= Sixteen}
	profile := map[Colours]termenv.Profile{
		Plain: termenv.Ascii, NoColour: termenv.ANSI, Sixteen: termenv.ANSI,
		TwoFiftySix: termenv.ANSI256, TrueColour: termenv.TrueColor,
	}[look.Colours]
	r := lipgloss.NewRenderer(io.Discard)
	r.SetColorProfile(profile)
	pairs := paletteFor(look)
	for i := range t.inks {
		a := attributesOf[i]
		s := r.NewStyle().Bold(a.bold).Underline(a.underline)
		if t.paint {
			// A painted pair says reverse by its colours.
			s = s.Foreground(lipgloss.Color(pairs[i].fg)).Background(lipgloss.Color(pairs[i].bg))
		} else {
			s = s.Reverse(a.reverse)
		}
		t.inks[i].on, t.inks[i].off, _ = strings.Cut(s.Render("x"), "x")
	}
	return t
}
