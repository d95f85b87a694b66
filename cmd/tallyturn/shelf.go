package main

import (
	"cmp"
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"time"

	"crochet/tallyturn/counter"
	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/demo"
	"crochet/tallyturn/store"
	"crochet/tallyturn/tui"
)

// shelf ties the basket on disk to the screen that shows it.
type shelf struct {
	file    string // where the basket is
	config  string // the user's config folder
	look    tui.Look
	now     func() time.Time
	clock   *runClock // of events; nil where now will do
	tapKeys []string  // keys that tap besides those that always do

	done    chan struct{} // closed when the program ends
	opening sync.Mutex    // held while the basket is opened at the start, and closed at the end
	mending sync.Mutex

	mu        sync.Mutex
	store     *store.Store // nil where there is none to be had
	elsewhere bool         // another window has the basket
	why       error        // why nothing can be written to it, for now
	old       []*store.Store
	screen    *tui.Screen
	front     func() (tui.Page, error) // opens the page in front anew
	journals  []*journal
	history   *tui.History // of the baskets shown; for the screen alone
	places    []leftAt     // where walks were left, the last first
}

// origin is a pattern to walk, as the maker named it.
type origin struct {
	name string
	path string // absolute; "" for a demo
	text string
	size string // the one asked for; "" for any
	anew bool
}

// What the heading of a walk may have to add.
const (
	asBegun    = "as it was when begun" // its file has changed, and the maker stays with the old text
	checkPlace = "check your place"     // the log leads somewhere else than it did
)

// take finds the walk in progress of a pattern, or begins one. Says is what
// its file says by now, where that is not the text it was begun with.
func (s *shelf) take(o origin, proof *pattern.Proof) (p store.Project, says string, err error) {
	if !o.anew {
		p, err = s.inProgress(o, proof.Size)
		if err == nil {
			return s.follow(p, o, proof)
		}
		if !errors.Is(err, store.ErrNoProject) {
			return p, "", err
		}
	}
	p = store.Project{
		Title: title(proof, o.name), Path: o.path, Text: o.text, Size: proof.Size,
		Created: s.now().UnixMilli(),
	}
	if kept := s.kept(); kept != nil && !kept.Looking() {
		created, err := kept.Create(p)
		if err == nil {
			err = s.bringNotes(created, proof)
		}
		if err == nil || errors.Is(err, store.ErrDamaged) || created.ID != "" {
			return created, "", err
		}
		s.bar(err)
	}
	p.UID = store.NewUID()
	return p, "", nil // without an ID: it is in memory for now
}

// bringNotes brings the notes of the last making of a pattern to a new one.
func (s *shelf) bringNotes(p store.Project, proof *pattern.Proof) error {
	all, err := s.recent()
	if err != nil {
		return err
	}
	for _, last := range all {
		if last.ID == p.ID || last.Size != p.Size || last.Text != p.Text && (last.Path == "" || last.Path != p.Path) {
			continue
		}
		last, events, err := s.kept().Load(last.ID)
		if err != nil {
			return err
		}
		made, _ := counter.Replay(counter.NewPlan(provenAgain(last)), events)
		notes := made.NotesFor(counter.NewPlan(proof))
		if len(notes) == 0 {
			return nil
		}
		w, err := s.kept().Writer(p.ID, nil)
		if err != nil {
			return err
		}
		for _, e := range notes {
			e.At = s.now().UnixMilli()
			w.Append(e)
		}
		return w.Close()
	}
	return nil
}

// inProgress finds the walk that was touched last of a file or, since files
// are renamed, of a pattern with the same text whose file is gone. Where a
// size was asked for it is one of that size.
func (s *shelf) inProgress(o origin, size string) (store.Project, error) {
	all, err := s.recent()
	if err != nil {
		return store.Project{}, err
	}
	kept := s.kept()
	if kept == nil {
		return store.Project{}, store.ErrNoProject
	}
	for _, p := range all {
		if p.Shelf != store.TakenOut && o.path != "" && p.Path == o.path && (o.size == "" || p.Size == size) {
			return kept.Project(p.ID)
		}
	}
	p, err := kept.Find(o.path, o.text)
	if err != nil && !errors.Is(err, store.ErrNoProject) {
		return store.Project{}, err
	}
	if err == nil && p.Text == o.text && !exists(p.Path) && (o.size == "" || p.Size == size) {
		return p, nil
	}
	return s.rewritten(all, o, size)
}

// rewritten finds the walk whose file is gone and which was gone on with, since
// it was begun, with the text of a pattern.
func (s *shelf) rewritten(all []store.Project, o origin, size string) (store.Project, error) {
	for _, p := range all {
		if p.Shelf == store.TakenOut || o.path == "" || p.Path == "" || exists(p.Path) || o.size != "" && p.Size != size {
			continue
		}
		p, events, err := s.kept().Load(p.ID)
		if err != nil {
			return store.Project{}, err
		}
		if !slices.ContainsFunc(events, func(e counter.Event) bool { return e.Kind == counter.Rewrite && e.Text == o.text }) {
			continue
		}
		if state, _ := counter.Replay(counter.NewPlan(provenAgain(p)), events); state.Plan().Text() == o.text {
			return p, nil
		}
	}
	return store.Project{}, store.ErrNoProject
}

// update changes a project. What cannot be changed now is another time.
func (s *shelf) update(p store.Project) error {
	kept := s.kept()
	if kept == nil || p.ID == "" {
		return nil
	}
	if err := kept.Update(p); errors.Is(err, store.ErrDamaged) {
		return err
	}
	return nil
}

// recent gives the projects, the last touched first.
func (s *shelf) recent() ([]store.Project, error) {
	kept := s.kept()
	if kept == nil {
		return nil, nil
	}
	all, err := kept.Projects()
	slices.SortStableFunc(all, func(a, b store.Project) int { return cmp.Compare(b.Touched, a.Touched) })
	return all, err
}

// follow notes where the file of a walk in progress is by now, and tells what
// it says. A text that was lost to damage is taken from the file.
func (s *shelf) follow(p store.Project, o origin, proof *pattern.Proof) (followed store.Project, says string, err error) {
	lost := p.Text == ""
	if lost {
		p.Text, p.Title = o.text, title(proof, o.name)
	}
	if lost || p.Path != o.path {
		p.Path = o.path
		if err := s.update(p); err != nil {
			return p, "", err
		}
	}
	return p, o.text, nil
}

// provenAgain is the proof of the text kept with a project.
func provenAgain(p store.Project) *pattern.Proof {
	return pattern.Read(p.Text).Prove(pattern.Options{Size: p.Size})
}

// walk opens what take or follow found, where it was left, and lets the maker
// choose between the text so far and what the file says.
func (s *shelf) walk(p store.Project, says string, err error) (*tui.Walk, error) {
	if err != nil {
		return nil, s.stumble(err)
	}
	var events []counter.Event
	if p.ID != "" {
		if p, events, err = s.kept().Load(p.ID); err != nil {
			return nil, s.stumble(err)
		}
	}
	begun := counter.NewPlan(provenAgain(p))
	state, refused := counter.Replay(begun, events)
	proof := state.Plan().Proof() // of the text that the maker went on with
	var notes []string
	if says == proof.Pattern.Source.Text {
		says = ""
	}
	if says != "" && says == state.Declined() {
		says, notes = "", append(notes, asBegun)
	}
	if len(refused) > 0 {
		notes = append(notes, checkPlace)
	}
	if t := proof.Pattern.Title; t != "" && t != p.Title {
		p.Title = t
		if err := s.update(p); err != nil {
			return nil, s.stumble(err)
		}
	}
	if n := proof.Errors(); n > 0 {
		notes = append(notes, fmt.Sprintf("check finds %d wrong", n))
	}
	cfg := tui.WalkConfig{
		ID: cmp.Or(p.ID, "new"), Title: heading(p, notes...), State: state, Begun: begun, Log: events, Seq: uint64(len(events)), LookOnly: s.lookOnly(),
		TapKeys: s.tapKeys, Now: s.now, Look: s.look, Basket: s.basket, Changed: says,
	}
	cfg.Teach = p.Path == "" // it came with the program
	if s.clock != nil {
		s.clock.NotBefore(state.LastEvent())
		cfg.Now, cfg.Woke = s.clock.Now, s.clock.Woke
	}
	s.inFront(func() (tui.Page, error) { return s.reopen(p) })
	if cfg.LookOnly == "" {
		if err := s.journal(&cfg, p, events); err != nil {
			return nil, s.stumble(err)
		}
	}
	return tui.NewWalk(cfg), nil
}

// reopen takes up a walk that was open before the basket was opened anew.
func (s *shelf) reopen(p store.Project) (tui.Page, error) {
	if p.ID == "" { // it was not in the basket then
		return s.walk(s.take(origin{name: p.Title, path: p.Path, text: p.Text, size: p.Size}, provenAgain(p)))
	}
	kept := s.kept()
	if kept == nil {
		return nil, s.barred()
	}
	p, err := kept.Project(p.ID)
	return s.walk(p, "", err)
}

// basket lists what is in progress, the last touched first. While there is
// nothing in it but demos, the others are offered as well.
func (s *shelf) basket() (*tui.Basket, error) {
	all, err := s.recent()
	if err != nil {
		return nil, s.stumble(err)
	}
	return s.basketOf(all)
}

// basketOf shows these things.
func (s *shelf) basketOf(all []store.Project) (*tui.Basket, error) {
	s.inFront(func() (tui.Page, error) { return s.basket() })
	items, err := s.items(all)
	if err != nil {
		return nil, s.stumble(err)
	}
	return tui.NewBasket(tui.BasketConfig{
		Items: items, Open: s.open, Begin: s.beginFile, Change: s.change, Again: s.remake, Erase: s.erase, History: s.changes(), Now: s.now, Look: s.look, LookOnly: s.lookOnly(), Unsaved: s.unsaved,
	}), nil
}

// items are things as the basket shows them, and the demos that are offered.
func (s *shelf) items(all []store.Project) ([]tui.Item, error) {
	var items []tui.Item
	own := false
	for _, p := range all {
		it, err := s.item(p)
		if err != nil {
			return nil, err
		}
		items = append(items, it)
		own = own || p.Path != ""
	}
	if own {
		return items, nil
	}
	offered, err := s.demosNotBegun()
	return append(items, offered...), err
}

// demosNotBegun are the demos to offer.
func (s *shelf) demosNotBegun() ([]tui.Item, error) {
	var items []tui.Item
	for _, d := range demo.All() {
		if kept := s.kept(); kept != nil {
			if held, err := kept.Holds(d.Text); err != nil {
				return nil, err
			} else if held {
				continue
			}
		}
		items = append(items, tui.Item{ID: demoID + d.Name, Title: d.Title, Total: d.Stitches, Demo: true})
	}
	return items, nil
}

// demoID begins the ID of an item that is not in the basket yet.
const demoID = "demo "

// open takes up what the maker chose in the basket.
func (s *shelf) open(it tui.Item) (*tui.Walk, error) {
	if name, ok := strings.CutPrefix(it.ID, demoID); ok {
		return s.beginDemo(name)
	}
	kept := s.kept()
	if kept == nil {
		return nil, s.barred()
	}
	p, err := kept.Project(it.ID)
	if err != nil {
		return nil, s.stumble(err)
	}
	if p, err = s.backToWork(p); err != nil {
		return nil, s.stumble(err)
	}
	if p.Path != "" {
		// The file may have been mended since. Where it is gone or broken, the
		// text kept with the walk is as good as ever.
		if text, err := readSource(p.Path, nil); err == nil {
			if proof := pattern.Read(text).Prove(pattern.Options{Size: p.Size}); proof.Summary().Rows > 0 {
				return s.walk(s.follow(p, origin{name: p.Path, path: p.Path, text: text}, proof))
			}
		}
	}
	return s.walk(p, "", nil)
}

func (s *shelf) beginDemo(name string) (*tui.Walk, error) {
	d, err := demoNamed(name)
	if err != nil {
		return nil, err
	}
	return s.walk(s.take(origin{name: d.Name, text: d.Text}, pattern.Read(d.Text).Prove(pattern.Options{})))
}

// title is what a pattern is called: by its author or else by its file.
func title(proof *pattern.Proof, name string) string {
	if t := proof.Pattern.Title; t != "" {
		return t
	}
	return strings.TrimSuffix(filepath.Base(name), filepath.Ext(name))
}

// heading names a walk on the screen: the pattern, the size where it has
// several, and what there is to add.
func heading(p store.Project, notes ...string) string {
	h := p.Called()
	if p.Size != "" {
		h += ", size " + p.Size
	}
	notes = slices.DeleteFunc(notes, func(note string) bool { return note == "" })
	if len(notes) > 0 {
		h += " (" + strings.Join(notes, "; ") + ")"
	}
	return h
}
