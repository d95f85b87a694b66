package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"time"

	"crochet/tallyturn/counter"
	"crochet/tallyturn/pattern"
	"crochet/tallyturn/store"
	"crochet/tallyturn/tui"
)

// What the basket's screen does with the things in it.

// item is a project as the basket shows it.
func (s *shelf) item(p store.Project) (tui.Item, error) {
	how, err := s.progress(p)
	if err != nil {
		return tui.Item{}, err
	}
	return tui.Item{
		ID: p.ID, Title: heading(p), Name: p.Called(), Part: tui.Part(p.Shelf),
		Done: how.Done, Total: how.Total, Millis: how.Millis, Low: how.Low, High: how.High, Unknown: how.Unknown,
		Touched: time.UnixMilli(p.Touched),
	}, nil
}

// progress is how far a project is. It is worked out only if something
// happened since that was done last.
func (s *shelf) progress(p store.Project) (store.Progress, error) {
	if p.Progress.Events == p.Events && p.Progress.Total > 0 {
		return p.Progress, nil
	}
	kept := s.kept()
	p, events, err := kept.Load(p.ID)
	if err != nil {
		return store.Progress{}, err
	}
	how := progressOf(p, events)
	// It is worked out again where it cannot be kept.
	_ = kept.SetProgress(p.ID, how)
	return how, nil
}

// progressOf works out how far a project is.
func progressOf(p store.Project, log []counter.Event) store.Progress {
	state, _ := counter.Replay(counter.NewPlan(provenAgain(p)), log)
	return progressAt(state, uint64(len(log)))
}

// progressAt is how far a project is in the state that so many events led to.
func progressAt(state counter.State, events uint64) store.Progress {
	how := store.Progress{Events: events, Millis: state.Millis(state.LastEvent())}
	how.Done, how.Total = state.Stitches()
	done, all := state.Unknown()
	how.Unknown = all - done
	if state.Finished() {
		return how
	}
	// Rows whose number nobody knows have no stitches in that: as long as some
	// are left each has one at least, and it is not all done.
	if worked, rows := state.Rows(); how.Done >= how.Total {
		how.Total = how.Done + max(rows-worked, 1)
	}
	if rest := state.Outlook(state.Pace()).Project; rest.Known {
		how.Low, how.High = rest.Low, rest.High
	}
	return how
}

// change keeps the name and the part of a thing in the basket.
func (s *shelf) change(it tui.Item) (tui.Item, error) {
	kept := s.kept()
	if kept == nil {
		return it, s.barred()
	}
	p, err := kept.Project(it.ID)
	if err != nil {
		return it, s.stumble(err)
	}
	p.Name, p.Shelf = it.Name, store.Shelf(it.Part)
	if p.Name == p.Title {
		p.Name = ""
	}
	if err := kept.Update(p); err != nil {
		return it, s.stumble(plainly(err))
	}
	return s.item(p)
}

// erase takes a thing off the disk for good.
func (s *shelf) erase(it tui.Item) error {
	kept := s.kept()
	if kept == nil {
		return s.barred()
	}
	for _, j := range s.all() {
		if n, _ := j.unsaved(); n > 0 && j.project.ID == it.ID {
			return fmt.Errorf("%s has something that is not saved yet; erase it when it is", it.Title)
		}
	}
	if err := kept.Erase(it.ID); err != nil {
		return s.stumble(plainly(err))
	}
	return nil
}

// remake puts another making of a thing's pattern into the basket, as the
// pattern is worked there, with the notes of the last making.
func (s *shelf) remake(it tui.Item) (tui.Item, error) {
	kept := s.kept()
	if kept == nil {
		return it, s.barred()
	}
	p, events, err := kept.Load(it.ID)
	if err != nil {
		return it, s.stumble(err)
	}
	state, _ := counter.Replay(counter.NewPlan(provenAgain(p)), events)
	all, err := kept.Projects()
	if err != nil {
		return it, s.stumble(err)
	}
	made := store.Project{
		Title: p.Title, Path: p.Path, Text: state.Plan().Text(), Size: p.Size,
		Name: nextName(p.Called(), all), Created: s.now().UnixMilli(),
	}
	made, err = kept.Create(made)
	if err == nil {
		err = s.bringNotes(made, provenAgain(made))
	}
	if err != nil {
		return it, s.stumble(plainly(err))
	}
	if made, err = kept.Project(made.ID); err != nil {
		return it, s.stumble(err)
	}
	return s.item(made)
}

// nextName is what another making is called: the name with the first number
// from 2 that no other has.
func nextName(name string, all []store.Project) string {
	taken := map[string]bool{}
	for _, p := range all {
		taken[p.Called()] = true
	}
	stem, number, found := strings.Cut(name, nameNumber)
	if found && strings.Trim(number, "0123456789") == "" {
		name = stem
	}
	for n := 2; ; n++ {
		if next := fmt.Sprint(name, nameNumber, n); !taken[next] {
			return next
		}
	}
}

// nameNumber stands between a name and its number.
const nameNumber = ", no. "

// beginFile begins the walk of a file, or goes on with it, as the command line
// does.
func (s *shelf) beginFile(name string) (*tui.Walk, error) {
	if rest, ok := strings.CutPrefix(name, "~/"); ok {
		home, err := os.UserHomeDir()
		if err != nil {
			return nil, err
		}
		name = filepath.Join(home, rest)
	}
	text, err := readSource(name, nil)
	if err != nil {
		return nil, err
	}
	path, err := filepath.Abs(name)
	if err != nil {
		return nil, err
	}
	proof := pattern.Read(text).Prove(pattern.Options{})
	if proof.Summary().Rows == 0 {
		return nil, fmt.Errorf("%s has no rows in it", filepath.Base(name))
	}
	return s.walk(s.take(origin{name: name, path: path, text: text}, proof))
}

// backToWork puts a thing that was set aside back to the work: it is taken up.
func (s *shelf) backToWork(p store.Project) (store.Project, error) {
	if p.Shelf != store.SetAside || s.lookOnly() != "" {
		return p, nil
	}
	p.Shelf = store.InWork
	err := s.update(p)
	if errors.Is(err, store.ErrLooking) {
		err = nil
	}
	return p, err
}
