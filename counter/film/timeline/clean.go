package timeline

import (
	"fmt"
	"strings"
	"unicode"
)

// Clean makes text from outside one line that nothing obeys: characters that
// leave no trace of their own, or would act on their neighbours, are written as
// their numbers.
func Clean(s string) string {
	var b strings.Builder
	for _, r := range strings.ToValidUTF8(s, "\uFFFD") {
		switch {
		case r < ' ':
			b.WriteRune('␀' + r)
		case unicode.Is(unicode.Zs, r):
			b.WriteByte(' ')
		case !unicode.IsGraphic(r), unicode.Is(unicode.Mn, r) && r >= 0x300:
			fmt.Fprintf(&b, "<U+%04X>", r)
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}
