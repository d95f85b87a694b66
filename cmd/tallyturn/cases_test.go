package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// TestCasesAsJSON wants of every worked case what a program that reads
// "check --json" would look for: the figures and status of each row listed,
// the findings on the lines marked and on no others, and the exit status.
func TestCasesAsJSON(t *testing.T) {
	files, err := filepath.Glob("../../testdata/cases/*.case")
	if err != nil || len(files) == 0 {
		t.Fatalf("no cases (%v)", err)
	}
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		parts := regexp.MustCompile(`(?m)^=== (.*)\n`).Split(string(data), -1)
		heads := regexp.MustCompile(`(?m)^=== (.*)\n`).FindAllStringSubmatch(string(data), -1)
		for i, head := range heads[1:] {
			size, _ := strings.CutPrefix(head[1], "want")
			size = strings.TrimPrefix(strings.TrimSpace(size), "size ")
			t.Run(filepath.Base(file)+" "+size, func(t *testing.T) { checkCase(t, parts[1], size, parts[i+2]) })
		}
	}
}

// checked is what the test looks at in a report.
type checked struct {
	Pieces []struct {
		Name string
		Rows []struct {
			First, Last int
			Made        *int64
			Status      string
		}
	}
	Findings []struct {
		Severity string
		Line     int
	}
}

func checkCase(t *testing.T, pattern, size, want string) {
	args := []string{"check", "--json", "-"}
	if size != "" {
		args = append(args, "--size", size)
	}
	var out, said bytes.Buffer
	status := run(args, world{in: strings.NewReader(pattern), out: &out, err: &said})
	var got checked
	if err := json.Unmarshal(out.Bytes(), &got); err != nil {
		t.Fatalf("%v; standard error: %s", err, said.String())
	}
	rows := map[string]string{}
	for _, pc := range got.Pieces {
		name := pc.Name
		if name == "" {
			name = "-"
		}
		for _, r := range pc.Rows {
			for n := r.First; n <= r.Last && n < r.First+1000; n++ {
				made := "?"
				if r.Made != nil {
					made = fmt.Sprint(*r.Made)
				}
				rows[fmt.Sprintf("%s|%d", name, n)] = made + "|" + r.Status
			}
		}
	}
	marked := map[int]string{}
	for _, line := range strings.Split(strings.TrimSpace(want), "\n") {
		var severity string
		var at int
		if n, _ := fmt.Sscanf(line, "! %s %d", &severity, &at); n == 2 {
			marked[at] = severity
			continue
		}
		f := strings.Split(line, "|")
		if len(f) != 4 {
			t.Fatalf("the case has a line %q", line)
		}
		var first, last int
		if n, _ := fmt.Sscanf(f[1], "%d-%d", &first, &last); n == 1 {
			last = first
		}
		for n := first; n <= last && n < first+1000; n++ {
			was := rows[fmt.Sprintf("%s|%d", f[0], n)]
			if made, status, _ := strings.Cut(was, "|"); status != f[3] || f[2] != "?" && made != f[2] {
				t.Errorf("%s row %d: %q, want %s|%s", f[0], n, was, f[2], f[3])
			}
		}
	}
	grade := map[string]int{"note": 0, "warning": 1, "error": 2}
	worst, found := 0, map[int]int{}
	for _, f := range got.Findings {
		found[f.Line] = max(found[f.Line], grade[f.Severity])
		worst = max(worst, grade[f.Severity])
		if _, ok := marked[f.Line]; !ok && f.Severity != "note" {
			t.Errorf("line %d: a %s on a line that is not marked", f.Line, f.Severity)
		}
	}
	for line, severity := range marked {
		if found[line] < grade[severity] {
			t.Errorf("line %d: no %s", line, severity)
		}
	}
	if want := map[bool]int{true: exitFound, false: exitGood}[worst == 2]; status != want {
		t.Errorf("exit status %d, want %d", status, want)
	}
}
