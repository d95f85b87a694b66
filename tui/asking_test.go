package tui

import (
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestDarkColour(t *testing.T) {
	for s, want := range map[string]bool{
		"rgb:0000/0000/0000": true, "rgb:ffff/ffff/ffff": false, "rgb:ff/ff/ff": false, "rgb:1010/1818/1f1f": true,
		"rgb:fbfb/f7f7/eeee": false, "rgb:0000/0000/8080": true, "rgb:ffff/ffff/0000": false, "rgb:4/4/4": true,
	} {
		if dark, ok := darkColour(s); !ok || dark != want {
			t.Errorf("%s is dark: %v, %v; want %v", s, dark, ok, want)
		}
	}
	for _, s := range []string{"", "rgb:", "rgb:1/2", "rgb:zz/00/00", "rgb:11111/0/0", "?"} {
		if _, ok := darkColour(s); ok {
			t.Errorf("%q is a colour", s)
		}
	}
}

// TestAnswerIsSifted: however what comes from the terminal is cut into pieces,
// the keys come through, all and in order, and the answer does not.
func TestAnswerIsSifted(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		key := rapid.SampledFrom([]string{"a", " ", "\x1b[A", "\x1bOP", "霧", "\r", "\x7f", "11;"})
		before := strings.Join(rapid.SliceOfN(key, 0, 5).Draw(t, "before"), "")
		after := strings.Join(rapid.SliceOfN(key, 0, 5).Draw(t, "after"), "")
		end := rapid.SampledFrom([]string{"\a", "\x1b\\"}).Draw(t, "end")
		told := 0
		l := &listener{tell: func(dark bool) {
			told++
			if dark {
				t.Fatal("white is told to be dark")
			}
		}}
		answer := string(answerHead) + "rgb:ffff/ffff/ffff" + end
		whole := before + answer + after
		var got string
		for len(whole) > 0 {
			n := rapid.IntRange(1, len(whole)).Draw(t, "piece")
			// A lone escape at the end of a piece is a key, so no answer is cut there.
			if strings.HasSuffix(whole[:n], "\x1b") && n < len(whole) {
				n++
			}
			got += string(l.sift([]byte(whole[:n])))
			whole = whole[n:]
		}
		if got != before+after || told != 1 {
			t.Fatalf("came through %q, want %q; told %d times", got, before+after, told)
		}
	})
}

func TestGroundIsInkedAnew(t *testing.T) {
	w, _ := walkOf(t, harbourCrab(), Look{Colours: TrueColour, Dark: true}, 80, 24)
	m := &model{page: w}
	m.size(80, 24)
	before := m.View()
	m.Update(groundMsg{false})
	after := m.View()
	if before == after {
		t.Error("the frame is as it was")
	}
	w2, _ := walkOf(t, harbourCrab(), Look{Colours: TrueColour}, 80, 24)
	w2.draw()
	if after != w2.view() {
		t.Error("the frame is not that of a light ground")
	}
	b := basketOf(Look{Colours: TrueColour, Dark: true})
	m.Update(turnMsg{page: b})
	if b.theme.look.Dark {
		t.Error("the next page is inked for a dark ground")
	}
}

func TestSpokenLines(t *testing.T) {
	var out strings.Builder
	w, _ := walkOf(t, harbourCrab(), Look{}, 80, 24)
	m := &model{page: w, lines: &teller{out: &out}}
	m.size(80, 24)
	said := func(keys ...string) string {
		out.Reset()
		for _, k := range keys {
			m.Update(keyOf(k))
		}
		if strings.ContainsAny(out.String(), "\x1b█╭") {
			t.Errorf("after %v it draws: %q", keys, out.String())
		}
		return strings.ReplaceAll(out.String(), "\r\n", "|")
	}
	m.Update(tickMsg{})
	for _, c := range []struct {
		keys []string
		want string
	}{
		{[]string{" "}, "stitch 2 of 6, 6 sc in magic ring|"},
		{[]string{"z"}, "z does nothing here. ? shows every key.|"},
		{times(" ", 5), "stitch 3 of 6"},
		{[]string{"enter"}, "row 2 of 7, Rnd 2: 2 sc in next st around. (12)|stitch 1 of 12, pass 1 of 6, 1 of 2 in hand, 2 sc in next st|Row 1 is kept: 6.|"},
		{append(times(" ", 12), "9"), "The row comes to 12. You count [9]|"},
		{[]string{"enter"}, "3 SHORT"},
		{[]string{"?"}, "Keys that work here; Esc closes.|A count that differs:|Enter: carry on with your count|"},
		{[]string{"esc", "backspace", "b"}, "stitch 12 of 12"},
		{[]string{"ctrl+l"}, "Locked: Ctrl+L unlocks."},
	} {
		if got := said(c.keys...); !strings.Contains(got, c.want) {
			t.Errorf("after %v it says %q, want %q", c.keys, got, c.want)
		}
	}
	said("ctrl+l")
	out.Reset()
	m.Update(tickMsg{})
	if out.Len() > 0 {
		t.Errorf("the clock says %q", out.String())
	}
	m.Update(turnMsg{page: basketOf(Look{})})
	if got := said("down"); got != "2: Fog bank ␛[31mblanket 霧の毛布, 12040 of 24100 · 11:06:40 so far, 2 days ago|" {
		t.Errorf("in the basket it says %q", got)
	}
	if got := said("/", "m", "i"); !strings.Contains(got, "find [mi]") || !strings.Contains(got, "1: Lighthouse mitten") {
		t.Errorf("looking for something it says %q", got)
	}
}
