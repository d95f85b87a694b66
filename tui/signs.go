package tui

import "strings"

// asciiSigns puts a plain letter for every sign that the screens are drawn
// with, one column for one column, for terminals that have no others. Text
// from patterns is left as it is.
var asciiSigns = strings.NewReplacer(
	"…", "~", "·", "-", "–", "-",
	doneSign, "+", "✗", "x", "≠", "!", "▸", ">", "◂", "<", "‹", "<", "›", ">",
	"╲", `\`, "╱", "/", "╶", "-", "╴", " ", "─", "-", "╭", ".", "╮", ".", "▼", "v",
	"┬", "T", "┼", "+", "╪", "#", "│", "|", "◊", "0", "•", "*", "∙", ".", "╰", "\\", "╯", "/", "┴", "-", "├", "|", "┤", "|",
	"█", "#", "▀", `"`, "▄", "_", "━", "=", "╌", "-",
	"●", "*", "○", "o", "▲", "^", "≤", "<", "×", "x", "−", "-",
)

// asciiOnly tells from the environment whether a terminal shows no more than
// ASCII: one set to a locale without Unicode, or the console of Linux, whose
// fonts lack half of our signs. Where nothing is said, Unicode is taken for
// granted.
func asciiOnly(getenv func(string) string) bool {
	if getenv("TERM") == "linux" {
		return true
	}
	for _, name := range []string{"LC_ALL", "LC_CTYPE", "LANG"} {
		locale := getenv(name)
		if locale == "" {
			continue
		}
		_, charset, said := strings.Cut(strings.ToLower(locale), ".")
		charset, _, _ = strings.Cut(charset, "@")
		if said {
			return charset != "utf-8" && charset != "utf8"
		}
		return locale == "C" || locale == "POSIX"
	}
	return false
}
