package store

import "path/filepath"

// DefaultPath is where the file is kept: in the folder that TALLYTURN_DATA
// names or else in the user's data folder. The two arguments look these up,
// for instance os.Getenv and what the system has for it.
func DefaultPath(getenv func(name string) string, dataHome func() string) string {
	const file = "tallyturn.db"
	if dir := getenv("TALLYTURN_DATA"); dir != "" {
		return filepath.Join(dir, file)
	}
	return filepath.Join(dataHome(), "tallyturn", file)
}
