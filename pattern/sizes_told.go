package pattern

import "strings"

// sizesTold reads which sizes there are from a sentence that tells it, as leaflets of
// garments do (common practice, no source):
//
//	told   = ( "directions" | "instructions" | ... ) ( "are" | "is" ) [ "written" | "given" ] "for" names [ changes ] .
//	changes = ( "," | ";" | "." ) [ "with" ] ( "changes" | ... ) "for" names "are in parentheses"
//	        | ( "," | ";" | "." ) names "are in brackets" .
//	names  = name { ( "," | "and" | "or" ) name } .
//	name   = [ "the" ] [ "size" ] words [ "size" ] [ "(" measure ")" ] .
//
// "Directions are for Small (8-10). Changes for Medium (12-14) and Large (16) are in
// parentheses.": what stands in brackets behind a name is its measure. Only a sentence with
// as many sizes as the numbers of the pattern have is one of these.
func (r *reader) sizesTold() []string {
	tries := 0
	for i := 0; i < len(r.toks) && tries < maxSizeLines; i++ {
		if !r.toks[i].isAny("directions", "instructions", "pattern", "patterns", "figures", "numbers", "crochet", "written") {
			continue
		}
		x := r.scratch(i + 1)
		x.accept("directions", "instructions")
		x.accept("are", "is")
		x.accept("written", "given", "worked", "set", "stated")
		if !x.accept("for") {
			continue
		}
		tries++
		first := x.p
		names := r.namesOfSizes(x)
		x.accept(",", ";", ".", ":")
		x.accept("and", "with", "the")
		if x.accept("changes", "change", "alterations", "numbers", "figures", "other", "those", "larger") {
			x.accept("are", "given")
			if x.accept("for") {
				names = append(names, r.namesOfSizes(x)...)
			}
		} else if rest := r.namesOfSizes(x); x.phrase("are|is|follow|in", "[all|given|set|shown|written|inside]", "[in|within|inside]", "[square|round|the]", "brackets|parentheses|parenthesis|parens|bracket|()|[]") {
			names = append(names, rest...)
		}
		if r.areSizes(names) {
			return names
		}
		if end := r.lineEnd(first); x.at(0).kind != tEnd && first < end {
			if names := r.sizeNames(first, end); r.areSizes(names) {
				return names
			}
		}
	}
	return nil
}

// areSizes reports names that can be sizes, as many as the numbers of the pattern have.
func (r *reader) areSizes(names []string) bool {
	if len(names) < 2 {
		return false
	}
	for _, n := range names {
		first, _, _ := strings.Cut(strings.ToLower(n), " ")
		if sizeLetter(sizeKey(n)) == "" && !agesOfSizes[first] && !strings.ContainsAny(n, "0123456789") {
			return false
		}
	}
	return r.listsOf(len(names))
}

// agesOfSizes are the words with which the names of other sizes begin.
var agesOfSizes = map[string]bool{
	"adult": true, "baby": true, "child": true, "child's": true, "extra": true, "infant": true, "junior": true, "man's": true, "men's": true,
	"newborn": true, "teen": true, "toddler": true, "woman's": true, "women's": true, "youth": true, "small": true, "medium": true, "large": true,
}

// maxSizeLines bounds how many sentences are tried as the one that tells the sizes.
const maxSizeLines = 8

// namesOfSizes reads names of sizes in a sentence, without the measures behind them.
func (r *reader) namesOfSizes(x *rowReader) []string {
	var names []string
	for len(names) < maxInferred {
		for x.accept("the", "and", "or", "&", ",", "/", "ladies'", "misses'", "women's", "men's", "a") || len(names) > 0 && x.at(0).isMark("([{") && x.at(1).kind == tWord && x.accept("(", "[", "{") {
		}
		x.accept("size", "sizes")
		from := x.p
		for x.p-from < 4 && !x.at(0).separator() && !x.at(0).isMark("()[]{}/.") && !x.at(0).in(pastSizes) && x.at(0).kind != tEnd {
			x.p++
		}
		if x.p == from {
			return names
		}
		names = append(names, r.text(from, x.p))
		x.accept("size", "sizes")
		if x.at(0).isMark("([{") {
			for k := 1; k < 12; k++ {
				if x.at(k).isMark(")]}") {
					x.p += k + 1
					break
				}
			}
		}
	}
	return names
}

// pastSizes are words that end a list of sizes.
var pastSizes = newWordSet("size sizes and or & are is in with given changes the follow only come comes first")
