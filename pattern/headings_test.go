package pattern

import "testing"

// TestTitlesInAllLetters takes names in any letters, adorned or not, for what
// they are.
func TestTitlesInAllLetters(t *testing.T) {
	for _, name := range []string{
		"Harbour Net", "Żółw Ærø", "Πλώρη", "Морской Ёж", "海星", "صدف", "Crab 🦀 and Shell", "🦀🐙 Net", "Star ♥ Net",
		"Harbour “Net”", "“Net”", "Ship’s Net & Buoy",
		"little starfish", "star stitch mat", "☆ 海星", "编织图解：海星杯垫", "ヒトデ（5目）のコースター", "'Whelk' mat", "2 Starfish", "Whelk: a mat", "The Sea, the Sea", "whelk!",
	} {
		p := Read(name + "\n\nUS terms\n\n🦀 Claw (make 2)\nCh 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10 sc)\n")
		if p.Title != name {
			t.Errorf("%q has the title %q", name, p.Title)
		}
		if len(p.Pieces) != 1 || p.Pieces[0].Name != "🦀 Claw" || p.Pieces[0].Copies != 2 {
			t.Errorf("%q has the pieces %+v", name, p.Pieces)
		}
	}
	for _, words := range []string{"where is it?", "crab 🦀.", "“Ch 1, turn”", "ch 11", "sc around", "make two"} {
		if p := Read(words + "\n\nUS terms\n\nStrip\nCh 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10 sc)\n"); p.Title != "" {
			t.Errorf("%q is the title %q", words, p.Title)
		}
	}
}

// TestWrappedDefinition reads a definition that goes over two lines as it reads it
// on one.
func TestWrappedDefinition(t *testing.T) {
	for _, gap := range []string{" ", "\n"} {
		text := "Hawser\n\nUS terms\n\nC4 = cable over 4: skip 2 sts, FPtr around each of the next 2 sts, then" + gap +
			"passing in front of them FPtr around each of the 2 skipped sts\n\nCh 13.\nRow 1: Dc in 4th ch from hook and in each ch across. (11)\n" +
			"Row 2: Ch 3, turn, dc in next 3 sts, C4, dc in next 3 sts. (11)\n"
		if p := Read(text).Prove(Options{}); p.Errors() > 0 || p.Pieces[0].Rows[1].Status != Agrees {
			t.Errorf("%d errors with %q between the lines", p.Errors(), gap)
		}
	}
}

// TestDefinitionApart takes a definition for one where a blank line parts it
// from the heading above, though it begins as work does.
func TestDefinitionApart(t *testing.T) {
	for _, def := range []string{
		"FPdc (front post double crochet): yarn over, insert hook from front to back to front around the post of the st, pull up a loop, (yarn over, draw through 2 loops) twice.",
		"BPdtr (back post double treble crochet): (yarn over) 3 times, insert hook from back to front to back around the post of the st, pull up a loop, (yarn over, draw through 2 loops) 4 times.",
	} {
		p := Read("Rope Rib\n\nUS terms\n\nSpecial stitches\n\n" + def + "\n\nPattern\n\nCh 25.\n\nRow 1: Sc in 2nd ch from hook and in each ch across. (24 sc)\n").Prove(Options{})
		if p.Errors() > 0 || len(p.Findings) > 0 || len(p.Pieces) != 1 || len(p.Pieces[0].Rows) != 1 {
			t.Errorf("%s\nreads as work: %v", def, p.Findings)
		}
	}
}

// TestBoldHash reads a row's number behind a hash where it is set in bold.
func TestBoldHash(t *testing.T) {
	for _, hash := range []string{"#", `\#`} {
		p := Read("US terms\n\n**" + hash + "1 -** 9 hdc in MC, join - 9\n\n**" + hash + "2 & " + hash + "3 -** ch 1, hdc around, join - 9\n\n**" + hash + "4 -** ch 1, 2 hdc in ea st, join - 18\n").Prove(Options{})
		if len(p.Pieces) != 1 || p.Pieces[0].Len() != 4 || p.Errors() > 0 {
			t.Errorf("%q: %d pieces, %v", hash, len(p.Pieces), p.Findings)
		}
	}
}

// TestLastSlipJoins takes a slip stitch that ends a round for its join, with a
// full stop behind it or without.
func TestLastSlipJoins(t *testing.T) {
	for _, stop := range []string{"", "."} {
		p := Read("UK terms\n\nSole\n13 ch.\nRnd 1: 2 dc in 2nd ch from hook, 1 dc in each of next 10 ch, 4 dc in last ch; along the under side of the ch, 1 dc in each of next 10 ch, 2 dc in the ch that holds the first 2 dc, ss" + stop + "\n").Prove(Options{})
		if n, ok := p.Pieces[0].Rows[0].Expect(); !ok || n != 28 || p.Pieces[0].Rows[0].Taken != 22 {
			t.Errorf("%q: %d stitches in %d", stop, n, p.Pieces[0].Rows[0].Taken)
		}
	}
}
