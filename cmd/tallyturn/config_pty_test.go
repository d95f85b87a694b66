package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"crochet/tallyturn/tui/ptytest"
)

// TestSettingsOnScreen starts the program with settings of the maker's own and
// with wrong ones, which it names and does without.
func TestSettingsOnScreen(t *testing.T) {
	program, home := built(t), t.TempDir()
	start := func(settings string) *ptytest.Terminal {
		t.Helper()
		path := filepath.Join(home, "config", "tallyturn", "config.toml")
		if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(settings), 0o600); err != nil {
			t.Fatal(err)
		}
		cmd := exec.Command(program, "--data", t.TempDir())
		cmd.Env = []string{"TERM=xterm-256color", "HOME=" + home, "XDG_CONFIG_HOME=" + filepath.Join(home, "config")}
		return ptytest.Start(t, cmd, 100, 30)
	}
	end := func(term *ptytest.Terminal) {
		t.Helper()
		if err := term.WaitEnd(); err != nil {
			t.Fatal(err)
		}
	}

	term := start("[keys]\ntap = [\"j\"]\nyarn = \"f6\"\nyarn-close = \"f6\"\nleave = \"f10\"\n[signals]\nrow-end = \"flash\"\n")
	term.WaitFor("stitch 1 of 20")
	term.Type("jq")
	term.WaitFor("stitch 2 of 20", "q does nothing here.")
	term.Type(" ")
	term.WaitFor("Space does nothing here.")
	term.Type("\x0cjjj")
	term.WaitFor("LOCKED · Ctrl+L unlocks · 3 keys did nothing", "stitch 2 of 20")
	term.Type("\x0cjjjjjjjjjjjjjjjjjjj")
	term.WaitFor("END OF THE ROW")
	term.Type("\x1b[21~")
	end(term)

	term = start("ground = \"dim\"\n[keys]\ntap = \"j\"\n")
	term.WaitFor("stitch 1 of 20", "config.toml:1: ground is", "your settings are not used.")
	term.Type(" ")
	term.WaitFor("stitch 2 of 20")
	term.Type("q")
	end(term)
}
