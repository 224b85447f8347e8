package chart

import (
	"math"

	"splittally/calc/chart/markup"
)

// Duration is a load duration curve: for what share of the time the power was
// above a figure.
type Duration struct {
	ID    string
	Title string
	Words string
	Ink   Ink
	// Above gives the power, in kW, that is exceeded for a share of the time, 0 to
	// 1. It falls.
	Above func(share float64) float64
	// Base is the base load in kW, if HasBase.
	Base    float64
	HasBase bool
}

// Durations draws the curve, with marks at the hundredth and the half of the
// time, and the base load as a dashed line.
func Durations(c Duration) markup.Markup {
	p := plot{low: math.Min(0, c.Above(1)), high: math.Max(0, c.Above(0))}
	p.round()
	x := func(share float64) float64 { return powerLeft + share*(powerRight-powerLeft) }
	const steps = powerRight - powerLeft // one a unit
	line := to("M", x(0), p.y(c.Above(0)))
	for i := 1.0; i <= steps; i++ {
		line += to("L", x(i/steps), p.y(c.Above(i/steps)))
	}
	zero := p.y(0)
	parts := []markup.Part{p.levels(), markup.Markup{}}
	ticks := ""
	for _, percent := range []float64{0, 25, 50, 75, 100} {
		at := x(percent / 100)
		ticks += to("M", at, powerBase) + to("v", 4)
		parts = append(parts, words("small", "middle", math.Min(at, Width-16), powerBase+15, tick(percent, 1)+"\u202f%"))
	}
	parts[1] = path("axis", ticks)
	own := []markup.Part{
		path("body", line+to("V", zero)+to("H", x(0))+"Z"), path("line", line),
		mark(c.Ink, x(0.01), p.y(c.Above(0.01))), mark(c.Ink, x(0.5), p.y(c.Above(0.5))),
		words("own", "start", x(0.01)+9, p.y(c.Above(0.01))+4, "top 1\u202f%"),
		words("own", "middle", x(0.5), p.y(c.Above(0.5))-9, "median"),
	}
	if c.HasBase {
		own = append(own, segment("line dash", powerLeft, p.y(c.Base), powerRight, p.y(c.Base)),
			words("own", "end", powerRight, p.y(c.Base)-9, "base load"))
	}
	return drawing(c.ID, c.Title, c.Words, powerTall, append(parts, group(c.Ink.Class(), own...))...)
}
