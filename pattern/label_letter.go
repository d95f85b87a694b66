package pattern

// A maker's own notes number the rounds of each part behind its letter: "e1"
// for the ear, "f1" for the flap. Which letters do so shows in that they count
// on from one.

// surveyLetters finds the letters that number rows.
func (r *reader) surveyLetters() {
	next := make(map[string]int64)
	seen := make(map[string]int)
	for _, ln := range r.lines {
		t := &r.toks[ln.start]
		if t.kind != tWord || len(t.text) != 1 || t.is("r") || !r.toks[ln.start+1].glued || r.toks[ln.start+1].kind != tNum {
			continue
		}
		x := r.scratch(ln.start + 1)
		l := label{}
		if !x.labelNumbers(&l) || x.p >= ln.end {
			continue
		}
		if first := l.numbers.First.N; first == 1 || next[t.text] > 0 && first >= next[t.text] && first <= next[t.text]+2 {
			next[t.text] = l.numbers.Last.N + 1
			seen[t.text]++
		}
	}
	for letter, n := range seen {
		if n >= 3 || n == 2 && len(seen) > 1 {
			if r.letters == nil {
				r.letters = make(map[string]bool)
			}
			r.letters[letter] = true
		}
	}
}

// letterLabel reports a label such as "e3" at a token.
func (r *reader) letterLabel(t, number *token) bool {
	return len(r.letters) > 0 && t.head && r.letters[t.text] && number.glued && number.kind == tNum
}

// letterPiece begins the part that another letter numbers.
func (r *reader) letterPiece(start int) {
	t := &r.toks[start]
	letter := ""
	if r.letterLabel(t, &r.toks[start+1]) {
		letter = t.text
	}
	if letter != r.letter && !r.heading.set && r.piece != nil && len(r.letters) > 0 && (letter != "" || t.is("r")) {
		name := letter
		if name == "" {
			name = "r"
		}
		r.addPiece(&Piece{Copies: 1, Line: r.src.lineAt(int(t.start)), Name: name + r.toks[start+1].text, apart: letter != ""})
	}
	if letter != "" || t.is("r") {
		r.letter = letter
	}
}
