package fit

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"sync"

	"crochet/tallyturn/pattern"
	"crochet/tallyturn/pattern/gauge"
)

var (
	statedLength = sync.OnceValue(func() *regexp.Regexp {
		return regexp.MustCompile(`(?i)(^|[^\d./])(\d{1,4})( ?(?:cm|mm|inches|inch|in|"))((?: \w+){0,2})`)
	})
	upWords = sync.OnceValue(func() *regexp.Regexp {
		return regexp.MustCompile(`(?i)\b(?:deep|high|tall|long|height|length|depth)\b`)
	})
)

// finished changes the whole lengths of a "Finished size" line that are those
// of the piece as written, give or take what a designer rounds.
func (f *fitter) finished() {
	for _, h := range f.proof.Pattern.Headers {
		if h.Kind != pattern.HeaderSize {
			continue
		}
		text := f.proof.Pattern.Source.Slice(h.Span)
		for _, at := range statedLength().FindAllStringSubmatchIndex(text, -1) {
			n, _ := strconv.Atoi(text[at[4]:at[5]])
			unit := strings.ToLower(strings.TrimSpace(text[at[6]:at[7]]))
			per := 10.0
			switch unit {
			case "mm":
				per = 1
			case "cm":
			default:
				per = gauge.Inch
			}
			m := f.res.Across
			if upWords().MatchString(text[at[8]:at[9]]) {
				m = f.res.Up
			}
			if !m.Asked || m.WasMM == 0 || m.MM == 0 || math.Abs(float64(n)*per-m.WasMM) > max(0.6*per, 0.04*m.WasMM) {
				continue
			}
			to := int64(math.Round(m.MM / per))
			if to < 1 || to == int64(n) {
				continue
			}
			f.changes[pattern.Span{Start: h.Span.Start + at[4], End: h.Span.Start + at[5]}] = to
			f.told[h.Span] = true
			f.res.Moved = append(f.res.Moved, Move{What: "finished size", Was: fmt.Sprintf("%d %s", n, unit), Now: fmt.Sprint(to)})
		}
	}
}
