package pattern

import "strconv"

// Some makers number rows with the alphabet: "Row A", "Row B", "Rows E to G: as Row C".
// Where a pattern has no row with a figure, its letters are read as the numbers they
// stand for: A is 1.

// numbersOfLetters turns the letters of rows into numbers: where the first row is A, the
// next B, and none has a figure.
func numbersOfLetters(toks []token) {
	next := int64(1)
	for i := 0; i+2 < len(toks); i++ {
		t := &toks[i]
		if !t.head || !t.in(numberedRows) {
			continue
		}
		switch n := letterNumber(&toks[i+1]); {
		case toks[i+1].kind == tNum && toks[i+2].kind != tEnd:
			return
		case n == next && (toks[i+2].isMark(":.)-(,") || toks[i+2].isAny("to", "and", "&", "/", "through")):
			next = n + 1
			if m := letterNumber(&toks[i+3]); toks[i+2].isAny("to", "and", "-", "&", "through") && m > n {
				next = m + 1
			}
		case n == 0 || n > next:
			return
		}
	}
	if next < 3 {
		return // "Row A" alone is a name
	}
	for i := 0; i+1 < len(toks); i++ {
		if !toks[i].in(numberedRows) {
			continue
		}
		for k := i + 1; k < len(toks); k += 2 {
			n := letterNumber(&toks[k])
			if n == 0 || n >= next {
				break
			}
			t := &toks[k]
			t.kind, t.num, t.text, t.opening, t.id = tNum, n, strconv.FormatInt(n, 10), 0, 0
			if k+1 < len(toks) && !toks[k+1].isAny("and", "&", "to", ",", "-", "through", "/") {
				break
			}
		}
	}
}

// numberedRows are the words that a letter may stand behind for a number.
var numberedRows = newWordSet("row rows rnd rnds round rounds")

// letterNumber is the place of a letter in the alphabet; 0 for any other word.
func letterNumber(t *token) int64 {
	if t.kind != tWord || len(t.text) != 1 || t.text[0] < 'a' || t.text[0] > 'z' {
		return 0
	}
	return int64(t.text[0]-'a') + 1
}
