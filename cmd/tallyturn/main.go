// Command tallyturn keeps the place, the count and the time of a crochet
// pattern, and checks the numbers in it.
package main

import (
	"os"
	"time"

	"crochet/tallyturn/tui"
)

func main() {
	os.Exit(run(os.Args[1:], world{
		in: os.Stdin, out: os.Stdout, err: os.Stderr,
		now: time.Now, look: tui.FindLook,
	}))
}
