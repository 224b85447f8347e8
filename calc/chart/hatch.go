package chart

import (
	"math"

	"splittally/calc/chart/markup"
)

// hatchStep is the distance of the lines of a hatch, in units along an axis.
const hatchStep = 6.0

// hatch fills a rectangle with lines in the ink; each ink has its own
// direction. The lines are drawn one by one, and start from the drawing's own
// origin so that neighbours join. An SVG pattern would do it in less, but
// printing to a file turns each into a picture of the whole page: two months
// of days made 11 MB.
func (k Ink) hatch(x, y, width, height float64) markup.Markup {
	b := box{x, y, x + math.Max(0, width), y + math.Max(0, height)}
	d := ""
	switch {
	case k < 0 || k%inks == 3:
		for at := above(b.top); at < b.bottom; at += hatchStep {
			d += to("M", b.left, at) + to("H", b.right)
		}
	case k%inks == 2:
		for at := above(b.left); at < b.right; at += hatchStep {
			d += to("M", at, b.top) + to("V", b.bottom)
		}
	case k%inks == 1: // falling: y − x = at
		for at := above(b.top - b.right); at < b.bottom-b.left; at += hatchStep {
			from, till := math.Max(b.left, b.top-at), math.Min(b.right, b.bottom-at)
			d += to("M", from, from+at) + to("L", till, till+at)
		}
	default: // rising: x + y = at
		for at := above(b.left + b.top); at < b.right+b.bottom; at += hatchStep {
			from, till := math.Max(b.left, at-b.bottom), math.Min(b.right, at-b.top)
			d += to("M", from, at-from) + to("L", till, at-till)
		}
	}
	if d == "" {
		return markup.Markup{}
	}
	return path("hatch", d)
}

type box struct{ left, top, right, bottom float64 }

// above gives the first line of a hatch beyond a place.
func above(at float64) float64 { return (math.Floor(at/hatchStep) + 1) * hatchStep }
