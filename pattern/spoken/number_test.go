package spoken

import (
	"fmt"
	"os"
	"os/exec"
	"strings"
	"testing"
)

// program finds a program from outside that a test holds our results against.
func program(t *testing.T, name string) string {
	t.Helper()
	path, err := exec.LookPath(name)
	if err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatalf("%s is missing", name)
		}
		t.Skipf("%s is missing", name)
	}
	return path
}

// Source: the library num2words (Debian python3-num2words), which spells
// numbers for many languages; its English has the British "and".
func TestNumbersAgainstNum2words(t *testing.T) {
	script, err := os.ReadFile(program(t, "num2words"))
	if err != nil {
		t.Fatal(err)
	}
	// the Python that has the library is the one its command runs under
	line, _, _ := strings.Cut(string(script), "\n")
	python := strings.Fields(strings.TrimPrefix(line, "#!"))[0]
	var numbers []int64
	for n := int64(0); n <= 1100; n++ {
		numbers = append(numbers, n)
	}
	numbers = append(numbers, 1999, 2000, 2001, 9010, 10_000, 12_345, 100_000, 100_001, 999_999, 1_000_000, 1_000_001, 1_000_100, 20_300_405, 999_999_999_999, -7)
	var list strings.Builder
	for _, n := range numbers {
		fmt.Fprintln(&list, n)
	}
	c := exec.Command(python, "-c", `
import sys
from num2words import num2words
for line in sys.stdin:
    n = int(line)
    print(num2words(n), "|", num2words(n, ordinal=True) if n > 0 else "")
`)
	c.Stdin = strings.NewReader(list.String())
	out, err := c.Output()
	if err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(strings.TrimSpace(string(out)), "\n")
	if len(lines) != len(numbers) {
		t.Fatalf("%d answers to %d numbers", len(lines), len(numbers))
	}
	for i, n := range numbers {
		card, ord, _ := strings.Cut(strings.ReplaceAll(lines[i], ",", ""), "|")
		card, ord = strings.TrimSpace(card), strings.TrimSpace(ord)
		if got := cardinal(n, true); got != card {
			t.Errorf("%d: %q, want %q", n, got, card)
		}
		if got, want := cardinal(n, false), strings.ReplaceAll(card, " and ", " "); got != want {
			t.Errorf("%d without and: %q, want %q", n, got, want)
		}
		if n > 0 && ordinal(n, true) != ord {
			t.Errorf("%d: %q, want %q", n, ordinal(n, true), ord)
		}
	}
}

func TestLargestNumbers(t *testing.T) {
	if got := cardinal(-1<<63, false); !strings.HasPrefix(got, "minus nine quintillion two hundred twenty-three quadrillion") || !strings.HasSuffix(got, "eight hundred eight") {
		t.Error(got)
	}
}
