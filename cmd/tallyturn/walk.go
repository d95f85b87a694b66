package main

import "errors"

var errNoTerminal = errors.New("the walk needs a terminal to draw on; 'tallyturn check FILE' works without one")

type walkCommand struct {
	streams
	choice
	data string
}

// run opens the walk of a file, or the basket where none is named.
func (k walkCommand) run(files []string) error {
	for _, file := range files {
		text, err := readSource(file, k.in)
		if err != nil {
			return err
		}
		if _, err := k.prove(sourceName(file), text); err != nil {
			return err
		}
	}
	return errNoTerminal
}
