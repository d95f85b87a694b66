package store

import (
	"encoding/binary"
	"encoding/hex"

	"crochet/tallyturn/counter"
)

var errBadHead = damaged("a project cannot be read")

// appendHead writes the revision, then title, path and size, each after its
// length, the time of creation, and the UID, which layout 1 did not have.
func appendHead(b []byte, p kept) []byte {
	b = binary.AppendUvarint(b, p.revision)
	for _, s := range []string{p.Title, p.Path, p.Size} {
		b = binary.AppendUvarint(b, uint64(len(s)))
		b = append(b, s...)
	}
	b = binary.AppendVarint(b, p.Created)
	uid, err := hex.DecodeString(p.UID)
	if err != nil {
		panic("store: the UID of a project is " + p.UID) // nobody else gives any
	}
	b = append(b, uid...)
	b = append(b, byte(p.Shelf))
	return append(b, p.Name...)
}

func readHead(b []byte) (p kept, err error) {
	revision, k := binary.Uvarint(b)
	if k <= 0 {
		return kept{}, errBadHead
	}
	p.revision, b = revision, b[k:]
	for _, s := range []*string{&p.Title, &p.Path, &p.Size} {
		n, k := binary.Uvarint(b)
		if k <= 0 || n > uint64(len(b)-k) {
			return kept{}, errBadHead
		}
		*s, b = string(b[k:k+int(n)]), b[k+int(n):]
	}
	created, k := binary.Varint(b)
	if k <= 0 {
		return kept{}, errBadHead
	}
	p.Created, b = created, b[k:]
	switch {
	case len(b) == 0: // layout 1
	case len(b) == uidSize: // layout 2
		p.UID = hex.EncodeToString(b)
	case len(b) > uidSize && Shelf(b[uidSize]) < shelves:
		p.UID = hex.EncodeToString(b[:uidSize])
		p.Shelf, p.Name = Shelf(b[uidSize]), string(b[uidSize+1:])
	default:
		return kept{}, errBadHead
	}
	return p, nil
}

// appendText writes the revision and the text.
func appendText(b []byte, p kept) []byte {
	return append(binary.AppendUvarint(b, p.revision), p.Text...)
}

func readText(b []byte) (revision uint64, text string, err error) {
	revision, k := binary.Uvarint(b)
	if k <= 0 {
		return 0, "", damaged("a text cannot be read")
	}
	return revision, string(b[k:]), nil
}

// readEvent reads an entry of a log.
func readEvent(log place, key, sealed []byte) (e counter.Event, err error) {
	b, err := log.unseal(key, sealed)
	if err != nil {
		return e, err
	}
	if err := e.UnmarshalBinary(b); err != nil {
		return e, damaged("entry %x of a log: %v", key, err)
	}
	return e, nil
}
