package main

import "runtime/debug"

// version is what the build recorded about itself: the module's version, or
// the commit it was built from.
func version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return "(unknown)"
	}
	v := info.Main.Version
	if v == "" {
		v = "(devel)"
	}
	return v + " " + info.GoVersion
}
