package pattern

import "testing"

// A set must answer as the list of its words does, for words and for marks.
func TestWordSet(t *testing.T) {
	has := func(text string, s *wordSet) bool { toks := lex(smooth(text)); return toks[0].in(s) }
	for _, c := range []struct {
		text string
		set  *wordSet
		want bool
	}{
		{"Rnd", rowWords, true}, {"rnds", rowWords, true}, {"turn", rowWords, false}, {"6", rowWords, false},
		{"first", plainWordsBefore, false}, {"beg", plainWordsBefore, true},
		{"&", afterNumber, true}, {")", afterNumber, true}, {"(", afterNumber, false}, {"†", afterNumber, false}, {"total", afterNumber, true},
		{"inc'd", partlyWords, true}, {"", partlyWords, false}, {"cro\u00adchet", makeWords, true},
		{"2nd", nextWords, false}, {"2", totalLeads, false}, {"=", totalLeads, true},
	} {
		if got := has(c.text, c.set); got != c.want {
			t.Errorf("%q is in the set: %v, want %v", c.text, got, c.want)
		}
	}
	// Whatever the lexer makes of a word that has a number, it keeps the number.
	for w, m := range vocabulary() {
		toks := lex(w)
		if len(toks) == 2 && toks[0].text == w && toks[0].named() && toks[0].id != m.id {
			t.Errorf("%q has the number %d, want %d", w, toks[0].id, m.id)
		}
	}
	// "1st" and "first" are one word, and letters that stand for a stitch are it.
	if a, b := lex("1st")[0], lex("first")[0]; a.id != b.id {
		t.Errorf("1st has the number %d, first %d", a.id, b.id)
	}
}
