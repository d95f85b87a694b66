package stitch

import (
	"maps"
	"slices"
	"strings"
	"sync"
)

// Lexicon finds stitches by how they are written in one set of terms.
type Lexicon struct {
	names map[string]entry
}

type entry struct {
	id     ID
	prefix bool // a longer name begins with this
}

// The lexicons are made when they are first asked for: the start waits for
// none of them.
var (
	inUS     = sync.OnceValue(func() *Lexicon { return newLexicon(US) })
	inUK     = sync.OnceValue(func() *Lexicon { return newLexicon(UK) })
	lexicons = [...]func() *Lexicon{Unknown: inUS, US: inUS, UK: inUK}
)

// LexiconFor gives the names of a set of terms. Unknown reads as US.
func LexiconFor(t Terms) *Lexicon { return lexicons[t]() }

func newLexicon(t Terms) *Lexicon {
	l := &Lexicon{names: make(map[string]entry)}
	for i := range table {
		s := &table[i]
		id := ID(i)
		short, full, also := s.US, s.USWords, s.USAlso
		if t == UK {
			short, full, also = s.UK, s.UKWords, s.UKAlso
		}
		if short == "" {
			continue
		}
		l.add(short, id)
		l.add(full, id)
		for _, a := range also.All() {
			l.add(a, id)
		}
		for _, n := range []string{full, short} {
			if !strings.HasSuffix(n, "s") {
				l.add(n+"s", id)
			}
		}
	}
	if t == UK {
		// A pattern in UK terms that still says hdc means the half treble.
		l.add("hdc", HDC)
	}
	return l
}

// add enters a name; the first to claim it keeps it.
func (l *Lexicon) add(name string, id ID) {
	if e, ok := l.names[name]; !ok || e.id == None {
		l.names[name] = entry{id, ok && e.prefix}
	}
	for i := 0; i < len(name); i++ {
		if name[i] == ' ' {
			e := l.names[name[:i]]
			e.prefix = true
			l.names[name[:i]] = e
		}
	}
}

// Find looks a name up: lower case, words parted by single spaces. More
// reports that a longer name begins so.
func (l *Lexicon) Find(name string) (id ID, more bool) {
	e := l.names[name]
	return e.id, e.prefix
}

// FirstWords are the words that the names of a stitch begin with, in the order
// of the alphabet; for None those of every stitch.
func (l *Lexicon) FirstWords(id ID) []string {
	first := make(map[string]bool)
	for name, e := range l.names {
		if e.id != None && (id == None || e.id == id) {
			word, _, _ := strings.Cut(name, " ")
			first[word] = true
		}
	}
	return slices.Sorted(maps.Keys(first))
}
