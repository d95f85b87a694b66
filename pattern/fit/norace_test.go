//go:build !race

package fit

const racing = false
