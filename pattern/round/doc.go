// Package round is the geometry of work in rounds: from a size to the rounds of
// a flat circle, a ball or an oval, and from rounds to the size and shape they
// come to.
//
// The rule behind it is that of the circle. Each round adds its height h to the
// radius, so that the edge of a flat piece grows by 2 x pi x h a round, which is
// 2 x pi x h / w stitches of width w. Fewer, and it cups; more, and it ruffles.
//
// The package by file:
//
//	fabric.go   a stitch's width and height, from a gauge
//	rule.go     how many stitches a round grows by
//	circle.go   flat circles
//	ball.go     balls
//	oval.go     flat ovals
//	write.go    rounds as a written pattern, proven
//	slack.go    how far a size may be off as the swatch differs
//	shape.go    what rounds come to: size, depth, whether they cup or ruffle
//
// Lengths are in mm.
package round
