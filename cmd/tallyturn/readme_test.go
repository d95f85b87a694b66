package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// TestREADME runs what the README shows: each line that begins with "$ " in a
// console block, from the top of the repository, must print what stands under
// it.
func TestREADME(t *testing.T) {
	const file = "../../README.md"
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	var page strings.Builder
	ran := 0
	lines := strings.SplitAfter(string(data), "\n")
	for i := 0; i < len(lines); i++ {
		page.WriteString(lines[i])
		if lines[i] != "```console\n" {
			continue
		}
		for i++; i < len(lines) && lines[i] != "```\n"; i++ {
			command, ok := strings.CutPrefix(lines[i], "$ ")
			if !ok {
				continue // what the command printed when the page was written
			}
			page.WriteString(lines[i] + runShell(t, command))
			ran++
		}
		page.WriteString("```\n")
	}
	if ran == 0 {
		t.Error("the README shows no command")
	}
	if *update {
		if err := os.WriteFile(file, []byte(page.String()), 0o666); err != nil {
			t.Fatal(err)
		}
		return
	}
	if diff := cmp.Diff(string(data), page.String()); diff != "" {
		t.Errorf("the README is not what its commands print; run again with -update (-page +printed):\n%s", diff)
	}
}

// runShell gives what a command prints on either stream, whatever its exit
// status.
func runShell(t *testing.T, command string) string {
	t.Helper()
	repo, err := filepath.Abs("../..")
	if err != nil {
		t.Fatal(err)
	}
	c := exec.Command("sh", "-c", command)
	c.Dir = repo
	c.Env = append(os.Environ(), "TALLYTURN_DATA="+t.TempDir(), "NO_COLOR=1")
	out, err := c.CombinedOutput()
	if _, exited := err.(*exec.ExitError); err != nil && !exited {
		t.Fatal(err)
	}
	return string(out)
}
