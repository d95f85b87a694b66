package cue

import (
	"encoding/csv"
	"strings"
	"testing"
	"unicode"

	"pgregory.net/rapid"

	"crochet/tallyturn/counter/film"
)

// A reader that has nothing to do with the writer but RFC 4180 finds a row for
// each cut, lines that end as they must, and no cell that begins as a formula.
func TestAnyCSV(t *testing.T) {
	format, _ := Named("csv")
	rapid.Check(t, func(t *rapid.T) {
		l := anyList(t)
		out, _, err := Write(l, format, Options{})
		if err != nil {
			t.Fatal(err)
		}
		records, err := readCSV(string(out))
		if err != nil || len(records) != len(l.Cuts)+1 {
			t.Fatalf("%d rows (%v):\n%s", len(records), err, out)
		}
		for i, r := range records[1:] {
			if len(r) != len(csvHead) {
				t.Fatalf("row %d has %d columns", i, len(r))
			}
			for k, cell := range r {
				if cell != "" && strings.ContainsAny(cell[:1], "=+-@\t\r\n") {
					t.Errorf("%s: %q begins as a formula", csvHead[k], cell)
				}
			}
			if say := r[19]; strings.TrimPrefix(say, "'") != strings.TrimPrefix(oneLine(l.Cuts[i].Say), "'") {
				t.Errorf("%q is read as %q", l.Cuts[i].Say, say)
			}
		}
		again, err := csv.NewReader(strings.NewReader(string(out))).ReadAll()
		if err != nil || len(again) != len(records) {
			t.Errorf("the library reads %d rows (%v)", len(again), err)
		}
	})
}

// readCSV reads by the grammar of RFC 4180: records end in CRLF, a field is bare
// or between quotes, and a quote in it is doubled.
func readCSV(s string) (records [][]string, err error) {
	var record []string
	for s != "" {
		var field string
		if rest, ok := strings.CutPrefix(s, `"`); ok {
			for {
				text, after, ok := strings.Cut(rest, `"`)
				if !ok {
					return records, csv.ErrQuote
				}
				field += text
				if rest, ok = strings.CutPrefix(after, `"`); !ok {
					s = after
					break
				}
				field += `"`
			}
		} else {
			end := strings.IndexAny(s, ",\"\r\n")
			if end < 0 || s[end] == '"' || s[end] == '\n' {
				return records, csv.ErrBareQuote
			}
			field, s = s[:end], s[end:]
		}
		record = append(record, field)
		if rest, ok := strings.CutPrefix(s, ","); ok {
			s = rest
		} else if rest, ok := strings.CutPrefix(s, "\r\n"); ok {
			records, record, s = append(records, record), nil, rest
		} else {
			return records, csv.ErrFieldCount
		}
	}
	return records, nil
}

func TestCells(t *testing.T) {
	for in, want := range map[string]string{
		"": "", "a=b": "a=b", "=1": "'=1", " =1": "'=1", "\n=1": "'=1", "+1": "'+1", "-1": "'-1", "@x": "'@x", "＝1": "'＝1", "'x": "'x",
	} {
		if got := cell(in); got != want {
			t.Errorf("%q is written %q, want %q", in, got, want)
		}
	}
}

// What is shown in a terminal holds nothing that it would obey.
func TestTableIsOnlyText(t *testing.T) {
	format, _ := Named("table")
	rapid.Check(t, func(t *rapid.T) {
		out, _, err := Write(anyList(t), format, Options{})
		if err != nil {
			t.Fatal(err)
		}
		for _, r := range string(out) {
			if r != '\n' && (unicode.IsControl(r) || unicode.Is(unicode.Cf, r)) {
				t.Fatalf("%U is in\n%s", r, out)
			}
		}
	})
}

func TestRowNames(t *testing.T) {
	for _, c := range []struct {
		cut  film.Cut
		want string
	}{
		{film.Cut{Take: 2}, "Take 2"},
		{film.Cut{Row: "Row 3"}, "Row 3"},
		{film.Cut{Piece: "Strip", Row: "Row 3"}, "Strip: Row 3"},
		{film.Cut{Piece: "Strip"}, "Strip"},
		{film.Cut{Row: "Row 3", Title: "The edge"}, "The edge"},
		{film.Cut{Row: "Row 3", Again: 1}, "Row 3"},
		{film.Cut{Row: "Row 3", Again: 1, Unused: true}, "Row 3 (try 2, not used)"},
	} {
		if got := nameOf(c.cut); got != c.want {
			t.Errorf("%+v is called %q, want %q", c.cut, got, c.want)
		}
	}
}
