package store

import (
	"testing"

	"crochet/tallyturn/counter"
)

// Every kind there is has a word in an export, and no two the same.
func TestEveryKindHasAWord(t *testing.T) {
	for k := counter.Tap; k <= counter.Weigh; k++ {
		if word := kindWords[k]; word == "" || kindsByWord[word] != k {
			t.Errorf("%v is %q, which is %v", k, word, kindsByWord[word])
		}
	}
	if len(kindWords) != int(counter.Weigh) {
		t.Errorf("%d words for %d kinds", len(kindWords), counter.Weigh)
	}
}
