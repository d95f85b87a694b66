package ground

import "testing"

func TestFind(t *testing.T) {
	for _, c := range []struct {
		name, own, fgbg string
		dark            bool
	}{
		{"nothing said", "", "", true},
		{"black ground", "", "15;0", true},
		{"white ground", "", "0;15", false},
		{"light grey ground", "", "0;7", false},
		{"dark grey ground", "", "7;8", true},
		{"three fields", "", "0;default;15", false},
		{"ground by name", "", "15;default", true},
		{"one field", "", "15", true},
		{"not numbers", "", "a;b", true},
		{"ours overrules", "light", "15;0", false},
		{"ours overrules the other way", " Dark ", "0;15", true},
		{"ours misspelt falls through", "lihgt", "0;15", false},
	} {
		env := map[string]string{Variable: c.own, "COLORFGBG": c.fgbg}
		if got, _ := find(func(k string) string { return env[k] }); got != c.dark {
			t.Errorf("%s: dark is %v, want %v", c.name, got, c.dark)
		}
	}
}
