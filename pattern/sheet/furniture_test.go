package sheet

import (
	"strings"
	"testing"
)

// TestFurniture leaves out what a page has around a pattern, and nothing that is
// the author's.
func TestFurniture(t *testing.T) {
	const strip = "Skerry Strip\n\nUS terms\n\nPin it\n\nA strip to pin on a net.\n\nStrip\nCh 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10 sc)\n"
	for _, foot := range []string{"Share this post", "12 comments", "Leave a comment", "Posted by the quay in Strips", "Older Posts", "Share this post\n12 comments"} {
		_, d := sheetOf(strip+"\n"+foot+"\n", Options{})
		got := Text(d)
		if len(d.Unlike) > 0 || strings.Contains(got, foot) || strings.Contains(got, "comments") || strings.Contains(got, "Pin it") {
			t.Errorf("%q: %v\n%s", foot, d.Unlike, got)
		}
		if !strings.Contains(got, "A strip to pin on a net.") {
			t.Errorf("%q: the author's words are gone", foot)
		}
	}
	for _, own := range []string{"Please share your strips with me.", "Print the pattern at full size.", "Reply to the tide."} {
		if _, d := sheetOf(strip+"\n"+own+"\n", Options{}); !strings.Contains(Text(d), own) {
			t.Errorf("%q is left out", own)
		}
	}
}

// TestDashBeforeLabel has no line of a sheet end in a dash: print that does is
// taken for a word cut in two.
func TestDashBeforeLabel(t *testing.T) {
	_, d := sheetOf("Back\nCh 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10 sc)\nRep Row 1 until piece measures 12 cm.\n\nShape Armholes - Row 1: Sl st in first 2 sts, ch 1, sc in next 6 sts, leave rest. (6 sc)\n", Options{})
	got := Text(d)
	if !strings.Contains(got, "\nShape Armholes - Row 1: Sl st") {
		t.Errorf("the heading and its row are parted:\n%s", got)
	}
	for _, l := range Wrap("sc in each of the two- and three- and four- and five- and six-stitch gaps", func(l string) bool { return len(l) < 20 }) {
		if strings.HasSuffix(l, "-") {
			t.Errorf("a line ends in a dash: %q", l)
		}
	}
}
