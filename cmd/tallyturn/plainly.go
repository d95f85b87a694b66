package main

import (
	"errors"
	"io/fs"
	"strings"
	"syscall"
)

// hindrances are what the system says that stands between a tap and the disk,
// and how the screen says it.
var hindrances = []struct {
	err   error
	words string
}{
	{syscall.ENOSPC, "the disk is full"},
	{syscall.EDQUOT, "your share of the disk is used up"},
	{syscall.EFBIG, "files may grow no larger here"},
	{syscall.EROFS, "the disk is read-only"},
	{fs.ErrPermission, "there is no permission to write the basket"},
	{syscall.ENOTDIR, "the basket's folder cannot be had: a file stands in its place"},
	{fs.ErrNotExist, "the basket's folder is gone"},
	{syscall.EIO, "the disk fails"},
}

// hindrance is one of them, with the error that it was.
type hindrance struct {
	words string
	err   error
}

func (h hindrance) Error() string { return h.words }
func (h hindrance) Unwrap() error { return h.err }

// plainly puts an error of the disk in the words of the screen.
func plainly(err error) error {
	for _, h := range hindrances {
		// Some come wrapped as no more than their text.
		if errors.Is(err, h.err) || err != nil && strings.Contains(err.Error(), h.err.Error()) {
			return hindrance{h.words, err}
		}
	}
	return err
}
