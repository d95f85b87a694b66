package fit

import (
	"errors"
	"strings"
	"testing"

	"crochet/tallyturn/pattern"
)

// Whatever is fitted to whatever size: nothing breaks, an error is a line, and
// what is printed proves and is the same every time.
func FuzzTo(f *testing.F) {
	for i, w := range allWritten(f) {
		f.Add(w.text, int64(10+7*i%90), int64(i%40))
	}
	g := testGauge(f)
	f.Fuzz(func(t *testing.T, text string, stitches, rows int64) {
		if len(text) > 4000 {
			t.Skip()
		}
		p := pattern.Read(text).Prove(pattern.Options{})
		if len(p.Pieces) == 0 {
			t.Skip()
		}
		wish := Wish{Stitches: stitches, Rows: rows}
		res, err := To(p, g, wish)
		if err != nil {
			var far *NotWithinReach
			if !errors.As(err, &far) && strings.Contains(err.Error(), "\n") {
				t.Errorf("an error of several lines: %q", err)
			}
			return
		}
		now := pattern.Read(res.Text).Prove(pattern.Options{Terms: p.Terms})
		if now.Errors() > 0 {
			t.Errorf("it does not prove: %v\n%s", now.Findings, res.Text)
		}
		if again, err := To(p, g, wish); err != nil || again.Text != res.Text || strings.Join(again.Lines(), "\n") != strings.Join(res.Lines(), "\n") {
			t.Errorf("another time it is otherwise: %v\n%s", err, res.Text)
		}
	})
}
