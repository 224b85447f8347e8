package chart

import (
	"math"

	"splittally/calc/chart/markup"
)

const (
	shareWide = 160.0
	shareTall = 12.0
)

// Share draws a part of 1 as a hatched length of a framed bar. It says nothing
// of its own to a reader of the screen: the figure must stand beside it.
func Share(ink Ink, share float64) markup.Markup {
	if !finite(share) {
		share = 0
	}
	wide := math.Min(1, math.Max(0, share)) * (shareWide - 2)
	return markup.El("svg", class("share"), markup.A("viewBox", "0 0 "+markup.Number(shareWide)+" "+markup.Number(shareTall)), markup.A("aria-hidden", "true"),
		group(ink.Class(), rect("open", 1, 1, shareWide-2, shareTall-2), rect("wood", 1, 1, wide, shareTall-2), ink.hatch(1, 1, wide, shareTall-2)))
}
