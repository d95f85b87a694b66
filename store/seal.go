package store

import (
	"encoding/binary"
	"hash/crc32"
	"sync"
)

// castagnoli is the table of the checksums. It is worked out when the first is
// asked for, which the first frame does not wait for.
var castagnoli = sync.OnceValue(func() *crc32.Table { return crc32.MakeTable(crc32.Castagnoli) })

// place is the checksum of the names of a bucket and those around it,
// outermost first. The checksums of the bucket's entries go on from it.
type place uint32

func in(buckets ...[]byte) (p place) {
	for _, name := range buckets {
		p = place(crc32.Update(uint32(p), castagnoli(), name))
	}
	return p
}

func (p place) checksum(key, value []byte) uint32 {
	return crc32.Update(crc32.Update(uint32(p), castagnoli(), key), castagnoli(), value)
}

// seal appends to value its checksum.
func (p place) seal(key, value []byte) []byte {
	return binary.BigEndian.AppendUint32(value, p.checksum(key, value))
}

// unseal gives back the value that was sealed, or ErrDamaged. It shares its
// bytes.
func (p place) unseal(key, sealed []byte) ([]byte, error) {
	n := len(sealed) - 4
	if n < 0 || binary.BigEndian.Uint32(sealed[n:]) != p.checksum(key, sealed[:n]) {
		return nil, damaged("the entry %x does not add up", key)
	}
	return sealed[:n:n], nil
}

// number is a number as a key.
func number(n uint64) []byte { return binary.BigEndian.AppendUint64(nil, n) }
