package pattern

import "sort"

// The codes of findings. They are stable: scripts and makers may rely on them.
const (
	CodeTotal     Code = "total-differs"   // the row makes another number than it states
	CodeMisfit    Code = "repeat-misfit"   // a repeat does not come out whole
	CodeOverrun   Code = "row-overrun"     // the row needs more places than there are
	CodeLeft      Code = "left-unworked"   // places are left and nobody says so
	CodeStepped   Code = "stepped-over"    // a named stitch is reached by passing others in silence
	CodeNoPlace   Code = "no-such-place"   // a place is named that the row below does not have
	CodeUnread    Code = "unread"          // words that were not understood
	CodeTrusted   Code = "trusted"         // only the author can know the number
	CodeReading   Code = "reading"         // two readings were possible; which was taken
	CodeCounting  Code = "way-of-counting" // how the author counts a total
	CodeNoRow     Code = "no-such-row"     // a row is named that is not there
	CodeRange     Code = "row-numbers"     // row numbers that do not follow
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

var explanations = map[Code]string{
	CodeTotal: `The stitches the row makes, worked one by one into the row below, are not the
number the row states.

    Ch 20.
    Row 1: Sc in 2nd ch from hook and in each ch across. (20 sc)

Twenty chains less the one that is skipped leave 19. Either the total or a
number in the row is wrong; the hint names the smallest change under which this
row and the next agree.`,
	CodeMisfit: `A repeat is to be worked around, across or so many times, and the places of the
row below do not divide by it.

    Rnd 4: (Sc in next 3 sts, inc) around. (24)      worked over 18 stitches

Four passes use 16 of them and two are left. The finding gives the number of
places left and a number of stitches on which the repeat would come out.`,
	CodeOverrun: `The row works into more places than the row below offers.

    Join yarn in 16th st of Row 2, sc in same st and in next 6 sts.   20 stitches

The seven stitches would need places 16 to 22.`,
	CodeLeft: `Stitches of the row below are left unworked and the row does not say so. If that
is meant, write "leave remaining sts unworked".

    Row 2: Ch 1, turn, sc in next 18 sts. (18 sc)    worked over 20 stitches`,
	CodeStepped: `The row names a kind of stitch, and other stitches stand before the next one of
that kind. They were passed over; a written skip would say it.`,
	CodeNoPlace: `The row is worked into a place that the row below does not have: a ch-2 space
where there are only ch-1 spaces, a dc where there are only sc. It was worked
into the nearest thing there is.`,
	CodeUnread: `Some words of the row could be an instruction and were not understood. The row is
not proven; its stated total is taken for the next row, and the walk shows it as
it is written.`,
	CodeTrusted: `The number of stitches cannot be had from the row itself ("sc evenly along the
edge"). The stated total is taken.`,
	CodeReading: `The words can be read in two ways, and the totals or the fit show which is meant.
The note says which reading was taken.

    *sc in next st, 2 sc in next st; rep from * 6 times. (18 sc)   over 12 stitches

Six times in all agrees; six times more would need 14 stitches.`,
	CodeCounting: `The stated total agrees once chains, slip stitches or the turning chain are
counted, or are not. The note says which.`,
	CodeNoRow: `A row is referred to that the pattern does not have, or that comes later, or is
the row itself.`,
	CodeRange: `The numbers of rows do not follow one another, or a range of rows is no multiple
of the rows it repeats.

    Rows 7-9: Rep Rows 5-6.      three rows cannot be pairs`,
	CodeOverlap: `Two pieces are worked into the same stitch of a third.`,
	CodePlaced:  `Where a piece that is worked onto another sits on its row.`,
	CodeTooLarge: `A number is too large to be worked out: a repeat of many millions over unlike
stitches, or a range of rows that never settles. What could be worked was.`,
	CodeTooMuch: `The text has more rows or pieces than are read. The rest is left out.`,
	CodeTerms: `Which terms, US or UK, the pattern was read in, or that words of both are mixed.
"dc" and "tr" exist in both and mean different stitches.`,
	CodeSize: `A size was asked for that the pattern does not have.`,
	CodeUndefined: `A shell, V-stitch or other group is used without a definition. What print usually
means was taken: a shell of 5 dc, a V of dc, ch 1, dc.`,
	CodeEvenly: `So many stitches are to be increased or decreased evenly. The count is worked out;
where they go is the maker's choice.`,
	CodeMeasure: `Rows are to be repeated until the work measures something. They are worked out
once; the maker ends them by hand.`,
}

// Codes lists every code, in order.
func Codes() []Code {
	out := make([]Code, 0, len(explanations))
	for c := range explanations {
		out = append(out, c)
	}
	sort.Slice(out, func(i, j int) bool { return out[i] < out[j] })
	return out
}

// Explain says what a code means, with an example. It is false for a code
// that does not exist.
func Explain(c Code) (string, bool) {
	s, ok := explanations[c]
	return s, ok
}
