package stitch

import "strings"

// Habit is whether a chain at the start of a row, as high as the stitch,
// stands for one.
type Habit uint8

// The habits of print.
const (
	NotCounted Habit = iota
	Counted
	Varies
)

// Kind sorts stitches by how they are made.
type Kind uint8

// The kinds of stitch.
const (
	Basic      Kind = iota
	Foundation      // makes its own chain: takes nothing of the row below
	Post            // worked round the stem
	Compound        // several legs closed into one top
)

// Stitch is one line of the table.
//
// Names, terms and turning chains follow the Craft Yarn Council's list of
// abbreviations and its US/UK table; what a stitch takes and makes is the
// plain arithmetic of the trade (common practice, no source).
type Stitch struct {
	ID         ID
	US, UK     string    // abbreviation
	USWords    string    // in full
	UKWords    string    //
	USAlso     Spellings // other spellings, US
	UKAlso     Spellings // other spellings, UK
	Takes      int       // places of the row below
	Makes      int       // stitches
	Turn       int       // height, in chains
	Habit      Habit     // whether the turning chain stands for one
	FirstChain int       // the chain from the hook that the first one usually goes into; 0 where it has none
	Base       ID        // the plain stitch it counts as in a total; itself for a plain one
	Kind       Kind
}

// table is in the order of the IDs.
var table = [count]Stitch{
	None: {},
	Slip: {US: "sl st", UK: "ss", USWords: "slip stitch", UKWords: "slip stitch",
		USAlso: "s s|slst|slip st|sl stitch|ss|sl|slip|slpst|slips|sl sts|slip stitches|slip sts", UKAlso: "s s|sl st|slst|slip st|sl|slip|sl sts|slip stitches",
		Takes: 1, Makes: 1, Turn: 0, FirstChain: 2},
	SC: {US: "sc", UK: "dc", USWords: "single crochet", UKWords: "double crochet",
		USAlso: "s c|single|singles|single crochets|sgl crochet|plain|scs|s crochet|sc st|sc sts|single crochet stitch|single crochet stitches|single cr", UKAlso: "d c|double|doubles|double crochets|double crochet stitch|double crochet stitches|plain|dcs",
		Takes: 1, Makes: 1, Turn: 1, FirstChain: 2},
	HDC: {US: "hdc", UK: "htr", USWords: "half double crochet", UKWords: "half treble crochet",
		USAlso: "h d c|half d c|half dc|half double|half doubles|s d c|sdc|short double crochet|half double crochets|half-double|half double cr|hdcs", UKAlso: "h tr|half tr|half treble|half treble crochets|h t r|half trebles|htrs|half-treble",
		Takes: 1, Makes: 1, Turn: 2, Habit: Varies, FirstChain: 3},
	DC: {US: "dc", UK: "tr", USWords: "double crochet", UKWords: "treble crochet",
		USAlso: "d c|double|doubles|double crochets|double cr|dcs|double crochet stitch|double crochet stitches", UKAlso: "treble|trebles|tr c|t r|treble crochets|trs|tc",
		Takes: 1, Makes: 1, Turn: 3, Habit: Counted, FirstChain: 4},
	TR: {US: "tr", UK: "dtr", USWords: "treble crochet", UKWords: "double treble crochet",
		USAlso: "tr c|trc|t c|treble|trebles|triple crochet|triple|t r|tc|treble crochets|triple crochets|trs", UKAlso: "d tr|double treble|d t r|double trebles|dtrs",
		Takes: 1, Makes: 1, Turn: 4, Habit: Counted, FirstChain: 5},
	DTR: {US: "dtr", UK: "trtr", USWords: "double treble crochet", UKWords: "triple treble crochet",
		USAlso: "d tr c|d tr|double treble|double triple crochet|dtrc|double trebles|double triple|dtrs", UKAlso: "tr tr|ttr|triple treble|treble treble",
		Takes: 1, Makes: 1, Turn: 5, Habit: Counted, FirstChain: 6},
	TRTR: {US: "trtr", UK: "qtr", USWords: "triple treble crochet", UKWords: "quadruple treble crochet",
		USAlso: "tr tr|tr tr c|ttr|treble treble|triple treble", UKAlso: "quad tr|quadruple treble|quadtr",
		Takes: 1, Makes: 1, Turn: 6, Habit: Counted, FirstChain: 7},
	QuadTR: {US: "quad tr", UK: "quin tr", USWords: "quadruple treble crochet", UKWords: "quintuple treble crochet",
		USAlso: "quadtr|quadruple treble", UKAlso: "quintr|quintuple treble",
		Takes: 1, Makes: 1, Turn: 7, Habit: Counted, FirstChain: 8},
	ESC: {US: "esc", UK: "exdc", USWords: "extended single crochet", UKWords: "extended double crochet",
		USAlso: "exsc|ext sc|extended sc", UKAlso: "edc|ext dc|extended dc",
		Takes: 1, Makes: 1, Turn: 2, Habit: Varies, FirstChain: 3, Base: SC},
	EHDC: {US: "ehdc", UK: "ehtr", USWords: "extended half double crochet", UKWords: "extended half treble crochet",
		USAlso: "exhdc|ext hdc|extended hdc", UKAlso: "exhtr|extended htr",
		Takes: 1, Makes: 1, Turn: 2, Habit: Varies, FirstChain: 3, Base: HDC},
	EDC: {US: "edc", UK: "etr", USWords: "extended double crochet", UKWords: "extended treble crochet",
		USAlso: "exdc|ext dc|extended dc", UKAlso: "extr|extended tr",
		Takes: 1, Makes: 1, Turn: 3, Habit: Counted, FirstChain: 4, Base: DC},
	ETR: {US: "etr", UK: "edtr", USWords: "extended treble crochet", UKWords: "extended double treble crochet",
		USAlso: "extr|extended tr", UKAlso: "exdtr|extended dtr",
		Takes: 1, Makes: 1, Turn: 4, Habit: Counted, FirstChain: 5, Base: TR},
	ReverseSC: {US: "rsc", UK: "rdc", USWords: "reverse single crochet", UKWords: "reverse double crochet",
		USAlso: "rev sc|reverse sc|crab st|crab stitch|crab stitches|rev single crochet|reversed sc|corded sc", UKAlso: "rev dc|reverse dc|crab st|crab stitch",
		Takes: 1, Makes: 1, Turn: 1, Base: SC},
	SpikeSC: {US: "lsc", UK: "ldc", USWords: "long single crochet", UKWords: "long double crochet",
		USAlso: "spike sc|long sc|spike st|spike stitch|spike|spsc|spike single crochet|spike stitches", UKAlso: "spike dc|long dc|spike st|spike stitch|spike",
		Takes: 1, Makes: 1, Turn: 1, Base: SC},
	LinkedDC: {US: "linked dc", UK: "linked tr", USWords: "linked double crochet", UKWords: "linked treble crochet",
		USAlso: "ldc|linked double", UKAlso: "ltr|linked treble",
		Takes: 1, Makes: 1, Turn: 3, Habit: Counted, FirstChain: 4, Base: DC},
	FSC: {US: "fsc", UK: "fdc", USWords: "foundation single crochet", UKWords: "foundation double crochet",
		USAlso: "foundation sc", UKAlso: "foundation dc",
		Makes: 1, Base: SC, Kind: Foundation, Turn: 1},
	FHDC: {US: "fhdc", UK: "fhtr", USWords: "foundation half double crochet", UKWords: "foundation half treble crochet",
		USAlso: "foundation hdc", UKAlso: "foundation htr",
		Makes: 1, Base: HDC, Kind: Foundation, Turn: 2},
	FDC: {US: "fdc", UK: "ftr", USWords: "foundation double crochet", UKWords: "foundation treble crochet",
		USAlso: "foundation dc", UKAlso: "foundation tr",
		Makes: 1, Base: DC, Kind: Foundation, Turn: 3},
	FTR: {US: "ftr", UK: "fdtr", USWords: "foundation treble crochet", UKWords: "foundation double treble crochet",
		USAlso: "foundation tr", UKAlso: "foundation dtr",
		Makes: 1, Base: TR, Kind: Foundation, Turn: 4},
	FPSC:       post("fpsc", "fpdc", "front post single crochet", "front post double crochet", "fp sc|fsc around|front post sc", "fp dc|front post dc|rdcf", SC, 1),
	FPHDC:      post("fphdc", "fphtr", "front post half double crochet", "front post half treble crochet", "fp hdc|front post hdc", "fp htr|front post htr|rhtrf", HDC, 2),
	FPDC:       post("fpdc", "fptr", "front post double crochet", "front post treble crochet", "fp dc|front post dc|raised dc front|raised dc|fp d c|front post d c", "fp tr|front post tr|rtrf|rtr/f|raised tr front|raised tr|raised treble front|rftr", DC, 3),
	FPTR:       post("fptr", "fpdtr", "front post treble crochet", "front post double treble crochet", "fp tr|front post tr", "fp dtr|front post dtr|rdtrf", TR, 4),
	FPDTR:      post("fpdtr", "fptrtr", "front post double treble crochet", "front post triple treble crochet", "fp dtr|front post dtr", "fp trtr|rtrtrf", DTR, 5),
	BPSC:       post("bpsc", "bpdc", "back post single crochet", "back post double crochet", "bp sc|back post sc", "bp dc|back post dc|rdcb", SC, 1),
	BPHDC:      post("bphdc", "bphtr", "back post half double crochet", "back post half treble crochet", "bp hdc|back post hdc", "bp htr|back post htr|rhtrb", HDC, 2),
	BPDC:       post("bpdc", "bptr", "back post double crochet", "back post treble crochet", "bp dc|back post dc|raised dc back|bp d c|back post d c", "bp tr|back post tr|rtrb|rtr/b|raised tr back|raised treble back|rbtr", DC, 3),
	BPTR:       post("bptr", "bpdtr", "back post treble crochet", "back post double treble crochet", "bp tr|back post tr", "bp dtr|back post dtr|rdtrb", TR, 4),
	BPDTR:      post("bpdtr", "bptrtr", "back post double treble crochet", "back post triple treble crochet", "bp dtr|back post dtr", "bp trtr|rtrtrb", DTR, 5),
	Cluster:    compound("cl", "cluster", "clus|cls|clusters|cluster st|cluster stitch|clust|cluster sts", 3),
	Bobble:     compound("bo", "bobble", "bobble st|bobble stitch|mb|bob|bobbles|bobble sts|make bobble|bbl|bobble stitches", 3),
	Popcorn:    compound("pc", "popcorn", "pop|pop st|popcorn st|popcorn stitch|popcorns|pc st|pcs|popcorn stitches|popcorn sts|pop c", 3),
	Puff:       compound("puff", "puff stitch", "ps|puff st|puffs|puff sts|puff stitches|pf st|pf", 2),
	LoopStitch: compound("lp st", "loop stitch", "loop st|loop sts|lp sts|fur st|fur stitch", 1),
	BeadStitch: compound("bead st", "bead stitch", "bead sts", 2),
	Special:    {Takes: 1, Makes: 1, Turn: 3},
}

func post(us, uk, usWords, ukWords, usAlso, ukAlso string, base ID, turn int) Stitch {
	return Stitch{US: us, UK: uk, USWords: usWords, UKWords: ukWords, USAlso: Spellings(usAlso), UKAlso: Spellings(ukAlso),
		Takes: 1, Makes: 1, Turn: turn, Habit: Varies, Base: base, Kind: Post}
}

func compound(short, word, also string, turn int) Stitch {
	return Stitch{US: short, UK: short, USWords: word, UKWords: word, USAlso: Spellings(also), UKAlso: Spellings(also),
		Takes: 1, Makes: 1, Turn: turn, Kind: Compound}
}

// Spellings are names parted by bars: a line of text until they are asked for,
// so that the start of the program need not make a list of each.
type Spellings string

// All gives the names one by one.
func (s Spellings) All() []string {
	if s == "" {
		return nil
	}
	return strings.Split(string(s), "|")
}

func init() {
	for i := range table {
		table[i].ID = ID(i)
		if table[i].Base == None {
			table[i].Base = ID(i)
		}
	}
}

// Of is the table's line for a stitch.
func Of(id ID) *Stitch {
	if id >= count {
		id = None
	}
	return &table[id]
}

// All is every stitch of the table, in order.
func All() []*Stitch {
	out := make([]*Stitch, 0, count-1)
	for i := ID(1); i < count; i++ {
		out = append(out, &table[i])
	}
	return out
}

// Name is the stitch's abbreviation in the given terms; US where unknown.
func (id ID) Name(t Terms) string {
	s := Of(id)
	if t == UK {
		return s.UK
	}
	return s.US
}

// Words is the stitch's name in full in the given terms; US where unknown.
func (id ID) Words(t Terms) string {
	s := Of(id)
	if t == UK {
		return s.UKWords
	}
	return s.USWords
}

// Base is the plain stitch that id counts as.
func (id ID) Base() ID { return Of(id).Base }

// BackPost is a stitch round the front of a stem worked round its back instead;
// any other is as it was.
func (id ID) BackPost() ID {
	if FPSC <= id && id <= FPDTR {
		return id + BPSC - FPSC
	}
	return id
}
