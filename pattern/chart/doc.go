// Package chart draws a proven pattern as a symbol chart: each stitch by its
// usual symbol, standing in the stitches of the row below that the proof has
// it in.
//
// From a proof to a picture:
//
//	sheet.go    what is to be drawn: pieces, and pieces in place on others
//	ground.go   the surface that rows lie on: flat, round, round a chain
//	form.go     the shape that rows make: ripples, motifs, filet
//	ripple.go   peaks and valleys
//	corners.go  triangles, squares and hexagons
//	shaped.go   a row laid in its shape
//	place.go    where the stitches of a row come to stand
//	row.go      a row laid on the one below it
//	colour.go   the yarns of the pattern as colours and hatchings
//	symbol.go   which symbol a stitch has
//	draw.go     the symbols as lines
//	mark.go     what is drawn beside the stitches: chains, rings, numbers
//	legend.go   the symbols that were used, with their names
//	tile.go     charts that are too large for one picture
//	svg.go, png.go, text.go   the picture written down
//	text_parts.go   letters that are too wide for one picture
//	text_motif.go, text_ripple.go   and in letters, where it is not straight
//
// Lengths are in units of one single crochet's height.
package chart
