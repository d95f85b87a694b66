package sheet

import (
	"strings"
	"testing"
)

// TestMaterials has the yarn's weight symbol and the names of the hook beside the
// author's own words. Numbers and names are those of the tables of
// pattern/gauge: the Craft Yarn Council's weights and hooks.
func TestMaterials(t *testing.T) {
	for _, c := range []struct {
		text       string
		want, lack []string
	}{
		{"US terms\n\nMaterials\nDK cotton in grey, 40 g\n3 mm hook\nStitch marker", []string{"- DK cotton in grey, 40 g\n- Yarn weight: 3 (Light)\n- 3 mm hook (UK 11)\n- Stitch marker\n"}, nil},
		{"UK terms\n\nYarn: 4-ply merino\nHook: 3.5 mm", []string{"Yarn: 4-ply merino\nYarn weight: 1 (Super Fine)\nHook: 3.5 mm (US E-4, UK 9)\n"}, nil},
		{"US terms\n\nYarn: 4-ply something", nil, []string{"Yarn weight"}},
		{"US terms\n\nYarn: fingering wool", []string{"Yarn weight: 0 (Lace) or 1 (Super Fine)\n"}, nil},
		{"US terms\n\nYarn: fingering wool\n\nGauge: 28 sc and 32 rows = 4 in", []string{"Yarn weight: 1 (Super Fine)\n"}, nil},
		{"US terms\n\nMaterials: size 10 cotton thread, 30 g; 1.5 mm steel hook", []string{"Materials\n- size 10 cotton thread, 30 g\n- Yarn weight: 0 (Lace)\n- 1.5 mm steel hook (US steel 8)\n"}, []string{"Materials:"}},
		{"US terms\n\nHook: H-8", []string{"Hook: H-8 (5 mm, UK 6)\n"}, nil},
		{"US terms\n\nHook: US H-8 (5 mm)", []string{"Hook: US H-8 (5 mm)\n"}, nil},
		{"US terms\n\nMaterials\n5 mm (H-8) hook\nYarn, weight 4 (Medium)", []string{"- 5 mm (H-8) hook\n- Yarn, weight 4 (Medium)\n"}, []string{"Yarn weight"}},
		{"UK terms\n\nMaterials\n2 mm hook, 12 mm needle", []string{"- 2 mm hook (UK 14), 12 mm needle\n"}, nil},
		{"UK terms\n\nSizes: S (M)\n\nTo fit chest: 84 (92) cm", []string{"Measurements\nSizes: S (M)\nTo fit chest: 84 (92) cm\n"}, []string{"Notes"}},
	} {
		_, d := sheetOf("Skerry\n\n"+c.text+strip, Options{})
		got := Text(d)
		if len(d.Unlike) > 0 {
			t.Errorf("%q: %v", c.text, d.Unlike)
		}
		for _, w := range c.want {
			if !strings.Contains(got, w) {
				t.Errorf("%q: no %q in\n%s", c.text, w, got)
			}
		}
		for _, w := range c.lack {
			if strings.Contains(got, w) {
				t.Errorf("%q: %q in\n%s", c.text, w, got)
			}
		}
	}
}

// TestCordOfItsOwn has what is made without a row under a heading, after the piece
// before it.
func TestCordOfItsOwn(t *testing.T) {
	_, d := sheetOf("Seal\n\nUS terms"+strip+"\nCord\nCh 60. Fasten off.\n\nMaking up\nSew on the cord.\n", Options{})
	if got := Markdown(d); len(d.Unlike) > 0 || !strings.Contains(got, "(10 sc)\n\n## Cord\n\nCh 60. Fasten off.\n\n## Making up\n") {
		t.Errorf("%v\n%s", d.Unlike, got)
	}
}

// TestSkillOfSkips takes a stitch passed over beside a turning chain for none of a
// pattern.
func TestSkillOfSkips(t *testing.T) {
	const plain = "Row 2: Ch 3 (counts as dc), turn, skip first dc, dc in each dc across. (10 dc)\n"
	const mesh = "Row 2: Ch 4 (counts as dc and ch-1 sp), turn, skip first 2 dc, dc in next dc, (ch 1, skip next dc, dc in next dc) 3 times, dc in last dc. (6 dc)\n"
	for row, want := range map[string]string{plain: "basic: basic stitches", mesh: "easy: a simple stitch pattern"} {
		_, d := sheetOf("Strip\nCh 12.\nRow 1: Dc in 4th ch from hook and in each ch across. (10 dc)\n"+row, Options{})
		if got := d.Versions[0].Blocks[0].Pairs[0][1]; got != want {
			t.Errorf("%q is %q, want %q", row, got, want)
		}
	}
}
