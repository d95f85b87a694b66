package store

import (
	"cmp"
	"encoding/binary"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"slices"
	"sync"
	"sync/atomic"
	"time"

	"go.etcd.io/bbolt"
	bolterrors "go.etcd.io/bbolt/errors"
)

// schema is the version of the layout that this package writes.
const schema = 1

var (
	metaBucket     = []byte("tallyturn")
	projectsBucket = []byte("projects")
	textsBucket    = []byte("texts")
	pathsBucket    = []byte("paths")
	hashesBucket   = []byte("hashes")
	logsBucket     = []byte("logs")
	progressBucket = []byte("progress")
	schemaKey      = []byte("schema")

	buckets = [][]byte{metaBucket, projectsBucket, textsBucket, pathsBucket, hashesBucket, logsBucket, progressBucket}
)

// lockWait is how long Open waits for another process to let go of the file:
// long enough for one that is just ending.
const lockWait = 150 * time.Millisecond

// Store is the open file. Its methods may be used from several goroutines.
type Store struct {
	path string

	mu     sync.RWMutex // held by all use of db; for writing to close it
	db     *bbolt.DB
	closed bool

	commit func(func(*bbolt.Tx) error) error // db.Update, but for tests of what fails
	damage atomic.Pointer[error]             // the first damage seen

	writersMu sync.Mutex
	writers   map[string]*Writer // by project; nil once closed
}

// Open opens the file at path, and makes it, with its folder, if there is
// none. The file belongs to this process until Close. The errors are
// ErrLocked, ErrNewer, ErrForeign, ErrDamaged and those of the file system.
func Open(path string) (*Store, error) {
	if _, err := os.Stat(path); errors.Is(err, fs.ErrNotExist) {
		if err := create(path); err != nil {
			return nil, fmt.Errorf("begin a basket: %w", err)
		}
	}
	if err := inspect(path); err != nil {
		return nil, err
	}
	db, err := openFile(path, false)
	if err != nil {
		return nil, err
	}
	s := &Store{path: path, db: db, commit: db.Update, writers: map[string]*Writer{}}
	// Another process may have had the file since it was inspected.
	if err := s.view(checkSchema); err != nil {
		return nil, errors.Join(err, s.Close())
	}
	return s, nil
}

// openFile opens a database and names what is wrong with it.
func openFile(path string, readOnly bool) (db *bbolt.DB, err error) {
	err = guard(func() error {
		db, err = bbolt.Open(path, 0o600, &bbolt.Options{
			Timeout:      lockWait,
			ReadOnly:     readOnly,
			FreelistType: bbolt.FreelistMapType,
			NoStatistics: true,
		})
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

// inspect looks the file over without writing to it.
func inspect(path string) error {
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
	if err := checkPages(path, int64(db.Info().PageSize)); err != nil {
		return err
	}
	return guard(func() error {
		return db.View(func(tx *bbolt.Tx) error {
			if err := checkSchema(tx); err != nil {
				return err
			}
			return checkProjects(tx)
		})
	})
}

func checkSchema(tx *bbolt.Tx) error {
	meta := tx.Bucket(metaBucket)
	if meta == nil {
		return ErrForeign
	}
	value, err := in(metaBucket).unseal(schemaKey, meta.Get(schemaKey))
	if err != nil {
		return err
	}
	if len(value) != 8 {
		return damaged("it does not say its version")
	}
	if v := binary.BigEndian.Uint64(value); v > schema {
		return fmt.Errorf("%w (layout %d; this version knows %d)", ErrNewer, v, schema)
	} else if v == 0 {
		return damaged("it does not say its version")
	}
	for _, name := range buckets {
		if tx.Bucket(name) == nil {
			return damaged("%s are missing", name)
		}
	}
	return nil
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
		go s.db.Close()
		return errors.Join(errs...)
	}
	return errors.Join(append(errs, s.db.Close())...)
}
