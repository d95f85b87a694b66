package tui

func (w *Walk) rewriteChoices() []choice    { return nil }
func (f *frame) rewrite(width int) [][]span { return nil }
