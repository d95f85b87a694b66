package stitch

// Terms is which side of the Atlantic a pattern's words come from.
type Terms uint8

// The two sets of terms. Unknown where neither is said.
const (
	Unknown Terms = iota
	US
	UK
)

func (t Terms) String() string {
	switch t {
	case US:
		return "US"
	case UK:
		return "UK"
	}
	return ""
}
