package main

import (
	"os"
	"path/filepath"
	"runtime"
	"strings"
)

// The user's folders, as the XDG Base Directory Specification has them: a
// variable that holds no absolute path counts for nothing. A package that knows
// all such folders reads a file of the desktop's at every start, before a word
// of ours is run; only these two are wanted here.

// dataHome is the folder of what programs keep.
func dataHome() string {
	return homeOf("XDG_DATA_HOME", ".local/share", "Library/Application Support", "LOCALAPPDATA")
}

// configHome is the folder of all config files.
func configHome() string {
	return homeOf("XDG_CONFIG_HOME", ".config", "Library/Application Support", "LOCALAPPDATA")
}

// homeOf is the folder that a variable names, or else the usual one of the
// system: below the user's home or, on Windows, what another variable names.
func homeOf(variable, unix, mac, windows string) string {
	home, err := os.UserHomeDir()
	if err != nil {
		home = string(filepath.Separator)
	}
	dir := os.Getenv(variable)
	for _, mark := range []string{"~", "$HOME"} { // as a file of settings may have it, which no shell has read
		if rest, ok := strings.CutPrefix(dir, mark); ok {
			dir = filepath.Join(home, rest)
		}
	}
	if filepath.IsAbs(dir) {
		return dir
	}
	switch runtime.GOOS {
	case "darwin", "ios":
		return filepath.Join(home, filepath.FromSlash(mac))
	case "windows":
		if dir := os.Getenv(windows); filepath.IsAbs(dir) {
			return dir
		}
		return filepath.Join(home, "AppData", "Local")
	}
	return filepath.Join(home, filepath.FromSlash(unix))
}
