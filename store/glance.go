package store

import (
	"bytes"
	"errors"
	"hash/fnv"
	"os"
	"path/filepath"
)

// Beside the file may lie a glance of it: a few bytes of the caller's, made of
// what was in the file, so that a list can be shown before the file is opened.
// With them stand the bytes of the file's newer head page, which change with
// each commit. So a glance is either of the file as it is, or of no account;
// it may be removed at any time.
//
//	glanceMagic, head page 64, the caller's bytes, FNV-1a of the two before it
const (
	glanceSuffix = ".glance"
	glanceMagic  = "tallyturn glance 1\n"
	glanceMost   = 1 << 20 // bytes: far more than a list needs
	glanceSum    = 8       // bytes of the checksum
)

// Glance gives what KeepGlance has kept of the file at path, or nil where
// there is none, the file was written to since, or anything about it is odd.
// The file is not opened by it: nobody is waited for, and damage further in is
// not seen.
func Glance(path string) []byte {
	f, err := os.Open(path + glanceSuffix)
	if err != nil {
		return nil
	}
	defer f.Close() // it is only read
	info, err := f.Stat()
	if err != nil || !info.Mode().IsRegular() || info.Size() > glanceMost {
		return nil
	}
	b := make([]byte, info.Size())
	if _, err := f.ReadAt(b, 0); err != nil {
		return nil
	}
	b, ok := bytes.CutPrefix(b, []byte(glanceMagic))
	n := len(b) - glanceSum
	if !ok || n < metaSize || !bytes.Equal(b[n:], sumOf(b[:n])) {
		return nil
	}
	head, err := headOf(path)
	if err != nil || !bytes.Equal(head, b[:metaSize]) {
		return nil
	}
	return b[metaSize:n]
}

// KeepGlance keeps what make gives as the glance of the file, unless the one
// there is of the file as it is now. What make reads may not be written to
// meanwhile but by make itself.
func (s *Store) KeepGlance(make func() ([]byte, error)) error {
	if s.looking {
		return ErrLooking
	}
	if s.Damaged() != nil || Glance(s.path) != nil {
		return s.Damaged()
	}
	for range 2 { // the first time make may have something to put right
		head, err := headOf(s.path)
		if err != nil {
			return err
		}
		b, err := make()
		if err != nil {
			return err
		}
		if after, err := headOf(s.path); err != nil {
			return err
		} else if !bytes.Equal(head, after) {
			continue
		}
		return writeGlance(s.path, append(head, b...))
	}
	return nil
}

// writeGlance puts a glance beside a file. It is not made durable: one that is
// lost or cut short is of no account.
func writeGlance(path string, b []byte) error {
	if len(b)+len(glanceMagic)+glanceSum > glanceMost {
		return errors.New("the glance of a basket is too large")
	}
	f, err := os.CreateTemp(filepath.Dir(path), filepath.Base(path)+".new-*") // mode 0600
	if err != nil {
		return err
	}
	_, err = f.Write(append(append([]byte(glanceMagic), b...), sumOf(b)...))
	if err = errors.Join(err, f.Close()); err == nil {
		err = os.Rename(f.Name(), path+glanceSuffix)
	}
	if err != nil {
		_ = os.Remove(f.Name()) // sweep will
	}
	return err
}

// sumOf is the checksum of a glance. The table of that of the entries takes
// longer to work out than a glance to read.
func sumOf(b []byte) []byte {
	h := fnv.New64a()
	h.Write(b)
	return h.Sum(nil)
}

// headOf reads the newer of a file's two head pages.
func headOf(path string) ([]byte, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close() // it is only read
	first := make([]byte, pageHeader+metaSize)
	c := &checker{file: f}
	if err := c.read(first, 0); err != nil {
		return nil, err
	}
	// Whatever this says, the page there must add up.
	c.pageSize = int64(native.Uint32(first[pageHeader+8:]))
	if _, _, err := c.metas(); err != nil {
		return nil, err
	}
	return c.head, nil
}
