package store

import (
	"bytes"
	"cmp"
	"crypto/sha256"
	"encoding/binary"
	"fmt"
	"path/filepath"
	"strconv"

	"go.etcd.io/bbolt"

	"crochet/tallyturn/counter"
)

// Project is a pattern in work.
type Project struct {
	ID      string // given by Create, as UID is
	UID     string // 32 hexadecimal digits: the same wherever the project is taken
	Title   string
	Path    string // absolute, of the file the pattern came from; "" for none
	Text    string // of the pattern
	Size    string // name of the size worked; "" for the first
	Name    string // what the maker calls it; "" for what the pattern does
	Shelf   Shelf  // where she has put it
	Created int64  // in ms since the Unix epoch
	Touched int64  // time of the last event, or of creation
	Events  uint64 // how many there are

	Progress Progress // as SetProgress was told last
}

// Shelf is the part of the basket that a project is in. The numbers are kept
// on disk.
type Shelf uint8

// The parts of the basket. What is taken out can be put back at any time.
const (
	InWork    Shelf = 0
	SetAside  Shelf = 1
	Completed Shelf = 2
	TakenOut  Shelf = 3

	shelves Shelf = 4 // how many there are
)

// Called is what the project is called: by its maker or else by its pattern.
func (p Project) Called() string { return cmp.Or(p.Name, p.Title) }

// kept is a project as it is in the file.
type kept struct {
	Project
	revision uint64 // how often it was updated
}

// Create puts a new project into the file. ID, UID, Touched and Events are
// given to it; Path is made absolute; Progress is of no account.
func (s *Store) Create(p Project) (Project, error) {
	path, err := absolute(p.Path)
	if err != nil {
		return Project{}, err
	}
	p.Path, p.Touched, p.Events, p.Progress = path, p.Created, 0, Progress{}
	p.UID = freshUID()
	err = s.update(func(tx *bbolt.Tx) error {
		id, err := tx.Bucket(projectsBucket).NextSequence()
		if err != nil {
			return err
		}
		p.ID = strconv.FormatUint(id, 10)
		if _, err := tx.Bucket(logsBucket).CreateBucket(number(id)); err != nil {
			return err
		}
		return put(tx, number(id), kept{Project: p})
	})
	if err != nil {
		return Project{}, err
	}
	return p, nil
}

// Update changes the Title, Path, Text, Size, Name and Shelf of a project to
// those of p. The rest of p but its ID is of no account.
func (s *Store) Update(p Project) error {
	if p.Shelf >= shelves {
		return fmt.Errorf("there is no shelf %d", p.Shelf)
	}
	path, err := absolute(p.Path)
	if err != nil {
		return err
	}
	return s.update(func(tx *bbolt.Tx) error {
		key, err := keyOf(p.ID)
		if err != nil {
			return err
		}
		old, err := get(tx, key)
		if err != nil {
			return err
		}
		if err := unindex(tx, key, old); err != nil {
			return err
		}
		if p.Text != old.Text || p.Size != old.Size {
			if err := tx.Bucket(progressBucket).Delete(key); err != nil {
				return err
			}
		}
		old.revision++
		old.Title, old.Path, old.Text, old.Size = p.Title, path, p.Text, p.Size
		old.Name, old.Shelf = p.Name, p.Shelf
		return put(tx, key, old)
	})
}

// Projects gives all projects in the order they were begun, without their
// Text.
func (s *Store) Projects() ([]Project, error) {
	var all []Project
	err := s.peek(func(tx *bbolt.Tx) error {
		return tx.Bucket(projectsBucket).ForEach(func(key, _ []byte) error {
			p, err := getHead(tx, key)
			all = append(all, p.Project)
			return err
		})
	})
	if err != nil {
		return nil, err
	}
	return all, nil
}

// Project gives one project, or ErrNoProject.
func (s *Store) Project(id string) (p Project, err error) {
	err = s.peek(func(tx *bbolt.Tx) error {
		key, err := keyOf(id)
		if err != nil {
			return err
		}
		k, err := get(tx, key)
		p = k.Project
		return err
	})
	return p, err
}

// Find gives the project of a pattern: one that came from the same path or,
// if there is none, one with the same text, which is what a file that was
// moved has. Of several, it is the one touched last; one that was taken out of
// the basket is not found. Without any, the error is ErrNoProject. An empty
// path finds nothing.
func (s *Store) Find(path, text string) (p Project, err error) {
	if path, err = absolute(path); err != nil {
		return Project{}, err
	}
	err = s.peek(func(tx *bbolt.Tx) error {
		key, err := newest(tx, pathsBucket, pathKey(path, nil))
		if err != nil {
			return err
		}
		if path == "" || key == nil {
			if key, err = newest(tx, hashesBucket, hashKey(text, nil)); err != nil {
				return err
			}
		}
		if key == nil {
			return ErrNoProject
		}
		k, err := get(tx, key)
		p = k.Project
		return err
	})
	return p, err
}

// Holds tells whether Find would find a project with this text.
func (s *Store) Holds(text string) (held bool, err error) {
	err = s.peek(func(tx *bbolt.Tx) error {
		prefix := hashKey(text, nil)
		cursor := tx.Bucket(hashesBucket).Cursor()
		for k, _ := cursor.Seek(prefix); bytes.HasPrefix(k, prefix) && !held; k, _ = cursor.Next() {
			p, err := getHead(tx, k[len(prefix):])
			if err != nil {
				return err
			}
			held = p.Shelf != TakenOut
		}
		return nil
	})
	return held, err
}

// newest is the key of the project touched last among those under a prefix of
// an index; nil where there is none.
func newest(tx *bbolt.Tx, index, prefix []byte) (newest []byte, err error) {
	touched := int64(0)
	cursor := tx.Bucket(index).Cursor()
	for k, _ := cursor.Seek(prefix); bytes.HasPrefix(k, prefix); k, _ = cursor.Next() {
		key := k[len(prefix):]
		if len(key) != 8 {
			continue // of a path with a zero byte in it
		}
		p, err := getHead(tx, key)
		if err != nil {
			return nil, err
		}
		if p.Shelf == TakenOut {
			continue
		}
		if newest == nil || p.Touched >= touched {
			newest, touched = key, p.Touched
		}
	}
	return newest, nil
}

func absolute(path string) (string, error) {
	if path == "" {
		return "", nil
	}
	return filepath.Abs(path)
}

// keyOf is the key of a project's id.
func keyOf(id string) ([]byte, error) {
	n, err := strconv.ParseUint(id, 10, 64)
	if err != nil || strconv.FormatUint(n, 10) != id {
		return nil, fmt.Errorf("%w: %q", ErrNoProject, id)
	}
	return number(n), nil
}

func pathKey(path string, id []byte) []byte {
	return append(append([]byte(path), 0), id...)
}

func hashKey(text string, id []byte) []byte {
	sum := sha256.Sum256([]byte(text))
	return append(sum[:], id...)
}

// put writes a project and its places in the indexes.
func put(tx *bbolt.Tx, key []byte, p kept) error {
	for _, entry := range []struct{ bucket, key, value []byte }{
		{projectsBucket, key, in(projectsBucket).seal(key, appendHead(nil, p))},
		{textsBucket, key, in(textsBucket).seal(key, appendText(nil, p))},
		{pathsBucket, pathKey(p.Path, key), nil},
		{hashesBucket, hashKey(p.Text, key), nil},
	} {
		if err := tx.Bucket(entry.bucket).Put(entry.key, entry.value); err != nil {
			return err
		}
	}
	return nil
}

// unindex takes a project out of the indexes.
func unindex(tx *bbolt.Tx, key []byte, p kept) error {
	if err := tx.Bucket(pathsBucket).Delete(pathKey(p.Path, key)); err != nil {
		return err
	}
	return tx.Bucket(hashesBucket).Delete(hashKey(p.Text, key))
}

// get reads a project.
func get(tx *bbolt.Tx, key []byte) (kept, error) {
	p, err := getHead(tx, key)
	if err != nil {
		return kept{}, err
	}
	text, err := in(textsBucket).unseal(key, tx.Bucket(textsBucket).Get(key))
	if err != nil {
		return kept{}, err
	}
	if _, p.Text, err = readText(text); err != nil {
		return kept{}, err
	}
	return p, nil
}

// getHead reads a project but for its text.
func getHead(tx *bbolt.Tx, key []byte) (kept, error) {
	sealed := tx.Bucket(projectsBucket).Get(key)
	if sealed == nil {
		return kept{}, ErrNoProject
	}
	head, err := in(projectsBucket).unseal(key, sealed)
	if err != nil {
		return kept{}, err
	}
	p, err := readHead(head)
	if err != nil {
		return kept{}, err
	}
	if p.Progress, err = readProgress(tx, key); err != nil {
		return kept{}, err
	}
	p.ID = strconv.FormatUint(binary.BigEndian.Uint64(key), 10)
	if p.UID == "" {
		p.UID = olderUID(binary.BigEndian.Uint64(key), p.Created)
	}
	log := tx.Bucket(logsBucket).Bucket(key)
	if log == nil {
		return kept{}, damaged("the log of project %s is missing", p.ID)
	}
	p.Touched, p.Events = p.Created, log.Sequence()
	if p.Events == 0 {
		return p, nil
	}
	k, v := log.Cursor().Last()
	if !bytes.Equal(k, number(p.Events)) {
		return kept{}, damaged("the log of project %s has no event %d", p.ID, p.Events)
	}
	e, err := readEvent(in(logsBucket, key), k, v)
	if err != nil {
		return kept{}, err
	}
	p.Touched = max(p.Touched, e.At)
	return p, nil
}

// checkProjects sees that every project has all its parts, and that no part
// is without its project.
func checkProjects(tx *bbolt.Tx) error {
	count := 0
	err := tx.Bucket(projectsBucket).ForEach(func(key, _ []byte) error {
		count++
		p, err := getHead(tx, key)
		if err != nil {
			return err
		}
		if tx.Bucket(textsBucket).Get(key) == nil || tx.Bucket(pathsBucket).Get(pathKey(p.Path, key)) == nil {
			return damaged("a part of project %s is missing", p.ID)
		}
		return nil
	})
	if err != nil {
		return err
	}
	for _, name := range [][]byte{textsBucket, pathsBucket, hashesBucket, logsBucket} {
		n := 0
		cursor := tx.Bucket(name).Cursor()
		for k, _ := cursor.First(); k != nil; k, _ = cursor.Next() {
			n++
		}
		if n != count {
			return damaged("there are %d %s of %d projects", n, name, count)
		}
	}
	return nil
}

// Load gives a project and everything that happened in it, in order.
func (s *Store) Load(id string) (p Project, events []counter.Event, err error) {
	err = s.view(func(tx *bbolt.Tx) error {
		key, err := keyOf(id)
		if err != nil {
			return err
		}
		k, err := get(tx, key)
		if err != nil {
			return err
		}
		p = k.Project
		events, err = readLog(tx, p)
		return err
	})
	if err != nil {
		return Project{}, nil, err
	}
	return p, events, nil
}

// moreEvents is how many events find room behind those of a log that was read,
// so that going on with it does not copy it all.
const moreEvents = 4096

// readLog reads everything that happened in a project, in order.
func readLog(tx *bbolt.Tx, p Project) ([]counter.Event, error) {
	key, err := keyOf(p.ID)
	if err != nil {
		return nil, err
	}
	log, where := tx.Bucket(logsBucket).Bucket(key), in(logsBucket, key)
	events := make([]counter.Event, 0, min(p.Events, 1<<24)+moreEvents)
	cursor := log.Cursor()
	for k, v := cursor.First(); k != nil; k, v = cursor.Next() {
		if len(k) != 8 || binary.BigEndian.Uint64(k) != uint64(len(events)+1) {
			return nil, damaged("after event %d of project %s comes entry %x", len(events), p.ID, k)
		}
		e, err := readEvent(where, k, v)
		if err != nil {
			return nil, err
		}
		events = append(events, e)
	}
	if uint64(len(events)) != p.Events {
		return nil, damaged("project %s has %d of %d events", p.ID, len(events), p.Events)
	}
	return events, nil
}
