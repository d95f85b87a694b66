package main

import (
	"encoding/binary"
	"errors"
	"time"

	"crochet/tallyturn/store"
	"crochet/tallyturn/tui"
)

// The basket's first frame is drawn from a sketch of the list that was kept
// when the program was left last, so that it need not wait for the basket's
// file to be opened. The list itself takes its place at once.

// sketched is how many things a sketch has: more than are seen at a time.
const sketched = 64

// sketch is the basket as it was left, or nil where nothing is known of it.
func (s *shelf) sketch() tui.Page {
	items, counts, _, ok := readSketch(store.Glance(s.file))
	if !ok {
		return nil
	}
	return tui.NewBasket(tui.BasketConfig{Items: items, Counts: counts, Begin: s.beginFile, Now: s.now, Look: s.look})
}

// keepSketch keeps the list for the next start. It is no matter where that
// cannot be done.
func (s *shelf) keepSketch() {
	kept := s.kept()
	if kept == nil || kept.Looking() {
		return
	}
	_ = kept.KeepGlance(func() ([]byte, error) {
		all, err := s.recent()
		if err != nil || len(all) == 0 {
			return nil, errors.Join(err, store.ErrNoProject)
		}
		items, err := s.items(all)
		return appendSketch(nil, items, s.placesNow()), err
	})
}

// sketchVersion comes first: what has another is not read.
const sketchVersion = 3

// appendSketch writes how many things are in each part, and then the first of
// those in work: each after its number of bytes, so that more can be said of
// one some day. Then come the places where walks were left.
func appendSketch(b []byte, items []tui.Item, places []leftAt) []byte {
	var counts [tui.TakenOut + 1]uint64
	var first []tui.Item
	for _, it := range items {
		if !it.Demo {
			counts[it.Part]++
		}
		if it.Part == tui.InWork && len(first) < sketched {
			first = append(first, it)
		}
	}
	b = append(b, sketchVersion)
	for _, n := range counts {
		b = binary.AppendUvarint(b, n)
	}
	b = binary.AppendUvarint(b, uint64(len(first)))
	for _, it := range first {
		var one []byte
		for _, text := range []string{it.ID, it.Title, it.Name} {
			one = appendText(one, text)
		}
		touched := int64(0)
		if !it.Touched.IsZero() {
			touched = it.Touched.UnixMilli()
		}
		demo := int64(0)
		if it.Demo {
			demo = 1
		}
		for _, n := range []int64{it.Done, it.Total, it.Millis, it.Low, it.High, touched, demo, it.Unknown} {
			one = binary.AppendVarint(one, n)
		}
		b = appendText(b, string(one))
	}
	for _, l := range places {
		b = l.append(b)
	}
	return b
}

func appendText(b []byte, text string) []byte {
	return append(binary.AppendUvarint(b, uint64(len(text))), text...)
}

// readSketch reads what appendSketch wrote; ok is false where it did not.
func readSketch(b []byte) (items []tui.Item, counts []int, places []leftAt, ok bool) {
	if len(b) == 0 || b[0] != sketchVersion {
		return nil, nil, nil, false
	}
	all := sketchReader{b: b[1:]}
	for range tui.TakenOut + 1 {
		counts = append(counts, int(all.uvarint()))
	}
	for n := all.uvarint(); n > 0 && !all.odd; n-- {
		var it tui.Item
		one := sketchReader{b: all.text()}
		for _, to := range []*string{&it.ID, &it.Title, &it.Name} {
			*to = string(one.text())
		}
		var touched, demo int64
		for _, to := range []*int64{&it.Done, &it.Total, &it.Millis, &it.Low, &it.High, &touched, &demo, &it.Unknown} {
			*to = one.varint()
		}
		if one.odd {
			return nil, nil, nil, false
		}
		if it.Demo = demo != 0; touched != 0 {
			it.Touched = time.UnixMilli(touched)
		}
		items = append(items, it)
	}
	for len(all.b) > 0 {
		places = append(places, all.place())
	}
	if all.odd {
		return nil, nil, nil, false
	}
	return items, counts, places, true
}

// sketchReader reads numbers and texts until one is odd.
type sketchReader struct {
	b   []byte
	odd bool
}

func (r *sketchReader) took(n int) {
	if n <= 0 {
		r.b, r.odd = nil, true
		return
	}
	r.b = r.b[n:]
}

func (r *sketchReader) uvarint() uint64 {
	v, n := binary.Uvarint(r.b)
	r.took(n)
	return v
}

func (r *sketchReader) varint() int64 {
	v, n := binary.Varint(r.b)
	r.took(n)
	return v
}

func (r *sketchReader) text() []byte {
	n := r.uvarint()
	if n > uint64(len(r.b)) {
		r.b, r.odd = nil, true
		return nil
	}
	text := r.b[:n]
	r.b = r.b[n:]
	return text
}
