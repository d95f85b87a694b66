package pattern

import "strings"

// A pattern pasted with its page comes with words that are the page's own: ways
// about it before the pattern, and behind it what else there is, where to share
// it, and what readers said. None of them work a stitch, whatever numbers and
// words of the trade they hold.

// pageEnds are lines with which a page goes on where its pattern has ended.
var pageEnds = [...]string{
	"share", "share this", "share this post", "share this pattern", "share on", "sharing is caring", "like this", "related", "related posts", "related patterns",
	"you may also like", "you might also like", "more from", "leave a comment", "leave a reply", "leave a review", "comments", "reviews", "reader comments", "post a comment", "post navigation",
	"filed under", "posted in", "posted by", "tagged", "tags", "categories", "previous post", "next post", "newer post", "older post", "subscribe", "newsletter", "join my newsletter", "sign up",
	"back to top", "about the author", "about me", "pin it", "rate this", "did you make this", "customer reviews", "add to basket", "add to cart",
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
		n := x.wordsAt(words)
		if n == 0 {
			continue
		}
		if end := from + n; end >= ln.end || r.toks[end].isMark(":-|/(>") || r.toks[end].kind == tNum && end+1 >= ln.end {
			return true
		}
	}
	return false
}

// wordsAt is how many tokens some words with blanks between them are, where they
// stand next; 0 where they do not.
func (x *rowReader) wordsAt(words string) int {
	n, from := 0, 0
	for i := 0; i <= len(words); i++ {
		if i < len(words) && words[i] != ' ' {
			continue
		}
		if x.at(n).text != words[from:i] || n > 0 && x.at(n).head {
			return 0
		}
		n, from = n+1, i+1
	}
	return n
}

// pageEnd finds the line with which a page goes on behind its pattern: none after it
// has a row's label, or is a heading of the pattern's. It is the number of lines where the pattern goes to the end.
func (r *reader) pageEnd() int {
	end, rows := len(r.lines), false
	for i := range r.lines {
		ln := r.lines[i]
		if l, ok := r.labelAt(ln.start); ok && l.strong && !l.weak {
			rows, end = true, len(r.lines)
		} else if _, ok := sectionNames[strings.ToLower(strings.Trim(r.text(ln.start, ln.end), " :.*#_"))]; ok {
			end = len(r.lines) // the author goes on: "Finishing"
		} else if rows && end == len(r.lines) && r.pageWords(ln) {
			end = i
		}
	}
	return end
}

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
