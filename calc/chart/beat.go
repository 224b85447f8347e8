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

// strewn draws pulses in a row at the height y, those of a kind as one path; a
// second is so many units wide. Of several that would lie on one another one is
// drawn. Above a row of strokes stand those that are no strokes.
func strewn(all []Placed, y, second float64, x func(float64) float64) markup.Markup {
	var d [beats][]byte
	var last [beats]float64
	crowded := len(all) > CrowdOfBeats
	for _, p := range all {
		apart := 2.0
		if crowded && p.Beat == Counts {
			apart = 0.5
		}
		if len(d[p.Beat]) > 0 && (p.At-last[p.Beat])*second < apart {
			continue
		}
		last[p.Beat] = p.At
		switch at := x(p.At); {
		case crowded && p.Beat == Counts:
			d[Counts] = append(append(d[Counts], to("M", at, y-4)...), "v8"...)
		case crowded:
			d[p.Beat] = p.Beat.outline(d[p.Beat], at, y-9)
		default:
			d[p.Beat] = p.Beat.outline(d[p.Beat], at, y)
		}
	}
	var out []markup.Part
	for b := range beats {
		if len(d[b]) == 0 {
			continue
		}
		around, inside := b.ink()
		if crowded && b == Counts {
			inside = "line"
		}
		out = append(out, group(around, path(inside, string(d[b]))))
	}
	return markup.Join(out...)
}
