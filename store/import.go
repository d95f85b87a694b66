package store

import (
	"bufio"
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"hash/crc32"
	"io"

	"go.etcd.io/bbolt"

	"crochet/tallyturn/counter"
)

// ErrBadExport is given for lines that are no export, or one that was changed
// or cut short since it was written.
var ErrBadExport = errors.New("this is not what an export holds")

// LineError says which line of an import cannot be taken.
type LineError struct {
	Line int // from 1
	Err  error
}

func (e *LineError) Error() string { return fmt.Sprintf("line %d: %v", e.Line, e.Err) }
func (e *LineError) Unwrap() error { return e.Err }

// lineLimit is the longest line, in bytes: that of the longest text, were all
// of it in numbers.
const lineLimit = 64 << 20

// Import reads what Export wrote and puts it into the basket, all of it or
// nothing. A project that is there already is not put in again: events that
// it does not have are added. Where the two went on differently, both are
// kept. The error is a LineError where a line is at fault, and nothing has
// been changed.
func (s *Store) Import(r io.Reader) ([]Merged, error) {
	all, err := readExport(r)
	if err != nil {
		return nil, err
	}
	return s.merge(all)
}

// Merge puts one project with its log into the basket, as Import does. Both
// give ErrBusy where a project that would change is being worked.
func (s *Store) Merge(p Project, log []counter.Event) (Merged, error) {
	if !isUID(p.UID) {
		p.UID = freshUID()
	}
	merged, err := s.merge([]carried{{kept{Project: p}, log}})
	if err != nil {
		return Merged{}, err
	}
	return merged[0], nil
}

func (s *Store) merge(all []carried) (merged []Merged, err error) {
	err = s.update(func(tx *bbolt.Tx) error {
		merged = nil // a commit that failed may be made again
		m, err := newMerger(tx, s.writing)
		if err != nil {
			return err
		}
		for _, c := range all {
			got, err := m.take(c)
			if err != nil {
				return err
			}
			merged = append(merged, got)
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	s.copier.want()
	return merged, nil
}

// writing reports whether a project has a writer.
func (s *Store) writing(id string) bool {
	s.writersMu.Lock()
	defer s.writersMu.Unlock()
	return s.writers[id] != nil
}

// carried is a project with its log, from elsewhere.
type carried struct {
	kept
	log []counter.Event
}

// importer reads the lines of an export.
type importer struct {
	r    *bufio.Reader
	line int    // the number of the last one read
	sum  uint32 // of all that was read
}

func readExport(r io.Reader) (all []carried, err error) {
	in := &importer{r: bufio.NewReader(r)}
	defer func() {
		if err != nil {
			err = &LineError{max(in.line, 1), err}
		}
	}()
	var first firstLine
	if b, err := in.read(); err != nil {
		return nil, err
	} else if err := strictly(b, &first); err != nil || first.Tallyturn != exportName {
		return nil, fmt.Errorf("%w: the first line is another", ErrBadExport)
	}
	if first.Version > exportVersion {
		return nil, fmt.Errorf("%w (export %d; this version knows %d)", ErrNewer, first.Version, exportVersion)
	}
	seen, events := map[string]bool{}, uint64(0)
	for {
		b, err := in.read()
		if err != nil {
			return nil, err
		}
		if bytes.HasPrefix(b, []byte(`{"end":`)) {
			return all, in.last(b, len(all), events)
		}
		c, err := in.project(b)
		if err != nil {
			return nil, err
		}
		if seen[c.UID] {
			return nil, fmt.Errorf("%w: project %s is there twice", ErrBadExport, c.UID)
		}
		seen[c.UID] = true
		events += uint64(len(c.log))
		all = append(all, c)
	}
}

// last checks the last line, and that nothing comes after it.
func (in *importer) last(b []byte, projects int, events uint64) error {
	var end lastLine
	if err := strictly(b, &end); err != nil {
		return fmt.Errorf("%w: %w", ErrBadExport, err)
	}
	if end.Projects != projects || end.Events != events {
		return fmt.Errorf("%w: it speaks of %d projects and %d events, and there were %d and %d",
			ErrBadExport, end.Projects, end.Events, projects, events)
	}
	if _, err := in.r.ReadByte(); !errors.Is(err, io.EOF) {
		in.line++
		return errors.Join(fmt.Errorf("%w: something comes after its end", ErrBadExport), err)
	}
	return nil
}

func (in *importer) project(b []byte) (c carried, err error) {
	var head projectLine
	if err := strictly(b, &head); err != nil {
		return c, fmt.Errorf("%w: %w", ErrBadExport, err)
	}
	if !isUID(head.Project) {
		return c, fmt.Errorf("%w: a project is named by 32 hexadecimal digits", ErrBadExport)
	}
	c.Project = Project{
		UID: head.Project, Title: string(head.Title), Path: string(head.Path), Size: string(head.Size),
		Created: head.Created, Text: string(head.Text),
	}
	c.Name = string(head.Name)
	if c.Shelf, err = shelfOf(head.Shelf); err != nil {
		return c, err
	}
	c.revision = head.Changes
	for range head.Events {
		b, err := in.read()
		if err != nil {
			return c, err
		}
		var line eventLine
		if err := strictly(b, &line); err != nil {
			return c, fmt.Errorf("%w: %w", ErrBadExport, err)
		}
		if line.Kind == 0 {
			return c, fmt.Errorf("%w: an event has a kind", ErrBadExport)
		}
		c.log = append(c.log, line.event())
	}
	return c, nil
}

// read gives the next line without its sum, once that is right.
func (in *importer) read() ([]byte, error) {
	in.line++
	b, err := in.readLine()
	if err != nil {
		return nil, err
	}
	n := len(b) - sumLength
	if n < 1 {
		return nil, fmt.Errorf("%w: a line ends in its sum", ErrBadExport)
	}
	in.sum = crc32.Update(in.sum, castagnoli(), b[:n])
	if string(b[n:]) != fmt.Sprintf(sumFormat, in.sum) {
		return nil, fmt.Errorf("%w: it does not add up; it or a line before it was changed or lost", ErrBadExport)
	}
	in.sum = crc32.Update(in.sum, castagnoli(), append(b[n:], '\n'))
	b = append(b[:n:n], '}')
	if !json.Valid(b) {
		return nil, fmt.Errorf("%w: it is no JSON", ErrBadExport)
	}
	return b, nil
}

// readLine gives the next line without its end.
func (in *importer) readLine() ([]byte, error) {
	var line []byte
	for {
		part, err := in.r.ReadSlice('\n')
		line = append(line, part...)
		switch {
		case len(line) > lineLimit:
			return nil, fmt.Errorf("%w: it is longer than any", ErrBadExport)
		case errors.Is(err, bufio.ErrBufferFull):
			continue
		case errors.Is(err, io.EOF):
			return nil, fmt.Errorf("%w: it ends too soon", ErrBadExport)
		case err != nil:
			return nil, err
		}
		return line[:len(line)-1], nil
	}
}
