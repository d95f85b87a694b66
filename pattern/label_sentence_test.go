package pattern

import (
	"path/filepath"
	"testing"
)

// TestRowsWithoutLabels works pages that label no row. They stand apart from the corpus,
// since what is written of them has no labels either, and a sheet of them does not read
// back yet.
func TestRowsWithoutLabels(t *testing.T) {
	files, _ := filepath.Glob(filepath.Join("testdata", "told", "*.case"))
	if len(files) == 0 {
		t.Error("no cases")
	}
	for _, f := range files {
		c := readCase(t, f)
		for _, w := range c.wants {
			for _, b := range checkCase(c, w) {
				t.Errorf("%s: %s", filepath.Base(f), b)
			}
		}
	}
}
