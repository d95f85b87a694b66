package pattern

import (
	"sort"
	"sync"
)

// The codes of findings. They are stable: scripts and makers may rely on them.
const (
	CodeTotal     Code = "total-differs"   // the row makes another number than it states
	CodeMisfit    Code = "repeat-misfit"   // a repeat does not come out whole
	CodeOverrun   Code = "row-overrun"     // the row needs more places than there are
	CodeLeft      Code = "left-unworked"   // places are left and nobody says so
	CodeRest      Code = "rest-differs"    // another number is said to be left than is
	CodeStepped   Code = "stepped-over"    // a named stitch is reached by passing others in silence
	CodeNoPlace   Code = "no-such-place"   // a place is named that the row below does not have
	CodeUnread    Code = "unread"          // words that were not understood
	CodeTrusted   Code = "trusted"         // only the author can know the number
	CodeReading   Code = "reading"         // two readings were possible; which was taken
	CodeCounting  Code = "way-of-counting" // how the author counts a total
	CodeNoRow     Code = "no-such-row"     // a row is named that is not there
	CodeRange     Code = "row-numbers"     // row numbers that do not follow
	CodeCopies    Code = "copies-differ"   // another number of a piece is named than is made
	CodeOverlap   Code = "pieces-overlap"  // two pieces use one place
	CodePlaced    Code = "placed"          // where a piece sits on another
	CodeTooLarge  Code = "too-large"       // numbers beyond what can be worked
	CodeTooMuch   Code = "too-much"        // more rows or pieces than are read
	CodeTerms     Code = "terms"           // which terms were taken, or that they are mixed
	CodeSize      Code = "no-such-size"    // a size that the pattern does not have
	CodeUndefined Code = "undefined"       // a special stitch is used without a definition
	CodeEvenly    Code = "evenly"          // increases or decreases whose places are free
	CodeMeasure   Code = "until-measured"  // rows whose number only a tape can tell
)

// explanations say of each code what is meant, show it on a pattern that can
// be checked as it stands, and name the mend. The first sentence of each says
// it in short.
var explanations = sync.OnceValue(func() map[Code]string {
	return map[Code]string{
		CodeTotal: `The row makes another number of stitches than it states. Each stitch was worked
into the row below, one by one.

    Ch 20.
    Row 1: Sc in 2nd ch from hook and in each ch across. (20 sc)

Twenty chains less the one that is skipped leave 19. Either the total or a
number in the words is wrong. The mend offered is the smallest change under
which this row agrees and most of the rows after it do too: were the next row
written for 19, it is the total; were it written for 20, it is the chain.`,

		CodeMisfit: `A repeat does not come out whole over the row below. It is to be worked across,
around or so many times, and the last time finds too few stitches.

    Rnd 1: 18 sc in magic ring. (18)
    Rnd 2: (Sc in next 3 sts, 2 sc in next st) around. (24)

Four times use 16 of the 18 stitches, and 2 are left. The finding says how many
are left, and the nearest numbers of stitches it would come out on. Change the
repeat, or the row below.`,

		CodeOverrun: `The row needs more stitches to work into than the row below has.

    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across. (20 sc)
    Row 2: Ch 1, turn, (sc in next 4 sts, 2 sc in next st) 5 times. (24 sc)

Five times would need 25 stitches, and there are 20. Look for a number of times
or of stitches that is too large, or for a row before it that was left too short.`,

		CodeLeft: `Stitches of the row below are left unworked, and the row does not say so.

    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across. (20 sc)
    Row 2: Ch 1, turn, sc in next 18 sts. (18 sc)

If that is meant, write "leave remaining sts unworked". If not, a number is too
small or an instruction is missing.`,

		CodeRest: `The row says how many stitches there are to its end, or how many it leaves, and
there is another number.

    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across. (20 sc)
    Row 2: Ch 1, turn, sc in next 12 sts, leave remaining 6 sts unworked. (12 sc)

Twelve of 20 leave 8. Either the number that is left or one before it is wrong.
"Weave through the last 6 sts" is held against the row before it in the same way.`,

		CodeStepped: `Stitches are passed over to reach the one that is named, and no skip is written.

    Ch 11.
    Row 1: Sc in 2nd ch from hook, sc in next 4 ch, dc in next ch, sc in next 4 ch. (10 sts)
    Row 2: Ch 1, turn, sc in next 2 sc, sc in next dc, sc in next 5 sc. (8 sc)

A maker wonders whether the stitches between were forgotten. Write the skip, or
name the stitches that are to be worked.`,

		CodeNoPlace: `The row is worked into something that the row below does not have. It was worked
into the nearest thing there is.

    Ch 6, join with sl st in first ch to form ring.
    Rnd 1: Ch 3 (counts as dc), dc in ring, (ch 1, 2 dc in ring) 5 times, ch 1, join. (12 dc)
    Rnd 2: Ch 1, 3 sc in each ch-2 sp around, join. (18 sc)

There are only ch-1 spaces here. Name the stitch or the space as the row below
makes it.`,

		CodeUnread: `Words of the row could be an instruction and are not understood.

    Ch 11.
    Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)
    Row 2: Ch 1, turn, wimple in next 10 sts. (10 sc)

The row is not proven. Its stated total is taken for the next row, and the walk
shows it as it is written. Where it states none, the rows behind it are worked on
what it makes without those words, if they come out on it. Write it with the
usual abbreviations, or define the stitch among the special stitches.`,

		CodeTrusted: `Only the author knows how many stitches the row comes to, so her total is taken.

    Ch 11.
    Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)
    Rnd 2: Ch 1, sc evenly around the edge. (40 sc)

Nothing has to be changed. "Work 15 sc along each side" could be proven.`,

		CodeReading: `The words can be read in two ways, and the totals or the fit show which is meant.

    Rnd 1: 12 sc in magic ring. (12)
    Rnd 2: *Sc in next st, 2 sc in next st; rep from * 6 times. (18)

Six times in all make 18; six times more would need 14 stitches. The note says
which way was taken. "Rep from * 5 more times" leaves no doubt.`,

		CodeCounting: `The stated total agrees once it is counted in the author's way. Chains, spaces,
slip stitches or picots are among its stitches.

    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across. (20 sc)
    Row 2: Ch 1, turn, (sc in next st, ch 1, skip next st) 9 times, sc in last 2 sts. (20)

There are 11 sc and 9 chains. A total that names what it counts, "(11 sc, 9
ch-1 sps)", leaves no doubt.`,

		CodeNoRow: `A row is named that is not there to be worked again or worked onto.

    Ch 11.
    Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)
    Rows 2-5: Rep Row 7.

It may be missing, come later, or be the row itself. Look for a number that was
not changed along with the others.`,

		CodeRange: `The numbers of the rows do not fit together. A label does not go on where the
one before it ends, a range is not as many rows as the pattern says, or is no
multiple of the rows it repeats.

    Ch 11.
    Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)
    Row 2: Ch 1, turn, sc in each st across. (10 sc)
    Row 3: Ch 2, turn, hdc in each st across. (10 hdc)
    Rows 4-8: Rep Rows 2 and 3 three times.

Three times two rows end with Row 9. Change the last number of the range, or
what is said of it. Rows that a range leaves out, "Rows 4-9" and then "Row 11",
are an error unless something between the two stands for them.`,

		CodeCopies: `The pattern names another number of a piece than it says to make.

    Arm (make 2)
    Rnd 1: 6 sc in magic ring. (6)
    Rnds 2-5: Sc in each st around. (6)

    Assembly
    Sew the 4 arms to the body.

Either "make 2" or the number named is wrong. Where several pieces share a name,
"Front leg" and "Back leg", the number of all of them is meant as well.`,

		CodeOverlap: `Two pieces are worked into the same stitch of a third.

    Panel
    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across. (20 sc)

    First Fin
    Row 1: Join yarn in 2nd st of Row 1 of Panel, sc in same st and in next 5 sts. (6 sc)

    Second Fin
    Row 1: Join yarn in 6th st of Row 1 of Panel, sc in same st and in next 5 sts. (6 sc)

The first takes stitches 2 to 7, and the second begins in the 6th. Move one of
them, or say that they share a stitch.`,

		CodePlaced: `Where a piece that is worked onto another sits on its row.

    Panel
    Ch 21.
    Row 1: Sc in 2nd ch from hook and in each ch across. (20 sc)

    Fin
    Row 1: Join yarn in 8th st of Row 1 of Panel, sc in same st and in next 5 sts. (6 sc)

There are 7 stitches before it and 7 after. Nothing has to be changed.`,

		CodeTooLarge: `A number is too large to be worked out stitch by stitch. It is a repeat of many
millions over unlike stitches, or a range of rows that never settles.

    Rnd 1: 6 sc in magic ring. (6)
    Rnds 2-90000: Sc in each st around, increasing 6 sts evenly.

What could be worked was. Look for a digit too many.`,

		CodeTooMuch: `The text has more rows or pieces than are read, and the rest is left out.

Put the pieces into files of their own.`,

		CodeTerms: `Which terms, US or UK, the pattern was read in, where it does not say.

    Ch 21.
    Row 1: Htr in 3rd ch from hook, miss next ch, htr in each ch to end.

"dc" and "tr" are words of both and mean different stitches. A line "US terms"
or "UK terms" near the top leaves no doubt.`,

		CodeSize: `A size is asked for that the pattern does not have. The finding names those it
has; spell it as the pattern does.`,

		CodeUndefined: `A shell, V-stitch or other group is used without being defined.

    Ch 20.
    Row 1: Sc in 2nd ch from hook, *skip 2 ch, shell in next ch, skip 2 ch, sc in next ch; rep from * across.

What print usually means was taken: a shell of 5 dc, a V of dc, ch 1, dc. Define
it among the special stitches: "Shell: 5 dc in one st".`,

		CodeEvenly: `So many stitches are to be increased or decreased evenly. Their number is worked
out; where they go is the maker's choice.

    Rnd 1: 24 sc in magic ring. (24)
    Rnd 2: Sc around, increasing 6 sts evenly. (30)

Nothing has to be changed. How they lie best is shown as a row would say it,
so that it can be written out: "(sc in next 3 sts, 2 sc in next st) 6 times".`,

		CodeMeasure: `Rows are to be repeated until the work measures something, and only a tape can
tell how many those are.

    Ch 11.
    Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)
    Row 2: Ch 1, turn, sc in each st across. (10 sc)
    Rep Row 2 until piece measures 20 cm.

They are worked out once, and the maker ends them by hand.`,
	}
})

// Codes lists every code, in order.
func Codes() []Code {
	out := make([]Code, 0, len(explanations()))
	for c := range explanations() {
		out = append(out, c)
	}
	sort.Slice(out, func(i, j int) bool { return out[i] < out[j] })
	return out
}

// Explain says what a code means, with an example. It is false for a code
// that does not exist.
func Explain(c Code) (string, bool) {
	s, ok := explanations()[c]
	return s, ok
}
