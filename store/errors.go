package store

import (
	"errors"
	"fmt"
)

// What can be wrong. The words are fit to be shown as they are.
var (
	// ErrLocked is given by Open while another process has the file.
	ErrLocked = errors.New("the basket is open in another window")
	// ErrNewer is given by Open for a file of a later layout.
	ErrNewer = errors.New("the basket was written by a newer version")
	// ErrForeign is given by Open for a database of another program.
	ErrForeign = errors.New("this is not a basket")
	// ErrGone is given by Open where there is no file, but copies of one.
	// Rescue makes a file of them.
	ErrGone = errors.New("the basket's file is gone, but not the copies of it")
	// ErrAway is given while the file is no longer where it was. It is put
	// back as soon as that can be done.
	ErrAway = errors.New("the basket's file was taken away")
	// ErrReplaced is given while another file is where this one was.
	ErrReplaced = errors.New("another file was put in the basket's place")
	// ErrLooking is given by a Store that Look opened for what would change it.
	ErrLooking = errors.New("the basket is only being looked at")
	// ErrDamaged is given when the file is not as it was written. From then
	// on nothing is written to it.
	ErrDamaged = errors.New("the basket's file is damaged")
	// ErrNoProject is given for a project that is not in the file.
	ErrNoProject = errors.New("there is no such project in the basket")
	// ErrBusy is given for a second Writer of a project.
	ErrBusy = errors.New("this project is being worked already")
	// ErrClosed is given by a Store that has been closed.
	ErrClosed = errors.New("the basket is closed")
)

// damaged is ErrDamaged with what was found.
func damaged(format string, args ...any) error {
	return fmt.Errorf("%w: %s", ErrDamaged, fmt.Sprintf(format, args...))
}
