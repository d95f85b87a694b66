package main

import (
	"fmt"
	"testing"

	"github.com/adrg/xdg"
)

// TestHomes checks the folders against a package that knows them for every
// system: it is no part of the program, since it reads a file as it starts.
// Source of the rules: XDG Base Directory Specification 0.8.
func TestHomes(t *testing.T) {
	kinds := []string{"", "/srv/net", "net/loft", "~/net", "$HOME/net", "~"}
	for _, home := range []string{"/home/keeper", ""} {
		for _, data := range kinds {
			for _, config := range kinds {
				t.Run(fmt.Sprintf("%s,%s,%s", home, data, config), func(t *testing.T) {
					t.Cleanup(xdg.Reload) // once the variables are back
					t.Setenv("HOME", home)
					t.Setenv("XDG_DATA_HOME", data)
					t.Setenv("XDG_CONFIG_HOME", config)
					xdg.Reload()
					if got := dataHome(); got != xdg.DataHome {
						t.Errorf("data %q, want %q", got, xdg.DataHome)
					}
					if got := configHome(); got != xdg.ConfigHome {
						t.Errorf("config %q, want %q", got, xdg.ConfigHome)
					}
				})
			}
		}
	}
}
