package store

import (
	"bufio"
	"bytes"
	"fmt"
	"hash/crc32"

	"go.etcd.io/bbolt"
)

// Seal lets tests write entries that add up.
func Seal(bucket, key, value []byte) []byte { return in(bucket).seal(key, value) }

// FailCommits puts fail between the store and its file: it is given what
// would make a commit, and may make it or not, and give an error or not.
func (s *Store) FailCommits(fail func(commit func() error) error) {
	s.commit = func(write func(*bbolt.Tx) error) error {
		return fail(func() error { return s.db.Update(write) })
	}
}

// Copies lists the copies of a file, the newest first.
func Copies(path string) (names []string) {
	for _, c := range copiesOf(path) {
		names = append(names, c.path)
	}
	return names
}

// WaitForCopies waits until all that is safe is in a copy, and gives why the
// last could not be made.
func (s *Store) WaitForCopies() error {
	c := s.copier
	c.mu.Lock()
	defer c.mu.Unlock()
	for c.served < c.asked && c.err == nil {
		c.news.Wait()
	}
	return c.err
}

// Schema is the layout of today.
const Schema = schema

// WithSums makes an export of lines that lack their sums, and their closing
// braces.
func WithSums(lines []string) string {
	var b bytes.Buffer
	x := &exporter{w: bufio.NewWriter(&b)}
	for _, line := range lines {
		x.sum = crc32.Update(x.sum, castagnoli(), []byte(line))
		tail := fmt.Appendf(nil, sumFormat+"\n", x.sum)
		x.sum = crc32.Update(x.sum, castagnoli(), tail)
		b.WriteString(line)
		b.Write(tail)
	}
	return b.String()
}
