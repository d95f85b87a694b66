package store

import (
	"crypto/rand"
	"crypto/sha256"
	"encoding/hex"

	"go.etcd.io/bbolt"
)

// uidSize is how many bytes name a project, or a basket, among all there are.
const uidSize = 16

// NewUID names a project that is in no basket yet.
func NewUID() string { return freshUID() }

func freshUID() string {
	var b [uidSize]byte
	rand.Read(b[:]) // never fails
	return hex.EncodeToString(b[:])
}

// olderUID names a project of layout 1, which gave it no name: the same in
// every copy of its file.
func olderUID(id uint64, created int64) string {
	return derivedUID([]byte("layout 1"), number(id), number(uint64(created)))
}

func derivedUID(from ...[]byte) string {
	h := sha256.New()
	for _, b := range from {
		h.Write(number(uint64(len(b))))
		h.Write(b)
	}
	return hex.EncodeToString(h.Sum(nil)[:uidSize])
}

// identity names a basket, so that copies of another one that has been at the
// same place are told from its own; nil where it has no name.
func identity(tx *bbolt.Tx) []byte {
	b, err := in(metaBucket).unseal(identityKey, tx.Bucket(metaBucket).Get(identityKey))
	if err != nil || len(b) != uidSize {
		return nil
	}
	return b
}

func putIdentity(tx *bbolt.Tx) error {
	b, err := hex.DecodeString(freshUID())
	if err != nil {
		return err
	}
	return tx.Bucket(metaBucket).Put(identityKey, in(metaBucket).seal(identityKey, b))
}

// stamp writes the version of the layout.
func stamp(tx *bbolt.Tx, layout uint64) error {
	return tx.Bucket(metaBucket).Put(schemaKey, in(metaBucket).seal(schemaKey, number(layout)))
}
