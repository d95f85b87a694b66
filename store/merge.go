package store

import (
	"bytes"
	"cmp"

	"go.etcd.io/bbolt"

	"crochet/tallyturn/counter"
)

// Merged is what became of a project that was put into the basket from
// elsewhere.
type Merged struct {
	Project        // as it is in the basket now, without its Text
	New     bool   // it was not there
	Added   uint64 // events that were not there
	// Split says that it had gone on differently here and there: this is the
	// one from elsewhere, and the one that was here is kept as well.
	Split bool
}

// merger puts projects into a basket.
type merger struct {
	tx  *bbolt.Tx
	ids map[string][]byte // the keys of the projects that are there, by UID

	busy func(id string) bool
}

func newMerger(tx *bbolt.Tx, busy func(id string) bool) (*merger, error) {
	m := &merger{tx, map[string][]byte{}, busy}
	return m, tx.Bucket(projectsBucket).ForEach(func(key, _ []byte) error {
		p, err := getHead(tx, key)
		m.ids[p.UID] = bytes.Clone(key)
		return err
	})
}

func (m *merger) take(c carried) (Merged, error) {
	key, ok := m.ids[c.UID]
	if !ok {
		return m.add(c)
	}
	own, err := get(m.tx, key)
	if err != nil {
		return Merged{}, err
	}
	if m.busy(own.ID) {
		return Merged{}, ErrBusy
	}
	log, err := readLog(m.tx, own.Project)
	if err != nil {
		return Merged{}, err
	}
	same := 0
	for same < min(len(log), len(c.log)) && log[same] == c.log[same] {
		same++
	}
	if same < min(len(log), len(c.log)) {
		return m.split(key, own, log, c, same)
	}
	if laterHead(c.kept, own) {
		if err := m.rename(key, own, c.kept); err != nil {
			return Merged{}, err
		}
	}
	if err := appendLog(m.tx, key, c.log[min(same, len(c.log)):], uint64(same)); err != nil {
		return Merged{}, err
	}
	return m.merged(key, Merged{Added: uint64(len(c.log) - same)})
}

// split keeps two logs of a project that went on differently after their
// first events: one under the name of the project, the other under a name
// that follows from how it went on. Which is which does not depend on where
// the two met, so that baskets that take from each other come to hold the
// same.
func (m *merger) split(key []byte, own kept, log []counter.Event, c carried, same int) (Merged, error) {
	if goesFirst(log[same], c.log[same]) {
		c.UID = branchUID(c.UID, c.log, same)
	} else if err := m.branch(key, own, log, same); err != nil {
		return Merged{}, err
	}
	got, err := m.take(c)
	got.Split = true
	return got, err
}

// branch gives a project that is here the name of one that went on apart. If
// that one is here already, the two become one.
func (m *merger) branch(key []byte, own kept, log []counter.Event, same int) error {
	was := own
	own.UID = branchUID(own.UID, log, same)
	delete(m.ids, was.UID)
	if m.ids[own.UID] == nil {
		m.ids[own.UID] = key
		return m.rename(key, was, own)
	}
	if err := m.remove(key, was); err != nil {
		return err
	}
	_, err := m.take(carried{own, log})
	return err
}

// remove takes a project out, which another has taken in.
func (m *merger) remove(key []byte, own kept) error {
	if err := unindex(m.tx, key, own); err != nil {
		return err
	}
	for _, bucket := range [][]byte{projectsBucket, textsBucket, progressBucket} {
		if err := m.tx.Bucket(bucket).Delete(key); err != nil {
			return err
		}
	}
	return m.tx.Bucket(logsBucket).DeleteBucket(key)
}

// branchUID names the log that went on with its event after the first n.
func branchUID(uid string, log []counter.Event, n int) string {
	b, _ := log[n].MarshalBinary() // never fails
	return derivedUID([]byte(uid), number(uint64(n)), b)
}

func goesFirst(a, b counter.Event) bool {
	x, _ := a.MarshalBinary() // never fails
	y, _ := b.MarshalBinary()
	return cmp.Or(cmp.Compare(a.At, b.At), bytes.Compare(x, y)) < 0
}

// laterHead reports whether a was changed more often than b; of equals, some
// order decides, so that it is the same one everywhere.
func laterHead(a, b kept) bool {
	a.Created, a.UID = b.Created, b.UID
	return cmp.Or(cmp.Compare(a.revision, b.revision), bytes.Compare(appendHead(nil, a), appendHead(nil, b)),
		cmp.Compare(a.Text, b.Text)) > 0
}

func (m *merger) add(c carried) (Merged, error) {
	id, err := m.tx.Bucket(projectsBucket).NextSequence()
	if err != nil {
		return Merged{}, err
	}
	key := number(id)
	if err := put(m.tx, key, c.kept); err != nil {
		return Merged{}, err
	}
	if _, err := m.tx.Bucket(logsBucket).CreateBucket(key); err != nil {
		return Merged{}, err
	}
	m.ids[c.UID] = key
	if err := appendLog(m.tx, key, c.log, 0); err != nil {
		return Merged{}, err
	}
	return m.merged(key, Merged{New: true, Added: uint64(len(c.log))})
}

// rename gives a project the head and the text of p.
func (m *merger) rename(key []byte, own, p kept) error {
	if err := unindex(m.tx, key, own); err != nil {
		return err
	}
	if p.Text != own.Text || p.Size != own.Size {
		if err := m.tx.Bucket(progressBucket).Delete(key); err != nil {
			return err
		}
	}
	p.Created = own.Created
	return put(m.tx, key, p)
}

func (m *merger) merged(key []byte, got Merged) (Merged, error) {
	p, err := getHead(m.tx, key)
	got.Project = p.Project
	return got, err
}

// appendLog writes events to a log that has n already.
func appendLog(tx *bbolt.Tx, key []byte, events []counter.Event, n uint64) error {
	log, where := tx.Bucket(logsBucket).Bucket(key), in(logsBucket, key)
	log.FillPercent = 1 // it only grows at its end
	for i, e := range events {
		if err := (entry{n + uint64(i) + 1, e}).write(log, where); err != nil {
			return err
		}
	}
	return nil
}
