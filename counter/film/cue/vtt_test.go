package cue

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"
)

// vttCue is a cue as a strict reader has it.
type vttCue struct {
	from, to int64 // ms
	lines    []string
}

var (
	vttTiming = regexp.MustCompile(`^((?:\d{2,}:)?[0-5]\d:[0-5]\d\.\d{3})[ \t]+-->[ \t]+((?:\d{2,}:)?[0-5]\d:[0-5]\d\.\d{3})$`)
	vttEntity = regexp.MustCompile(`^&(?:amp|lt|gt|lrm|rlm|nbsp);`)
)

// readVTT reads a file as the grammar of the W3C's "WebVTT: The Web Video Text
// Tracks Format" has it that a file must be written, which is stricter than how
// one may be read. The grammar is from memory of that text: the signature, then
// blocks with blank lines between; a cue's identifier has no arrow; times are
// hours of two digits or more (which may be left out), minutes and seconds
// below sixty and three digits of milliseconds; a cue ends after it begins, and
// none begins before the one before it; no line of its text is empty or has an
// arrow, and & and < are escaped. Tags and settings are not written by us, so
// they are mistakes here.
func readVTT(file string) ([]vttCue, error) {
	if !utf8.ValidString(file) || strings.ContainsAny(file, "\x00\r") {
		return nil, fmt.Errorf("it is not plain lines of UTF-8")
	}
	body, ok := strings.CutPrefix(file, "WEBVTT\n\n")
	if !ok || !strings.HasSuffix(file, "\n") {
		return nil, fmt.Errorf("it has not its beginning or its end")
	}
	var cues []vttCue
	ids := map[string]bool{}
	for i, block := range strings.Split(strings.TrimSuffix(body, "\n"), "\n\n") {
		lines := strings.Split(block, "\n")
		if lines[0] == "NOTE" || strings.HasPrefix(lines[0], "NOTE ") {
			if strings.Contains(block, "-->") {
				return nil, fmt.Errorf("block %d: a note has an arrow", i)
			}
			continue
		}
		if !strings.Contains(lines[0], "-->") {
			if ids[lines[0]] || lines[0] == "" {
				return nil, fmt.Errorf("block %d: the identifier %q is not the only one", i, lines[0])
			}
			ids[lines[0]] = true
			lines = lines[1:]
		}
		if len(lines) < 2 {
			return nil, fmt.Errorf("block %d: a cue has no text", i)
		}
		m := vttTiming.FindStringSubmatch(lines[0])
		if m == nil {
			return nil, fmt.Errorf("block %d: %q is no line of times", i, lines[0])
		}
		c := vttCue{from: clockMillis(m[1]), to: clockMillis(m[2])}
		if c.to <= c.from || len(cues) > 0 && c.from < cues[len(cues)-1].from {
			return nil, fmt.Errorf("block %d: %q is out of order", i, lines[0])
		}
		for _, line := range lines[1:] {
			text, err := vttText(line)
			if err != nil || line == "" {
				return nil, fmt.Errorf("block %d: %q: %v", i, line, err)
			}
			c.lines = append(c.lines, text)
		}
		cues = append(cues, c)
	}
	return cues, nil
}

// vttText is a line of a cue without its escapes.
func vttText(line string) (string, error) {
	var b strings.Builder
	for i := 0; i < len(line); i++ {
		switch {
		case line[i] == '<' || strings.HasPrefix(line[i:], "-->"):
			return "", fmt.Errorf("it is not escaped at %q", line[i:])
		case line[i] == '&':
			e := vttEntity.FindString(line[i:])
			if e == "" {
				return "", fmt.Errorf("it has a bare ampersand")
			}
			b.WriteString(map[string]string{"&amp;": "&", "&lt;": "<", "&gt;": ">"}[e])
			i += len(e) - 1
		default:
			b.WriteByte(line[i])
		}
	}
	return b.String(), nil
}

// clockMillis is a time with a stop or a comma before its milliseconds.
func clockMillis(s string) int64 {
	var seconds int64
	whole, ms := s[:len(s)-4], s[len(s)-3:]
	for _, part := range strings.Split(whole, ":") {
		n, _ := strconv.ParseInt(part, 10, 64)
		seconds = seconds*60 + n
	}
	n, _ := strconv.ParseInt(ms, 10, 64)
	return seconds*1000 + n
}

// The checker itself finds what is wrong.
func TestReadVTT(t *testing.T) {
	const good = "WEBVTT\n\nNOTE x\n\n1\n00:00:01.000 --> 00:00:02.000\na &amp; b\nc\n\n100:00:01.000 --> 100:00:02.000\nd\n"
	cues, err := readVTT(good)
	if err != nil || len(cues) != 2 || cues[0].lines[0] != "a & b" || cues[1].from != 360_001_000 {
		t.Errorf("%v: %v", cues, err)
	}
	for _, spoil := range [][2]string{
		{"WEBVTT\n\n", "WEBVTT\n"},
		{"NOTE x", "NOTE -->"},
		{"00:00:02.000\na", "00:00:02,000\na"},
		{"00:00:02.000\na", "00:60:02.000\na"},
		{"00:00:02.000\na", "00:00:01.000\na"},
		{"00:00:02.000\na", "0:00:02.000\na"},
		{"100:00:01", "00:00:00"},
		{"&amp;", "&"},
		{"&amp;", "<b>"},
		{"a &amp; b\nc\n", ""},
		{"\nc\n", "\n\nc\n"},
		{"c\n", "\x00\n"},
	} {
		bad := strings.Replace(good, spoil[0], spoil[1], 1)
		if bad == good {
			t.Fatalf("%q is not in it", spoil[0])
		}
		if cues, err := readVTT(bad); err == nil {
			t.Errorf("%q is read as %v", bad, cues)
		}
	}
}
