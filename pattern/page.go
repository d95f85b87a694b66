package pattern

import "strings"

// A pattern pasted with its page comes with words that are the page's own: ways
// about it before the pattern, and behind it what else there is, where to share
// it, and what readers said. None of them work a stitch, whatever numbers and
// words of the trade they hold.

// pageEnds are lines with which a page goes on where its pattern has ended.
var pageEnds = [...][]string{
	{"share"}, {"share", "this", "[post|pattern]"}, {"share", "on"}, {"sharing", "is", "caring"}, {"like", "this"}, {"related", "[posts|patterns]"},
	{"you", "may|might", "also", "like"}, {"more", "from"}, {"leave", "a", "comment|reply|review"}, {"comments|reviews"}, {"reader", "comments"}, {"post", "a", "comment"}, {"post", "navigation"},
	{"filed", "under"}, {"posted", "in|by"}, {"tagged|tags|categories"}, {"previous|next|newer|older", "post"}, {"subscribe|newsletter"}, {"join", "my", "newsletter"}, {"sign", "up"},
	{"back", "to", "top"}, {"about", "the", "author"}, {"about", "me"}, {"pin", "it"}, {"rate", "this"}, {"did", "you", "make", "this"}, {"customer", "reviews"}, {"add", "to", "basket|cart"},
}

// pageWords reports a line of a page's own: one of the above, alone or before a
// colon, a dash or a bar; "12 comments", "6 thoughts on".
func (r *reader) pageWords(ln line) bool {
	from := ln.start
	if r.toks[from].kind == tNum && from+1 < ln.end {
		return r.toks[from+1].isAny("comment", "comments", "thoughts", "thought", "replies", "responses", "reviews")
	}
	x := r.scratch(from)
	for _, words := range pageEnds {
		n := x.phraseAt(0, words...)
		if end := from + n; n > 0 && end <= ln.end && (end == ln.end || r.toks[end].isMark(":-|/(>") || r.toks[end].kind == tNum && end+1 >= ln.end) {
			return true
		}
	}
	return false
}

// pageEnd finds the line with which a page goes on behind its pattern: none after it
// has a row's label, or is a heading of the pattern's. It is the number of lines
// where the pattern goes to the end, or has no rows.
func (r *reader) pageEnd() int {
	end, i := len(r.lines), len(r.lines)-1
	for ; i >= 0 && !r.labelsRow(i) && !r.namesSection(i); i-- {
		if r.pageWords(r.lines[i]) {
			end = i
		}
	}
	for ; end < len(r.lines) && !r.labelsRow(i); i-- {
		if i < 0 {
			return len(r.lines)
		}
	}
	return end
}

// labelsRow reports whether a line begins with the label of a row.
func (r *reader) labelsRow(i int) bool {
	if i < 0 {
		return false
	}
	l, ok := r.labelAt(r.lines[i].start)
	return ok && l.strong && !l.weak
}

// namesSection reports whether a line is a heading that the reader knows: "Finishing".
func (r *reader) namesSection(i int) bool {
	ln := r.lines[i]
	if r.toks[ln.end-1].end-r.toks[ln.start].start > longSection {
		return false
	}
	_, ok := sectionNames[strings.ToLower(strings.Trim(r.text(ln.start, ln.end), " :.*#_"))]
	return ok
}

// longSection is more bytes than a heading has with the marks about it: what is
// longer is not looked up.
const longSection = 400

// pageWay reports a line before the pattern that only leads about a page: "Skip to
// content", "Menu", "Print this pattern".
func (r *reader) pageWay(ln line) bool {
	t := &r.toks[ln.start]
	if r.piece != nil || ln.end-ln.start > 5 || !t.isAny("skip", "jump", "go", "menu", "print", "search") {
		return false
	}
	x := r.scratch(ln.start)
	return (x.phrase("skip|jump|go", "to", "[the|main]", "content|contents|pattern|recipe|navigation|comments|footer|search") || x.phrase("menu|search") || x.phrase("print", "[this|the]", "[pattern|recipe|page|post]")) && x.p >= ln.end
}
