package sheet

import (
	"slices"
	"strconv"
	"strings"

	"crochet/tallyturn/pattern"
)

// caution is what a maker is to be warned of, and what calls for it.
//
// The matters are those that the trade usually warns of; the standards are the
// published ones that they come from, named as they stood when this was
// written: 16 CFR 1500.18, 1501 and 1120 (United States), ASTM F963 and F1816,
// EN 71 and EN 14682, ISO 8124, and the advice on sleep of the American Academy
// of Pediatrics of 2022. On heat no standard was found: that is common
// practice. The words are our own, and they promise nothing.
type caution struct {
	topic string
	calls func(f *features) bool
	words string
}

var cautions = []caution{
	{"Stuffing and small parts:", func(f *features) bool { return f.stuffed || f.toy },
		"Stuffing, and whatever comes loose, can be swallowed. Use clean new filling, work so tightly that none of it shows, " +
			"sew every part on firmly and fasten all ends inside. Something soft to cuddle is taken for a toy for the youngest in many countries, " +
			"whatever its label says. See 16 CFR 1501 and ASTM F963 (United States), EN 71-1, EN 71-2 and EN 71-3 (Europe and United Kingdom), ISO 8124."},
	{"Eyes, buttons, beads and bells:", func(f *features) bool {
		return f.parts && (f.eyes || f.toy || f.baby || f.child || f.stuffed || f.pet || !f.adult)
	},
		"These are small parts, and a child can choke on them. For a child under three, or a pet that chews, embroider them with yarn. " +
			"A plastic eye on a washer can be pulled out between stitches. See 16 CFR 1501 and ASTM F963 (United States), EN 71-1 (Europe and United Kingdom)."},
	{"Cords and ties:", func(f *features) bool {
		return f.cords && (f.toy || f.baby || f.child) || f.drawstring && (f.child || f.baby)
	},
		"A cord, a tie or anything long and bendy can wind round a neck. Keep them short on anything for a child, tie none in a loop, and leave them off the neck and the hood of what a child wears. " +
			"The lengths allowed differ and have changed: see EN 71-1 and EN 14682 (Europe and United Kingdom), ASTM F963, 16 CFR 1120 and ASTM F1816 (United States)."},
	{"For a baby:", func(f *features) bool { return f.baby },
		"Nothing soft or loose belongs in a cot with a sleeping baby under one year old: no blanket, no hat, no toy (American Academy of Pediatrics, 2022). " +
			"Use it awake and watched. Small fingers and toes catch in open stitches. Wash it first, and choose a yarn that sheds no hair."},
	{"Heat:", func(f *features) bool { return f.heat },
		"Use cotton or wool, thick and double, and keep it dry: wet fabric lets heat through at once, and so do open stitches. " +
			"Acrylic, nylon and polyester soften, melt and stick. Keep it away from flames. No standard was found for handmade ones: try it with care."},
	{"Hot drinks:", func(f *features) bool { return f.drink && !f.heat },
		"Use cotton or wool under or round anything hot: acrylic softens with heat. See that the vessel stands and does not slip, keep its handle and rim free, and do not put this into a microwave oven."},
	{"Feathers, fringes and fluff:", func(f *features) bool { return f.fluff && (f.toy || f.baby || f.child || f.pet || f.feathers) },
		"Feathers, pompoms, tassels and hairy yarn shed, and what sheds is swallowed or breathed in. Keep them from small children and pets."},
	{"Pets:", func(f *features) bool { return f.pet },
		"Yarn and stuffing do harm when they are swallowed. Do not leave it with an animal that chews."},
}

// lastWord stands under all cautions.
const lastWord = "The rules where you live, and where the thing goes, come before anything said here. They are renewed from time to time: read those in force, above all before you sell it or give it away."

// features are what a pattern has that calls for a caution.
type features struct {
	toy, stuffed, parts, eyes, face, cords, drawstring, baby, child, adult, heat, drink, fluff, feathers, pet bool
}

// cautionBlocks are the author's own warnings and the cautions that the
// pattern calls for.
func (b *builder) cautionBlocks() []Block {
	f := look(b.p)
	var pairs [][2]string
	for _, c := range cautions {
		if c.calls(f) {
			pairs = append(pairs, [2]string{c.topic, c.words})
		}
	}
	out := append([]Block(nil), b.warnings...)
	if len(pairs) == 0 {
		return out
	}
	if len(out) == 0 {
		out = append(out, Block{Kind: Heading, Text: "Cautions"})
	}
	return append(out, Block{Kind: Cautions, Pairs: append(pairs, [2]string{"", lastWord})})
}

// look finds the features in a pattern's words. Sentences that say what it is
// not ("not a toy", "no stuffing needed") and the author's own warnings call
// for nothing by themselves.
func look(p *pattern.Pattern) *features {
	f := &features{}
	f.text(p.Title)
	warning := false
	said := "" // lines that run on
	for _, x := range p.Passages() {
		text := clean(p.Source.Slice(x.Span))
		if x.Kind != pattern.HeaderPassage || x.Apart || x.Label != "" {
			f.text(said)
			said = ""
		}
		switch x.Kind {
		case pattern.SectionPassage:
			warning = isWarning(strings.ToLower(text))
		case pattern.HeaderPassage:
			if !warning {
				said += clean(x.Label) + " " + text + " "
			}
		default:
			warning = false
			f.text(text)
		}
	}
	f.text(said)
	// what has eyes, or is stuffed and has a face, is a figure: it is taken for a toy
	f.toy = f.toy || f.eyes || f.stuffed && f.face
	return f
}

// text looks at some sentences.
func (f *features) text(s string) {
	for _, sentence := range strings.FieldsFunc(strings.ToLower(s), func(r rune) bool { return r == '.' || r == ';' || r == '!' }) {
		f.sentence(strings.FieldsFunc(sentence, func(r rune) bool {
			return !('a' <= r && r <= 'z' || '0' <= r && r <= '9' || r == '\'' || r > 0x7f)
		}))
	}
}

func (f *features) sentence(words []string) {
	at := func(i int) string {
		if i < 0 || i >= len(words) {
			return ""
		}
		return words[i]
	}
	for _, w := range words {
		if w == "not" || w == "no" || w == "never" || w == "without" || w == "don't" || w == "instead" {
			return
		}
	}
	sized := len(words) > 1 && (strings.HasPrefix(words[0], "size") || words[0] == "to" && words[1] == "fit")
	for i, w := range words {
		next := at(i + 1)
		switch w {
		case "toy", "toys", "doll", "dolls", "amigurumi", "plush", "plushie", "softie", "softy", "rattle", "teddy", "lovey", "comforter":
			f.toy = true
		case "stuffing", "stuffed", "fibrefill", "fiberfill", "polyfill", "toyfill":
			f.stuffed = true
		case "stuff":
			f.stuffed = f.stuffed || next != "" && next != "and" || len(words) == 1
		case "fill":
			f.stuffed = f.stuffed || next == "with" || next == "firmly" || next == "lightly"
		case "filling":
			f.stuffed = f.stuffed || at(i-1) == "toy" || at(i-1) == "polyester" || at(i-1) == "fibre"
		case "eyes", "eye":
			f.eyes = f.eyes || at(i-1) == "safety" || at(i-1) == "plastic" || at(i-1) == "googly" || at(i-1) == "glass" || at(i-1) == "toy" || at(i-1) == "mm"
			f.parts = f.parts || f.eyes
			f.face = f.face || next != "of" && at(i-1) != "needle's" // of a needle
		case "face", "nose", "snout", "muzzle", "mouth", "beak", "whiskers":
			f.face = f.face || w != "face" || at(i-1) == "the" || at(i-1) == "a" || at(i-1) == "its"
		case "bust", "adult", "adults", "women", "women's", "woman", "woman's", "ladies", "ladies'", "lady's", "men's", "man's", "menswear":
			f.adult = true
		case "chest":
			for _, n := range words[i+1:] {
				if cm, err := strconv.Atoi(n); err == nil && cm >= 76 && cm < 200 {
					f.adult = f.adult || slices.Contains(words, "cm")
				}
			}
		case "button", "buttons":
			f.parts = f.parts || next != "hole" && next != "holes" && next != "band"
		case "bead", "beads", "bell", "bells", "sequin", "sequins", "squeaker", "magnet", "magnets":
			f.parts = f.parts || next != "st" && next != "sts" && next != "stitch" && next != "stitches" && next != "buoy"
		case "cord", "cords", "ties", "string", "strings", "lanyard", "leash", "ribbon", "ribbons":
			f.cords = true
		case "drawstring", "drawstrings":
			f.cords, f.drawstring = true, true
		case "baby", "babies", "newborn", "infant", "toddler", "preemie", "nursery", "pram", "cot", "crib", "bootee", "bootees", "bootie", "booties":
			f.baby = f.baby || !(next == "yarn" || next == "wool" || next == "weight" || next == "dk" || next == "cotton" || next == "soft")
		case "months", "mths", "mos":
			f.baby = f.baby || sized && isDigit(at(i - 1)[0])
		case "years", "yrs":
			f.child = f.child || sized && isDigit(at(i - 1)[0])
		case "child", "children", "children's", "child's", "kid", "kids":
			f.child = true
		case "potholder", "potholders", "trivet", "trivets", "oven", "saucepan", "casserole":
			f.heat = true
		case "holder", "holders", "pad", "mat", "mats":
			b := at(i - 1)
			f.heat = f.heat || b == "pot" || b == "kettle" || b == "pan" || b == "hot"
		case "mug", "mugs", "teapot", "coaster", "coasters", "cosy", "cozy", "cosies", "cozies", "tea", "coffee":
			f.drink = f.drink || !(w == "cosy" || w == "cozy") || at(i-1) != "egg" && at(i-1) != "phone"
		case "cup", "cups":
			f.drink = f.drink || at(i-1) == "hot" || next == "sleeve" || next == "cosy" || next == "cozy" || at(i-1) == "coffee"
		case "feather", "feathers", "feathered", "feathery":
			f.fluff = true
			f.feathers = f.feathers || w != "feathery"
		case "pompom", "pompoms", "tassel", "tassels", "fringe", "fringes", "mohair", "fluffy", "eyelash":
			f.fluff = true
		case "pet", "pets", "catnip", "puppy", "kitten":
			f.pet = true
		case "dog", "dogs", "cat", "cats":
			f.pet = f.pet || next == "toy" || next == "toys" || next == "bed"
		}
	}
}
