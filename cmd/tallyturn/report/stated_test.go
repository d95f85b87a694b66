package report

import (
	"testing"

	"crochet/tallyturn/pattern"
)

func TestBare(t *testing.T) {
	for total, want := range map[string]string{
		"(28 sts)":           "28 sts",
		"28 sts.":            "28 sts",
		"— 28 sts":           "28 sts",
		"= 28":               "28",
		"{28}":               "28",
		"([28])":             "28",
		"(28 (32, 36) sts)":  "28 (32, 36) sts",
		"(28 (32, 36))":      "28 (32, 36)",
		"(28) (32)":          "(28) (32)",
		"(12 dc, 6 ch-1 sps": "(12 dc, 6 ch-1 sps",
		"twenty-eight sts":   "twenty-eight sts",
		"":                   "",
		"()":                 "",
	} {
		if got := bare(total); got != want {
			t.Errorf("bare(%q) = %q, want %q", total, got, want)
		}
	}
}

func TestStatedInASize(t *testing.T) {
	num := func(n ...int64) pattern.Num { return pattern.Num{N: n[0], Sizes: n} }
	p := &pattern.Proof{Pattern: &pattern.Pattern{Sizes: []string{"S", "M", "L"}}, Size: "M"}
	r := &pattern.RowProof{Stated: &pattern.Total{Text: "(12 (14, 16) dc, 6 (7, 8) ch-1 sps)", Parts: []pattern.TotalPart{
		{N: num(12, 14, 16), Name: "dc"}, {N: num(6, 7, 8), Name: "ch-1 sps"},
	}}}
	if got, want := stated(p, r), "14 dc, 7 ch-1 sps"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	if got := stated(p, &pattern.RowProof{}); got != "" {
		t.Errorf("a row that states nothing gives %q", got)
	}
}
