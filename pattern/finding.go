package pattern

// Severity grades a finding.
type Severity uint8

// The grades, mildest first.
const (
	Note    Severity = iota // how something was read; nothing to mend
	Warning                 // works out, but a maker may stumble
	Error                   // a number in the pattern is wrong
)

var severityNames = [...]string{"note", "warning", "error"}

func (s Severity) String() string { return severityNames[s] }

// Code names a kind of finding. Codes are stable: scripts may rely on them.
type Code string

// Finding is one thing to say about a pattern.
type Finding struct {
	Severity Severity
	Code     Code
	Span     Span   // the words it is about, in the source
	Message  string // what was expected and what was found
	Hint     string // the most likely mend, or ""
}
