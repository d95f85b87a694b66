package tui

import (
	"strings"
	"testing"
)

func TestASCIIOnly(t *testing.T) {
	for _, c := range []struct {
		env  string
		want bool
	}{
		{"", false},
		{"TERM=xterm-256color LANG=de_CH.UTF-8", false},
		{"LANG=de_CH.utf8@euro", false},
		{"LANG=de_CH", false},
		{"LANG=de_CH.ISO-8859-1", true},
		{"LANG=C", true},
		{"LANG=C.UTF-8", false},
		{"LC_ALL=POSIX LANG=de_CH.UTF-8", true},
		{"LC_CTYPE=C.UTF-8 LANG=C", false},
		{"TERM=linux LANG=de_CH.UTF-8", true},
	} {
		env := map[string]string{}
		for _, pair := range strings.Fields(c.env) {
			name, value, _ := strings.Cut(pair, "=")
			env[name] = value
		}
		if got := asciiOnly(func(name string) string { return env[name] }); got != c.want {
			t.Errorf("%q: %v, want %v", c.env, got, c.want)
		}
	}
}

// Every screen can be drawn in ASCII: no sign is forgotten.
func TestASCIIFrames(t *testing.T) {
	look := Look{Colours: Plain, ASCII: true}
	check := func(name, frame string) {
		for _, r := range frame {
			if r > 0x7e {
				t.Errorf("%s sends %q:\n%s", name, r, frame)
				return
			}
		}
	}
	for _, size := range sizes {
		for _, m := range moments {
			w, _ := walkOf(t, harbourCrab(), look, size.width, size.height)
			press(w, append(m.keys, "p")...)
			check(m.name, w.view())
		}
		w, _ := walkOf(t, harbourCrab(), look, size.width, size.height)
		press(w, append(times(" ", 6), "4", "enter", "enter")...)
		toTheEnd(t, w)
		check("the end", w.view())
		check("the help", (&helpSheet{groups: allKeys()}).view(newTheme(look), size.width, size.height))
		b := basketOf(look)
		b.cfg.Items = append(b.cfg.Items[:1:1], b.cfg.Items[2:]...) // not the one in Japanese
		b.gather()
		b.resize(size.width, size.height)
		check("the basket", b.view())
	}
}
