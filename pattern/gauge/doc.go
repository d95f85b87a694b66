// Package gauge holds the trade's tables of hooks and yarns: what a hook of
// so many millimetres is called, and which gauge a weight of yarn is sold for.
//
// Sizes of hooks are in millimetres, which alone are sure: the letters of the
// United States name some sizes twice, and the numbers of steel hooks differ
// from maker to maker. Gauges are stitches of single crochet (UK double
// crochet) in 4 inches, about 10 cm.
package gauge
