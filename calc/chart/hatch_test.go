package chart

import (
	"math"
	"regexp"
	"strconv"
	"testing"

	"pgregory.net/rapid"
)

// Whatever the rectangle and the ink, every line of a hatch stays inside.
func TestHatchStaysInside(t *testing.T) {
	step := regexp.MustCompile(`([MLHV])(-?[0-9.]+)(?: (-?[0-9.]+))?`)
	rapid.Check(t, func(t *rapid.T) {
		ink := Ink(rapid.IntRange(-1, inks).Draw(t, "ink"))
		x, y := rapid.Float64Range(-20, 300).Draw(t, "x"), rapid.Float64Range(-20, 300).Draw(t, "y")
		w, h := rapid.Float64Range(-1, 90).Draw(t, "width"), rapid.Float64Range(-1, 90).Draw(t, "height")
		inside := func(v, low, size float64) bool {
			return v >= low-0.006 && v <= low+math.Max(0, size)+0.006 // places are written to a hundredth
		}
		drawn := ink.hatch(x, y, w, h).String()
		for _, m := range step.FindAllStringSubmatch(drawn, -1) {
			a, _ := strconv.ParseFloat(m[2], 64)
			b, _ := strconv.ParseFloat(m[3], 64)
			ok := inside(a, x, w)
			switch m[1] {
			case "M", "L":
				ok = ok && inside(b, y, h)
			case "V":
				ok = inside(a, y, h)
			}
			if !ok {
				t.Fatalf("%s leaves %g, %g, %g by %g: %s", m[0], x, y, w, h, drawn)
			}
		}
		if w > 2*hatchStep && h > 2*hatchStep && len(step.FindAllString(drawn, -1)) < 4 {
			t.Fatalf("%g by %g has hardly a line: %s", w, h, drawn)
		}
	})
}
