package pdf

import "crochet/tallyturn/pattern/sheet"

// wrap cuts a text into lines that fit, as sheet.Wrap does, and takes apart what
// has no space to be cut at: Chinese and Japanese between any two characters but
// before and behind their stops and brackets, anything else, such as an address,
// where the line ends.
func wrap(s string, fits func(string) bool) []string { return wrapBy(sheet.Wrap, s, fits) }

func wrapBy(by func(string, func(string) bool) []string, s string, fits func(string) bool) []string {
	var out []string
	left := "" // what an overlong line left for the next
	for _, l := range by(s, fits) {
		if left == "" && fits(l) {
			out = append(out, l)
			continue
		}
		if left != "" {
			l, left = left+" "+l, ""
		} else if n := len(out); n > 0 && parts([]rune(l)) {
			l, out = out[n-1]+" "+l, out[:n-1]
		}
		for rs := []rune(l); len(rs) > 0; {
			n := room(rs, fits)
			if n == len(rs) {
				left = string(rs)
				break
			}
			out = append(out, string(rs[:n]))
			for n < len(rs) && rs[n] == ' ' {
				n++
			}
			rs = rs[n:]
		}
	}
	if left != "" {
		out = append(out, left)
	}
	return out
}

// parts reports whether there is writing that goes without spaces.
func parts(rs []rune) bool {
	for i := 1; i < len(rs); i++ {
		if mayPart(rs[i-1], rs[i]) {
			return true
		}
	}
	return false
}

// room is how many characters go on a line: as far as the last space or the last
// two that may be parted, where there are such. It is at least one.
func room(rs []rune, fits func(string) bool) int {
	n, good := 1, 0
	for ; n < len(rs) && fits(string(rs[:n+1])); n++ {
		if rs[n] == ' ' || mayPart(rs[n-1], rs[n]) {
			good = n
		}
	}
	switch {
	case n == len(rs):
		return n
	case rs[n] == ' ' || mayPart(rs[n-1], rs[n]):
		return n
	case good > 0:
		return good
	}
	return n
}
