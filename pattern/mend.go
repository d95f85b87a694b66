package pattern

// mend works out the likeliest change that would make a row agree: its hint.
func (w *pieceWork) mend(row, label *Row, o outcome, total *Total) string {
	if total != nil && !total.delta && o.fatal == nil && o.made > 0 && len(total.Parts) == 1 {
		return "if the row is right, its total is " + itoa(o.made)
	}
	return ""
}
