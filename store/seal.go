package store

import (
	"encoding/binary"
	"hash/crc32"
)

var castagnoli = crc32.MakeTable(crc32.Castagnoli)

func checksum(key, value []byte) uint32 {
	return crc32.Update(crc32.Checksum(key, castagnoli), castagnoli, value)
}

// seal appends to value the checksum of key and value.
func seal(key, value []byte) []byte {
	return binary.BigEndian.AppendUint32(value, checksum(key, value))
}

// unseal gives back the value that was sealed. It shares its bytes.
func unseal(key, sealed []byte) ([]byte, error) {
	n := len(sealed) - 4
	if n < 0 || binary.BigEndian.Uint32(sealed[n:]) != checksum(key, sealed[:n]) {
		return nil, damaged("the entry %x does not add up", key)
	}
	return sealed[:n:n], nil
}

// number is a number as a key.
func number(n uint64) []byte { return binary.BigEndian.AppendUint64(nil, n) }
