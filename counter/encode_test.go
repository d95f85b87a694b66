package counter_test

import (
	"bytes"
	"encoding/hex"
	"errors"
	"testing"

	"pgregory.net/rapid"

	"crochet/tallyturn/counter"
)

// These bytes are on people's disks.
var encoded = []struct {
	hex   string
	event counter.Event
}{
	{"01010180a0abfef96202", counter.Event{Kind: counter.Tap, At: 1_700_000_000_000, N: 1}},
	{"01020080a0abfef962", counter.Event{Kind: counter.Back, At: 1_700_000_000_000}},
	{"010301000d", counter.Event{Kind: counter.Finish, N: -7}},
	{"01070f0280897a020406", counter.Event{Kind: counter.Jump, At: 1, N: 1_000_000, Piece: 1, Copy: 2, Row: 3}},
	{"0118000d", counter.Event{Kind: counter.BeginTake, At: -7}},
	{"011d1802020b30313a30303a30303a3030", counter.Event{Kind: counter.Timecode, At: 1, Row: 1, Text: "01:00:00:00"}},
	{"012101028402", counter.Event{Kind: counter.SpeakAt, At: 1, N: 130}},
	{"0122150280897a02046e617679", counter.Event{Kind: counter.Weigh, At: 1, N: 1_000_000, Copy: 1, Text: "navy"}},
	{"01ff100104ceb21b00", counter.Event{Kind: 255, At: -1, Text: "β\x1b\x00"}},
}

func TestEncoding(t *testing.T) {
	for _, test := range encoded {
		b, err := test.event.MarshalBinary()
		if err != nil || hex.EncodeToString(b) != test.hex {
			t.Errorf("%+v: %x, %v; want %s", test.event, b, err, test.hex)
		}
		b, err = hex.DecodeString(test.hex)
		if err != nil {
			t.Fatal(err)
		}
		var e counter.Event
		if err := e.UnmarshalBinary(b); err != nil || e != test.event {
			t.Errorf("%s: %+v, %v", test.hex, e, err)
		}
	}
}

func TestBadEncoding(t *testing.T) {
	for name, text := range map[string]string{
		"empty":                "",
		"short":                "0101",
		"no time":              "010100",
		"version 0":            "00010000",
		"version 2":            "02010000",
		"a field not known":    "01012000",
		"cut in the time":      "01010080",
		"time too long":        "0101008000",
		"time longer than can": "010100ffffffffffffffffff7f",
		"field said, and zero": "0101010000",
		"field missing":        "01010100",
		"more after the end":   "0101000000",
		"empty text":           "0101100000",
		"text too short":       "01011000026f",
		"text of 2^63 bytes":   "01011000ffffffffffffffffff01",
		"length too long":      "010110008100" + "6f",
	} {
		b, err := hex.DecodeString(text)
		if err != nil {
			t.Fatal(err)
		}
		kept := counter.Event{N: 5}
		e := kept
		if err := e.UnmarshalBinary(b); !errors.Is(err, counter.ErrBadEvent) {
			t.Errorf("%s: %+v, %v", name, e, err)
		} else if e != kept {
			t.Errorf("%s: left %+v", name, e)
		}
	}
}

func TestEncodingOfAnyEvent(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := counter.Event{
			Kind: counter.Kind(rapid.Byte().Draw(t, "kind")),
			At:   rapid.Int64().Draw(t, "at"), N: rapid.Int64().Draw(t, "n"),
			Piece: rapid.Int().Draw(t, "piece"), Copy: rapid.Int().Draw(t, "copy"), Row: rapid.Int().Draw(t, "row"),
			Text: rapid.String().Draw(t, "text"),
		}
		b, _ := e.MarshalBinary()
		var got counter.Event
		if err := got.UnmarshalBinary(b); err != nil || got != e {
			t.Fatalf("%+v became %+v, %v", e, got, err)
		}
		// What is cut off anywhere is not an event.
		if err := got.UnmarshalBinary(b[:rapid.IntRange(0, len(b)-1).Draw(t, "cut")]); err == nil {
			t.Fatalf("%x is an event when cut", b)
		}
	})
}

func FuzzUnmarshal(f *testing.F) {
	for _, test := range encoded {
		b, _ := hex.DecodeString(test.hex)
		f.Add(b)
	}
	f.Fuzz(func(t *testing.T, b []byte) {
		var e counter.Event
		if e.UnmarshalBinary(b) != nil {
			return
		}
		if got, _ := e.MarshalBinary(); !bytes.Equal(got, b) {
			t.Fatalf("%x is %+v, which is %x", b, e, got)
		}
	})
}
