package chart

import (
	"regexp"
	"strings"
	"testing"
)

// TestTextParts puts the parts of a wide chart of letters side by side again:
// they are the rows of the whole one, and none is wider than a tile.
func TestTextParts(t *testing.T) {
	p := prove("Long Pier. US terms.\n\nPier\nCh 131.\nRow 1: Sc in 2nd ch from hook and in each ch across. (130 sc)\nRow 2: Ch 1, turn, sc in each st across. (130 sc)\nRow 3: Ch 1, turn, sc in first 5 sts, *2 sc in next st, sc in next 3 sts; rep from * to last st, sc in last st. (161 sc)\n")
	text, err := Text(p, 0, Options{})
	if err != nil {
		t.Fatal(err)
	}
	head := regexp.MustCompile(`(?m)^Part (\d) of 3\n\n`)
	parts := head.Split(text, -1)[1:]
	if len(parts) != 3 {
		t.Fatalf("it comes in %d parts:\n%s", len(parts), text)
	}
	sc := make(map[string]int) // by the row's number
	for i, part := range parts {
		part, _, _ = strings.Cut(part, "\n\n")
		for _, line := range strings.Split(part, "\n") {
			if float64(len(line)) > tileWide*perUnit*1.1 {
				t.Errorf("part %d is %d columns wide", i+1, len(line))
			}
			if number := strings.TrimSpace(line[:1]); number != "" {
				sc[number] += strings.Count(line, "+")
				if i > 0 {
					sc[number] -= overlap // told in the part before
				}
			}
		}
		one, err := Text(p, 0, Options{Tile: i + 1})
		if err != nil {
			t.Fatal(err)
		}
		if !strings.Contains(one, part) || len(head.FindAllString(one, -1)) != 1 {
			t.Errorf("part %d by itself is\n%s\nwant in it\n%s", i+1, one, part)
		}
	}
	for number, want := range map[string]int{"1": 130, "2": 130, "3": 161} {
		if sc[number] != want {
			t.Errorf("row %s has %d stitches in all parts, want %d\n%s", number, sc[number], want, text)
		}
	}
	for _, tile := range []int{-1, 4} {
		if _, err := Text(p, 0, Options{Tile: tile}); err == nil {
			t.Errorf("there is a part %d", tile)
		}
	}
	if _, err := Text(prove("Ch 7.\nRow 1: Sc in 2nd ch from hook and in each ch across. (6 sc)\n"), 0, Options{Tile: 2}); err == nil {
		t.Error("a narrow chart has a second part")
	}
}
