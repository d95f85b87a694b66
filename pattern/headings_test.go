package pattern

import "testing"

// TestTitlesInAllLetters takes names in any letters, adorned or not, for what
// they are.
func TestTitlesInAllLetters(t *testing.T) {
	for _, name := range []string{
		"Harbour Net", "Żółw Ærø", "Πλώρη", "Морской Ёж", "海星", "صدف", "Crab 🦀 and Shell", "🦀🐙 Net", "Star ♥ Net",
		"Harbour “Net”", "“Net”", "Ship’s Net & Buoy",
	} {
		p := Read(name + "\n\nUS terms\n\n🦀 Claw (make 2)\nCh 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10 sc)\n")
		if p.Title != name {
			t.Errorf("%q has the title %q", name, p.Title)
		}
		if len(p.Pieces) != 1 || p.Pieces[0].Name != "🦀 Claw" || p.Pieces[0].Copies != 2 {
			t.Errorf("%q has the pieces %+v", name, p.Pieces)
		}
	}
	for _, words := range []string{"where is it?", "crab 🦀.", "“Ch 1, turn”"} {
		if p := Read(words + "\n\nUS terms\n\nStrip\nCh 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10 sc)\n"); p.Title != "" {
			t.Errorf("%q is the title %q", words, p.Title)
		}
	}
}
