package fit

import (
	"regexp"
	"strings"
	"sync"
)

// sizedRange is a range of rows whose first number differs from size to size:
// "Rows 12 (14)-13 (16)".
var sizedRange = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`(?im)^([\s*#]*(?:rows|rnds|rounds|rds)\.?\s+)(\d+) \((\d+(?:, \d+)*)\)(\s?[-–]\s?|\s+to\s+)(\d+)(?: \((\d+(?:, \d+)*)\))?`)
})

// asRanges writes such a range as the trade does, size by size: "Rows 12-13
// (14-16)".
func asRanges(text string) string {
	return sizedRange().ReplaceAllStringFunc(text, func(s string) string {
		m := sizedRange().FindStringSubmatch(s)
		first, last := strings.Split(m[3], ", "), strings.Split(m[6], ", ")
		var rest []string
		for i, from := range first {
			to := m[5] // the same in all sizes
			switch {
			case m[6] == "":
			case len(last) != len(first):
				return s
			default:
				to = last[i]
			}
			rest = append(rest, from+m[4]+to)
		}
		return m[1] + m[2] + m[4] + m[5] + " (" + strings.Join(rest, ", ") + ")"
	})
}
