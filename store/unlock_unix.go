//go:build unix

package store

import (
	"os"
	"syscall"
)

// unlock gives up the lock of a database that is only read.
func unlock(f *os.File) error { return syscall.Flock(int(f.Fd()), syscall.LOCK_UN) }
