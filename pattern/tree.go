package pattern

import "crochet/tallyturn/pattern/stitch"

// Pattern is a written pattern as read. Every part keeps its span, so that
// what is said about it can be shown in the author's own words.
type Pattern struct {
	Source   *Source
	Title    string
	Terms    stitch.Terms // as stated; stitch.Unknown where the text does not say
	Sizes    []string     // names of the sizes, in the order of their numbers; nil for one size
	Headers  []Header     // materials, gauge, notes and the like, in order
	Specials []*Special   // stitches the pattern defines for itself
	Pieces   []*Piece
	Assembly []Header // making up, as steps in order
	Page     Span     // what its page says behind the pattern, and is not read; empty for nothing

	onlyWords []Span // words that only say for which sizes something is

	evidence  stitch.Terms // what the words show, where the text does not say
	usual     stitch.ID    // the stitch that it says goes without saying
	bareTimes bool         // "(sc, inc) 6 = 18": a number behind a bracket is how often
	blocks    bool         // it is worked in blocks, from corner to corner
	filet     bool         // it is worked in meshes, open and filled
	told      bool         // its rows are told one after the other, with no labels at the heads of lines
	conv      conventions
	aliases   map[string]string // letters that stand for stitches
	meshes    map[string]bool   // the author's own letters for the meshes of filet; true for a filled one
	findings  []Finding         // what reading alone had to say
	claims    []claim           // what it says of itself beside the instructions

	ownCounts map[Span]TotalPart // words not understood that may count a row in the author's own unit
}

// HeaderKind says what a line outside the rows is about.
type HeaderKind uint8

// The kinds of line outside the rows.
const (
	HeaderNote HeaderKind = iota
	HeaderYarn
	HeaderHook
	HeaderGauge
	HeaderSize
	HeaderMaterials
	HeaderAbbreviations
	HeaderTerms
	HeaderSkill
	HeaderAssembly
)

// Header is a line or paragraph that is not a row.
type Header struct {
	Span Span
	Kind HeaderKind
	Text string // on one line, without markup
}

// Special is a stitch or group that the pattern defines.
type Special struct {
	Span   Span
	Names  []string  // lower case, as it may be called
	Body   []*Step   // what it is made of; nil for one stitch with the top of one
	Takes  int64     // places it takes when used bare
	Stitch stitch.ID // the stitch it counts as, where Body is nil

	seq  bool    // Body goes into several places, one after the other
	toks []token // its words, until they are read
}

// Piece is one part of the work.
type Piece struct {
	Span   Span   // the heading
	Name   string // "" where the pattern names none
	Copies int    // from "make 3"; at least 1
	Line   int    // of the heading, or of the first row
	Rows   []*Row
	Notes  []Header

	words []string // of the name, once it was looked for
	apart bool     // a part begun for itself, whatever was worked before it
}

// RowKind says how a row runs.
type RowKind uint8

// Rows go back and forth, rounds go round.
const (
	FlatRow RowKind = iota
	Round
)

func (k RowKind) String() string {
	if k == Round {
		return "round"
	}
	return "row"
}

// Side is the side of the work that faces the maker.
type Side uint8

// The sides. SideUnsaid where the pattern does not say.
const (
	SideUnsaid Side = iota
	RightSide
	WrongSide
)

func (s Side) String() string {
	switch s {
	case RightSide:
		return "right side"
	case WrongSide:
		return "wrong side"
	}
	return ""
}

// Row is a written row, round or range of them.
type Row struct {
	Span    Span   // label and body
	Label   string // as written, tidied: "Rows 2-14"
	Kind    RowKind
	Side    Side
	Numbers Numbering
	Setup   []*Step // what comes before it without a label: the foundation, joining yarn
	Steps   []*Step
	Total   *Total // the total stated in the row itself
	Refer   *Refer // the rows it says to repeat; then Steps is empty or follows them

	labelSpan Span
	bad       []Span       // words that were not understood
	remarks   []Span       // words that name nothing to work, taken as a remark
	shares    []TotalPart  // what its totals tell of a part of it: "11 per side"
	loops     []loopsTold  // what it works off at once, and what is on the hook
	starts    []startCount // the counts told before it that it may begin on, the last first
	noLabel   bool

	bothLayers bool // worked through both layers of the piece
	reachesTop bool // its last stitch is told to go on the turning chain: it leaves nothing
	folds      bool // and the piece is laid flat for it

	only  []bool // by size, which of them work it; nil for all
	until Num    // it is worked until so many stitches remain

	ambiguous bool // "R1": a row or a round
	changes   rowChanges
}

// Numbering is which rows a label stands for.
type Numbering struct {
	First, Last Num   // equal for one row; First is zero for a row without a number
	List        []int // for "Rows 3, 5 and 7"
	Every       int   // 2 for "Row 2 and all even rows"
	Until       int   // where it goes on to a row named
	Count       Num   // for "Next 4 rows"
}

// Num is a number that may differ from size to size.
type Num struct {
	N     int64
	Sizes []int64 // nil where it is the same for all
	Span  Span    // where it stands; empty where it was not written
}

// At is the number for a size, counted from 0.
func (n Num) At(size int) int64 {
	if len(n.Sizes) == 0 {
		return n.N
	}
	return n.Sizes[min(max(size, 0), len(n.Sizes)-1)]
}

// Op is what a step does.
type Op uint8

// What a step can do.
const (
	OpWork      Op = iota // one or more stitches into one or more places
	OpChain               // chains
	OpSkip                // pass over places
	OpGroup               // Body, repeated
	OpInto                // Body, all of it into one place (or each of several)
	OpTurn                // turn the work
	OpStay                // do not turn; do not join
	OpJoin                // close a round with a slip stitch
	OpRing                // a magic ring, or a chain joined into a ring
	OpAttach              // join yarn at a place
	OpLeave               // leave places unworked
	OpFasten              // fasten off
	OpColour              // change colour
	OpDelta               // increase or decrease so many, places free
	OpOtherSide           // go on along the other side of the foundation chain
	OpPicot               // a picot, which hangs on the stitch before it
	OpFree                // stitches only the author can count: evenly, row ends
	OpEven                // work even: as many as below
	OpNote                // something to know at this spot
	OpAlong               // several kinds of place, each with its own stitch, as they come
	OpEnding              // how the last pass of the repeat before it differs
)

// Step is one instruction of a row.
type Step struct {
	Span   Span
	Op     Op
	Stitch stitch.ID // OpWork, OpFree: the stitch
	Legs   int       // OpWork: places worked together into one stitch (sc2tog: 2); 0 for an ordinary stitch
	Name   string    // a special stitch, as written
	N      Num       // chains, passes, places skipped, stitches into each place
	Target Target    // OpWork, OpInto, OpSkip, OpAttach, OpLeave
	Times  Times     // OpGroup
	Body   []*Step
	Counts Counts // OpChain: what it counts as
	Text   string // OpNote, OpColour

	special     *Special
	grows       int64 // of blocks from corner to corner: how many more than in the row before
	byTurns     bool  // OpGroup: Body goes by turns, and the last pass stops where the row ends
	partial     int   // OpGroup: 1 + the steps of Body before "**"; 0 where there is none
	stopAt      bool  // OpGroup: the last pass ends at "**"
	ending      *Step // OpGroup: how the last pass ends
	note        Span  // OpGroup: words about the last pass that change no count
	implicit    bool  // said by nobody, understood by everybody
	bare        bool  // "2 sc": it may be two in one place
	gathers     bool  // a loop that was dropped is drawn through its stitches, and through the chains they begin with
	perSide     bool  // OpFree: N is for one side of a piece and one corner, as long as it is read
	corner      int64 // OpFree: what each corner gets, as long as it is read; 0 where that is not told
	cornerAdded bool  // OpFree: corner is told beside N, and not as how N falls
	inCorner    bool  // OpFree: all of N goes into one corner
	sides       int64 // OpFree: how many sides N is for, each with its corner; OpGroup: how many its passes along edges are; 0 where nobody can tell
	once        bool  // the target holds for the whole list: "(sc, ch 1) 3 times in next sp"
	goesOn      bool  // OpDelta: by as many as the rows before it; N is then 1 for more, -1 for fewer, 0 for either
	emptied     bool  // OpWork: plain stitches of a row told by another, of which none is left
	evenly      bool  // OpDelta: they are to be spread over the whole row
}

// Which says how a step finds its place.
type Which uint8

// The ways to name a place.
const (
	Next       Which = iota // the next N
	Each                    // each one up to the bound
	Same                    // where the last stitch went
	First                   // the first of the row
	Last                    // the last N of the row
	Nth                     // the Nth of the row
	FromHook                // the Nth chain from the hook
	InRing                  // the ring
	TurnTop                 // the top of the turning chain
	Between                 // the gap before the next place
	SkippedOne              // one that was passed over
	Centre                  // the middle of the next group
	Unworked                // places left by an earlier row
	RowEnds                 // along the edge
	Anywhere                // any one that fits
)

// Target is the place or places a step goes into.
type Target struct {
	Span     Span
	Which    Which
	N        Num      // how many, or which one
	Of       []Filter // what they are; nil for any stitch
	Bound    Bound    // for Each: how far
	Within   *Filter  // "in 3rd ch of ch-5", "in centre dc of next shell": the thing it is part of
	Row      *RowRef  // a row other than the one below
	said     bool     // the text names the place
	plain    bool     // "in ch-2 sp", with no "next"
	butFirst bool     // "each st except the first"
	dropped  bool     // "two rows below": it stands before the stitch of this row, which is then skipped
	foot     bool     // "at the foot of these ch": where the turning chain stands
	orSpace  bool     // OpSkip: or else the space that lies there, "skip 2 dc or ch-2 sp"
	first    bool     // "of first scallop": the group may be begun already
	here     bool     // "of shell", "of same shell", with no "next": the group is the one begun, where it has such a place ahead
	told     Num      // of corners, how many there are said to be, and of the spaces of the sides, how many each side has; 0 where unsaid
}

// FilterKind is a family of places.
type FilterKind uint8

// The families of places.
const (
	AnyStitch   FilterKind = iota // the top of any stitch
	OneStitch                     // the top of a stitch of one kind
	Space                         // a space or loop made by chains
	ChainStitch                   // a single chain
	AnyPlace                      // stitch or space, whichever comes
	NamedGroup                    // a shell, a V-stitch, a group
	PicotPlace                    // a picot
	RowEnd                        // the end of a row
	AnyCluster                    // a cluster, bobble, puff or popcorn
)

// Filter says which places count.
type Filter struct {
	Kind   FilterKind
	Stitch stitch.ID // OneStitch
	Size   int64     // Space: chains in it, 0 for any
	Name   string    // NamedGroup

	corner bool // Space: "corner sp", which no space of a side is
}

// BoundKind says where a run or a repeat ends.
type BoundKind uint8

// The ends of a run.
const (
	NoBound  BoundKind = iota
	ToEnd              // across, around, to the end
	ToLast             // until N are left
	ToPlace            // as far as the next place of a kind
	ToMarker           // as far as a marker
)

// Bound is the end of a run or a repeat.
type Bound struct {
	Span Span
	Kind BoundKind
	N    Num      // ToLast
	Of   []Filter // ToLast, ToPlace

	within bool // "to within": what is left is not for this row
	centre bool // ToPlace: the middle of the next group, "to centre dc of the corner"
}

// TimesKind says how often a group is worked.
type TimesKind uint8

// The ways to repeat.
const (
	Once    TimesKind = iota
	Exactly           // N times in all
	More              // N times after the first
	Fill              // as often as it fits, up to the bound
)

// Times is how often a group is worked.
type Times struct {
	Span  Span
	Kind  TimesKind
	N     Num
	Bound Bound
	star  bool // "repeat from *": N may be meant either way
	more  bool // "more" was said
	sure  bool // N can only mean all of them
	shut  bool // behind a group that is closed, with work like it before: "more" may be those after that work
}

// Counts is what a chain at the start of a row stands for.
type Counts struct {
	Span   Span
	Said   bool      // the pattern says
	As     stitch.ID // the stitch; stitch.None where it is not one
	N      int64     // how many stitches, usually 1
	Space  int64     // chains beyond it, which make a space
	Spread bool      // "here and throughout"
}

// RowRef names a row of this piece or of another.
type RowRef struct {
	Span   Span
	Number int     // of the first size
	Sizes  []int64 // of each size, where they differ; nil otherwise
	Piece  string  // "" for this one
	Below  bool    // the last row worked
	After  string  // "skip 4 sts from first fin": the piece that it lies beside
	Skip   Num
}

// At is the number of the row for a size, counted from 0.
func (r *RowRef) At(size int) int {
	return int(Num{N: int64(r.Number), Sizes: r.Sizes}.At(size))
}

// sized is the reference as it is for one size.
func (r *RowRef) sized(size int) *RowRef {
	if len(r.Sizes) == 0 {
		return r
	}
	one := *r
	one.Number, one.Sizes = r.At(size), nil
	return &one
}

// Refer is a row that stands for others.
type Refer struct {
	Span     Span
	First    int        // the rows to work again
	Last     int        //
	List     []int      // where they are not a range
	Sizes    [2][]int64 // First and Last of each size, where they differ; nil otherwise
	LastRows int        // "repeat last 2 rows"
	Piece    string     // of another piece
	Times    Num        // how often; 0 where unsaid
	More     bool
	Rows     Num    // "for 5 more rows"
	Until    Num    // "until there are 40 rows"
	UntilRow int64  // "to row 20"
	EndRow   int64  // "ending with a Row 2": which of them is the last
	UntilSts Num    // "until 6 sts remain"
	Measure  bool   // "until it measures": the maker ends it by hand
	Edits    []Edit // "ch 6 instead of ch 4"
	Forms    bool   // "Rows 2 and 3 form the pattern"
	Named    string // "rep dec rnd": a word in the label of the row that is meant
	Then     *Refer // "then Rows 1-4 once": the rows to work behind these; nil for none
}

// sized is the reference as it is for one size.
func (r *Refer) sized(size int) *Refer {
	if r.Sizes[0] == nil {
		return r
	}
	one := *r
	one.First = int(Num{Sizes: r.Sizes[0]}.At(size))
	one.Last = int(Num{Sizes: r.Sizes[1]}.At(size))
	one.List, one.Sizes = nil, [2][]int64{}
	return &one
}

// Edit is a change to the rows referred to.
type Edit struct {
	Span     Span
	From, To int64 // chains; From is 0 where every loop changes
	Between  int64 // plain stitches between increases or decreases, or at At
	More     int64 // so many more of them than there were; fewer where it is negative
	Was      int64 // "instead of 4": the number they stand for; 0 where it is not said
	At       EditPlace
	Delta    Num   // stitches more or fewer at the edges of each row
	End      *Step // what the row ends with instead of what it did; nil for nothing
	Row      int64 // the one row that ends so; 0 for each
}

type rowChanges struct {
	delta    Num // "4 sts increased"
	deltaSet bool
}

// Total is what the author says a row comes to.
type Total struct {
	Span  Span
	N     int64 // stitches in all, for the size proven
	Text  string
	Parts []TotalPart
	after int // steps read before it
	depth int
	first bool // it stands before the work
	delta bool // not stated: worked out from "4 sts increased"
	rows  bool // each of Parts is the total of one row of the label, in turn
}

// TotalPart is one number of a total and what it counts.
type TotalPart struct {
	Span Span // empty where it was worked out and is not written
	N    Num
	Name string // as written, lower case; "" for a bare number
	Kind PartKind
	ID   stitch.ID
	Size int64 // for spaces

	word     string // the word that names what is counted, as it begins
	share    bool   // it tells of a part of the row, "11 per side", and not of all of it
	halves   bool   // a share that is told of what lies on either side of the middle of the row
	middle   int64  // how many stitches that middle may have at most
	figures  bool   // a share that counts groups or spaces, and no stitches: "2 groups along each side"
	per      int64  // how many stitches each of what is counted has, "12 groups of 7 dc", or 0
	eachRow  bool   // it is said to be that of each of several rows: "40 each time"
	noChains bool   // it is said to leave the chains out
	ends     int64  // how many more may stand at the ends of the row, told apart: "and a half loop at either end"
}

// PartKind says what a number of a total counts.
type PartKind uint8

// What a total can count.
const (
	PartStitches PartKind = iota // stitches of any kind
	PartStitch                   // stitches of one kind
	PartSpace                    // chain spaces
	PartChain                    // single chains
	PartNamed                    // shells, clusters, picots, anything named
	PartOther                    // something that is not counted here
)

// Word is a piece of a row's text as the maker sees it.
type Word struct {
	Text string
	Step *Step // the instruction it belongs to; nil for what is only to be read
}
