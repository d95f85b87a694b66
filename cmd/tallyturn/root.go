package main

import (
	"fmt"
	"os"

	"github.com/spf13/cobra"
)

// newWalk is the command without a name, by itself.
func newWalk(w world) *cobra.Command {
	k := walkCommand{world: w}
	root := &cobra.Command{
		Use:   "tallyturn [FILE]",
		Short: "Walk through a crochet pattern stitch by stitch, and check its numbers",
		Long: `tallyturn reads an ordinary written crochet pattern, checks every count in it
and keeps your place while you work: to the stitch, with both hands busy,
today or days later.

tallyturn FILE walks through the pattern in FILE, or goes on where you stopped.
tallyturn alone shows the basket of things in progress.`,
		Example: `  tallyturn pennant.txt
  tallyturn pennant.txt --size M
  tallyturn check pennant.txt`,
		Args: fileToWalk,
		RunE: func(c *cobra.Command, files []string) error {
			if len(files) == 0 {
				return k.basket()
			}
			return k.file(files[0])
		},
		SilenceErrors: true,
		SilenceUsage:  true,
	}
	k.flags(root)
	return root
}

// newRoot is every command.
func newRoot(w world) *cobra.Command {
	root := newWalk(w)
	root.Version = version()
	root.SetVersionTemplate("tallyturn {{.Version}}\n")
	root.SuggestionsMinimumDistance = 2
	root.SetHelpCommand(newHelp())
	root.SetFlagErrorFunc(func(c *cobra.Command, err error) error {
		return wrongUse(c, err.Error())
	})
	root.AddCommand(
		newCheck(w),
		newFit(w),
		newSay(w),
		newDemo(w),
		newBasket(w), newFilm(w),
		newCues(w),
		newConfig(w), newMan(w),
		newEvenly(w),
		newRounds(w),
		newLayout(w),
		newYarn(w),
		newSheet(w),
		newChart(w),
	)
	tellCompletion(root, w)
	return root
}

// completionExamples show how completions are kept, shell by shell.
var completionExamples = map[string]string{
	"bash":       "tallyturn completion bash > ~/.local/share/bash-completion/completions/tallyturn",
	"zsh":        `tallyturn completion zsh > "${fpath[1]}/_tallyturn"`,
	"fish":       "tallyturn completion fish > ~/.config/fish/completions/tallyturn.fish",
	"powershell": "tallyturn completion powershell | Out-String | Invoke-Expression",
}

// tellCompletion has the commands that write completions, which are the
// library's, tell of themselves as ours do.
func tellCompletion(root *cobra.Command, w world) {
	root.SetOut(w.out) // which the library keeps for them
	root.InitDefaultCompletionCmd()
	c, _, err := root.Find([]string{"completion"})
	if err != nil || c == root {
		return
	}
	c.Short = "Write completions for your shell"
	c.Long = "completion writes a script by which your shell completes the commands, their flags\nand the names of files and demos. The help of each shell says where to keep it."
	c.Example = "  " + completionExamples["bash"]
	for _, shell := range c.Commands() {
		shell.Short = "Write completions for " + shell.Name()
		shell.Example = "  " + completionExamples[shell.Name()]
	}
}

// fileToWalk asks for one file at most, and takes a command written a little
// wrong for what it was meant to be.
func fileToWalk(c *cobra.Command, args []string) error {
	if len(args) > 0 {
		if near := c.SuggestionsFor(args[0]); len(near) > 0 && !exists(args[0]) {
			return wrongUse(c, fmt.Sprintf("there is no file or command %q; perhaps %q is meant", args[0], near[0]))
		}
	}
	return patternFiles(0, 1)(c, args)
}

func exists(file string) bool {
	_, err := os.Stat(file)
	return err == nil
}

// patternFiles asks for at least least and at most most arguments; most 0 is
// any number.
func patternFiles(least, most int) cobra.PositionalArgs {
	return func(c *cobra.Command, args []string) error {
		switch {
		case len(args) < least:
			return wrongUse(c, "name a pattern file")
		case most > 0 && len(args) > most:
			return wrongUse(c, fmt.Sprintf("%q is one argument too many", args[most]))
		}
		return nil
	}
}

// wrongUse is the error for a command line that cannot be carried out.
func wrongUse(c *cobra.Command, problem string) error {
	return fmt.Errorf("%s; '%s --help' shows how it goes", problem, c.CommandPath())
}
