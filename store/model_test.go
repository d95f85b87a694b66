package store_test

import (
	"errors"
	"path/filepath"
	"slices"
	"strconv"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"crochet/tallyturn/counter"
	"crochet/tallyturn/store"
)

// model is a store in memory, in the plainest way.
type model struct {
	projects []store.Project
	logs     [][]counter.Event
}

func (m *model) find(path, text string) (found store.Project, ok bool) {
	for _, matches := range []func(store.Project) bool{
		func(p store.Project) bool { return path != "" && p.Path == path },
		func(p store.Project) bool { return p.Text == text },
	} {
		for _, p := range m.projects {
			if matches(p) && (!ok || p.Touched >= found.Touched) {
				found, ok = p, true
			}
		}
		if ok {
			break
		}
	}
	return found, ok
}

func drawProject(t *rapid.T) store.Project {
	return store.Project{
		Title:   rapid.String().Draw(t, "title"),
		Path:    rapid.SampledFrom([]string{"", "/a", "/a/b", "/b"}).Draw(t, "path"),
		Text:    rapid.SampledFrom([]string{"", "one", "two", "Rnd 1: 6 sc"}).Draw(t, "text"),
		Size:    rapid.SampledFrom([]string{"", "S", "L"}).Draw(t, "size"),
		Created: rapid.Int64Range(0, 100).Draw(t, "created"),
	}
}

func TestAgainstModel(t *testing.T) {
	dir, files := t.TempDir(), 0
	rapid.Check(t, func(t *rapid.T) {
		files++
		path := filepath.Join(dir, strconv.Itoa(files))
		s, m := open(t, path), &model{}
		defer func() { shut(t, s) }()
		writers := map[int]*store.Writer{}
		closeAll := func() {
			for _, w := range writers {
				if err := w.Close(); err != nil {
					t.Fatal(err)
				}
			}
			clear(writers)
		}
		any := func(t *rapid.T) int {
			if len(m.projects) == 0 {
				t.Skip("no project yet")
			}
			return rapid.IntRange(0, len(m.projects)-1).Draw(t, "project")
		}
		t.Repeat(map[string]func(*rapid.T){
			"create": func(t *rapid.T) {
				p := create(t, s, drawProject(t))
				if p.ID != strconv.Itoa(len(m.projects)+1) {
					t.Fatalf("id %s", p.ID)
				}
				m.projects, m.logs = append(m.projects, p), append(m.logs, nil)
			},
			"update": func(t *rapid.T) {
				p, i := drawProject(t), any(t)
				old := &m.projects[i]
				p.ID = old.ID
				if err := s.Update(p); err != nil {
					t.Fatal(err)
				}
				old.Title, old.Path, old.Text, old.Size = p.Title, p.Path, p.Text, p.Size
			},
			"append": func(t *rapid.T) {
				i := any(t)
				w := writers[i]
				if w == nil {
					var err error
					if w, err = s.Writer(m.projects[i].ID, nil); err != nil {
						t.Fatal(err)
					}
					writers[i] = w
				}
				for range rapid.IntRange(1, 100).Draw(t, "events") {
					e := counter.Event{Kind: counter.Tap, At: rapid.Int64Range(0, 200).Draw(t, "at"), N: int64(len(m.logs[i]) + 1), Text: "x"}
					m.logs[i] = append(m.logs[i], e)
					if seq := w.Append(e); seq != uint64(len(m.logs[i])) {
						t.Fatalf("event %d has number %d", len(m.logs[i]), seq)
					}
				}
				p := &m.projects[i]
				p.Events = uint64(len(m.logs[i]))
				p.Touched = max(p.Created, m.logs[i][len(m.logs[i])-1].At)
			},
			"reopen": func(t *rapid.T) {
				shut(t, s)
				clear(writers)
				s = open(t, path)
			},
			"": func(t *rapid.T) {
				closeAll() // so that all is safe
				got, err := s.Projects()
				if err != nil || len(got) != len(m.projects) {
					t.Fatalf("%d projects, %v", len(got), err)
				}
				for i, want := range m.projects {
					p, events := load(t, s, want.ID)
					if diff := cmp.Diff(want, p); diff != "" || !slices.Equal(events, m.logs[i]) {
						t.Fatalf("loaded (-want +got):\n%s\n%d events of %d", diff, len(events), len(m.logs[i]))
					}
					want.Text = ""
					if diff := cmp.Diff(want, got[i]); diff != "" {
						t.Fatalf("listed (-want +got):\n%s", diff)
					}
				}
				for _, path := range []string{"", "/a", "/a/b", "/b", "/c"} {
					for _, text := range []string{"", "one", "two"} {
						want, ok := m.find(path, text)
						got, err := s.Find(path, text)
						if ok != (err == nil) || got != want || err != nil && !errors.Is(err, store.ErrNoProject) {
							t.Fatalf("find %q %q: %+v, %v; want %+v", path, text, got, err, want)
						}
					}
				}
			},
		})
	})
}
