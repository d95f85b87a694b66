package pattern

// A row is also told by how it differs from the one below it: "3 sts increased", "You lose
// two each row", "This adds two stitches", "two more again". That is held against what the
// row makes.

// The words of which way, and the other ones.
const (
	changeDownWords = "lose loses losing lost drop drops dropping dropped fewer less decreased dec'd decrease decreases decreasing down shed sheds shedding shrink shrinks shrinking"
	changeUpWords   = "add adds adding added gain gains gaining gained more increased inc'd extra increase increases increasing up grow grows growing"
	changeTalkWords = "you're we're you you've you'll we we've this that that's it it's which so is are was has have had been will makes make making means giving gives each every per time row rnd round rows rnds rounds by of in on the a an st sts stitch stitches again another made were now here just there there's and goes go going than last before previous"
)

// changeUp and changeDown are the words that say which way it differs.
var (
	changeUp   = newWordSet(changeUpWords)
	changeDown = newWordSet(changeDownWords)
)

// changeTalk are the other words of such a clause.
var changeTalk = newWordSet(changeTalkWords)

// changeTold = talk with one number and one word of which way, to a stop .
func (x *rowReader) changeTold(before []*Step) bool {
	if !x.worked || x.depth > 1 || x.p == 0 {
		return false
	}
	if prev := x.at(-1); !x.bounded && !prev.separator() && !prev.isMark("!?)]}") {
		return false
	}
	start, sign, n, sides := x.p, int64(0), Num{}, false
	fail := func() bool { x.p = start; return false }
	again := x.row.Refer != nil // behind rows told by others no stitches are worked
	if again {
		x.accept("with", "and", "for")
	}
	switch t := x.peek(); {
	case t.isAny("increasing", "decreasing") && !(x.bounded && anyShapes(before)), t.isAny("add", "increase", "decrease", "drop", "lose", "gain", "make") && !x.at(1).is("of"):
		return false // an instruction
	}
	for k := 0; ; k++ {
		t := x.peek()
		if t.kind == tEnd || t.separator() || t.isMark("?([{)]}") || t.head && k > 0 && x.rowCapital() {
			break
		}
		way := int64(0)
		switch {
		case k > maxCountTalk:
			return fail()
		case t.kind == tNum && !t.frac && !t.big && n.Span.Empty():
			n, _ = x.number()
			if isRowWord(x.peek()) || x.peek().isAny("more", "further", "extra") && isRowWord(x.at(1)) {
				return fail() // "four more rounds"
			}
			if _, m := x.stitchAt(0); m > 0 {
				if t := x.at(m); !t.isAny("increased", "decreased", "inc'd", "dec'd", "fewer", "lost", "gained") && !(again && (sign != 0 || t.in(changeUp) || t.in(changeDown))) {
					return fail() // "3 sc more": they may be worked
				}
				x.p += m
			}
			continue
		case again && !n.Span.Empty() && sign != 0 && x.stitchFollows(0):
			_, m := x.stitchAt(0) // "6 more dc each row"
			x.p += m
			continue
		case t.in(changeUp):
			way = 1
		case t.in(changeDown):
			way = -1
		case t.isAny("all", "total", "altogether"):
			sides = true // over all of the rows, or each of the sides
		case !t.in(changeTalk):
			return fail()
		}
		if way != 0 && sign != 0 && way != sign {
			return fail()
		}
		sign += way * (1 - min(1, max(sign, -sign)))
		x.p++
	}
	if sign == 0 || n.Span.Empty() || isRowWord(x.at(-1)) && x.at(-2).kind == tNum {
		return fail()
	}
	if rows := x.rowsToTell(); sides && rows != 1 {
		return true // what it comes to in all of a range
	}
	n.N *= sign
	for i := range n.Sizes {
		n.Sizes[i] *= sign
	}
	x.row.changes = rowChanges{delta: n, deltaSet: true}
	return true
}
