package pattern

// Rows are not called rows everywhere: put into English word by word, a giro is a turn
// and a ronde a tour, and makers leave their own short words, "Omg. 1:", "Dan 2:",
// "V3:". Such a word numbers rows where line after line counts on behind it.

// rowsElsewhere are the words of other languages for a row or a round, and what they
// become in English: Garnstudio's glossaries. Those that English has other uses for need
// a longer list.
var (
	rowsElsewhere = newWordSet("omg omgang dan giro giri ronde toer toeren rang rangs reihe reihen runde runden rda varv rad pind hilera carrera vuelta vta carreira carr krs kerros kierros okr okrążenie rząd sıra riga")
	rowsAsWords   = newWordSet("turn turns tour tours step steps lap laps course courses circuit circuits tier circle")
)

// surveyElsewhere finds the words that number rows, and has them read as rounds.
func (r *reader) surveyElsewhere() {
	type list struct {
		heads    []int // tokens at which the word stands
		next     int64
		work     int
		straight bool // it counts from one on
	}
	var lists map[string]*list
	for _, ln := range r.lines {
		at, after, first, last := r.elsewhereAt(ln)
		if at < 0 {
			continue
		}
		word := singularRow(r.toks[at].text)
		l := lists[word]
		if l == nil {
			if lists == nil {
				lists = make(map[string]*list)
			}
			l = &list{straight: first <= 1, next: first}
			lists[word] = l
		}
		l.straight = l.straight && (first == l.next || first == 1)
		l.next = last + 1
		l.heads = append(l.heads, at)
		if r.tellsWork(line{after, ln.end}) {
			l.work++
		}
	}
	for _, l := range lists {
		fewest, work := 2, 1
		if r.toks[l.heads[0]].in(rowsAsWords) {
			fewest, work = 3, len(l.heads)/2+1
		}
		if len(l.heads) < fewest || !l.straight || l.work < work {
			continue
		}
		for _, at := range l.heads {
			r.callRound(at)
		}
	}
}

// elsewhereAt finds such a word at the head of a line, with the numbers that stand with
// it, and the token after them; at is -1 where the line has none.
func (r *reader) elsewhereAt(ln line) (at, after int, first, last int64) {
	i := r.labelStart(ln)
	called := func(i int) bool { return r.toks[i].in(rowsElsewhere) || r.toks[i].in(rowsAsWords) }
	at = i
	switch t := &r.toks[i]; {
	case t.kind == tOrd && called(i+1): // "1st step:"
		at, first, last, after = i+1, t.num, t.num, i+2
		if r.toks[after].isAny("-", "to") && r.toks[after+1].kind == tOrd && called(after+2) {
			last, after = r.toks[after+1].num, after+3
		}
	case called(i):
		after = i + 1
		if r.toks[after].is(".") {
			after++
		}
		n := &r.toks[after]
		if n.kind != tNum || n.frac || n.word || n.num > 999 {
			return -1, 0, 0, 0
		}
		first, last = n.num, n.num
		after++
		if r.toks[after].isAny("-", "to") && r.toks[after+1].kind == tNum && r.toks[after+1].num > last {
			last, after = r.toks[after+1].num, after+2
		}
	default:
		return -1, 0, 0, 0
	}
	if after >= ln.end || !r.toks[after].isMark(":.-)") {
		return -1, 0, 0, 0
	}
	return at, after + 1, first, last
}

// callRound has the word at a token read as one for a round, as well as the one that
// closes a range behind it, "4th step - 6th step".
func (r *reader) callRound(at int) {
	word := singularRow(r.toks[at].text)
	for i := at; i <= min(at+3, len(r.toks)-1); i += 3 {
		if t := &r.toks[i]; singularRow(t.text) == word {
			t.text = "rnd"
			t.opening, t.id = openingOf(t.text), vocabulary()[t.text].id
		}
	}
}

// singularRow is such a word without the s of more than one.
func singularRow(word string) string {
	if n := len(word); n > 4 && word[n-1] == 's' {
		return word[:n-1]
	}
	return word
}
