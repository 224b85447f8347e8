package chart

import (
	"math"

	"splittally/calc/chart/markup"
)

// Days is the daily energy of one instrument around a billing period.
type Days struct {
	ID    string
	Title string
	Words string
	Ink   Ink
	Days  []Day
	Mean  float64 // kWh that the meter counted for a day on average; 0 for none
}

// Day is a bar.
type Day struct {
	Label   string  // such as "3 Sep"
	Energy  float64 // kWh, measured or filled; below 0 is drawn as 0
	Sure    float64 // how much of Energy was measured
	Known   bool    // false for a day of which nothing is known: a cross
	Outside bool    // not in the billing period: paler
	Odd     bool    // stands out: a mark above
}

const (
	daysTall  = 150.0
	plotLeft  = 28.0
	plotRight = Width - 4
	plotTop   = 16.0
	plotBase  = daysTall - 22
)

// Daily draws the days. What was filled is hatched and has a dashed outline.
func Daily(s Days) markup.Markup {
	most := s.Mean
	for _, d := range s.Days {
		most = math.Max(most, d.Energy)
	}
	by := step(most, 4)
	most = math.Max(by, math.Ceil(most/by)*by)
	y := func(energy float64) float64 { return plotBase - math.Max(0, energy)/most*(plotBase-plotTop) }
	bars := make([]markup.Part, 0, len(s.Days))
	room := (plotRight - plotLeft) / math.Max(1, float64(len(s.Days)))
	for i, d := range s.Days {
		bars = append(bars, bar(s.Ink, d, plotLeft+float64(i)*room, room, y))
	}
	return drawing(s.ID, s.Title, s.Words, daysTall,
		levels(most, by, y),
		group(s.Ink.Class(), bars...),
		segment("axis", plotLeft, plotBase, plotRight, plotBase),
		meterMean(s.Mean, y), labels(s.Days, room))
}

func levels(most, by float64, y func(float64) float64) markup.Markup {
	out := []markup.Part{words("small", "start", 2, 9, "kWh a day")}
	for v := by; v <= most*1.001; v += by {
		out = append(out, segment("grid", plotLeft, y(v), plotRight, y(v)), words("small", "end", plotLeft-4, y(v)+3.5, tick(v, by)))
	}
	return markup.Join(out...)
}

// bar draws one day at x in a room of that width.
func bar(ink Ink, d Day, x, room float64, y func(float64) float64) markup.Markup {
	left, wide := x+room*0.12, room*0.76
	middle := x + room/2
	var out []markup.Part
	switch sure := math.Min(d.Sure, d.Energy); {
	case !d.Known:
		r := math.Min(3, room*0.35)
		out = append(out, path("line", to("M", middle-r, plotBase-4-r)+to("L", middle+r, plotBase-4+r)+to("M", middle+r, plotBase-4-r)+to("L", middle-r, plotBase-4+r)))
	default:
		if d.Energy > sure {
			top, tall := y(d.Energy), y(math.Max(0, sure))-y(d.Energy)
			out = append(out, ink.hatch(left, top, wide, tall), rect("guess", left, top, wide, tall))
		}
		if sure > 0 {
			out = append(out, rect("solid", left, y(sure), wide, plotBase-y(sure)))
		}
	}
	if d.Odd {
		tip := y(d.Energy) - 3
		out = append(out, path("warn", to("M", middle, tip)+to("L", middle-3.5, tip-6)+to("L", middle+3.5, tip-6)+"Z"))
	}
	if d.Outside {
		return group("pale", out...)
	}
	return markup.Join(out...)
}

func meterMean(mean float64, y func(float64) float64) markup.Markup {
	if mean <= 0 {
		return markup.Markup{}
	}
	return group(Meter.Class(), segment("line dash", plotLeft, y(mean), plotRight, y(mean)),
		words("own", "end", plotRight, 9, "- - the meter’s mean"))
}

// labels names the first billed day and then every seventh, or fewer where they
// would touch.
func labels(days []Day, room float64) markup.Markup {
	first := 0
	for first < len(days)-1 && days[first].Outside {
		first++
	}
	every := 7
	for float64(every)*room < 42 {
		every += 7
	}
	var out []markup.Part
	for i := first; i < len(days); i += every {
		x := plotLeft + (float64(i)+0.5)*room
		if x > plotRight-14 {
			break
		}
		out = append(out, segment("axis", x, plotBase, x, plotBase+4), words("small", "middle", x, plotBase+15, days[i].Label))
	}
	return markup.Join(out...)
}
