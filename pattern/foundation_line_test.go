package pattern

import "testing"

// TestFoundationLines reads the foundation of a piece in the words that print
// and pages have for it, behind a section that says other things of chains.
// Common practice, no source.
func TestFoundationLines(t *testing.T) {
	for _, line := range []string{
		"Ch 21.", "Foundation: 21ch", "Make 21 ch.", "BACK: Ch 21.", "BACK: Starting at lower edge, ch 21.", "Commence with 21 ch.",
		"THE EDGING.\u2014Commence with 21 ch.", "Base chain: 21", "Crochet a chain of 21.", "Set-up: ch 21.", "Start: ch 21",
		"Using 5 mm hook and yarn A make 21 ch loosely", "To start: 21 ch", "Start by chaining 21", "Lower edge. Ch 21.", "In navy, ch 21.",
		"Navy: ch 21", "Foundation of 21 ch", "Cuff: ch 21.", "Foundation ch (multiple of 4 plus 1): ch 21.",
	} {
		for _, before := range []string{"", "Net panel\nUse a 4 mm hook.\n\n", "Net panel\n\nBACK\n", "Special stitches\nShell: 5 dc in one st\nPicot: ch 3\n\n", "Gauge: 4 sts = 1 inch.\n\nNOTE: The ch 3 at beg of a row always counts as 1 dc.\n\n"} {
			p := Read(before + line + "\nRow 1: Sc in 2nd ch from hook and in each ch across.\nRow 2: Ch 1, turn, sc in each st across.\n").Prove(Options{Terms: 1})
			var made []int64
			for _, pc := range p.Pieces {
				for _, r := range pc.Rows {
					made = append(made, r.Made)
				}
			}
			if len(made) != 2 || made[0] != 20 || made[1] != 20 {
				t.Errorf("%q after %q: rows make %v, want 20 and 20", line, before, made)
			}
		}
	}
	for _, first := range []string{"Foundation row", "Base row"} {
		p := Read("BACK\nCommence with 58 ch.\n" + first + ": 1 tr into 4th ch from hook, 1 tr into each ch to end. 56 sts.\n").Prove(Options{Terms: 2})
		if len(p.Pieces) != 1 || p.Pieces[0].Rows[0].Status != Agrees || p.Pieces[0].Rows[0].Available != 58 {
			t.Errorf("%q is not worked into the 58 chains", first)
		}
	}
	for _, line := range []string{"Picot: ch 3", "Loop: ch 8", "The turning chain: ch 3", "Gauge: 21 ch"} {
		p := Read("Special stitches\nShell: 5 dc in one st\n" + line + "\nRow 1: Sc in 2nd ch from hook and in each ch across.\n")
		for _, pc := range p.Pieces {
			for _, r := range pc.Rows {
				if len(r.Setup) > 0 {
					t.Errorf("%q is read as a foundation", line)
				}
			}
		}
	}
}
