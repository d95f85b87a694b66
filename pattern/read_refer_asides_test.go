package pattern

import "testing"

// What an author says beside the work changes no row of it.
func TestAsides(t *testing.T) {
	const rows = "US terms\n\nCh 9.\nRow 1: Sc in 2nd ch from hook and in each ch across. (8)\nRow 2: Ch 1, turn, sc in each st. (8)\n"
	for _, tail := range []string{
		"Keep repeating Row 2 until it's as long as you like, mine's 90 cm, finishing with a Row 2.",
		"Rep Row 2 until it reaches round your wrist, ours took 54 rows, and end with a Row 2.",
		"Row 3: Ch 1, turn, sc in each st.\nFinish stuffing, F/O, thread the tail through the last 8 sts.",
	} {
		p := Read(rows + tail).Prove(Options{})
		for _, r := range p.Pieces[0].Rows {
			if r.Status == Unread || r.Made != 8 {
				t.Errorf("%q: %s is %v and makes %d", tail, r.Label, r.Status, r.Made)
			}
		}
	}
	p := Read(rows + "Row 3: Sc2tog 5 times.\nFinish stuffing, F/O, thread the tail through the last 4 sts.").Prove(Options{})
	if rs := p.Pieces[0].Rows; rs[len(rs)-1].Status != Differs {
		t.Errorf("behind F/O a row that overruns is %v", rs[len(rs)-1].Status)
	}
}
