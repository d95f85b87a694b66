package store

import (
	"bufio"
	"bytes"
	"cmp"
	"encoding/json"
	"fmt"
	"hash/crc32"
	"io"
	"slices"
	"strings"

	"go.etcd.io/bbolt"

	"crochet/tallyturn/counter"
)

// Export writes everything in the basket, as lines of JSON: each project with
// its text, and its log. The same basket gives the same bytes, in whichever
// order its projects came into it.
func (s *Store) Export(w io.Writer) error {
	return s.view(func(tx *bbolt.Tx) error {
		var all []kept
		err := tx.Bucket(projectsBucket).ForEach(func(key, _ []byte) error {
			p, err := get(tx, key)
			all = append(all, p)
			return err
		})
		if err != nil {
			return err
		}
		slices.SortFunc(all, func(a, b kept) int {
			return cmp.Or(cmp.Compare(a.Created, b.Created), strings.Compare(a.UID, b.UID))
		})
		x := newExport(w)
		for _, p := range all {
			events, err := readLog(tx, p.Project)
			if err != nil {
				return err
			}
			if err := x.project(p, events); err != nil {
				return err
			}
		}
		return x.end()
	})
}

// ExportProject writes one project with a log, as Export does, for what is not
// in any basket. Where it has no UID it is given one.
func ExportProject(w io.Writer, p Project, log []counter.Event) error {
	if p.UID == "" {
		p.UID = freshUID()
	}
	x := newExport(w)
	if err := x.project(kept{Project: p}, log); err != nil {
		return err
	}
	return x.end()
}

// exporter writes the lines.
type exporter struct {
	w        *bufio.Writer
	sum      uint32 // of all that was written
	projects int
	events   uint64
	line     bytes.Buffer
	json     *json.Encoder
	err      error
}

func newExport(w io.Writer) *exporter {
	x := &exporter{w: bufio.NewWriter(w)}
	x.json = json.NewEncoder(&x.line)
	x.json.SetEscapeHTML(false)
	x.put(firstLine{exportName, exportVersion})
	return x
}

func (x *exporter) project(p kept, log []counter.Event) error {
	x.projects++
	x.events += uint64(len(log))
	x.put(projectLine{
		Project: p.UID, Title: words(p.Title), Path: words(p.Path), Size: words(p.Size),
		Name: words(p.Name), Shelf: shelfWords[p.Shelf], Created: p.Created,
		Changes: p.revision, Events: uint64(len(log)), Text: words(p.Text),
	})
	for _, e := range log {
		x.put(lineOf(e))
	}
	return x.err
}

func (x *exporter) end() error {
	x.put(lastLine{exportName, x.projects, x.events})
	if x.err != nil {
		return x.err
	}
	return x.w.Flush()
}

// put writes a line with the sum of all bytes before it and of its own.
func (x *exporter) put(line any) {
	if x.err != nil {
		return
	}
	x.line.Reset()
	if x.err = x.json.Encode(line); x.err != nil {
		return
	}
	b := bytes.TrimSuffix(x.line.Bytes(), []byte("}\n"))
	x.sum = crc32.Update(x.sum, castagnoli(), b)
	tail := fmt.Appendf(nil, sumFormat+"\n", x.sum)
	x.sum = crc32.Update(x.sum, castagnoli(), tail)
	if _, x.err = x.w.Write(b); x.err == nil {
		_, x.err = x.w.Write(tail)
	}
}

// sumFormat is the end of every line.
const sumFormat = `,"sum":"%08x"}`

const sumLength = len(`,"sum":"00000000"}`)
