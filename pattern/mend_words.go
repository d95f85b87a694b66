package pattern

import (
	"regexp"
	"strconv"
	"strings"
	"sync"
)

// nthOf says which one is meant where the same words stand in a row more than
// once.
func (w *pieceWork) nthOf(row *Row, sp Span) string {
	src := w.pr.pat.Source
	if !row.Span.Contains(sp) {
		return ""
	}
	words := src.Slice(sp)
	before := strings.Count(src.Slice(Span{row.Span.Start, sp.Start}), words)
	after := strings.Count(src.Slice(Span{sp.End, row.Span.End}), words)
	if before+after == 0 {
		return ""
	}
	return "the " + ordinal(int64(before+1)) + " "
}

func quote(s string) string { return `"` + strings.TrimSpace(oneLine(s)) + `"` }

var (
	oneMore  = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`(?i)\b(next|last|first) 1 ([a-z]+?)s\b`) })
	oneTimes = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`(?i)\b1 times\b`) })
	manyOf   = sync.OnceValue(func() *regexp.Regexp {
		return regexp.MustCompile(`(?i)\b((?:next|last|first) (?:[2-9]|[0-9]{2,}) st)$`)
	})
	once = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`(?i)\b([0-9]+) time\b`) })
)

// singular sets right what follows a number just changed.
func singular(s string, n int64) string {
	if n == 1 {
		return oneTimes().ReplaceAllString(oneMore().ReplaceAllString(s, "$1 $2"), "once")
	}
	return once().ReplaceAllString(manyOf().ReplaceAllString(s, "${1}s"), "$1 times")
}

var smallNumbers = strings.Fields("zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen twenty")

// renumber writes another number in the place of one, in the way that one is
// written. Of the numbers for several sizes, only the one asked for changes.
func renumber(old string, to int64, size int) string {
	var runs []Span
	for i := 0; i < len(old); i++ {
		if old[i] < '0' || old[i] > '9' {
			continue
		}
		j := i
		for j < len(old) && old[j] >= '0' && old[j] <= '9' {
			j++
		}
		runs = append(runs, Span{i, j})
		i = j
	}
	if len(runs) == 0 {
		return numberWord(old, to)
	}
	r := runs[0]
	if size < len(runs) {
		r = runs[size]
	}
	tail := old[r.End:]
	if len(tail) >= 2 {
		switch strings.ToLower(tail[:2]) {
		case "st", "nd", "rd", "th":
			return old[:r.Start] + ordinal(to) + tail[2:]
		}
	}
	return old[:r.Start] + itoa(to) + tail
}

func numberWord(old string, to int64) string {
	switch strings.ToLower(old) {
	case "once", "twice", "thrice":
		switch to {
		case 1:
			return "once"
		case 2:
			return "twice"
		}
		return itoa(to) + " times"
	}
	if strings.HasSuffix(strings.ToLower(old), "th") || strings.EqualFold(old, "first") || strings.EqualFold(old, "second") || strings.EqualFold(old, "third") {
		return ordinal(to)
	}
	if to > 0 && to < int64(len(smallNumbers)) {
		word := smallNumbers[to]
		if old != "" && old[0] >= 'A' && old[0] <= 'Z' {
			word = strings.ToUpper(word[:1]) + word[1:]
		}
		return word
	}
	return strconv.FormatInt(to, 10)
}
