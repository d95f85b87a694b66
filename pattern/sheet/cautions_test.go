package sheet

import (
	"regexp"
	"slices"
	"strings"
	"testing"
)

// topics are what the cautions of a sheet are about.
func topics(text string) []string {
	_, d := sheetOf(text, Options{})
	var out []string
	for _, k := range d.Blocks(d.Versions[0]) {
		if k.Kind == Cautions {
			for _, p := range k.Pairs {
				out = append(out, p[0])
			}
		}
	}
	return out
}

const strip = "\n\nStrip\nCh 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10 sc)\n"

// TestCautions has each caution where something calls for it, and nowhere
// else.
func TestCautions(t *testing.T) {
	const (
		stuffing = "Stuffing and small parts:"
		eyes     = "Eyes, buttons, beads and bells:"
		cords    = "Cords and ties:"
		baby     = "For a baby:"
		heat     = "Heat:"
		drinks   = "Hot drinks:"
		fluff    = "Feathers, fringes and fluff:"
		pets     = "Pets:"
	)
	for _, c := range []struct {
		text string
		want []string
	}{
		{"Harbour Scarf\n\nYarn: baby wool, fine" + strip, nil},
		{"Button Band Cardigan Edge\n\nNotes\nThe button band is worked last." + strip, nil},
		{"Bag\n\nNotes\nDo not use it\nas a toy for a baby." + strip, nil},
		{"Plain Mat\n\nNotes\nNo stuffing is needed." + strip, nil},
		{"Egg Cosy\n\nYarn: cotton" + strip, nil},
		{"Market Bag\n\nIt closes with a drawstring." + strip, nil},
		{"Beach Bag\n\nNotes\nWork a bead st where marked." + strip, nil},
		{"Seal\n\nA small toy." + strip, []string{stuffing}},
		{"Buoy\n\nMaterials: stuffing, needle" + strip, []string{stuffing}},
		{"Buoy" + strip + "Stuff firmly.\n", []string{stuffing}},
		{"Seal\n\nA toy.\n\nMaterials: 8 mm safety eyes" + strip, []string{stuffing, eyes}},
		{"Cap\n\nMaterials: 3 buttons" + strip, []string{eyes}},
		{"Women's Cap\n\nMaterials: 3 buttons" + strip, nil},
		{"Vest\n\nTo fit chest: 84 (92, 100) cm\n\nMaterials: 3 buttons" + strip, nil},
		{"Vest\n\nTo fit chest: 52 (56, 60) cm\n\nMaterials: 3 buttons" + strip, []string{eyes}},
		{"Cap\n\nSizes: 3 months (6 months)\n\nMaterials: 3 buttons" + strip, []string{eyes, baby}},
		{"Seal\n\nMaterials: 8 mm safety eyes, stuffing\n\nA cord holds it up." + strip, []string{stuffing, eyes, cords}},
		{"Seal" + strip + "Stuff firmly.\n\nMaking up\nEmbroider a nose. Sew on the cord.\n", []string{stuffing, cords}},
		{"Cushion" + strip + "Stuff firmly.\n\nMaking up\nSew on the cord.\n", []string{stuffing}},
		{"Case\n\nThread the needle through its eye.\n\nIt closes with a cord." + strip, nil},
		{"Child's Hood\n\nA hood for a child with a drawstring." + strip, []string{cords}},
		{"Pram Blanket\n\nFor a newborn." + strip, []string{baby}},
		{"Pot Holder" + strip, []string{heat}},
		{"Kettle Holder" + strip, []string{heat}},
		{"Mug Cosy" + strip, []string{drinks}},
		{"Coaster" + strip, []string{drinks}},
		{"Crab\n\nA toy with tassels." + strip, []string{stuffing, fluff}},
		{"Wand\n\nFeathers hang from its end." + strip, []string{fluff}},
		{"Catnip Fish\n\nA cat toy filled with catnip." + strip, []string{stuffing, pets}},
	} {
		want := c.want
		if want != nil {
			want = append(slices.Clone(want), "") // the last word
		}
		if got := topics(c.text); !slices.Equal(got, want) {
			t.Errorf("%q: cautions %q, want %q", c.text[:strings.Index(c.text, "Strip")], got, want)
		}
	}
}

// TestCautionWords has them promise nothing, name what they come from, and
// leave the last word to the rules of the place.
func TestCautionWords(t *testing.T) {
	promise := regexp.MustCompile(`(?i)\b(safe|heat.?proof|tested|guarantee)`)
	for _, c := range cautions {
		if m := promise.FindString(c.words); m != "" {
			t.Errorf("%s promises: %q", c.topic, m)
		}
	}
	for topic, standard := range map[string]string{
		"Stuffing and small parts:": "16 CFR 1501", "Eyes, buttons, beads and bells:": "EN 71-1", "Cords and ties:": "EN 14682", "For a baby:": "American Academy of Pediatrics",
	} {
		if !slices.ContainsFunc(cautions, func(c caution) bool { return c.topic == topic && strings.Contains(c.words, standard) }) {
			t.Errorf("%s does not name %s", topic, standard)
		}
	}
	if !strings.Contains(lastWord, "where you live") {
		t.Error("the last word does not defer to local rules")
	}
}

// TestCautionsInEveryForm has them on the sheet, whatever it is written as.
func TestCautionsInEveryForm(t *testing.T) {
	_, d := sheetOf("Pot Holder"+strip, Options{})
	for _, form := range []string{Text(d), Markdown(d), HTML(d)} {
		flat := strings.Join(strings.Fields(form), " ")
		if !strings.Contains(flat, "wet fabric lets heat through") || !strings.Contains(flat, "where you live") {
			t.Errorf("no caution in\n%s", form)
		}
	}
}
