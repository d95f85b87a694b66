package pattern

import (
	"encoding/json"
	"fmt"
	"go/parser"
	gotoken "go/token"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"
)

// manyPatterns is written patterns of about so many bytes in all: those of
// the corpus over and over, with the names of their pieces changed and the
// numbers of their rows, so that no two are alike.
func manyPatterns(tb testing.TB, size int) []string {
	texts := allWritten(tb)
	title := regexp.MustCompile(`(?m)^([A-Z][a-z]+)$`)
	hook := regexp.MustCompile(`(?i)^ch (\d+)`)
	var out []string
	for have, i := 0, 0; have < size; i++ {
		text := texts[i%len(texts)].text
		if n := i / len(texts); n > 0 {
			text = title.ReplaceAllString(text, fmt.Sprintf("$1 %d", n))
			text = hook.ReplaceAllString(text, fmt.Sprintf("Ch ${1}%d", n%10))
		}
		out = append(out, text)
		have += len(text)
	}
	return out
}

func sizeOf(texts []string) (n int) {
	for _, s := range texts {
		n += len(s)
	}
	return n
}

// goSource is Go source of the standard library, about so many bytes.
func goSource(tb testing.TB, size int) []string {
	root, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		tb.Skip("the go command is not there: ", err)
	}
	dir := filepath.Join(strings.TrimSpace(string(root)), "src", "go", "types")
	files, err := filepath.Glob(filepath.Join(dir, "*.go"))
	if err != nil || len(files) == 0 {
		tb.Skip("the Go source tree is not there")
	}
	var out []string
	for have, i := 0, 0; have < size; i++ {
		data, err := os.ReadFile(files[i%len(files)])
		if err != nil {
			tb.Fatal(err)
		}
		out = append(out, string(data))
		have += len(data)
	}
	return out
}

// proofJSON is a document of JSON, about so many bytes.
func proofJSON(size int) []byte {
	type row struct {
		First, Last, Made int
		Label, Status     string
		ByKind            map[string]int
	}
	var rows []row
	for i := 0; i < size/110; i++ {
		rows = append(rows, row{i, i + 1, i * 3, fmt.Sprintf("Rows %d-%d", i, i+1), "agrees", map[string]int{"sc": i, "ch-1 sp": i / 2}})
	}
	data, _ := json.Marshal(rows)
	return data
}

// perMB is how long f takes over so many bytes, the best of three.
func perMB(bytes int, f func()) float64 {
	best := 0.0
	for range 3 {
		start := time.Now()
		f()
		if d := time.Since(start).Seconds() / (float64(bytes) / 1e6); best == 0 || d < best {
			best = d
		}
	}
	return best
}

// BenchmarkRead reads a megabyte of patterns, beside the parser of Go over a
// megabyte of its own source and the reader of JSON over a megabyte of that.
func BenchmarkRead(b *testing.B) {
	texts := manyPatterns(b, 1e6)
	b.Run("read", func(b *testing.B) {
		b.ReportAllocs()
		b.SetBytes(int64(sizeOf(texts)))
		for b.Loop() {
			for _, s := range texts {
				Read(s)
			}
		}
	})
	b.Run("lex", func(b *testing.B) {
		b.ReportAllocs()
		b.SetBytes(int64(sizeOf(texts)))
		for b.Loop() {
			for _, s := range texts {
				lex(smooth(s))
			}
		}
	})
	b.Run("prove", func(b *testing.B) {
		b.ReportAllocs()
		b.SetBytes(int64(sizeOf(texts)))
		for b.Loop() {
			for _, s := range texts {
				Read(s).Prove(Options{})
			}
		}
	})
	b.Run("write", func(b *testing.B) {
		b.ReportAllocs()
		b.SetBytes(int64(sizeOf(texts)))
		var ps []*Pattern
		for _, s := range texts {
			ps = append(ps, Read(s))
		}
		for b.Loop() {
			for _, p := range ps {
				Write(p)
			}
		}
	})
	source := goSource(b, 1e6)
	b.Run("go", func(b *testing.B) {
		b.ReportAllocs()
		b.SetBytes(int64(sizeOf(source)))
		for b.Loop() {
			for _, s := range source {
				if _, err := parser.ParseFile(gotoken.NewFileSet(), "", s, parser.SkipObjectResolution); err != nil {
					b.Fatal(err)
				}
			}
		}
	})
	data := proofJSON(1e6)
	b.Run("json", func(b *testing.B) {
		b.ReportAllocs()
		b.SetBytes(int64(len(data)))
		for b.Loop() {
			var v any
			if err := json.Unmarshal(data, &v); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("ratios", func(b *testing.B) {
		for b.Loop() {
			read := perMB(sizeOf(texts), func() {
				for _, s := range texts {
					Read(s)
				}
			})
			prove := perMB(sizeOf(texts), func() {
				for _, s := range texts {
					Read(s).Prove(Options{})
				}
			})
			goes := perMB(sizeOf(source), func() {
				for _, s := range source {
					parser.ParseFile(gotoken.NewFileSet(), "", s, parser.SkipObjectResolution)
				}
			})
			jsons := perMB(len(data), func() {
				var v any
				json.Unmarshal(data, &v)
			})
			b.ReportMetric(read/goes, "read/go")
			b.ReportMetric(read/jsons, "read/json")
			b.ReportMetric(prove/goes, "prove/go")
			b.ReportMetric(prove/jsons, "prove/json")
		}
	})
}

// BenchmarkTwice reads and proves one pattern of so many rows, and one of
// twice as many: time over time should come to two.
func BenchmarkTwice(b *testing.B) {
	text := func(rows int) string {
		var s strings.Builder
		s.WriteString("Ch 121.\nRow 1: Sc in 2nd ch from hook and in each ch across. (120 sc)\n")
		for i := 2; i <= rows; i += 2 {
			fmt.Fprintf(&s, "Row %d: Ch 1, turn, sc in first st, *ch 1, sk next st, sc in next st; rep from * to last st, sc in last st. (61 sc)\n", i)
			fmt.Fprintf(&s, "Row %d: Ch 1, turn, sc in each st and in each ch-1 sp across. (%d sc)\n", i+1, 120)
		}
		return s.String()
	}
	one, two := text(1000), text(2000)
	for b.Loop() {
		read := perMB(1e6, func() { Read(two) }) / perMB(1e6, func() { Read(one) })
		prove := perMB(1e6, func() { Read(two).Prove(Options{}) }) / perMB(1e6, func() { Read(one).Prove(Options{}) })
		b.ReportMetric(read, "read2/read1")
		b.ReportMetric(prove, "prove2/prove1")
	}
}
