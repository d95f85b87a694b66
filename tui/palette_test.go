package tui

import (
	"fmt"
	"math"
	"strconv"
	"testing"
)

// TestContrast works out the contrast of every pair of colours as WCAG 2 does
// and asks for 4.5, level AA for text of any size.
func TestContrast(t *testing.T) {
	for _, colours := range []Colours{Sixteen, TwoFiftySix, TrueColour} {
		for _, dark := range []bool{true, false} {
			for r, p := range paletteFor(Look{Colours: colours, Dark: dark}) {
				if p.fg == "" || p.bg == "" {
					t.Fatalf("colours %d dark %v: role %d has no colours", colours, dark, r)
				}
				if c := contrast(t, p.fg, p.bg); c < 4.5 {
					t.Errorf("colours %d dark %v: role %d, %s on %s: contrast %.2f, want 4.5",
						colours, dark, r, p.fg, p.bg, c)
				}
			}
		}
	}
}

func TestContrastItself(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want float64
	}{{"#000000", "#ffffff", 21}, {"#777777", "#ffffff", 4.48}, {"16", "231", 21}, {"244", "244", 1}} {
		if got := contrast(t, c.a, c.b); math.Abs(got-c.want) > 0.01 {
			t.Errorf("contrast of %s and %s is %.2f, want %.2f", c.a, c.b, got, c.want)
		}
	}
}

func contrast(t *testing.T, a, b string) float64 {
	la, lb := luminance(t, a), luminance(t, b)
	return (max(la, lb) + 0.05) / (min(la, lb) + 0.05)
}

func luminance(t *testing.T, c string) float64 {
	t.Helper()
	var rgb [3]int
	if c[0] == '#' {
		if _, err := fmt.Sscanf(c, "#%02x%02x%02x", &rgb[0], &rgb[1], &rgb[2]); err != nil {
			t.Fatal(err)
		}
	} else {
		n, err := strconv.Atoi(c)
		if err != nil {
			t.Fatal(err)
		}
		rgb = indexed(n)
	}
	var l [3]float64
	for i, v := range rgb {
		s := float64(v) / 255
		if s <= 0.04045 {
			l[i] = s / 12.92
		} else {
			l[i] = math.Pow((s+0.055)/1.055, 2.4)
		}
	}
	return 0.2126*l[0] + 0.7152*l[1] + 0.0722*l[2]
}

// indexed is xterm's palette: its own sixteen, the cube, the greys.
func indexed(n int) [3]int {
	sixteen := [16][3]int{
		{0, 0, 0}, {205, 0, 0}, {0, 205, 0}, {205, 205, 0}, {0, 0, 238}, {205, 0, 205}, {0, 205, 205}, {229, 229, 229},
		{127, 127, 127}, {255, 0, 0}, {0, 255, 0}, {255, 255, 0}, {92, 92, 255}, {255, 0, 255}, {0, 255, 255}, {255, 255, 255},
	}
	if n < 16 {
		return sixteen[n]
	}
	if n >= 232 {
		v := 8 + 10*(n-232)
		return [3]int{v, v, v}
	}
	step := [6]int{0, 95, 135, 175, 215, 255}
	n -= 16
	return [3]int{step[n/36], step[n/6%6], step[n%6]}
}
