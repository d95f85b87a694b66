package pattern

import (
	"fmt"
	"go/ast"
	"go/parser"
	gotoken "go/token"
	"maps"
	"math/rand"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"
	"unicode"
)

// TestOpenings reads every pattern of the test data, and rows of words thrown
// together, with each production tried at each word, and finds the same as
// where the first word decides.
func TestOpenings(t *testing.T) {
	texts := allWritten(t)
	for _, w := range wordsOfReader(t) {
		texts = append(texts, written{w, rowsWith(w)})
	}
	rng := rand.New(rand.NewSource(1))
	for range 1000 {
		texts = append(texts, written{"a salad of words", saladRow(rng)})
	}
	gated := make([]*Pattern, len(texts))
	for i, w := range texts {
		gated[i] = Read(w.text)
	}
	defer func(was [len(kindOpens)]opening) { kindOpens = was }(kindOpens)
	for k := range kindOpens {
		kindOpens[k] = ^opensJoint // which is asked for by itself: see steps
	}
	for i, w := range texts {
		if !reflect.DeepEqual(gated[i], Read(w.text)) {
			t.Errorf("%s is read otherwise where all is tried:\n%.2000s", w.name, w.text)
		}
	}
}

// wordsOfReader is every word that the source of the reader names.
func wordsOfReader(t *testing.T) []string {
	words := make(map[string]bool)
	files, err := filepath.Glob("read_*.go")
	if err != nil || len(files) == 0 {
		t.Fatal("the source is not there: ", err)
	}
	for _, f := range files {
		tree, err := parser.ParseFile(gotoken.NewFileSet(), f, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		ast.Inspect(tree, func(n ast.Node) bool {
			if lit, ok := n.(*ast.BasicLit); ok && lit.Kind == gotoken.STRING {
				for _, w := range strings.FieldsFunc(lit.Value, func(r rune) bool { return !unicode.IsLetter(r) && r != '\'' }) {
					words[w] = true
				}
			}
			return true
		})
	}
	return slices.Sorted(maps.Keys(words))
}

// rowsWith is a pattern whose rows say a word in many a place.
func rowsWith(word string) string {
	var b strings.Builder
	b.WriteString("Ch 21.\n")
	row := 0
	for _, before := range []string{"", "sc, ", "sc in next st ", "ch 3 "} {
		for _, after := range []string{"", " next st", " in next st", " 3 sts", " 2 sc in next st", " the last st", " the other side of ch", " as row 1", " off", " both layers", " loop only", " row", " ring"} {
			row++
			fmt.Fprintf(&b, "R%d: %s%s%s, sc.\n", row, before, word, after)
		}
	}
	return b.String()
}

// saladRow is a row of words that productions begin with, in no order that
// means anything, with stitches and numbers between them.
func saladRow(rng *rand.Rand) string {
	var b strings.Builder
	b.WriteString("Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across. (20 sc)\nRow 2: ")
	for range 4 + rng.Intn(16) {
		switch rng.Intn(3) {
		case 0:
			words := strings.Fields(openings[rng.Intn(len(openings))].words)
			b.WriteString(words[rng.Intn(len(words))])
		case 1:
			words := [...]string{"sc", "2 dc", "sl st", "tr", "st", "sts", "sp", "end", "turn", "row", "loop", "side", "hook"}
			b.WriteString(words[rng.Intn(len(words))])
		default:
			words := [...]string{"2", "3rd", ",", ".", ";", "(", ")", "*", "-", "in next st", "in each st", "to last 2 sts", "x 3", "ch 2", "tog"}
			b.WriteString(words[rng.Intn(len(words))])
		}
		b.WriteByte(' ')
	}
	return b.String()
}
