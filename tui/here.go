package tui

import "github.com/charmbracelet/bubbles/key"

// What works at a place: the help shows just that, and a key that the maker
// has put in the place of another is looked up in it.

// everywhere works on every page.
var everywhere = keyGroup{"Anywhere", []key.Binding{keyHelp, keyLock, keyRest, keyQuit}}

// listKeys move through a list.
var listKeys = keyGroup{"In the list", []key.Binding{keyUp, keyDown, keyPageUp, keyPageDn, keyTop, keyBottom, keyNumber, keyChoose}}

// here are the keys that do something in the page in front, the foremost first.
func (m *model) here() []keyGroup {
	var groups []keyGroup
	if p, ok := m.page.(interface{ here() []keyGroup }); ok {
		groups = append(groups, p.here()...)
	} else {
		groups = append(groups, allKeys()...)
		return groups
	}
	return append(groups, everywhere)
}

// flat is the keys of groups, in order.
func flat(groups []keyGroup) (all []key.Binding) {
	for _, g := range groups {
		all = append(all, g.keys...)
	}
	return all
}

func (b *Basket) here() []keyGroup {
	return []keyGroup{
		{"In the basket", []key.Binding{keyFind, keyBegin, keyRename, keyAnew, keyAside, keyComplete, keyOut, keyForGood, keyUndo, keyPart, keyPartB, keyEsc}},
		listKeys,
	}
}

func (n *Notice) here() []keyGroup {
	return []keyGroup{{"Here", []key.Binding{keyChoose, keyUp, keyDown, keyPageUp, keyPageDn}}}
}

// here are the keys of a walk by what is being asked.
func (w *Walk) here() []keyGroup {
	buttons := keyGroup{"Buttons", []key.Binding{keyPress, keyLight, keyLightB}}
	away := keyGroup{"Away from the row", []key.Binding{keyBasket, keyElsewhere}}
	row := []key.Binding{keyAgain, keyHunt, keyUnravel, keyMark, keyNote, keyList, keyFollow, keyPace, keyYarn, keyOverview}
	group := func(heading string, keys ...key.Binding) []keyGroup {
		return []keyGroup{{heading, keys}, buttons}
	}
	switch w.mode {
	case asking:
		groups := []keyGroup{{"The count of the row", []key.Binding{keyTake, keyDigit, keyErase, keyEsc}}, {"The row", row}, buttons}
		if w.film.on {
			groups = append(groups, keyGroup{"Filming", filmKeys})
		}
		return groups
	case differing:
		return group("A count that differs", keyCarry, keyHunt, keyFollow, keyReturn, keyDigit)
	case counting:
		return group("A count in the row", keyTake, keyDigit, keyErase, keyEsc)
	case going:
		return group("To a stitch of the row", keyGo, keyDigit, keyErase, keyStride, keyTap, keyEsc)
	case choosing:
		return []keyGroup{{"The rows of the piece", []key.Binding{keyPrevPc, keyNextPc, keyEsc}}, listKeys}
	case checking:
		return group("A count that differs", keyTally, keyHunt, keyAsIs, keyErase, keyDigit)
	case hunting:
		return group("The hunt", keyAnswer, keyDigit, keyErase, keyEsc)
	case ripping:
		return group("Unravelling", keyRip, keyUp, keyDown, keyDigit, keyErase, keyEsc)
	case noting:
		return []keyGroup{{"A note", []key.Binding{keyKeepNote, keyErase, keyDrop}}}
	case listing:
		return group("Markers, notes and differences", keyGoThere, keyTakeOut, keyUp, keyDown, keyEsc)
	case overviewing:
		return group("The overview", overviewKeys()...)
	case timing:
		return group("Times", keyClosePace, keyUp, keyDown, keyEsc)
	case weighing:
		return group("Yarn on the scale", append([]key.Binding{keyUp, keyDown, keyDigit, keyErase, keyEsc}, yarnKeys...)...)
	case following:
		return group("What follows", keyCloseFollow, keyUp, keyDown, keyEsc)
	case remarking:
		return []keyGroup{{"A moment of the take", []key.Binding{keyKeepNote, keyErase, keyDrop}}}
	case slipping:
		return []keyGroup{{"Notes on a take", []key.Binding{keyKeepNote, keyNextField, keyPrevField, keyPageUp, keyPageDn, keyErase, keyDrop}}}
	case reading:
		return group("Reading aloud", keyReadDone, keyWordsOn, keyWordsBack, keyEsc)
	case reeling:
		return group("The takes", keyCloseTakes, keyUp, keyDown, keyEsc)
	case fitting:
		return group("Words and footage", append([]key.Binding{keyUp, keyDown, keyBack, keyEsc}, fitKeys...)...)
	case rewriting:
		return group("The file has changed", keyMove, keyStay, keyUp, keyDown, keyEsc)
	}
	if w.state.Finished() && w.film.on {
		return []keyGroup{{"Filming", filmKeys}, {"Everything is worked", append([]key.Binding{keyTick, keyBack, keyRows}, row...)}, buttons, away}
	}
	if w.state.Finished() {
		row = append(row, keyFilm)
		return []keyGroup{{"Everything is worked", append([]key.Binding{keyTick, keyBack, keyUp, keyDown, keyRows}, row...)}, buttons, away}
	}
	tap := []key.Binding{keyTap, keyBack, keyAgain, keyStride, keyGoTo, keyCount}
	tap = append(append(tap, row[1:]...), keyEnd, keyPause, keyRows)
	if w.film.on {
		return []keyGroup{{"Filming", filmKeys}, {"Walking a row", tap}, buttons, away}
	}
	return []keyGroup{{"Walking a row", append(tap, keyFilm)}, buttons, away}
}
