package main

import "testing"

func TestRoundTime(t *testing.T) {
	for _, c := range []struct {
		seconds int64
		want    string
	}{{5, "1 min"}, {89, "1 min"}, {13 * 60, "13 min"}, {17 * 60, "15 min"}, {18 * 60, "20 min"}, {3600, "1 h"}, {4810, "1 h 20 min"}, {7190, "2 h"}} {
		if got := roundTime(c.seconds * 1000); got != c.want {
			t.Errorf("%d s: %s, want %s", c.seconds, got, c.want)
		}
	}
}
