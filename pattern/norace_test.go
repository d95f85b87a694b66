//go:build !race

package pattern

const racing = false
