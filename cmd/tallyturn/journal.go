package main

import (
	"cmp"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"time"

	"crochet/tallyturn/counter"
	"crochet/tallyturn/store"
	"crochet/tallyturn/tui"
)

// saveAgain is how long it is from one try to save to the next.
const saveAgain = 500 * time.Millisecond

// journal keeps what happens in a walk: in the basket or, as long as that
// cannot be had, in memory. Then it goes on trying.
type journal struct {
	shelf *shelf
	walk  string // names the walk on the screen
	title string // its heading

	saving  sync.Mutex // held by whoever saves what is in memory
	mu      sync.Mutex
	project store.Project
	log     []counter.Event // everything that happened, from the first
	safe    uint64          // how much of it is on the disk
	w       *store.Writer   // nil while it is kept in memory
	why     error           // why it is
	left    bool            // the walk is
	state   *counter.State  // after all of log, once the walk is left
	trying  bool            // somebody goes on trying
}

// begin opens the way into the basket, or says why there is none.
func (j *journal) begin() error {
	kept := j.shelf.kept()
	switch {
	case kept == nil || kept.Looking():
		return cmp.Or(j.shelf.barred(), store.ErrLooking)
	case j.project.ID == "":
		return cmp.Or(j.shelf.barred(), store.ErrNoProject)
	}
	w, err := kept.Writer(j.project.ID, j.notify)
	if err != nil {
		return err
	}
	j.w = w
	return nil
}

// Append takes an event and never waits.
func (j *journal) Append(e counter.Event) (seq uint64) {
	j.mu.Lock()
	defer j.mu.Unlock()
	j.log = append(j.log, e)
	if j.w != nil {
		return j.w.Append(e)
	}
	return uint64(len(j.log))
}

// notify is told by the writer what is safe.
func (j *journal) notify(safe uint64, err error) {
	j.mu.Lock()
	j.safe = max(j.safe, safe)
	j.mu.Unlock()
	if errors.Is(err, store.ErrDamaged) {
		go j.shelf.mend() // which closes the writer that is calling
	}
	j.tell(safe, err)
}

func (j *journal) tell(safe uint64, err error) {
	j.shelf.send(tui.Safe{Walk: j.walk, Seq: safe, Err: plainly(err)})
}

// unsaved is how many events are only in memory, and why.
func (j *journal) unsaved() (n int, why error) {
	j.mu.Lock()
	defer j.mu.Unlock()
	if j.w != nil {
		return 0, nil
	}
	return len(j.log) - int(j.safe), j.why
}

// needless reports whether the walk was left with all of it on the disk.
func (j *journal) needless() bool {
	j.mu.Lock()
	defer j.mu.Unlock()
	return j.left && j.safe == uint64(len(j.log))
}

// drift goes on in memory, and tries until the basket takes everything.
func (j *journal) drift(why error) {
	j.mu.Lock()
	defer j.mu.Unlock()
	j.w, j.why = nil, why
	if !j.trying {
		j.trying = true
		go j.try()
	}
}

func (j *journal) try() {
	for {
		select {
		case <-j.shelf.done:
			return
		case <-time.After(saveAgain):
		}
		err := j.save()
		if err == nil || j.needless() {
			return
		}
		j.mu.Lock()
		safe := j.safe
		j.mu.Unlock()
		j.tell(safe, err)
	}
}

// save gives the basket all that happened. What happens meanwhile goes the
// usual way afterwards.
func (j *journal) save() error {
	j.saving.Lock()
	defer j.saving.Unlock()
	j.mu.Lock()
	p, log, saved, why := j.project, j.log[:len(j.log):len(j.log)], j.w != nil, j.why
	j.mu.Unlock()
	kept := j.shelf.kept()
	switch {
	case saved:
		return nil
	case kept == nil || kept.Looking():
		return why
	}
	m, err := kept.Merge(p, log)
	if err != nil {
		return err
	}
	if m.Events != uint64(len(log)) {
		return fmt.Errorf("project %s went on elsewhere", p.Title)
	}
	w, err := kept.Writer(m.ID, j.notify)
	if err != nil {
		return err
	}
	j.mu.Lock()
	for _, e := range j.log[len(log):] {
		w.Append(e)
	}
	text := j.project.Text
	j.project = m.Project
	j.project.Text = text
	j.w, j.why, j.safe, j.trying = w, nil, uint64(len(log)), false
	left := j.left
	j.mu.Unlock()
	j.tell(uint64(len(log)), nil)
	if left {
		return j.close(w)
	}
	return nil
}

// release is called when the walk is left: what is not on the disk by then is
// tried further as long as the program runs.
func (j *journal) release(state counter.State) error {
	j.mu.Lock()
	j.left, j.state = true, &state
	w := j.w
	j.mu.Unlock()
	if w == nil {
		return nil // somebody goes on trying
	}
	return j.close(w)
}

func (j *journal) close(w *store.Writer) error {
	err := w.Close()
	var left *store.UnwrittenError
	if errors.As(err, &left) {
		j.drift(left.Err)
		return nil
	}
	if err != nil {
		return err
	}
	j.mu.Lock()
	p, events, state := j.project, uint64(len(j.log)), j.state
	j.mu.Unlock()
	// The basket is shown, and the walk opened, without replaying what is known
	// already. Nothing is lost where that cannot be kept.
	_ = j.shelf.kept().SetProgress(p.ID, progressAt(*state, events))
	j.shelf.left(placeOf(p, j.title, events, *state))
	return nil
}

// writeTo writes the walk to a file that is not there yet, as an export.
func (j *journal) writeTo(path string) (err error) {
	if rest, ok := strings.CutPrefix(path, "~/"); ok {
		home, err := os.UserHomeDir()
		if err != nil {
			return err
		}
		path = filepath.Join(home, rest)
	}
	j.mu.Lock()
	p, log := j.project, j.log[:len(j.log):len(j.log)]
	j.mu.Unlock()
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if errors.Is(err, os.ErrExist) {
		return fmt.Errorf("%s is there already; name another file", path)
	}
	if err != nil {
		return err
	}
	defer func() {
		if err = errors.Join(err, f.Close()); err != nil {
			os.Remove(path)
		}
	}()
	if err := store.ExportProject(f, p, log); err != nil {
		return err
	}
	return f.Sync()
}

// fileName is what a file with this walk may be called.
func (j *journal) fileName() string {
	var b strings.Builder
	for _, r := range strings.ToLower(j.project.Title) {
		switch {
		case r >= 'a' && r <= 'z', r >= '0' && r <= '9':
			b.WriteRune(r)
		case b.Len() > 0 && !strings.HasSuffix(b.String(), "-"):
			b.WriteByte('-')
		}
	}
	name := strings.Trim(b.String(), "-")
	if len(name) > 40 {
		name = name[:40]
	}
	if name != "" {
		name += "-"
	}
	return "unsaved-" + name + j.shelf.now().Format("20060102-150405") + exportSuffix
}

// exportSuffix ends the name of a file of lines of JSON.
const exportSuffix = ".jsonl"
