package store

import "go.etcd.io/bbolt"

// Seal lets tests write entries that add up.
func Seal(bucket, key, value []byte) []byte { return in(bucket).seal(key, value) }

// FailCommits puts fail between the store and its file: it is given what
// would make a commit, and may make it or not, and give an error or not.
func (s *Store) FailCommits(fail func(commit func() error) error) {
	s.commit = func(write func(*bbolt.Tx) error) error {
		return fail(func() error { return s.db.Update(write) })
	}
}

// Schema is the layout of today.
const Schema = schema
