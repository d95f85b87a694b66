// Package tui is the screens: state in, frame out. It computes nothing about
// stitches; what is true comes from package counter, and what is kept goes to
// a [Journal].
//
// A [Screen] is the terminal. On it lies a [Basket], the shelf of things in
// progress, or a [Walk], the screen on which a row is worked.
//
// The package by file:
//
//	screen.go      the terminal: messages, signals, what lies in front
//	keys.go        every key, with its help
//	here.go        which keys work where
//	rebind.go      the maker's own keys
//	wants.go       and her bells and flashes, and when to rest the hands
//	lines.go       lines in place of frames
//	asking.go      the terminal asked for its ground
//	locking.go     the keys locked against knocks
//	walk.go        what a walk does
//	walk_keys.go   what its keys and buttons mean
//	scene.go       a state in words and numbers
//	frame.go       a scene set out on the screen
//	still.go       the part of it that stands still between taps
//	words.go       the words of a row, cut and lit
//	weave.go       the row over the row below; weave_draw.go draws it,
//	               weave_large.go in very large windows
//	yarns.go       in the colours of the yarn
//	strip.go       the row as a braid, where there is no room for that
//	figures.go     block figures
//	teaching.go    what to try first
//	silhouette.go  the piece in outline
//	overview.go    all pieces to scale
//	question.go    what the maker is asked
//	rows.go        the rows of a piece, to look over
//	live.go        what goes beyond tapping; it leads to
//	strides.go     how far a tap goes, and what lies under it
//	checks.go      a count in mid-row
//	hunting.go     the search for a slip
//	ripping.go     unravelling
//	following.go   what follows from a difference
//	marking.go     markers, notes, and the list of them
//	ticking.go     the making up
//	weighing.go    what is left of each yarn, over weighing_view.go
//	pacing.go      times, and how long the rest may take
//	changed.go     a pattern that says something else by now
//	filming.go     takes, marks and readings; it leads to
//	film_view.go   how the film screen looks
//	prompt.go      the words to say on it, in parts
//	slate.go       the clap, in letters.go
//	slip.go        what is noted on a take
//	fitting.go     words and footage, and the choices for each row
//	finished.go    the end
//	basket.go      the basket, and basket_view.go how it looks
//	shelving.go    what can be done with the things in it
//	field.go       a text typed there
//	notice.go      what has to be read before going on
//	elsewhere.go   a walk written to another file, while it cannot be saved
//	breakdown.go   the end after a mistake of our own
//	help.go        the keys on a sheet
//	theme.go       what text is for, and its ink
//	palette.go     the colours
//	signs.go       the signs, where there is nothing but ASCII
//	clean.go       text from outside made fit for the screen
//	canvas.go      lines that never outgrow the window
//
// The package ground must be in the program before bubbletea: see there.
package tui
