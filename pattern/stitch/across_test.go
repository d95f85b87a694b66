package stitch

import (
	"strings"
	"testing"
)

// TestAcross holds the way across against the published list, line by line
// and both ways.
//
// Source: Craft Yarn Council, crochet abbreviations and the US/UK table, as
// reproduced in testdata/facts/abbreviations.tsv with its sources.
func TestAcross(t *testing.T) {
	us, uk := LexiconFor(US), LexiconFor(UK)
	checked := 0
	for _, f := range facts(t, "abbreviations.tsv") {
		abbr := strings.ToLower(strings.Split(f["us_abbr"], " / ")[0])
		there := strings.ToLower(strings.Split(f["uk_abbr"], " / ")[0])
		if strings.HasSuffix(abbr, "tog") { // sc2tog: the name of its base
			abbr = strings.TrimRight(strings.TrimSuffix(abbr, "tog"), "0123456789")
			there = strings.TrimRight(strings.TrimSuffix(there, "tog"), "0123456789")
		}
		id, _ := us.Find(abbr)
		if id == None || elsewhere[f["us_abbr"]] {
			continue
		}
		checked++
		got := id.Across(abbr, UK)
		if short, _ := uk.Find(there); short != id {
			t.Errorf("UK %q is %s, not %s", there, short.Words(US), id.Words(US))
		}
		// The old spaced letters are answered by spaced letters.
		if got != there && strings.ReplaceAll(got, " ", "") != there && !usual(got, id, UK) {
			t.Errorf("US %q goes across as %q; the list has %q", abbr, got, there)
		}
		if back := id.Across(id.Name(UK), US); back != id.Name(US) {
			t.Errorf("%q comes back as %q, not %q", id.Name(UK), back, id.Name(US))
		}
	}
	if checked < 45 {
		t.Errorf("only %d lines of the list were checked", checked)
	}
}

// usual reports whether a name is the table's own abbreviation, where the list
// has another spelling of it.
func usual(name string, id ID, terms Terms) bool { return name == id.Name(terms) }

// TestAcrossAndBack takes each spelling across and back. A pair comes back as
// it was; whatever else comes back as the usual name and stays so.
func TestAcrossAndBack(t *testing.T) {
	for _, s := range All() {
		if s.US == "" {
			continue
		}
		for _, way := range []struct {
			from, to Terms
			names    []string
		}{
			{US, UK, append([]string{s.US, s.USWords}, s.USAlso.All()...)},
			{UK, US, append([]string{s.UK, s.UKWords}, s.UKAlso.All()...)},
		} {
			for i, name := range way.names {
				if id, _ := LexiconFor(way.from).Find(name); id != s.ID {
					continue // an earlier stitch has the name
				}
				there := s.ID.Across(name, way.to)
				if id, _ := LexiconFor(way.to).Find(there); id != s.ID {
					t.Errorf("%s %q goes across as %q, which is %s and not %s", way.from, name, there, id.Words(US), s.USWords)
					continue
				}
				back := s.ID.Across(there, way.from)
				if i < 2 && back != name {
					t.Errorf("%s %q goes across as %q and comes back as %q", way.from, name, there, back)
				}
				if again := s.ID.Across(s.ID.Across(back, way.to), way.from); again != back {
					t.Errorf("%s %q comes back as %q and then as %q", way.from, name, back, again)
				}
			}
		}
	}
}

// Source: Craft Yarn Council, US/UK table: skip and miss, gauge and tension,
// yarn over and yarn over hook.
func TestCrossing(t *testing.T) {
	for _, p := range Crossings() {
		there, ok := Crossing(p.US, UK)
		if !ok {
			t.Errorf("%q has no word across", p.US)
		}
		if _, ok := Crossing(there, US); !ok {
			t.Errorf("%q has no way back", there)
		}
	}
	for _, p := range []Pair{{"skip", "miss"}, {"gauge", "tension"}, {"yo", "yoh"}} {
		if got, _ := Crossing(p.US, UK); got != p.UK {
			t.Errorf("US %q is %q in the UK, want %q", p.US, got, p.UK)
		}
		if got, _ := Crossing(p.UK, US); got != p.US {
			t.Errorf("UK %q is %q in the US, want %q", p.UK, got, p.US)
		}
	}
}
