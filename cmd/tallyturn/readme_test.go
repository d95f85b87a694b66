package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"crochet/tallyturn/pattern"
)

const readme = "../../README.md"

// TestREADME makes what the README shows anew and wants it to be the same:
//
//   - in a console block, what each command that begins with "$ " prints, run
//     from the top of the repository;
//   - in a text block after a comment "screen: NAME", one of the scenes;
//   - under the heading "What it finds", the table of findings.
func TestREADME(t *testing.T) {
	data, err := os.ReadFile(readme)
	if err != nil {
		t.Fatal(err)
	}
	page := string(data)
	fresh := replaceBlocks(page, "```console\n", "```\n", func(_, block string) string { return rerun(t, block) })
	shown := 0
	fresh = replaceBlocks(fresh, "```text\n", "```\n", func(before, block string) string {
		_, name, ok := strings.Cut(lastLine(before), "<!-- screen: ")
		if !ok {
			return block
		}
		shown++
		return scene(t, strings.TrimSuffix(name, " -->"))
	})
	fresh = replaceBlocks(fresh, "## What it finds\n", "\n## ", func(_, _ string) string { return codesTable() })
	if shown == 0 {
		t.Error("the README shows no screen")
	}
	if *update {
		if err := os.WriteFile(readme, []byte(fresh), 0o666); err != nil {
			t.Fatal(err)
		}
		return
	}
	if diff := cmp.Diff(page, fresh); diff != "" {
		t.Errorf("the README is not what the program shows; run again with -update (-page +program):\n%s", diff)
	}
}

// replaceBlocks gives the page with what stands between each pair of open and
// end made anew, from what comes before it and what it was.
func replaceBlocks(page, open, end string, anew func(before, block string) string) string {
	var b strings.Builder
	for {
		before, rest, ok := strings.Cut(page, open)
		block, after, closed := strings.Cut(rest, end)
		if !ok || !closed {
			b.WriteString(page)
			return b.String()
		}
		b.WriteString(before + open + anew(before, block) + end)
		page = after
	}
}

// codesTable lists every code of a finding with the first sentence about it.
func codesTable() string {
	var b strings.Builder
	b.WriteString("\n| code | what it says |\n|---|---|\n")
	for _, code := range pattern.Codes() {
		text, _ := pattern.Explain(code)
		text = strings.Join(strings.Fields(text), " ")
		first, _, _ := strings.Cut(text, ". ")
		fmt.Fprintf(&b, "| `%s` | %s |\n", code, strings.TrimSuffix(first, ".")+".")
	}
	return b.String()
}

func lastLine(text string) string {
	text = strings.TrimSuffix(text, "\n")
	return text[strings.LastIndex(text, "\n")+1:]
}

// rerun runs each command of a block and puts what it prints under it. The
// commands of a block have one basket.
func rerun(t *testing.T, block string) string {
	var b strings.Builder
	data := t.TempDir()
	for _, line := range strings.SplitAfter(block, "\n") {
		if command, ok := strings.CutPrefix(line, "$ "); ok {
			b.WriteString(line + runShell(t, data, command))
		}
	}
	return b.String()
}

// runShell gives what a command prints on either stream, whatever its exit
// status.
func runShell(t *testing.T, data, command string) string {
	t.Helper()
	repo, err := filepath.Abs("../..")
	if err != nil {
		t.Fatal(err)
	}
	c := exec.Command("sh", "-c", command)
	c.Dir = repo
	c.Env = append(os.Environ(), "TALLYTURN_DATA="+data, "NO_COLOR=1")
	out, err := c.CombinedOutput()
	if _, exited := err.(*exec.ExitError); err != nil && !exited {
		t.Fatal(err)
	}
	return string(out)
}
