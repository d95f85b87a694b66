package store

import (
	"cmp"
	"encoding/binary"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"runtime"
	"slices"
	"strconv"
	"sync"
	"sync/atomic"
	"time"

	"go.etcd.io/bbolt"
	bolterrors "go.etcd.io/bbolt/errors"
)

// schema is the version of the layout that this package writes.
const schema = 4

var (
	metaBucket     = []byte("tallyturn")
	projectsBucket = []byte("projects")
	textsBucket    = []byte("texts")
	pathsBucket    = []byte("paths")
	hashesBucket   = []byte("hashes")
	logsBucket     = []byte("logs")
	progressBucket = []byte("progress")
	schemaKey      = []byte("schema")
	identityKey    = []byte("basket")

	buckets = [][]byte{metaBucket, projectsBucket, textsBucket, pathsBucket, hashesBucket, logsBucket, progressBucket}
)

// lockWait is how long Open waits for another process to let go of the file:
// long enough for one that is just ending.
const lockWait = 150 * time.Millisecond

// Store is the open file. Its methods may be used from several goroutines.
type Store struct {
	path string

	mu      sync.RWMutex // held by all use of db; for writing to close or change it
	db      *bbolt.DB
	closed  bool
	looking bool // db is a copy, or may only be read
	fresh   bool // the file was begun by this start

	file atomic.Pointer[fs.FileInfo] // the file that db is in; nil while looking

	copier *copier // nil while looking

	checking sync.Mutex    // held while the whole file is gone through
	settled  bool          // that came to an end
	checked  chan struct{} // closed then; nil while looking
	whole    func() error  // goes through it
	unsound  error         // what came of that; set before checked is closed
	stop     atomic.Bool   // whoever goes through it is to leave off

	commit func(func(*bbolt.Tx) error) error // db.Update, but for tests of what fails
	damage atomic.Pointer[error]             // the first damage seen

	writersMu sync.Mutex
	writers   map[string]*Writer // by project; nil once closed
}

// Open opens the file at path, and makes it, with its folder, if there is
// none. A file of an older layout is changed to that of today, after a copy
// of it was made; see migrate.go. The file belongs to this process until
// Close. The errors are ErrLocked, ErrNewer, ErrForeign, ErrDamaged, ErrGone
// and those of the file system.
func Open(path string) (*Store, error) { return open(path, false) }

// OpenSoon opens a file as Open does, and only glances at the logs of events:
// at how long they are and how they end. That is enough for Projects, Project
// and Find; all else waits until the whole file was gone through, which Check
// does. What is found then comes from Check, and from whatever waited, and
// nothing is written to the file.
func OpenSoon(path string) (*Store, error) { return open(path, true) }

func open(path string, soon bool) (*Store, error) {
	fresh := false
	if _, err := os.Stat(path); errors.Is(err, fs.ErrNotExist) {
		fresh = true
		if len(copiesOf(path)) > 0 {
			return nil, ErrGone
		}
		if err := create(path); err != nil {
			return nil, fmt.Errorf("begin a basket: %w", err)
		}
	}
	look := inspect
	if soon {
		look = glance
	}
	err := look(path)
	if errors.Is(err, errUnsure) {
		soon, err = false, inspect(path)
	}
	if err != nil {
		return nil, err
	}
	var file *os.File
	db, err := openBy(func(name string, flag int, mode fs.FileMode) (f *os.File, err error) {
		file, err = os.OpenFile(name, flag, mode)
		return file, err
	}, path, false)
	if err != nil {
		return nil, err
	}
	s := &Store{path: path, db: db, writers: map[string]*Writer{}, fresh: fresh, checked: make(chan struct{})}
	if !soon {
		s.settle(nil)
	}
	s.commit = func(write func(*bbolt.Tx) error) error { return s.db.Update(write) }
	info, err := os.Stat(path)
	if err != nil {
		return nil, errors.Join(err, s.Close())
	}
	s.file.Store(&info)
	// Another process may have had the file since it was inspected.
	if err := s.peek(checkSchema); err != nil {
		return nil, errors.Join(err, s.Close())
	}
	s.whole = func() error { return s.goThrough(file) }
	if err := s.migrate(); err != nil {
		return nil, errors.Join(err, s.Close())
	}
	sweep(path)
	s.copier = startCopier(s)
	return s, nil
}

// openFile opens a database and names what is wrong with it.
func openFile(path string, readOnly bool) (db *bbolt.DB, err error) {
	return openBy(os.OpenFile, path, readOnly)
}

// opener opens files as os.OpenFile does.
type opener func(name string, flag int, mode fs.FileMode) (*os.File, error)

func openBy(by opener, path string, readOnly bool) (db *bbolt.DB, err error) {
	err = guard(func() error {
		db, err = bbolt.Open(path, 0o600, &bbolt.Options{
			Timeout:      lockWait,
			ReadOnly:     readOnly,
			OpenFile:     by,
			FreelistType: bbolt.FreelistMapType,
			NoStatistics: true,
			// Mapping a larger piece later can fail, half-way, and has to wait
			// for whoever is reading.
			InitialMmapSize: roomToGrow(readOnly),
		})
		if err == nil {
			db.AllocSize = growBy
		}
		return err
	})
	switch {
	case errors.Is(err, bolterrors.ErrTimeout):
		return nil, ErrLocked
	case errors.Is(err, bolterrors.ErrInvalid), errors.Is(err, bolterrors.ErrChecksum), errors.Is(err, bolterrors.ErrVersionMismatch):
		return nil, fmt.Errorf("%w: %w", ErrDamaged, err)
	}
	return db, err
}

// growBy is how many bytes a file grows at a time: those of a thousand taps.
const growBy = 64 << 10

// roomToGrow is how many bytes of addresses are set aside for the file. It
// costs neither memory nor disk where a file can be mapped beyond its end.
func roomToGrow(readOnly bool) int {
	if readOnly || strconv.IntSize < 64 || runtime.GOOS == "windows" {
		return 0
	}
	return 256 << 20
}

// inspect looks the file over without writing to it.
func inspect(path string) error {
	return over(path, false, func(tx *bbolt.Tx) error {
		if err := checkSchema(tx); err != nil {
			return err
		}
		return checkProjects(tx)
	})
}

// glance looks over as much of it as listing the projects takes. Where it has
// to be changed to another layout, that is not enough.
func glance(path string) error {
	return over(path, true, func(tx *bbolt.Tx) error {
		if err := checkSchema(tx); err != nil {
			return err
		}
		if v, err := layoutOf(tx); err != nil || v != schema {
			return cmp.Or(err, errUnsure)
		}
		return nil
	})
}

func over(path string, glance bool, check func(*bbolt.Tx) error) error {
	info, err := os.Stat(path)
	if err != nil {
		return err
	}
	if info.Mode().IsRegular() && info.Size() < 2*int64(os.Getpagesize()) {
		return damaged("it has only %d bytes", info.Size())
	}
	db, err := openFile(path, true)
	if err != nil {
		return err
	}
	defer db.Close() // read only: there is nothing left to fail
	if err := checkPages(path, int64(db.Info().PageSize), glance); err != nil {
		return err
	}
	return guard(func() error { return db.View(check) })
}

// goThrough looks a file over that is open, and that nothing was written to.
func (s *Store) goThrough(file *os.File) error {
	return guard(func() error {
		c := &checker{file: file, pageSize: int64(s.db.Info().PageSize), stop: &s.stop}
		if err := c.check(file); err != nil {
			return err
		}
		return s.db.View(checkProjects)
	})
}

// Check goes through the whole file, if that was not done yet, and says what
// came of it: ErrDamaged, ErrClosed where it was closed first, or nil. Where
// the file could not be read, the error says so, and the next Check tries again.
func (s *Store) Check() error {
	if s.checked == nil { // looking: it was done
		return nil
	}
	s.checking.Lock()
	defer s.checking.Unlock()
	if s.settled {
		return s.unsound
	}
	err := s.watch(s.whole())
	if err == nil || errors.Is(err, ErrDamaged) || errors.Is(err, ErrClosed) {
		s.settle(err)
	}
	return err
}

// settle notes what came of going through the file. Checking is held by the
// caller, or nobody else has the store yet.
func (s *Store) settle(unsound error) {
	s.settled, s.unsound = true, unsound
	if s.checked != nil {
		close(s.checked)
	}
}

func checkSchema(tx *bbolt.Tx) error {
	meta := tx.Bucket(metaBucket)
	if meta == nil {
		return ErrForeign
	}
	v, err := layoutOf(tx)
	switch {
	case err != nil:
		return err
	case v > schema:
		return fmt.Errorf("%w (layout %d; this version knows %d)", ErrNewer, v, schema)
	case v >= 2 && identity(tx) == nil:
		return damaged("it does not say which basket it is")
	}
	for _, name := range buckets {
		if tx.Bucket(name) == nil {
			return damaged("%s are missing", name)
		}
	}
	return nil
}

// layoutOf is the version of the layout of a file.
func layoutOf(tx *bbolt.Tx) (uint64, error) {
	value, err := in(metaBucket).unseal(schemaKey, tx.Bucket(metaBucket).Get(schemaKey))
	if err != nil {
		return 0, err
	}
	if len(value) != 8 || binary.BigEndian.Uint64(value) == 0 {
		return 0, damaged("it does not say its version")
	}
	return binary.BigEndian.Uint64(value), nil
}

// Path is where the file is.
func (s *Store) Path() string { return s.path }

// Close closes all writers and then the file. Events that could not be
// written come back in an UnwrittenError for each project.
func (s *Store) Close() error {
	s.writersMu.Lock()
	open := slices.SortedFunc(maps.Values(s.writers), func(a, b *Writer) int { return cmp.Compare(a.id, b.id) })
	s.writers = nil
	s.writersMu.Unlock()
	var errs []error
	for _, w := range open {
		errs = append(errs, w.Close())
	}
	s.stop.Store(true)
	s.checking.Lock()
	if !s.settled {
		s.settle(ErrClosed) // no more
	}
	s.checking.Unlock()
	s.copier.stop()

	s.mu.Lock()
	defer s.mu.Unlock()
	if s.closed {
		return errors.Join(errs...)
	}
	s.closed = true
	if s.damage.Load() != nil {
		// A transaction that panicked may have kept its locks, and closing
		// would wait for them for ever. The process lets go of the file when
		// it ends.
		closed := make(chan struct{})
		go func() {
			defer close(closed)
			_ = guard(s.db.Close)
		}()
		select {
		case <-closed:
		case <-time.After(time.Second):
		}
		return errors.Join(errs...)
	}
	return errors.Join(append(errs, s.db.Close())...)
}
