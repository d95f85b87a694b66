package tui

import "github.com/charmbracelet/bubbles/key"

// Every key is declared here, once, with its help. Help is drawn from the
// declarations, and nothing else in the package names a key.

// bind declares a key: what the maker reads, what it does, what the terminal
// calls it.
func bind(name, does string, keys ...string) key.Binding {
	return key.NewBinding(key.WithKeys(keys...), key.WithHelp(name, does))
}

// Keys that hold everywhere.
var (
	keyHelp      = bind("?", "every key, and what it does", "?")
	keyQuit      = bind("q", "leave; everything is kept", "q", "Q", "ctrl+c")
	keyElsewhere = bind("w", "while nothing can be saved: write the walk to another file", "w", "W")
	keyLock      = bind("Ctrl+L", "lock the keys against knocks, and unlock them", "ctrl+l")
	keyRest      = bind("Ctrl+Z", "lay the program aside, back to the shell", "ctrl+z")
	keyEsc       = bind("Esc", "close this and go back to the row", "esc")

	keyPress  = bind("Enter", "press the lit button", "enter", "ctrl+j")
	keyLight  = bind("Tab", "light the next button", "tab", "right")
	keyLightB = bind("Shift+Tab", "light the button before", "shift+tab", "left")
)

// Keys of the walk.
var (
	keyTap     = bind("Space", "tap: one stride on (so do Page Down, a pedal, and a click)", " ", "pgdown")
	keyBack    = bind("Backspace", "take the last thing back, as often as you like", "backspace", "ctrl+h", "delete")
	keyStride  = bind("s", "stride: a stitch, an instruction, a pass, or the row; after a number, so many stitches", "s", "S")
	keyPause   = bind("p", "pause the time, or let it go on", "p", "P")
	keyCount   = bind("c", "count now: say how many stitches are on the hook", "c", "C")
	keyEnd     = bind("e", "end the row here and give its count", "e", "E")
	keyRows    = bind("r", "the rows of the piece; go to any of them", "r", "R")
	keyGoTo    = bind("0-9", "a number, then Enter: go to that stitch of the row", "0", "1", "2", "3", "4", "5", "6", "7", "8", "9")
	keyAgain   = bind("a", "do again what was taken back last", "a", "A")
	keyHunt    = bind("h", "hunt for a slip in the row", "h", "H")
	keyUnravel = bind("u", "unravel to a row and stitch, after seeing what that takes", "u", "U")
	keyMark    = bind("m", "put a marker into the stitch in hand, or take it out", "m", "M")
	keyNote    = bind("n", "write a note on the row", "n", "N")
	keyList    = bind("l", "list markers, notes and differences", "l", "L")
	keyFollow  = bind("f", "what follows from a difference: rows, pieces, how to come right", "f", "F")
	keyPace    = bind("t", "time: your pace, and how long the rest may take", "t", "T")
	keyYarn    = bind("j", "yarn: what is used so far, and whether what is left lasts", "j", "J")
	keyTick    = bind("1-9", "at the end: tick a step of the making up", "1", "2", "3", "4", "5", "6", "7", "8", "9")
	keyBasket  = bind("b", "back to the basket", "b", "B")
	keyFilm    = bind("v", "the film screen: takes, the words to say, how they fit; and back", "v", "V")
)

// Keys of the questions.
var (
	keyDigit       = bind("0-9", "give a number", "0", "1", "2", "3", "4", "5", "6", "7", "8", "9")
	keyGo          = bind("Enter", "go to the stitch of the number given", "enter", "ctrl+j")
	keyTake        = bind("Enter, Space", "take the number shown (so do Page Down and a click)", "enter", "ctrl+j", " ", "pgdown")
	keyErase       = bind("Backspace", "rub out a digit; with none left, go back", "backspace", "ctrl+h", "delete")
	keyCarry       = bind("Enter", "carry on with your count", "enter", "ctrl+j")
	keyTally       = bind("Enter", "the tally is off: set it by your count", "enter", "ctrl+j")
	keyAsIs        = bind("g", "go on as it is, the count kept", "g", "G")
	keyAnswer      = bind("Enter", "give the count shown", "enter", "ctrl+j")
	keyRip         = bind("Enter", "unravel; Up and Down choose the row", "enter", "ctrl+j")
	keyGoThere     = bind("Enter", "go to the lit one", "enter", "ctrl+j")
	keyTakeOut     = bind("x", "take the lit marker or note away", "x", "X")
	keyClosePace   = bind("Enter", "close the times", "enter", "ctrl+j", " ", "t")
	keyCloseFollow = bind("Enter", "close what follows", "enter", "ctrl+j", " ", "f")
	keyMove        = bind("Enter", "go on with what the file says by now", "enter", "ctrl+j")
	keyStay        = bind("k", "stay with the text the walk was begun with", "k", "K")
	keyKeepNote    = bind("Enter", "keep the note", "enter", "ctrl+j")
	keyDrop        = bind("Esc", "leave the note as it was", "esc")
	keyReturn      = bind("Backspace", "go back to the row", "backspace", "ctrl+h", "delete", "esc")
)

// Keys of the yarn page.
var (
	keyKeepWeight  = bind("Enter", "keep the grams typed as what is left on the scale", "enter", "ctrl+j")
	keyPoint       = bind(".", "a part of a gram", ".", ",")
	keyNewBall     = bind("n", "keep them as another ball, begun here", "n", "N")
	keyFirstWeight = bind("s", "keep them as the weight before the first stitch", "s", "S")
	keyCloseYarn   = bind("j", "close the yarn", "j", "J")
)

// yarnKeys are those keys.
var yarnKeys = []key.Binding{keyKeepWeight, keyPoint, keyNewBall, keyFirstWeight, keyCloseYarn}

// Keys of the film screen, where those of the walk hold as well.
var (
	keyRoll       = bind("k", "the clap: begin a take; and again: end it", "k", "K")
	keyWord       = bind("x", "mark this moment of the take, with a word of your own", "x", "X")
	keyFromHere   = bind("g", "again from here: what was filmed past this stitch is not used", "g", "G")
	keyCamera     = bind("i", "note the camera's file and timecode, and where the clap is seen", "i", "I")
	keyRead       = bind("d", "read the words aloud, timed: your own speaking rate", "d", "D")
	keyFit        = bind("y", "how the words fit the footage, and what to do about it", "y", "Y")
	keyTakes      = bind("z", "the takes, drawn", "z", "Z")
	keyReadDone   = bind("Space", "the words are read", " ", "pgdown")
	keyWordsOn    = bind("Down", "turn to the words that follow, where they come in parts (so does the wheel)", "down")
	keyWordsBack  = bind("Up", "turn to the words before", "up")
	keyCloseTakes = bind("Enter", "close the takes", "enter", "ctrl+j", " ", "z", "Z")
	keyNextField  = bind("Tab", "the next line of the notes on a take", "tab", "down")
	keyPrevField  = bind("Shift+Tab", "the line before", "shift+tab", "up")

	keyMend     = bind("Enter", "do what is offered for the row", "enter", "ctrl+j")
	keyFull     = bind("f", "show the row in full", "f", "F")
	keySlow     = bind("s", "slow the row to its words", "s", "S")
	keyFaster   = bind("1-9", "show the row so many times as fast", "1", "2", "3", "4", "5", "6", "7", "8", "9")
	keyShorten  = bind("c", "cut to the end of the row, as long as its words", "c", "C")
	keyWithin   = bind("w", "speed the row up as far as its words leave room", "w", "W")
	keyLeaveOut = bind("x", "leave the row out", "x", "X")
	keyUsual    = bind("u", "back to what is usual", "u", "U")
	keyAlike    = bind("a", "rows alike: sped up, cut, in full or left out", "a", "A")
	keyLonger   = bind("+", "rows alike: a second longer", "+", "=")
	keyShorter  = bind("-", "rows alike: a second shorter", "-", "_")
	keyCloseFit = bind("y", "close the fit", "y", "Y")
)

// filmKeys are the keys of the film screen, fitKeys those of the fit.
var (
	filmKeys = []key.Binding{keyRoll, keyWord, keyFromHere, keyCamera, keyRead, keyFit, keyTakes, keyFilm, keyWordsOn, keyWordsBack}
	fitKeys  = []key.Binding{keyMend, keyFull, keySlow, keyFaster, keyWithin, keyShorten, keyLeaveOut, keyUsual, keyAlike, keyLonger, keyShorter, keyCloseFit}
)

// Keys of lists: the basket, and the rows of a piece.
var (
	keyUp     = bind("Up", "up", "up")
	keyDown   = bind("Down", "down", "down")
	keyPageUp = bind("Page Up", "a page up", "pgup")
	keyPageDn = bind("Page Down", "a page down", "pgdown")
	keyTop    = bind("Home", "to the first", "home")
	keyBottom = bind("End", "to the last", "end")
	keyChoose = bind("Enter", "take the lit one (so do Space and a click)", "enter", "ctrl+j", " ")
	keyNumber = bind("0-9", "light the one of that number", "0", "1", "2", "3", "4", "5", "6", "7", "8", "9")
	keyPrevPc = bind("Left", "the piece or copy before", "left", "shift+tab")
	keyNextPc = bind("Right", "the next piece or copy", "right", "tab")
)

// Keys of the basket.
var (
	keyFind     = bind("/", "find: type some letters of a name", "/")
	keyBegin    = bind("n", "begin something: type the name of a pattern's file", "n", "N")
	keyRename   = bind("r", "give the lit one another name", "r", "R")
	keyAnew     = bind("m", "make it again: another of the same pattern", "m", "M")
	keyAside    = bind("s", "set it aside, or back to the work", "s", "S")
	keyComplete = bind("f", "put it with the finished, or back to the work", "f", "F")
	keyOut      = bind("x", "take it out of the basket, or put it back", "x", "X")
	keyForGood  = bind("e", "among what is taken out: erase it for good, after asking twice", "e", "E")
	keyUndo     = bind("Backspace", "take the last change of the basket back, one after another", "backspace", "ctrl+h", "delete", "u", "U")
	keyPart     = bind("Tab, Right", "the next part of the basket: in work, set aside, finished, taken out", "tab", "right")
	keyPartB    = bind("Left", "the part before", "shift+tab", "left")
)

// keyGroup is some keys under a heading.
type keyGroup struct {
	heading string
	keys    []key.Binding
}

// allKeys is the help: every key of every screen.
func allKeys() []keyGroup {
	return []keyGroup{
		{"Walking a row", []key.Binding{keyTap, keyBack, keyAgain, keyStride, keyGoTo, keyCount, keyHunt, keyUnravel, keyMark, keyNote, keyList, keyFollow, keyPace, keyYarn, keyOverview, keyEnd, keyPause, keyRows, keyFilm, keyTick}},
		{"At the end of a row", []key.Binding{keyTake, keyDigit, keyErase}},
		{"When a count differs", []key.Binding{keyCarry, keyHunt, keyFollow, keyReturn, keyTally, keyAsIs}},
		{"Hunting, unravelling, noting", []key.Binding{keyAnswer, keyRip, keyKeepNote, keyDrop}},
		{"When the file has changed", []key.Binding{keyMove, keyStay}},
		{"In the list of markers and notes", []key.Binding{keyGoThere, keyTakeOut, keyClosePace}},
		{"Yarn on the scale", yarnKeys},
		{"Filming", []key.Binding{keyRoll, keyWord, keyFromHere, keyCamera, keyNextField, keyPrevField, keyRead, keyReadDone, keyWordsOn, keyWordsBack, keyFit, keyTakes}},
		{"The fit of words and footage", fitKeys},
		{"In the basket", []key.Binding{keyFind, keyBegin, keyRename, keyAnew, keyAside, keyComplete, keyOut, keyForGood, keyUndo, keyPart, keyPartB}},
		{"Buttons", []key.Binding{keyPress, keyLight, keyLightB}},
		{"In a list", []key.Binding{keyUp, keyDown, keyPageUp, keyPageDn, keyTop, keyBottom, keyNumber, keyChoose, keyPrevPc, keyNextPc}},
		{"Anywhere", []key.Binding{keyHelp, keyEsc, keyLock, keyBasket, keyElsewhere, keyRest, keyQuit}},
	}
}
