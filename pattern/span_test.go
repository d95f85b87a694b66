package pattern

import (
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"
)

// TestPosition holds the index of columns to counting from the start of the
// line, over lines long and short and bytes that are no text.
func TestPosition(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		parts := rapid.SliceOfN(rapid.SampledFrom([]string{"\n", "a", "é", "\u2013", "\U0001f980", "\xff", "\xe2\x80", strings.Repeat("sc, ", 400), strings.Repeat("ö", 1500)}), 0, 12).Draw(t, "parts")
		text := strings.Join(parts, "")
		src := NewSource(text)
		for range 20 {
			at := rapid.IntRange(0, len(text)).Draw(t, "at")
			start := strings.LastIndexByte(text[:at], '\n') + 1
			wantLine := strings.Count(text[:at], "\n") + 1
			wantColumn := utf8.RuneCountInString(text[start:at]) + 1
			if line, column := src.Position(at); line != wantLine || column != wantColumn {
				t.Fatalf("offset %d of %d is %d:%d, want %d:%d", at, len(text), line, column, wantLine, wantColumn)
			}
		}
	})
}

// TestLines cuts a text as a reader of it would.
func TestLines(t *testing.T) {
	src := NewSource("Ch 9.\r\n\nRow 1: sc.")
	if src.Lines() != 3 {
		t.Fatalf("%d lines, want 3", src.Lines())
	}
	for n, want := range []string{"", "Ch 9.", "", "Row 1: sc.", ""} {
		if got := src.Line(n); got != want {
			t.Errorf("line %d is %q, want %q", n, got, want)
		}
	}
}

// BenchmarkPosition asks for the place of a finding at every 100th byte of a
// line of a megabyte.
func BenchmarkPosition(b *testing.B) {
	src := NewSource(strings.Repeat("sc in next st, ", 1<<20/15))
	b.SetBytes(int64(len(src.Text)))
	for b.Loop() {
		for at := 0; at < len(src.Text); at += 100 {
			src.Position(at)
		}
	}
}
