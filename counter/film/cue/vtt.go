package cue

import (
	"bytes"
	"fmt"
	"strings"
)

// writeVTT writes captions as the W3C's WebVTT asks for them: a file of UTF-8
// that begins with WEBVTT, cues with a blank line between, & < and > escaped.
func writeVTT(j job) ([]byte, error) {
	var b bytes.Buffer
	b.WriteString("WEBVTT\n")
	// A note ends at a blank line and may not hold an arrow.
	fmt.Fprintf(&b, "\nNOTE %s\n", strings.ReplaceAll(j.about(), "-->", "--›"))
	for i, c := range j.captions() {
		fmt.Fprintf(&b, "\n%d\n%s --> %s\n", i+1, clock(c.from, '.'), clock(c.to, '.'))
		for _, line := range c.block {
			b.WriteString(vttEscape.Replace(line) + "\n")
		}
	}
	return b.Bytes(), nil
}

var vttEscape = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;")

// about says in one line what the times are of.
func (j job) about() string {
	title := oneLine(j.list.Title)
	if title == "" {
		title = "Untitled"
	}
	if !j.Source {
		return title + ": film time"
	}
	c := j.list.Cuts[0]
	text := fmt.Sprintf("%s: take %d", title, c.Take)
	if clip := oneLine(c.Clip); clip != "" {
		text += " (" + clip + ")"
	}
	if c.ClapAt == 0 {
		return text + ", from the clap"
	}
	return text + ", from the beginning of the clip"
}
