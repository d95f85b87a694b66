// Package ground decides, before anything else runs, whether the terminal
// writes light on dark or dark on light.
//
// bubbletea asks the terminal for its background colour in its own init and
// waits five seconds where nothing answers (a serial line, some remote
// terminals, a pseudo-terminal in a test). Lipgloss does not ask once it has
// been told. Go initialises packages that are ready in the order of their
// import paths, and this one sorts before bubbletea, so telling lipgloss here
// is early enough; telling it in main is not. The package must therefore
// import nothing that waits on bubbletea.
package ground

import (
	"os"
	"strconv"
	"strings"

	"github.com/charmbracelet/lipgloss"
)

// Variable is the environment variable by which the maker says which ground
// the terminal has: "dark" or "light". It overrules what the terminal says.
const Variable = "TALLYTURN_GROUND"

var dark, known = find(os.Getenv)

func init() { lipgloss.SetHasDarkBackground(dark) }

// Known reports whether the environment said which ground there is. Where it
// did not, the terminal may be asked.
func Known() bool { return known }

// Dark reports whether the ground is dark, as found when the program started.
func Dark() bool { return dark }

// find looks where an answer can be had without asking the terminal: our own
// variable, then COLORFGBG, which several terminals set. A ground that is not
// known is taken for dark.
func find(getenv func(string) string) (dark, known bool) {
	switch strings.ToLower(strings.TrimSpace(getenv(Variable))) {
	case "dark":
		return true, true
	case "light":
		return false, true
	}
	// "15;0", or "15;default;0": the last field is the ground's colour.
	fields := strings.Split(getenv("COLORFGBG"), ";")
	n, err := strconv.Atoi(fields[len(fields)-1])
	if err != nil || len(fields) < 2 {
		return true, false
	}
	return n < 7 || n == 8, true
}
