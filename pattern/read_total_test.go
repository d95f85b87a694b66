package pattern

import "testing"

// TestTotalPartSpans holds every number of a stated total to where it stands:
// inside the total, and one after the other.
func TestTotalPartSpans(t *testing.T) {
	parts := 0
	for _, w := range allWritten(t) {
		p := Read(w.text)
		for _, pc := range p.Pieces {
			for _, r := range pc.Rows {
				if r.Total == nil {
					continue
				}
				last := r.Total.Span.Start
				for _, part := range r.Total.Parts {
					parts++
					if part.Span.Empty() || part.Span.Start < last || part.Span.End > r.Total.Span.End || !part.Span.Contains(part.N.Span) {
						t.Errorf("%s: %q of %q stands at %v", w.name, p.Source.Slice(part.Span), r.Total.Text, part.Span)
					}
					last = part.Span.End
				}
			}
		}
	}
	if parts < 500 {
		t.Errorf("only %d numbers seen", parts)
	}
}
