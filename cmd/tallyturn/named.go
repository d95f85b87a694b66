package main

import (
	"cmp"
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"crochet/tallyturn/counter"
	"crochet/tallyturn/counter/film"
	"crochet/tallyturn/pattern/demo"
	"crochet/tallyturn/store"
	"crochet/tallyturn/tui"
)

// whatIsNamed tells how commands let a project be named.
const whatIsNamed = `PROJECT is the file of the pattern, the name of a demo, or what the project is
called in the basket or a part of that. Of several it is the one touched last.`

// oneProject asks for the name of one project.
func oneProject(c *cobra.Command, args []string) error {
	if len(args) == 0 {
		return wrongUse(c, "name a project")
	}
	return atMostOne(c, args)
}

// named finds a project of the basket and what was filmed of it.
func (k walkCommand) named(name string) (store.Project, *film.Session, error) {
	kept, err := k.lookAtBasket()
	if err != nil {
		return store.Project{}, nil, err
	}
	defer kept.Close() // it was only read
	p, err := projectNamed(kept, name)
	if err != nil {
		return store.Project{}, nil, err
	}
	p, events, err := kept.Load(p.ID)
	if err != nil {
		return store.Project{}, nil, fmt.Errorf("%s: %w", tui.Clean(name), err)
	}
	return p, film.Of(counter.NewPlan(provenAgain(p)), events), nil
}

// projectNamed finds a project, without its text.
func projectNamed(kept *store.Store, name string) (store.Project, error) {
	all, err := kept.Projects()
	if err != nil {
		return store.Project{}, fmt.Errorf("%s: %w", kept.Path(), err)
	}
	slices.SortStableFunc(all, func(a, b store.Project) int { return cmp.Compare(b.Touched, a.Touched) })
	first := func(is func(p store.Project) bool) (store.Project, bool) {
		if i := slices.IndexFunc(all, is); i >= 0 {
			return all[i], true
		}
		return store.Project{}, false
	}
	if path, err := filepath.Abs(name); err == nil {
		if p, ok := first(func(p store.Project) bool { return p.Path == path }); ok {
			return p, nil
		}
	}
	called := func(p store.Project) bool {
		return strings.EqualFold(heading(p), name) || strings.EqualFold(p.Called(), name) || strings.EqualFold(p.Title, name)
	}
	if p, ok := first(called); ok {
		return p, nil
	}
	if d, ok := demo.Find(name); ok {
		p, err := kept.Find("", d.Text)
		if err == nil || !errors.Is(err, store.ErrNoProject) {
			return p, err
		}
	}
	word := strings.ToLower(name)
	if p, ok := first(func(p store.Project) bool { return word != "" && strings.Contains(strings.ToLower(heading(p)), word) }); ok {
		return p, nil
	}
	return store.Project{}, fmt.Errorf("%s: is not in the basket; there %s", tui.Clean(name), thereAre(all))
}

// thereAre names the projects that were touched last.
func thereAre(all []store.Project) string {
	if len(all) == 0 {
		return "is nothing in it"
	}
	const most = 5
	var names []string
	for _, p := range all {
		if n := heading(p); !slices.Contains(names, n) {
			names = append(names, n)
		}
	}
	more := ""
	if n := len(names) - most; n > 0 {
		names, more = names[:most], fmt.Sprintf(" and %d more", n)
	}
	return plural(len(names), "is ", "are ") + strings.Join(names, ", ") + more
}
