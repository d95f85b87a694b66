// Package cue hands an edit list over: as captions, chapters and lists that
// players, video pages and programs for cutting film read.
//
// [Write] does it; [Formats] says which there are. Each is an open format or
// one that is in common use, written from published accounts of it. Text is
// only text in all of them: it is put on one line, control characters are
// shown as their pictures, and what a format would take for its own is escaped
// or, where it has no way to, kept apart by a character without width.
//
// The package by file:
//
//	format.go    which formats there are, and which time they are told in
//	line.go      cuts on a line of time: that of the film, or of one take
//	text.go      text on one line, and what things are called
//	sense.go     where a sentence may be broken, and where not
//	captions.go  when its parts are on the screen
//	vtt.go       captions as WebVTT
//	srt.go       captions as SubRip
//	chapters.go  chapters for a video page, and as FFMETADATA
//	edl.go       CMX 3600; reel.go has its names of eight characters
//	otio.go      OpenTimelineIO
//	table.go     a table to read
//	csv.go       the same for a spreadsheet
package cue
