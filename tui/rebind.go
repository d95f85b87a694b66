package tui

import (
	"fmt"
	"slices"
	"strings"
	"sync"
	"unicode/utf8"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
)

// A maker may have other keys than those declared in keys.go. What she presses
// is turned into the declared key before a page sees it, so pages know of
// nothing else; only what they say of a key goes by hers.

// Action is something that a key does.
type Action struct {
	Name string   // by which the keys are given: "tap"
	Does string   // in words
	Keys []string // that do it, as terminals' keys are named: "space", "ctrl+t"
}

// actionNames name what each declared key does. Names are kept for ever: they
// stand in the makers' own files.
var actionNames = []struct {
	name string
	key  *key.Binding
}{
	{"tap", &keyTap}, {"back", &keyBack}, {"again", &keyAgain}, {"stride", &keyStride}, {"count", &keyCount},
	{"hunt", &keyHunt}, {"unravel", &keyUnravel}, {"marker", &keyMark}, {"note", &keyNote}, {"list", &keyList},
	{"follow", &keyFollow}, {"time", &keyPace}, {"yarn", &keyYarn}, {"overview", &keyOverview}, {"end-row", &keyEnd}, {"pause", &keyPause}, {"rows", &keyRows},
	{"basket", &keyBasket}, {"lock", &keyLock}, {"help", &keyHelp}, {"leave", &keyQuit}, {"suspend", &keyRest},
	{"write-elsewhere", &keyElsewhere}, {"close", &keyEsc},
	{"take-count", &keyTake}, {"erase", &keyErase}, {"as-it-is", &keyAsIs}, {"go-back", &keyReturn},
	{"stay-with-text", &keyStay}, {"take-out", &keyTakeOut},
	{"press-button", &keyPress}, {"next-button", &keyLight}, {"button-before", &keyLightB},
	{"up", &keyUp}, {"down", &keyDown}, {"page-up", &keyPageUp}, {"page-down", &keyPageDn},
	{"first", &keyTop}, {"last", &keyBottom}, {"choose", &keyChoose}, {"piece-before", &keyPrevPc}, {"next-piece", &keyNextPc},
	{"film", &keyFilm}, {"take", &keyRoll}, {"moment", &keyWord}, {"again-from-here", &keyFromHere}, {"camera", &keyCamera},
	{"read-aloud", &keyRead}, {"read-done", &keyReadDone}, {"words-on", &keyWordsOn}, {"words-back", &keyWordsBack}, {"fit", &keyFit}, {"takes", &keyTakes},
	{"fit-full", &keyFull}, {"fit-slow", &keySlow}, {"fit-shorten", &keyShorten}, {"fit-within", &keyWithin}, {"fit-out", &keyLeaveOut},
	{"fit-usual", &keyUsual}, {"fit-alike", &keyAlike}, {"fit-longer", &keyLonger}, {"fit-shorter", &keyShorter}, {"fit-close", &keyCloseFit},
	{"another-ball", &keyNewBall}, {"first-weight", &keyFirstWeight}, {"yarn-close", &keyCloseYarn},
	{"find", &keyFind}, {"begin", &keyBegin}, {"rename", &keyRename}, {"make-again", &keyAnew}, {"set-aside", &keyAside},
	{"finish", &keyComplete}, {"basket-out", &keyOut}, {"erase-for-good", &keyForGood}, {"basket-undo", &keyUndo}, {"next-part", &keyPart}, {"part-before", &keyPartB},
}

// fixedKeys are not to be had otherwise: digits, and Enter and Esc where a
// text or a number is given.
var fixedKeys = []*key.Binding{
	&keyGoTo, &keyDigit, &keyNumber, &keyTick, &keyGo, &keyCarry, &keyTally, &keyAnswer, &keyRip, &keyGoThere,
	&keyClosePace, &keyCloseFollow, &keyCloseOverview, &keyMove, &keyKeepNote, &keyDrop,
	&keyMend, &keyFaster, &keyKeepWeight, &keyPoint, &keyCloseTakes, &keyNextField, &keyPrevField,
}

// Actions lists what keys do, in the order of the help.
func Actions() (all []Action) {
	for _, a := range actionNames {
		x := Action{Name: a.name, Does: a.key.Help().Desc}
		for _, k := range a.key.Keys() {
			if len(k) != 1 || k != strings.ToUpper(k) || k == strings.ToLower(k) { // the capital goes with the letter
				x.Keys = append(x.Keys, spellKey(k))
			}
		}
		all = append(all, x)
	}
	return all
}

// Keymap is the keys of a maker, where they are others than those declared. A
// nil Keymap has none.
type Keymap struct {
	keys  map[string][]string // by what they do, as bubbletea names them
	moved map[string]bool     // those of keys that are not hers: what hers have left of the declared ones
}

// NewKeymap makes a keymap of keys by the names of actions. A key given here is
// taken from whatever else it did at the same place, by declaration. The error
// says which action there is not, or which key.
func NewKeymap(keys map[string][]string) (*Keymap, error) {
	m := &Keymap{keys: map[string][]string{}, moved: map[string]bool{}}
	for name, list := range keys {
		if !slices.ContainsFunc(actionNames, func(a struct {
			name string
			key  *key.Binding
		}) bool {
			return a.name == name
		}) {
			return nil, fmt.Errorf("no key does %q", name)
		}
		m.keys[name] = nil
		for _, k := range list {
			read, err := ReadKey(k)
			if err != nil {
				return nil, err
			}
			m.keys[name] = append(m.keys[name], read)
			if up := strings.ToUpper(read); utf8.RuneCountInString(read) == 1 && up != read {
				m.keys[name] = append(m.keys[name], up) // with the capitals locked as well
			}
		}
	}
	m.giveWay()
	return m, nil
}

// giveWay takes the maker's keys from what they do otherwise, wherever both are
// pressed at one place.
func (m *Keymap) giveWay() {
	for _, place := range places {
		hers := map[string]bool{}
		for _, b := range place {
			if name := actionOf(*b); m.hers(name) {
				for _, k := range m.keys[name] {
					hers[k] = true
				}
			}
		}
		for _, b := range place {
			name, keys := actionOf(*b), m.effective(*b)
			if name == "" || m.hers(name) || !slices.ContainsFunc(keys, func(k string) bool { return hers[k] }) {
				continue
			}
			m.keys[name] = slices.DeleteFunc(slices.Clone(keys), func(k string) bool { return hers[k] })
			m.moved[name] = true
		}
	}
}

// hers reports whether the maker herself has said which keys do something.
func (m *Keymap) hers(name string) bool {
	_, ok := m.keys[name]
	return ok && !m.moved[name]
}

// Keyless are the names of the actions that were left without a key since the
// maker gave theirs to others, in the order of the help.
func (m *Keymap) Keyless() (names []string) {
	if m == nil {
		return nil
	}
	for _, a := range actionNames {
		if m.moved[a.name] && len(m.keys[a.name]) == 0 {
			names = append(names, a.name)
		}
	}
	return names
}

// Clash is a key of a keymap that would do two things at one place, where that
// cannot be settled: both are the maker's, or one has to stay what it is. It is
// "" where there is none.
func (m *Keymap) Clash() string {
	if m == nil {
		return ""
	}
	for _, place := range places {
		owner := map[string]string{}
		for _, b := range place {
			name := actionOf(*b)
			for _, k := range m.effective(*b) {
				other, taken := owner[k]
				switch {
				case !taken || other == name:
				case m.hers(name) && m.hers(other):
					return fmt.Sprintf("%s would do two things at one place: %q and %q", keyTitle(k), other, name)
				case m.hers(name) && other == "", m.hers(other) && name == "":
					return fmt.Sprintf("%s cannot do %q: it is needed there for what it does", keyTitle(k), other+name)
				}
				if !taken {
					owner[k] = name
				}
			}
		}
	}
	for _, name := range []string{"help", "leave"} {
		if m.moved[name] && len(m.keys[name]) == 0 {
			return fmt.Sprintf("there would be no key left for %q", name)
		}
	}
	return ""
}

// places are the keys that must differ, since they are pressed at one place: by
// their addresses, so that the start need not copy them.
var places = [][]*key.Binding{
	{&keyTap, &keyBack, &keyAgain, &keyStride, &keyCount, &keyHunt, &keyUnravel, &keyMark, &keyNote, &keyList, &keyFollow, &keyPace, &keyYarn, &keyOverview, &keyEnd, &keyPause,
		&keyRows, &keyFilm, &keyRoll, &keyWord, &keyFromHere, &keyCamera, &keyRead, &keyFit, &keyTakes, &keyWordsOn, &keyWordsBack, &keyBasket, &keyLock, &keyHelp, &keyQuit, &keyRest, &keyElsewhere, &keyEsc, &keyPress, &keyLight, &keyLightB, &keyGoTo},
	{&keyUp, &keyDown, &keyPageUp, &keyPageDn, &keyTop, &keyBottom, &keyChoose, &keyFind, &keyBegin, &keyRename, &keyAnew, &keyAside, &keyComplete,
		&keyOut, &keyForGood, &keyUndo, &keyPart, &keyPartB, &keyLock, &keyHelp, &keyQuit, &keyRest, &keyNumber},
	{&keyUp, &keyDown, &keyBack, &keyFull, &keySlow, &keyShorten, &keyWithin, &keyLeaveOut, &keyUsual, &keyAlike, &keyLonger, &keyShorter, &keyCloseFit,
		&keyMend, &keyFaster, &keyLight, &keyLightB, &keyEsc, &keyLock, &keyHelp, &keyQuit, &keyRest},
	{&keyUp, &keyDown, &keyNewBall, &keyFirstWeight, &keyCloseYarn, &keyErase, &keyEsc, &keyTap, &keyDigit, &keyPoint, &keyPress, &keyLight, &keyLightB, &keyLock, &keyHelp, &keyQuit, &keyRest},
	{&keyReadDone, &keyWordsOn, &keyWordsBack, &keyPress, &keyLight, &keyLightB, &keyEsc, &keyLock, &keyHelp, &keyQuit, &keyRest},
	{&keyUp, &keyDown, &keyTop, &keyBottom, &keyChoose, &keyPrevPc, &keyNextPc, &keyEsc, &keyLock, &keyHelp, &keyQuit},
}

// actionOf is the name of what a declared key does; "" for the fixed ones.
func actionOf(b key.Binding) string {
	for _, a := range actionNames {
		if a.key.Help() == b.Help() {
			return a.name
		}
	}
	return ""
}

// effective are the keys that do something.
func (m *Keymap) effective(b key.Binding) []string {
	if m != nil {
		if own, ok := m.keys[actionOf(b)]; ok {
			return own
		}
	}
	return b.Keys()
}

// name is what the maker reads of a key.
func (m *Keymap) name(b key.Binding) string {
	if m == nil {
		return b.Help().Key
	}
	own, ok := m.keys[actionOf(b)]
	switch {
	case !ok:
		return b.Help().Key
	case len(own) == 0:
		return "–"
	}
	return keyTitle(own[0])
}

// turn gives the declared key for one that was pressed where some keys do
// something; false where it does nothing since another was put in its place.
func (m *Keymap) turn(k tea.KeyMsg, here []key.Binding) (tea.KeyMsg, bool) {
	if m == nil || len(m.keys) == 0 {
		return k, true
	}
	pressed := k.String()
	freed := false
	for _, b := range here {
		own, ok := m.keys[actionOf(b)]
		switch {
		case ok && slices.Contains(own, pressed):
			return declared(b, here), true
		case ok && slices.Contains(b.Keys(), pressed):
			freed = true
		case !ok && slices.Contains(b.Keys(), pressed):
			return k, true
		}
	}
	if slices.Contains(m.keys["tap"], pressed) && m.tapsAsSpace(here) {
		return message(" "), true
	}
	return k, !freed
}

// tapsAsSpace reports whether a key that taps, a pedal as a rule, does where
// nothing is tapped what Space does there: it takes the count of a row.
func (m *Keymap) tapsAsSpace(here []key.Binding) bool {
	space := false
	for _, b := range here {
		if b.Help() == keyTap.Help() {
			return false
		}
		space = space || slices.Contains(m.effective(b), " ")
	}
	return space
}

// declared is the message of a declared key, the one that does nothing else
// here where there is such a one.
func declared(b key.Binding, here []key.Binding) tea.KeyMsg {
	keys := b.Keys()
	for _, k := range keys {
		alone := true
		for _, other := range here {
			if other.Help() == b.Help() {
				continue
			}
			alone = alone && !slices.Contains(other.Keys(), k)
		}
		if alone {
			return message(k)
		}
	}
	return message(keys[0])
}

// message is what bubbletea tells of a key of a name.
func message(name string) tea.KeyMsg {
	if name == " " {
		return tea.KeyMsg{Type: tea.KeySpace, Runes: []rune{' '}}
	}
	if t, ok := typesByName()[name]; ok {
		return tea.KeyMsg{Type: t}
	}
	return tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(name)}
}

// typesByName are the keys that have a name.
var typesByName = sync.OnceValue(func() map[string]tea.KeyType {
	m := map[string]tea.KeyType{}
	for t := tea.KeyType(-200); t < 200; t++ {
		if name := (tea.KeyMsg{Type: t}).String(); name != "" && t != tea.KeyRunes && t != tea.KeySpace {
			m[name] = t
		}
	}
	return m
})

// keySpellings are names that makers have for keys.
var keySpellings = map[string]string{
	"space": " ", "page down": "pgdown", "page up": "pgup", "escape": "esc", "return": "enter", "del": "delete",
}

// ReadKey reads the name of a key: "Space", "F5", "Ctrl+T", "x". It gives the
// name that terminals' keys have here.
func ReadKey(name string) (string, error) {
	if utf8.RuneCountInString(name) == 1 && name != "\n" {
		if r, _ := utf8.DecodeRuneInString(name); r > ' ' && r != 0x7f && r != utf8.RuneError || r == ' ' {
			return strings.ToLower(name), nil
		}
	}
	low := strings.ToLower(strings.TrimSpace(name))
	if k, ok := keySpellings[low]; ok {
		return k, nil
	}
	bare, alt := strings.CutPrefix(low, "alt+")
	if _, ok := typesByName()[bare]; ok || alt && utf8.RuneCountInString(bare) == 1 {
		return low, nil
	}
	return "", fmt.Errorf("no key is called %q", Clean(name))
}

// spellKey is the name of a key as a file spells it.
func spellKey(k string) string {
	if k == " " {
		return "space"
	}
	return k
}

// keyTitle is the name of a key as a page shows it.
func keyTitle(k string) string {
	k = spellKey(k)
	if utf8.RuneCountInString(k) < 2 {
		return k
	}
	parts := strings.Split(k, "+")
	for i, p := range parts {
		if p != "" {
			parts[i] = strings.ToUpper(p[:1]) + p[1:]
		}
	}
	return strings.Join(parts, "+")
}
