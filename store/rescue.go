package store

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"slices"
	"strconv"

	"go.etcd.io/bbolt"

	"crochet/tallyturn/counter"
)

// Rescued is what Rescue did.
type Rescued struct {
	Aside    string // where the damaged file is now; "" where there was none
	Copies   int    // how many copies of it helped
	Projects []RescuedProject
}

// RescuedProject is a project that was found in a damaged file.
type RescuedProject struct {
	Project               // as it is in the new file, without its Text
	Lost           uint64 // events after those, as far as can be known
	NoHead, NoText bool   // what else could not be found
	Cut            bool   // the file may be cut off: perhaps there was more that nothing tells of
}

// Whole reports whether nothing of a project was lost.
func (p RescuedProject) Whole() bool { return p.Lost == 0 && !p.NoHead && !p.NoText && !p.Cut }

// Rescue sets a damaged file aside, under its name with ".damaged" and a
// number, and puts a new one in its place with what can still be read.
// The old file is not changed. The copies beside it are read as well, and are
// all there is to read where the file itself is gone.
//
// Of the events of a project, those up to the first that is missing come
// over: what was done after a gap would be counted from a wrong place.
func Rescue(path string) (Rescued, error) {
	r, err := rescue(path)
	if err != nil {
		return Rescued{}, fmt.Errorf("rescue the basket: %w", err)
	}
	return r, nil
}

func rescue(path string) (r Rescued, err error) {
	copies := copiesOf(path)
	var data []byte
	// Damage may be where only reading all would find it, so a file that
	// looks whole is gone through all the same.
	err = inspect(path)
	gone := errors.Is(err, fs.ErrNotExist) && len(copies) > 0
	if !gone {
		if err != nil && !errors.Is(err, ErrDamaged) {
			return r, err
		}
		// Whoever works with the file must be left alone. If it cannot be
		// opened at all, nobody does.
		db, err := openFile(path, true)
		if err == nil {
			defer func() { _ = guard(db.Close) }()
		} else if errors.Is(err, ErrLocked) {
			return r, err
		}
		if data, err = os.ReadFile(path); err != nil {
			return r, err
		}
	}
	found := search(data)
	for _, c := range copies {
		// One that cannot be read is no help; the others may be.
		if data, err := os.ReadFile(c.path); err == nil && found.adopt(search(data)) {
			r.Copies++
		}
	}
	found.sortLoose()
	fresh, err := makeFile(path, func(tx *bbolt.Tx) error {
		r.Projects, err = found.put(tx)
		return err
	})
	if err != nil {
		return r, err
	}
	defer os.Remove(fresh) // which does nothing once it has its new name
	if !gone {
		if r.Aside, err = setAside(path); err != nil {
			return r, err
		}
	}
	if err := os.Rename(fresh, path); err != nil {
		return r, err
	}
	if err := syncDir(path); err != nil {
		return r, err
	}
	// The copies there are belong to the old file. One of the new file is a
	// help on another day, and nothing is wrong without it.
	if s, err := Open(path); err == nil {
		s.copier.want()
		_ = s.Close()
	}
	return r, nil
}

// setAside gives a file a name that says it is damaged. It keeps the old one
// too, until another file takes it, where the file system has links.
func setAside(path string) (name string, err error) {
	for n := 1; ; n++ {
		name = path + ".damaged"
		if n > 1 {
			name += "-" + strconv.Itoa(n)
		}
		if _, err := os.Lstat(name); err == nil {
			continue
		}
		err := os.Link(path, name)
		if errors.Is(err, fs.ErrExist) {
			continue
		}
		if err != nil {
			err = os.Rename(path, name)
		}
		return name, err
	}
}

// finds is what a search through pages has found. Pages that are no longer in
// use are searched too: what is on them was true once, and events never
// change.
type finds struct {
	heads  map[uint64]kept
	texts  map[uint64]kept
	events map[uint64]map[uint64]counter.Event // by project and number
	ends   map[uint64]uint64                   // the greatest number that a log was seen to have
	loose  []leafEntry                         // may be events, of one project or another
	basket []byte                              // which one it is; nil if that is not known
	cut    bool                                // there may have been more of the file
}

// search goes through all leaf pages of a damaged database, whatever points
// to them. What is an entry of ours is known by its checksum.
func search(data []byte) *finds {
	f := &finds{heads: map[uint64]kept{}, texts: map[uint64]kept{}, events: map[uint64]map[uint64]counter.Event{}, ends: map[uint64]uint64{}}
	size := pageSize(data)
	f.cut = cutOff(data, size)
	for at := 0; at+size <= len(data); at += size {
		b := data[at:]
		if native.Uint64(b) != uint64(at/size) || native.Uint16(b[8:]) != leafPage {
			continue
		}
		b = b[:min(uint64(len(b)), (uint64(native.Uint32(b[12:]))+1)*uint64(size))]
		f.leaf(b)
	}
	return f
}

// adopt takes over what was found in a copy; false where that is one of
// another basket, whose projects have the same numbers and nothing else.
func (f *finds) adopt(g *finds) bool {
	if f.basket != nil && g.basket != nil && !bytes.Equal(f.basket, g.basket) {
		return false
	}
	for id, p := range g.heads {
		if own, ok := f.heads[id]; ok && (own.Created != p.Created || own.UID != p.UID && own.UID != "" && p.UID != "") {
			return false
		}
	}
	if f.basket == nil {
		f.basket = g.basket
	}
	for id, p := range g.heads {
		newer(f.heads, id, p)
	}
	for id, p := range g.texts {
		newer(f.texts, id, p)
	}
	for id, end := range g.ends {
		f.ends[id] = max(f.ends[id], end)
	}
	f.loose = append(f.loose, g.loose...)
	return true
}

// sortLoose finds out which project each event is from.
func (f *finds) sortLoose() {
	// The log that an event is from is most likely that of the one before.
	ids := slices.Sorted(maps.Keys(f.ends))
	last := 0
	for _, en := range f.loose {
		for i := range ids {
			if i = (last + i) % len(ids); f.takeEvent(ids[i], en) {
				last = i
				break
			}
		}
	}
	f.loose = nil
}

// pageSize is what the first head page says, if it is whole.
func pageSize(data []byte) int {
	if len(data) >= pageHeader+metaSize {
		meta := data[pageHeader:]
		if size := native.Uint32(meta[8:]); soundMeta(meta) && size >= 1024 && size <= 1<<16 {
			return int(size)
		}
	}
	return os.Getpagesize()
}

// cutOff reports whether a file may have been cut off: it ends within a page, or
// before the pages do that a head tells of. The head with the greater number of
// pages may be the one that is broken; then a last page that was never written
// shows that nothing stood behind it.
func cutOff(data []byte, size int) bool {
	if len(data)%size != 0 {
		return true
	}
	heads := 0
	for id := range 2 {
		page, ok := slice(data, id*size, 0, uint32(pageHeader+metaSize))
		if !ok || !soundMeta(page[pageHeader:]) {
			continue
		}
		if native.Uint64(page[pageHeader+metaPages:]) > uint64(len(data)/size) {
			return true
		}
		heads++
	}
	last := data[max(0, len(data)-size):]
	return heads < 2 && len(bytes.Trim(last, "\x00")) > 0
}

// leafEntry is an entry of a leaf page.
type leafEntry struct {
	bucket     bool
	key, value []byte
}

// leafEntries reads what lies inside a leaf page.
func leafEntries(b []byte) (entries []leafEntry) {
	for i := range int(native.Uint16(b[10:])) {
		at := pageHeader + i*elementSize
		el, ok := slice(b, at, 0, elementSize)
		if !ok {
			break
		}
		flags, pos, keyLen := native.Uint32(el), native.Uint32(el[4:]), native.Uint32(el[8:])
		key, ok := slice(b, at, pos, keyLen)
		value, ok2 := slice(b, at+int(keyLen), pos, native.Uint32(el[12:]))
		if ok && ok2 {
			entries = append(entries, leafEntry{flags&bucketLeaf != 0, key, value})
		}
	}
	return entries
}

// leaf goes through a leaf page, and the small buckets on it.
func (f *finds) leaf(b []byte) {
	for _, en := range leafEntries(b) {
		isID := len(en.key) == 8 && !bytes.Equal(en.key, projectsBucket)
		switch {
		case bytes.Equal(en.key, identityKey):
			if b, err := in(metaBucket).unseal(en.key, en.value); err == nil {
				f.basket = b
			}
		case en.bucket && len(en.value) >= bucketSize:
			if isID {
				id := binary.BigEndian.Uint64(en.key)
				f.ends[id] = max(f.ends[id], native.Uint64(en.value[8:]))
			}
			if native.Uint64(en.value) == 0 && len(en.value) >= bucketSize+pageHeader {
				f.leaf(en.value[bucketSize:])
			}
		case isID && !f.take(en):
			f.loose = append(f.loose, en)
		}
	}
}

// take keeps an entry if it is a project or a text.
func (f *finds) take(en leafEntry) bool {
	id := binary.BigEndian.Uint64(en.key)
	if b, err := in(projectsBucket).unseal(en.key, en.value); err == nil {
		if p, err := readHead(b); err == nil {
			newer(f.heads, id, p)
			f.ends[id] = max(f.ends[id], 0)
		}
		return true
	}
	if b, err := in(textsBucket).unseal(en.key, en.value); err == nil {
		if revision, text, err := readText(b); err == nil {
			newer(f.texts, id, kept{Project{Text: text}, revision})
			f.ends[id] = max(f.ends[id], 0)
		}
		return true
	}
	return false
}

// newer keeps what was changed more often; of equals, what has a name.
func newer(of map[uint64]kept, id uint64, p kept) {
	if old, ok := of[id]; !ok || p.revision > old.revision || p.revision == old.revision && old.UID == "" {
		of[id] = p
	}
}

// takeEvent keeps an entry if it is an event of a project.
func (f *finds) takeEvent(id uint64, en leafEntry) bool {
	e, err := readEvent(in(logsBucket, number(id)), en.key, en.value)
	if err != nil {
		return false
	}
	if f.events[id] == nil {
		f.events[id] = map[uint64]counter.Event{}
	}
	f.events[id][binary.BigEndian.Uint64(en.key)] = e
	return true
}

// put writes what was found into an empty file.
func (f *finds) put(tx *bbolt.Tx) (all []RescuedProject, err error) {
	for _, id := range slices.Sorted(maps.Keys(f.ends)) {
		p, hasHead := f.heads[id]
		text, hasText := f.texts[id]
		events := f.events[id]
		if !hasHead && !hasText && len(events) == 0 {
			continue
		}
		p.Text = text.Text
		p.revision = max(p.revision, text.revision)
		p.ID = strconv.FormatUint(id, 10)
		if !hasHead {
			p.Title = "Project " + p.ID
		}
		if p.UID == "" {
			p.UID = freshUID()
			if hasHead { // of layout 1
				p.UID = olderUID(id, p.Created)
			}
		}
		if err := f.putProject(tx, id, &p); err != nil {
			return nil, err
		}
		end := f.ends[id]
		for seq := range events {
			end = max(end, seq)
		}
		p.Text = ""
		all = append(all, RescuedProject{p.Project, end - p.Events, !hasHead, !hasText, f.cut})
	}
	return all, nil
}

// putProject writes one project with its log up to the first gap.
func (f *finds) putProject(tx *bbolt.Tx, id uint64, p *kept) error {
	if err := tx.Bucket(projectsBucket).SetSequence(id); err != nil {
		return err
	}
	if err := put(tx, number(id), *p); err != nil {
		return err
	}
	log, err := tx.Bucket(logsBucket).CreateBucket(number(id))
	if err != nil {
		return err
	}
	log.FillPercent = 1
	where := in(logsBucket, number(id))
	p.Touched = p.Created
	for seq := uint64(1); ; seq++ {
		e, ok := f.events[id][seq]
		if !ok {
			return nil
		}
		if err := (entry{seq, e}).write(log, where); err != nil {
			return err
		}
		p.Events, p.Touched = seq, max(p.Created, e.At)
	}
}
