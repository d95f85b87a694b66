package tui

// pair is the colour of the letters and of the ground under them: "#rrggbb",
// or a number of the palette of 16 or 256.
//
// The ground is always painted, because where a terminal does not say what
// its own ground is, letters alone would be a guess. Every pair stands at
// least 4.5 to 1 apart (WCAG 2, level AA); a test works them out.
type pair struct{ fg, bg string }

type palette [roles]pair

// shades names the few colours a palette is made of.
type shades struct {
	ground, shelf string // the page, and the raised parts of it
	text, title   string
	quiet, done   string
	lamp, onLamp  string // the one warm colour: what is in the hands now
	sea           string // the row, keys, whatever belongs to the place
	leaf          string // safe, agrees
	flag, onFlag  string // cannot be missed
	line          string
	yarns         [10]string // red, orange, yellow, green, teal, blue, purple, pink, brown, pale
}

func paletteFor(l Look) palette {
	switch {
	case l.Colours == TrueColour && l.Dark:
		return shades{
			ground: "#10181f", shelf: "#1e2a34", text: "#dcd8cd", title: "#fbf6ea",
			quiet: "#9eabb5", done: "#8495a1", lamp: "#ffc86b", onLamp: "#1b1405",
			sea: "#74cfc6", leaf: "#8fd694", flag: "#bf2437", onFlag: "#ffffff", line: "#7d8c97",
			yarns: [10]string{"#ff8a80", "#ffab70", "#f2d675", "#8fd694", "#74cfc6", "#8ab8ff", "#c4a7ff", "#ff9ecb", "#d3a680", "#dcd8cd"},
		}.palette()
	case l.Colours == TrueColour:
		return shades{
			ground: "#fbf7ee", shelf: "#ece4d3", text: "#2a2f33", title: "#0d1114",
			quiet: "#55606a", done: "#646e76", lamp: "#8a4500", onLamp: "#fffaf0",
			sea: "#0a5c5a", leaf: "#22602c", flag: "#ad1528", onFlag: "#ffffff", line: "#6a7077",
			yarns: [10]string{"#a81c1c", "#8f4200", "#6b5200", "#22602c", "#0a5c5a", "#1b4b99", "#5b32a3", "#99215f", "#6b3e1e", "#4a4f55"},
		}.palette()
	case l.Colours == TwoFiftySix && l.Dark:
		return shades{
			ground: "233", shelf: "236", text: "253", title: "231",
			quiet: "248", done: "246", lamp: "221", onLamp: "16",
			sea: "80", leaf: "114", flag: "124", onFlag: "231", line: "245",
			yarns: [10]string{"210", "215", "221", "114", "80", "111", "183", "212", "180", "253"},
		}.palette()
	case l.Colours == TwoFiftySix:
		return shades{
			ground: "231", shelf: "254", text: "235", title: "16",
			quiet: "240", done: "242", lamp: "94", onLamp: "231",
			sea: "23", leaf: "22", flag: "124", onFlag: "231", line: "242",
			yarns: [10]string{"124", "94", "58", "22", "23", "25", "55", "89", "52", "238"},
		}.palette()
	case l.Dark:
		return shades{
			ground: "0", shelf: "0", text: "7", title: "15",
			quiet: "7", done: "7", lamp: "11", onLamp: "0",
			sea: "14", leaf: "10", flag: "1", onFlag: "15", line: "7",
			yarns: [10]string{"9", "11", "11", "10", "14", "14", "13", "13", "3", "15"},
		}.palette()
	default:
		return shades{
			ground: "15", shelf: "15", text: "0", title: "0",
			quiet: "0", done: "0", lamp: "4", onLamp: "15",
			sea: "4", leaf: "0", flag: "1", onFlag: "15", line: "0",
			yarns: [10]string{"1", "1", "0", "0", "4", "4", "5", "5", "1", "0"},
		}.palette()
	}
}

func (s shades) palette() palette {
	return palette{
		base:     {s.text, s.ground},
		strong:   {s.title, s.ground},
		quiet:    {s.quiet, s.ground},
		done:     {s.done, s.ground},
		hand:     {s.onLamp, s.lamp},
		lead:     {s.lamp, s.ground},
		accent:   {s.lamp, s.ground},
		figure:   {s.lamp, s.ground},
		figure2:  {s.sea, s.ground},
		edge:     {s.line, s.ground},
		markDone: {s.sea, s.ground},
		markHand: {s.onLamp, s.lamp},
		markNear: {s.lamp, s.ground},
		markCome: {s.quiet, s.ground},
		good:     {s.leaf, s.ground},
		alarm:    {s.onFlag, s.flag},
		button:   {s.text, s.shelf},
		letter:   {s.sea, s.shelf},
		lit:      {s.ground, s.sea},
		keycap:   {s.sea, s.ground},

		yarnRed:    {s.yarns[0], s.ground},
		yarnOrange: {s.yarns[1], s.ground},
		yarnYellow: {s.yarns[2], s.ground},
		yarnGreen:  {s.yarns[3], s.ground},
		yarnTeal:   {s.yarns[4], s.ground},
		yarnBlue:   {s.yarns[5], s.ground},
		yarnPurple: {s.yarns[6], s.ground},
		yarnPink:   {s.yarns[7], s.ground},
		yarnBrown:  {s.yarns[8], s.ground},
		yarnPale:   {s.yarns[9], s.ground},
	}
}
