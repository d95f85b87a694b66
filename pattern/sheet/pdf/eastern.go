package pdf

import (
	"bytes"
	"compress/gzip"
	_ "embed"
	"io"
	"strings"
	"sync"
	"sync/atomic"
	"unicode"

	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
)

// packed is DroidSansFallback.ttf, which has the characters of Chinese and
// Japanese in everyday use (the Unified Ideographs of Unicode 1.1), kana and the
// syllables of Korean. Packed it adds 1.7 MB to the program; it is unpacked when
// a sheet first has such writing in it, and embedded as far as it is used. It is
// the file as the Android Open Source Project had it; its licence, Apache 2.0,
// lies beside it.
//
//go:embed type/DroidSansFallback.ttf.gz
var packed string

var eastern = sync.OnceValue(func() []byte {
	r, err := gzip.NewReader(strings.NewReader(packed))
	if err != nil {
		panic(err) // it comes with the program and is read in a test
	}
	var b bytes.Buffer
	if _, err := io.Copy(&b, r); err != nil {
		panic(err)
	}
	return b.Bytes()
})

// looked is what is known of a character: that it was looked up, whether this
// type has it, and how many thousandths of the size it is wide.
const (
	lookedUp = 1 << 31
	isThere  = 1 << 30
)

var looked [0x10000]atomic.Uint32

// lookUp finds a character in this type. Those that the type of the page has are
// never asked for here.
func lookUp(r rune) uint32 {
	if r < 0x1100 || r > 0xffff {
		return 0
	}
	if v := looked[r].Load(); v != 0 {
		return v
	}
	v := uint32(lookedUp)
	if inEast(r) && !has(r) {
		f := faceOf[theEast]()
		var b sfnt.Buffer
		if id, err := f.font.GlyphIndex(&b, r); err == nil && id != 0 {
			v |= isThere
			if adv, err := f.font.GlyphAdvance(&b, id, f.em, font.HintingNone); err == nil {
				v |= uint32(1000 * float64(adv) / float64(f.em))
			}
		}
	}
	looked[r].Store(v)
	return v
}

// isEastern reports whether a character stands in the type for Chinese, Japanese
// and Korean.
func isEastern(r rune) bool { return lookUp(r)&isThere != 0 }

// ems is how wide a text in this type is, in its own size.
func ems(s string) float64 {
	sum := uint32(0)
	for _, r := range s {
		sum += lookUp(r) &^ (lookedUp | isThere)
	}
	return float64(sum) / 1000
}

// inEast spares other writing the unpacking.
func inEast(r rune) bool {
	return 0x3000 <= r && r <= 0x33ff || 0xff00 <= r && r <= 0xffef ||
		unicode.In(r, unicode.Han, unicode.Hangul, unicode.Hiragana, unicode.Katakana)
}

// run is a stretch of text in one type.
type run struct {
	text string
	east bool
}

// runs cuts a text where the type changes.
func runs(s string) []run {
	if plain(s) {
		return []run{{text: s}}
	}
	var out []run
	from := 0
	east := false
	for i, r := range s {
		if e := isEastern(r); e != east {
			if i > from {
				out = append(out, run{s[from:i], east})
			}
			from, east = i, e
		}
	}
	if from < len(s) {
		out = append(out, run{s[from:], east})
	}
	return out
}

// noStart are signs that do not begin a line in Chinese and Japanese, noEnd such
// that do not end one (after JIS X 4051; common practice, from memory).
const (
	noStart = "、。，．・：；？！゛゜ヽヾゝゞ々ー）］｝」』】〕〉》ぁぃぅぇぉっゃゅょァィゥェォッャュョ%)]},.:;?!"
	noEnd   = "（［｛「『【〔〈《([{"
)

// mayPart reports whether a line may end between two characters with no space
// between them.
func mayPart(before, after rune) bool {
	return (inEast(before) || inEast(after)) && !strings.ContainsRune(noStart, after) && !strings.ContainsRune(noEnd, before)
}
