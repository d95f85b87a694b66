package pattern_test

import (
	"slices"
	"testing"

	"crochet/tallyturn/pattern"
)

func TestMakingUp(t *testing.T) {
	const rows = "Limpet\n\nRow 1: Ch 5. (5 ch)\nFasten off.\n\nFinishing\n"
	for _, c := range []struct {
		name, text string
		want       []string
	}{
		{"sentences over lines", "Pin the coil. With its tail, sew it to each\nshort end of the strip. Weave in ends.\n",
			[]string{"Pin the coil.", "With its tail, sew it to each short end of the strip.", "Weave in ends."}},
		{"a line each", "Pin the coil\nand sew it.\n\nWeave in ends.\n", []string{"Pin the coil and sew it.", "Weave in ends."}},
		{"a list", "1. Pin the coil. Let it dry.\n2. Sew it to each\nshort end.\n", []string{"Pin the coil. Let it dry.", "Sew it to each short end."}},
		{"bullets", "- Pin the coil.\n- Weave in ends.\n", []string{"Pin the coil.", "Weave in ends."}},
		{"a measure is no end", "Sew 2.5 cm. from the edge, then press.\n", []string{"Sew 2.5 cm. from the edge, then press."}},
	} {
		if got := pattern.Read(rows + c.text).MakingUp(); !slices.Equal(got, c.want) {
			t.Errorf("%s: it is %q, want %q", c.name, got, c.want)
		}
	}
	if got := pattern.Read("Limpet\n\nRow 1: Ch 5. (5 ch)\n").MakingUp(); len(got) > 0 {
		t.Errorf("of a pattern without, it is %q", got)
	}
}
