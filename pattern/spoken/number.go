package spoken

import "strings"

var small = [...]string{"zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten",
	"eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen"}

var tens = [...]string{2: "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"}

var thousands = [...]string{"", "thousand", "million", "billion", "trillion", "quadrillion", "quintillion"}

// cardinal says a number. The British say "and" before the tens, and
// Americans leave it out.
func cardinal(n int64, and bool) string {
	if n < 0 {
		// not -n: the least number has no opposite
		return "minus " + magnitude(uint64(-(n+1))+1, and)
	}
	return magnitude(uint64(n), and)
}

func magnitude(n uint64, and bool) string {
	if n == 0 {
		return small[0]
	}
	var groups []uint64
	for ; n > 0; n /= 1000 {
		groups = append(groups, n%1000)
	}
	var said []string
	for i := len(groups) - 1; i >= 0; i-- {
		g := groups[i]
		if g == 0 {
			continue
		}
		if i == 0 && and && g < 100 && len(said) > 0 {
			said = append(said, "and")
		}
		said = append(said, hundreds(g, and))
		if i > 0 {
			said = append(said, thousands[i])
		}
	}
	return strings.Join(said, " ")
}

// hundreds says a number from 1 to 999.
func hundreds(n uint64, and bool) string {
	if n >= 100 {
		s := small[n/100] + " hundred"
		if n %= 100; n == 0 {
			return s
		}
		if and {
			s += " and"
		}
		return s + " " + hundreds(n, and)
	}
	switch {
	case n < 20:
		return small[n]
	case n%10 == 0:
		return tens[n/10]
	}
	return tens[n/10] + "-" + small[n%10]
}

var odd = map[string]string{"one": "first", "two": "second", "three": "third", "five": "fifth", "eight": "eighth", "nine": "ninth", "twelve": "twelfth"}

// ordinal says the place in a row that a number stands for: "twenty-first".
func ordinal(n int64, and bool) string {
	s := cardinal(n, and)
	at := strings.LastIndexAny(s, " -") + 1
	last := s[at:]
	switch {
	case odd[last] != "":
		last = odd[last]
	case strings.HasSuffix(last, "y"):
		last = strings.TrimSuffix(last, "y") + "ieth"
	default:
		last += "th"
	}
	return s[:at] + last
}

// digits says a string of figures one by one, as a number too long to count.
func digits(s string) string {
	var said []string
	for i := 0; i < len(s); i++ {
		if '0' <= s[i] && s[i] <= '9' {
			said = append(said, small[s[i]-'0'])
		}
	}
	return strings.Join(said, " ")
}
