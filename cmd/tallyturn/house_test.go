package main

import (
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

const module = "crochet/tallyturn/"

// mayImport says, for each top folder, which of our own it builds on. Under
// pattern and tui a package may also use its own neighbours.
var mayImport = map[string][]string{
	"cmd":     {"cmd", "tui", "counter", "store", "pattern"},
	"tui":     {"tui", "counter", "pattern"},
	"store":   {"store", "counter"},
	"counter": {"counter", "pattern"},
	"pattern": {"pattern"},
}

// pure are the folders whose results must follow from their arguments alone:
// they may not reach for a file, a clock, a terminal or the network.
var pure = []string{"pattern", "counter"}

var impure = []string{"os", "os/exec", "os/user", "net", "net/http", "syscall", "io/ioutil", "math/rand", "math/rand/v2"}

func TestImports(t *testing.T) {
	seen := 0
	eachGoFile(t, func(path string, imports []string) {
		seen++
		folder := filepath.ToSlash(filepath.Dir(path))
		top, _, _ := strings.Cut(folder, "/")
		allowed, ok := mayImport[top]
		if !ok {
			t.Errorf("%s: Go code in a folder that the house does not name", path)
		}
		for _, imp := range imports {
			if ours, ok := strings.CutPrefix(imp, module); ok {
				to, _, _ := strings.Cut(ours, "/")
				if !slices.Contains(allowed, to) {
					t.Errorf("%s imports %s; %s builds only on %v", path, imp, top, allowed)
				}
				continue
			}
			if imp == "net" || strings.HasPrefix(imp, "net/") && imp != "net/url" {
				t.Errorf("%s imports %s; the program has no use for a network", path, imp)
			}
			if imp == "time" && folder == "pattern/sheet/pdf" {
				continue // it tells the time to no one: a PDF must name a day, and is given the same one always
			}
			if slices.Contains(pure, top) && (slices.Contains(impure, imp) || imp == "time") {
				t.Errorf("%s imports %s; %s must stay a pure function of what it is given", path, imp, top)
			}
			if folder == "pattern" || folder == "pattern/stitch" {
				if first, _, _ := strings.Cut(imp, "/"); strings.Contains(first, ".") {
					t.Errorf("%s imports %s; %s needs the standard library only", path, imp, folder)
				}
			}
		}
		if folder == "pattern/stitch" && slices.ContainsFunc(imports, func(imp string) bool { return strings.HasPrefix(imp, module) }) {
			t.Errorf("%s: the vocabulary imports nothing of ours", path)
		}
	})
	if seen < 20 {
		t.Errorf("only %d files were looked at", seen)
	}
}

// eachGoFile calls f with every Go file of the module that is not a test.
func eachGoFile(t *testing.T, f func(path string, imports []string)) {
	t.Helper()
	repo := os.DirFS("../..")
	err := fs.WalkDir(repo, ".", func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() && (d.Name() == "testdata" || d.Name() == ".git") {
			return fs.SkipDir
		}
		if !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return nil
		}
		src, err := fs.ReadFile(repo, path)
		if err != nil {
			return err
		}
		file, err := parser.ParseFile(token.NewFileSet(), path, src, parser.ImportsOnly)
		if err != nil {
			return err
		}
		var imports []string
		for _, imp := range file.Imports {
			imports = append(imports, strings.Trim(imp.Path.Value, `"`))
		}
		f(path, imports)
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}

// TestTopLevel keeps the first thing a newcomer sees down to what the house
// names.
func TestTopLevel(t *testing.T) {
	named := []string{"cmd", "tui", "counter", "pattern", "store", "testdata",
		"go.mod", "go.sum", "README.md", "DEVELOPERS.md", "LICENSE", ".gitignore", ".ci"}
	entries, err := os.ReadDir("../..")
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		// A build or a coverage run may leave these beside the sources; git
		// ignores them.
		if e.Name() == ".git" || e.Name() == "tallyturn" || e.Name() == "coverage.out" ||
			strings.HasSuffix(e.Name(), ".test") || strings.HasSuffix(e.Name(), ".prof") {
			continue
		}
		if !slices.Contains(named, e.Name()) {
			t.Errorf("the top level has %s, which the house does not name", e.Name())
		}
	}
}

// TestFixtures holds on to the worked cases and the dialect samples that the
// pattern package is tested with: a lost file would pass in silence there.
func TestFixtures(t *testing.T) {
	for _, set := range []struct {
		glob string
		want int
		has  string
	}{
		{"cases/*.case", 48, "=== want"},
		{"dialects/*.txt", 20, ""},
	} {
		files, err := filepath.Glob(filepath.Join("..", "..", "testdata", set.glob))
		if err != nil {
			t.Fatal(err)
		}
		if len(files) < set.want {
			t.Errorf("testdata/%s: %d files, want at least %d", set.glob, len(files), set.want)
		}
		for _, file := range files {
			data, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			if len(strings.TrimSpace(string(data))) == 0 || !strings.Contains(string(data), set.has) {
				t.Errorf("%s: holds nothing to test", file)
			}
		}
	}
}
