package cue

import (
	"bytes"
	"fmt"
	"regexp"
	"strings"
	"sync"
)

// writeSRT writes captions as SubRip. No standard says what that is; what all
// readers take is a number, a line of times with commas, the text and a blank
// line, ended as on the machines it comes from. Some readers obey tags in angle
// brackets or braces, some take &lt; for <, some look for arrows anywhere; a
// word joiner, which has no width, keeps text from looking like any of these.
func writeSRT(j job) ([]byte, error) {
	var b bytes.Buffer
	for i, c := range j.captions() {
		fmt.Fprintf(&b, "%d\r\n%s --> %s\r\n", i+1, clock(c.from, ','), clock(c.to, ','))
		for _, line := range c.block {
			b.WriteString(srtText(line) + "\r\n")
		}
		b.WriteString("\r\n")
	}
	return b.Bytes(), nil
}

const wordJoiner = "\u2060"

var (
	srtSigns    = strings.NewReplacer("<", "<"+wordJoiner, "{", "{"+wordJoiner, "-->", "--"+wordJoiner+">")
	srtEntities = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`&([#A-Za-z])`) })
)

func srtText(line string) string {
	return srtEntities().ReplaceAllString(srtSigns.Replace(line), "&"+wordJoiner+"$1")
}
