// Package store keeps projects and what happened in them on disk, in one file.
//
// [Open] takes the file for this process alone. A [Project] is a pattern that
// is being worked: its text is kept with it, so that the file it came from
// may move or go. A [Writer] takes events as they happen, without ever making
// the caller wait, and says when they are safe.
//
// # What is promised
//
// An event that was said to be safe is on the disk. Events are there in the
// order they were given, each once, whatever happens in between: a kill, a
// full disk, a commit that failed and had been made all the same. A file that
// is damaged, or was made by a newer version, is not written to. [Rescue] sets
// a damaged one aside and takes over what can be read of it and of its copies,
// which are made after each finished row: no more is ever lost than what came
// after the last one. A file that is taken away while it is open is put back.
// [Look] reads a file that another process has.
//
// # The file
//
// It is a bbolt database, mode 0600. Numbers are big-endian, 8 bytes; id is
// the number of a project, seq that of an event in its project, both from 1.
//
//	tallyturn
//	    schema               the version of this layout
//	    basket               16 bytes that tell this basket from all others
//	projects
//	    id                   revision, title, path, size, time of creation, UID,
//	                         shelf, and the name its maker gave it
//	texts
//	    id                   revision, and text of the pattern
//	paths
//	    path 0x00 id         nothing: finds a project by its path
//	hashes
//	    SHA-256 of text, id  nothing: finds a project by its text
//	logs
//	    id
//	        seq              an event, as package counter encodes it
//	progress
//	    id                   after how many events how much was done, of how
//	                         much, in what time, and how long the rest may take
//
// All values but those of the two indexes end in a CRC-32C of where they are
// (the names of their buckets, outermost first, and their key) and of what is
// before it: see seal.go.
//
// # The package by file
//
//	store.go    opening and closing
//	create.go   a new file
//	identity.go what it and its projects are called among all there are
//	migrate.go  a file of an older layout
//	look.go     a file that is not ours
//	place.go    is the file still where it was?
//	copies.go   the copies beside it
//	check.go    are the pages whole?
//	guard.go    every use of the file goes through here
//	project.go  projects: made, found, read
//	erase.go    and erased for good
//	progress.go how far they are, for lists
//	glance.go   and a list to show before the file is opened
//	writer.go   events: taken, committed, tried again
//	entry.go    what is written of projects and events
//	seal.go     and the checksums of it
//	rescue.go   what to do about damage
//	export.go   everything out, as lines of JSON; line.go has the lines
//	import.go   and in again, by merge.go
//	path.go     where the file is
package store
