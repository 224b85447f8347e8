package chart

import (
	"math"

	"splittally/calc/chart/markup"
	"splittally/calc/figure"
)

// secondsStep gives a round distance for about n ticks over seconds: as clocks
// are divided from ten seconds on.
func secondsStep(span float64, n int) float64 {
	rough := span / float64(n)
	for _, s := range []float64{10, 15, 30, 60, 120, 300, 600, 900} {
		if rough > 5 && s >= rough*0.999 {
			return s
		}
	}
	return math.Max(1e-3, step(span, n))
}

// seconds draws the scale of a time along the bottom, from one moment to
// another. Labels keep off its ends.
func seconds(from, till, bottom, left, right float64, x func(float64) float64) markup.Markup {
	if !(till > from) || !finite(till-from) {
		return markup.Markup{}
	}
	by := secondsStep(till-from, 5)
	places := int(math.Max(0, math.Ceil(-math.Log10(by)-1e-9)))
	d := to("M", left, bottom) + to("H", right)
	var out []markup.Part
	for n := math.Ceil(from/by - 1e-9); n*by <= till+1e-9*by; n++ {
		at := x(n * by)
		d += to("M", at, bottom) + "v4"
		label := figure.Clock(n*by, places)
		room := 3.2 * float64(len(label))
		out = append(out, words("small", "middle", clamp(at, room, Width-room), bottom+15, label))
	}
	return markup.Join(path("axis", d), markup.Join(out...))
}
