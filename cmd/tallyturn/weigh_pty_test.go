package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

// quayMat is a mat of one yarn whose ball is weighed on the way.
const quayMat = `Quay Mat

US terms

Mat
With navy, ch 11.
Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)
Rows 2-30: Ch 1, turn, sc in each st across. (10 sc)
`

// TestKilledAfterWeighing weighs a ball in the built program, kills it, and
// finds the weighing and its answer again; it is taken back by one key, and goes
// with the project to another basket.
func TestKilledAfterWeighing(t *testing.T) {
	program, dir := built(t), t.TempDir()
	file := filepath.Join(dir, "mat.txt")
	if err := os.WriteFile(file, []byte(quayMat), 0o600); err != nil {
		t.Fatal(err)
	}
	term := onScreen(t, program, dir, file)
	term.WaitFor("row 1 of 30", "stitch 1 of 10")
	term.Type("j")
	term.WaitFor("Left of navy []", "not known yet")
	term.Type("50s")
	term.WaitFor("Noted: 50 g of navy at the start")
	term.Type("j")
	for range 10 {
		term.Type("e ")
	}
	term.WaitFor("row 11 of 30")
	term.Type("j38.5\r")
	term.WaitFor("Noted: 38.5 g", "navy lasts easily", "used 11.5 g", "✓ saved")
	term.Signal(syscall.SIGKILL)
	term.WaitEnd()

	term = onScreen(t, program, dir, file)
	term.WaitFor("row 11 of 30")
	term.Type("j")
	term.WaitFor("38.5 g on the scale", "navy lasts easily", "100 of 300 sts", "used 11.5 g", "by your scale")
	term.Type("j\x7f")
	term.WaitFor("The last weighing is taken back.")
	term.Type("j")
	term.WaitFor("50 g at the start", "not known yet")
	term.Type("ja")
	term.WaitFor("Done again: the weighing.", "✓ saved")
	term.Type("q")
	if err := term.WaitEnd(); err != nil {
		t.Fatal(err)
	}

	export, err := exec.Command(program, "basket", "export", "--data", dir).Output()
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{`"kind":"weigh"`, `"n":50000`, `"n":38500`, `"text":"navy"`} {
		if !strings.Contains(string(export), want) {
			t.Errorf("the export does not have %s", want)
		}
	}
	other, lines := t.TempDir(), filepath.Join(dir, "all.jsonl")
	if err := os.WriteFile(lines, export, 0o600); err != nil {
		t.Fatal(err)
	}
	if out, err := exec.Command(program, "basket", "import", lines, "--data", other).CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	again, err := exec.Command(program, "basket", "export", "--data", other).Output()
	if err != nil || string(again) != string(export) {
		t.Errorf("it came back otherwise: %v", err)
	}
}
