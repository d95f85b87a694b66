package tui

func (f *frame) pace(width int) [][]span { return nil }
