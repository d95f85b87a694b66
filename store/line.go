package store

import (
	"bytes"
	"encoding/base64"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"unicode"
	"unicode/utf8"

	"crochet/tallyturn/counter"
)

// What stands on the lines of an export: see "The export" in DEVELOPERS.md.

const (
	exportName    = "basket"
	exportVersion = 1
)

// firstLine begins an export.
type firstLine struct {
	Tallyturn string `json:"tallyturn"`
	Version   int    `json:"version"`
}

// projectLine begins a project; its events follow.
type projectLine struct {
	Project string `json:"project"`
	Title   words  `json:"title"`
	Path    words  `json:"path,omitzero"`
	Size    words  `json:"size,omitzero"`
	Name    words  `json:"name,omitzero"`
	Shelf   string `json:"shelf,omitzero"`
	Created int64  `json:"created"`
	Changes uint64 `json:"changes,omitzero"`
	Events  uint64 `json:"events"`
	Text    words  `json:"text"`
}

// shelfWords name the parts of the basket in an export, for ever. Things in
// work say nothing.
var shelfWords = [shelves]string{InWork: "", SetAside: "aside", Completed: "finished", TakenOut: "out"}

// shelfOf is the part of the basket of a name.
func shelfOf(word string) (Shelf, error) {
	i := slices.Index(shelfWords[:], word)
	if i < 0 {
		return 0, fmt.Errorf("%w: there is no shelf %q", ErrBadExport, word)
	}
	return Shelf(i), nil
}

// eventLine is an event.
type eventLine struct {
	Kind  kindName `json:"kind"`
	At    int64    `json:"at"`
	N     int64    `json:"n,omitzero"`
	Piece int      `json:"piece,omitzero"`
	Copy  int      `json:"copy,omitzero"`
	Row   int      `json:"row,omitzero"`
	Text  words    `json:"text,omitzero"`
}

// lastLine ends an export, so that one that was cut short is known.
type lastLine struct {
	End      string `json:"end"`
	Projects int    `json:"projects"`
	Events   uint64 `json:"events"`
}

func (l eventLine) event() counter.Event {
	return counter.Event{Kind: counter.Kind(l.Kind), At: l.At, N: l.N, Piece: l.Piece, Copy: l.Copy, Row: l.Row, Text: string(l.Text)}
}

func lineOf(e counter.Event) eventLine {
	return eventLine{Kind: kindName(e.Kind), At: e.At, N: e.N, Piece: e.Piece, Copy: e.Copy, Row: e.Row, Text: words(e.Text)}
}

// words is a string that comes back as it was to the last byte: one that is
// not UTF-8 is written as {"base64": ...}. Whatever a terminal might obey, or
// an editor hide, is written as a number.
type words string

func (w words) MarshalJSON() ([]byte, error) {
	if !utf8.ValidString(string(w)) {
		return []byte(`{"base64":"` + base64.StdEncoding.EncodeToString([]byte(w)) + `"}`), nil
	}
	b := []byte{'"'}
	for _, r := range string(w) {
		switch {
		case r == '"' || r == '\\':
			b = append(b, '\\', byte(r))
		case r == '\n':
			b = append(b, `\n`...)
		case r == '\t':
			b = append(b, `\t`...)
		case r > 0xffff && !unicode.IsGraphic(r):
			high, low := (r-0x10000)>>10+0xd800, (r-0x10000)&0x3ff+0xdc00
			b = fmt.Appendf(b, `\u%04x\u%04x`, high, low)
		case !unicode.IsGraphic(r):
			b = fmt.Appendf(b, `\u%04x`, r)
		default:
			b = utf8.AppendRune(b, r)
		}
	}
	return append(b, '"'), nil
}

func (w *words) UnmarshalJSON(b []byte) error {
	if len(b) > 0 && b[0] == '{' {
		var coded struct {
			Base64 []byte `json:"base64"`
		}
		if err := strictly(b, &coded); err != nil {
			return err
		}
		*w = words(coded.Base64)
		return nil
	}
	var s string
	if err := json.Unmarshal(b, &s); err != nil {
		return err
	}
	*w = words(s)
	return nil
}

// kindWords name the kinds of event in an export, for ever.
var kindWords = map[counter.Kind]string{
	counter.Tap: "tap", counter.Back: "back", counter.Finish: "finish", counter.Count: "count",
	counter.Pause: "pause", counter.Resume: "resume", counter.Jump: "jump", counter.Open: "open",
	counter.Close: "close", counter.Redo: "redo", counter.Unravel: "unravel", counter.SetStride: "stride",
	counter.Mark: "mark", counter.Unmark: "unmark", counter.Note: "note", counter.Check: "check",
	counter.Seek: "seek", counter.Answer: "answer", counter.Leave: "leave", counter.Carry: "carry",
	counter.Tick: "tick", counter.Rewrite: "rewrite", counter.Keep: "keep",
	counter.BeginTake: "begin-take", counter.EndTake: "end-take", counter.Remark: "remark",
	counter.FromHere: "from-here", counter.Camera: "camera", counter.Timecode: "timecode", counter.Clap: "clap",
	counter.Choose: "choose", counter.Alike: "alike", counter.SpeakAt: "speak-at",
	counter.Weigh: "weigh",
}

var kindsByWord = func() map[string]counter.Kind {
	all := map[string]counter.Kind{}
	for kind, word := range kindWords {
		all[word] = kind
	}
	return all
}()

// kindName is a kind by its word, or by its number where it has none.
type kindName counter.Kind

func (k kindName) MarshalJSON() ([]byte, error) {
	if word, ok := kindWords[counter.Kind(k)]; ok {
		return json.Marshal(word)
	}
	return strconv.AppendUint(nil, uint64(k), 10), nil
}

func (k *kindName) UnmarshalJSON(b []byte) error {
	if len(b) > 0 && b[0] == '"' {
		var word string
		if err := json.Unmarshal(b, &word); err != nil {
			return err
		}
		kind, ok := kindsByWord[word]
		if !ok {
			return fmt.Errorf("no kind of event is called %q", word)
		}
		*k = kindName(kind)
		return nil
	}
	n, err := strconv.ParseUint(string(b), 10, 8)
	if err != nil {
		return fmt.Errorf("%.20s is no kind of event", b)
	}
	if _, ok := kindWords[counter.Kind(n)]; ok {
		return fmt.Errorf("kind %d has a name", n) // so that each event has one line only
	}
	*k = kindName(n)
	return nil
}

// strictly reads one JSON value, all of it, and none that has more in it than
// there is room for.
func strictly(b []byte, into any) error {
	d := json.NewDecoder(bytes.NewReader(b))
	d.DisallowUnknownFields()
	if err := d.Decode(into); err != nil {
		return err
	}
	if d.InputOffset() != int64(len(b)) {
		return errors.New("there is more than one thing on it")
	}
	return nil
}

func isUID(s string) bool {
	b, err := hex.DecodeString(s)
	return err == nil && len(b) == uidSize && hex.EncodeToString(b) == s
}
