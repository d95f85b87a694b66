package store

import (
	"bytes"
	"encoding/binary"
	"errors"
	"hash/fnv"
	"io"
	"os"
	"sync/atomic"
)

// bbolt trusts its file: a page that points astray makes it panic, fault, or
// write over what is still needed. So the pages are gone through before it is
// let near them. What is on a page is, in the byte order of the machine:
//
//	page     id 8, flags 2, count 2, overflow 4; then elements
//	branch   each: position of key 4 (from the element), length 4, page 8
//	leaf     each: flags 4, position of key 4, lengths of key 4 and value 4
//	bucket   value of a leaf with flag 1: root page 8, sequence 8; a root of 0
//	         means that the bucket's only page follows
//	free     ids 8 each; a count of 0xffff means that the first is the count
//	meta     magic 4, version 4, page size 4, flags 4, root bucket 16,
//	         freelist 8, end of pages 8, transaction 8, FNV-1a of these 8
const (
	pageHeader  = 16
	elementSize = 16
	bucketSize  = 16
	metaSize    = 64
	metaPages   = 40 // where it says how many pages were used

	branchPage = 0x01
	leafPage   = 0x02
	metaPage   = 0x04
	freePage   = 0x10

	bucketLeaf = 0x01
	noFreelist = 1<<64 - 1
	maxDepth   = 64 // of pages under pages: far more than a file can need
)

var native = binary.NativeEndian

// checker goes through the pages of a database.
type checker struct {
	file     io.ReaderAt
	pageSize int64
	end      uint64 // all pages lie before this one
	head     []byte // what the newer of the head pages says
	used     []bool
	spare    [][]byte     // buffers of one page
	glance   bool         // of each log go only through the pages that lead to its end
	nest     int          // how many buckets deep
	inLogs   bool         // the outermost of them is that of the logs
	stop     *atomic.Bool // ends it early, with ErrClosed; nil for never
}

// errUnsure says that a glance is not enough.
var errUnsure = errors.New("store: it must be gone through")

// checkPages reports as ErrDamaged where the pages of a database do not hold
// together. Values are not looked at.
func checkPages(path string, pageSize int64, glance bool) error {
	f, err := os.Open(path)
	if err != nil {
		return err
	}
	defer f.Close() // it was only read
	c := &checker{file: f, pageSize: pageSize, glance: glance}
	return c.check(f)
}

// check goes through the pages of f, which is its file.
func (c *checker) check(f *os.File) error {
	info, err := f.Stat()
	if err != nil {
		return err
	}
	root, freelist, err := c.metas()
	if err != nil {
		return err
	}
	if info.Size() < int64(c.end)*c.pageSize {
		return damaged("it has %d bytes of %d", info.Size(), int64(c.end)*c.pageSize)
	}
	c.used = make([]bool, c.end)
	c.used[0], c.used[1] = true, true
	if err := c.tree(root, nil, nil, 0, false); err != nil {
		return err
	}
	return c.free(freelist)
}

// metas reads both meta pages and gives what the newer says. Only one is
// written at a time, and in one piece, so both must be whole.
func (c *checker) metas() (root, freelist uint64, err error) {
	var newest uint64
	for id := range uint64(2) {
		page := make([]byte, pageHeader+metaSize)
		if err := c.read(page, int64(id)*c.pageSize); err != nil {
			return 0, 0, err
		}
		meta := page[pageHeader:]
		if native.Uint64(page) != id || native.Uint16(page[8:]) != metaPage || !soundMeta(meta) {
			return 0, 0, damaged("its head page %d does not add up", id)
		}
		if txid := native.Uint64(meta[48:]); id == 0 || txid > newest {
			newest, c.head = txid, meta
			root, freelist, c.end = native.Uint64(meta[16:]), native.Uint64(meta[32:]), native.Uint64(meta[metaPages:])
		}
	}
	if c.end < 2 || c.end > 1<<40 {
		return 0, 0, damaged("it says it has %d pages", c.end)
	}
	return root, freelist, nil
}

// soundMeta reports whether the sum at the end of a meta is that of what stands before it.
func soundMeta(meta []byte) bool {
	hash := fnv.New64a()
	hash.Write(meta[:metaSize-8])
	return hash.Sum64() == native.Uint64(meta[metaSize-8:])
}

func (c *checker) read(b []byte, at int64) error {
	_, err := c.file.ReadAt(b, at)
	if errors.Is(err, io.EOF) {
		return damaged("it ends too soon")
	}
	return err
}

func (c *checker) buffer() []byte {
	n := len(c.spare)
	if n == 0 {
		return make([]byte, c.pageSize)
	}
	b := c.spare[n-1]
	c.spare = c.spare[:n-1]
	return b
}

// page reads a page and those it runs over into, and marks them used.
func (c *checker) page(id uint64) ([]byte, error) {
	if c.stop != nil && c.stop.Load() {
		return nil, ErrClosed
	}
	if id < 2 || id >= c.end {
		return nil, damaged("page %d is none", id)
	}
	b := c.buffer()
	if err := c.read(b, int64(id)*c.pageSize); err != nil {
		return nil, err
	}
	more := uint64(native.Uint32(b[12:]))
	if native.Uint64(b) != id || more >= c.end-id {
		return nil, damaged("page %d is not one", id)
	}
	for i := id; i <= id+more; i++ {
		if c.used[i] {
			return nil, damaged("page %d is used twice", i)
		}
		c.used[i] = true
	}
	if more > 0 {
		b = append(b, make([]byte, int64(more)*c.pageSize)...)
		if err := c.read(b[c.pageSize:], (int64(id)+1)*c.pageSize); err != nil {
			return nil, err
		}
	}
	return b, nil
}

// tree goes through a bucket from its root page. Keys lie from low on, and
// before high if that is not nil. With last it goes only to the last leaf.
func (c *checker) tree(id uint64, low, high []byte, depth int, last bool) error {
	if depth > maxDepth {
		return damaged("page %d lies too deep", id)
	}
	b, err := c.page(id)
	if err != nil {
		return err
	}
	defer func() { c.spare = append(c.spare, b[:c.pageSize]) }()
	if native.Uint16(b[8:])&branchPage == 0 {
		if last && native.Uint16(b[10:]) == 0 {
			return errUnsure // the last entry is on another page
		}
		return c.leaf(b, low, high, depth)
	}
	count := int(native.Uint16(b[10:]))
	if native.Uint16(b[8:]) != branchPage || count == 0 {
		return damaged("page %d is no branch", id)
	}
	keys, pages := make([][]byte, count), make([]uint64, count)
	for i := range count {
		at := pageHeader + i*elementSize
		el, ok := slice(b, at, 0, elementSize)
		if !ok {
			return damaged("page %d is cut short", id)
		}
		if keys[i], ok = slice(b, at, native.Uint32(el), native.Uint32(el[4:])); !ok {
			return damaged("page %d has a key outside it", id)
		}
		pages[i] = native.Uint64(el[8:])
		if i == 0 && bytes.Compare(low, keys[0]) > 0 || i > 0 && bytes.Compare(keys[i-1], keys[i]) >= 0 {
			return damaged("keys are out of order on page %d", id)
		}
	}
	if high != nil && bytes.Compare(keys[count-1], high) >= 0 {
		return damaged("keys are out of order on page %d", id)
	}
	first := 0
	if last {
		first = count - 1
	}
	for i := first; i < count; i++ {
		below := high
		if i+1 < count {
			below = keys[i+1]
		}
		if err := c.tree(pages[i], keys[i], below, depth+1, last); err != nil {
			return err
		}
	}
	return nil
}

// leaf goes through a leaf page, and the buckets on it.
func (c *checker) leaf(b, low, high []byte, depth int) error {
	id, count := native.Uint64(b), int(native.Uint16(b[10:]))
	if native.Uint16(b[8:]) != leafPage {
		return damaged("page %d is no leaf", id)
	}
	last := low
	for i := range count {
		at := pageHeader + i*elementSize
		el, ok := slice(b, at, 0, elementSize)
		if !ok {
			return damaged("page %d is cut short", id)
		}
		flags, pos, keyLen, valueLen := native.Uint32(el), native.Uint32(el[4:]), native.Uint32(el[8:]), native.Uint32(el[12:])
		key, ok := slice(b, at, pos, keyLen)
		value, ok2 := slice(b, at+int(keyLen), pos, valueLen)
		if !ok || !ok2 {
			return damaged("page %d has an entry outside it", id)
		}
		if order := bytes.Compare(last, key); order > 0 || order == 0 && i > 0 {
			return damaged("keys are out of order on page %d", id)
		}
		last = key
		switch {
		case flags == 0:
		case flags != bucketLeaf || len(value) < bucketSize:
			return damaged("page %d has an entry of no kind", id)
		default:
			if c.nest++; c.nest == 1 {
				c.inLogs = bytes.Equal(key, logsBucket)
			}
			if err := c.bucket(value, depth, c.glance && c.inLogs && c.nest == 2); err != nil {
				return err
			}
			c.nest--
		}
	}
	if high != nil && count > 0 && bytes.Compare(last, high) >= 0 {
		return damaged("keys are out of order on page %d", id)
	}
	return nil
}

func (c *checker) bucket(value []byte, depth int, last bool) error {
	if root := native.Uint64(value); root != 0 {
		return c.tree(root, nil, nil, depth+1, last)
	}
	inline := value[bucketSize:]
	if len(inline) < pageHeader || depth >= maxDepth {
		return damaged("a small bucket is cut short")
	}
	return c.leaf(inline, nil, nil, depth+1)
}

// free goes through the list of free pages. None of them may be in use.
func (c *checker) free(id uint64) error {
	if id == noFreelist {
		return nil
	}
	b, err := c.page(id)
	if err != nil {
		return err
	}
	if native.Uint16(b[8:]) != freePage {
		return damaged("page %d is no list of free pages", id)
	}
	count, at := uint64(native.Uint16(b[10:])), pageHeader
	if count == 0xffff {
		count, at = native.Uint64(b[pageHeader:]), pageHeader+8
	}
	if count > uint64(len(b)-at)/8 {
		return damaged("the list of free pages is cut short")
	}
	for i := range count {
		free := native.Uint64(b[at+8*int(i):])
		if free >= c.end || c.used[free] {
			return damaged("page %d is free and in use", free)
		}
		c.used[free] = true
	}
	return nil
}

// slice is the n bytes of b that begin pos after at, if they are there.
func slice(b []byte, at int, pos, n uint32) ([]byte, bool) {
	from := uint64(at) + uint64(pos)
	to := from + uint64(n)
	if to > uint64(len(b)) {
		return nil, false
	}
	return b[from:to:to], true
}
