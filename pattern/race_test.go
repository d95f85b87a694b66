//go:build race

package pattern

// racing is set where the race detector is on. It slows this package, which has
// no goroutines, some seven times: what only tries sizes is left to the plain run.
const racing = true
