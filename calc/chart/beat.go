package chart

import (
	"splittally/calc/chart/markup"
)

// Beat is what became of a pulse of the meter, or of the place of one.
type Beat int

// What becomes of pulses. Each has a shape of its own.
const (
	Counts  Beat = iota // a disc, or a stroke where there are many
	Set                 // by hand: a triangle
	Lacks               // not there but counted: a ring
	Between             // between two that count: a cross
	Unsure              // too unsure to count: a hollow diamond
	Struck              // struck out by hand: a ring that is struck through
	beats
)

// Placed is a pulse at a time, in seconds.
type Placed struct {
	At   float64
	Beat Beat
}

// ink gives the classes of a group and of the path in it.
func (b Beat) ink() (group, path markup.Name) {
	switch b {
	case Lacks:
		return Meter.Class(), "open"
	case Between:
		return "ink-wrong", "line"
	case Unsure:
		return "ink-wrong", "open"
	case Struck:
		return Meter.Class(), "line"
	}
	return Meter.Class(), "solid"
}

// outline appends the shape of a beat around a place.
func (b Beat) outline(d []byte, x, y float64) []byte {
	d = append(d, to("M", x, y)...)
	switch b {
	case Set:
		return append(d, "m0-4.5l4.5 8h-9z"...)
	case Between:
		return append(d, "m-3.5-3.5l7 7m0-7l-7 7"...)
	case Unsure:
		return append(d, "m0-4.5l4.5 4.5l-4.5 4.5l-4.5-4.5z"...)
	case Struck:
		d = append(d, "m-5 5l10-10M"...)
		d = append(d, to("", x, y)...)
	}
	return append(d, "m-3.5 0a3.5 3.5 0 1 0 7 0a3.5 3.5 0 1 0-7 0z"...)
}

// CrowdOfBeats is the number of pulses beyond which those that count are strokes.
const CrowdOfBeats = 60

// strewn draws pulses in a row at the height y, those of a kind as one path. Of
// several that would lie on one another one is drawn. Above a row of strokes
// stand those that are no strokes.
func strewn(all []Placed, y float64, x func(float64) float64) markup.Markup {
	var out []markup.Part
	for b := range beats {
		var d []byte
		last, apart := -Width, 2.0
		stroke := b == Counts && len(all) > CrowdOfBeats
		up := y
		if stroke {
			apart = 0.5
		} else if len(all) > CrowdOfBeats {
			up = y - 9
		}
		for _, p := range all {
			at := x(p.At)
			if p.Beat != b || at-last < apart {
				continue
			}
			last = at
			if stroke {
				d = append(append(d, to("M", at, y-4)...), "v8"...)
			} else {
				d = b.outline(d, at, up)
			}
		}
		if len(d) == 0 {
			continue
		}
		around, inside := b.ink()
		if stroke {
			inside = "line"
		}
		out = append(out, group(around, path(inside, string(d))))
	}
	return markup.Join(out...)
}
