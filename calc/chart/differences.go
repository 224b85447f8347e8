package chart

import (
	"math"

	"splittally/calc/chart/markup"
)

// Differences are the errors of an instrument day by day, in percent of what the
// meter counted.
type Differences struct {
	ID     string
	Title  string
	Words  string
	Ink    Ink
	Long   float64 // days from the first to the end of the last
	Days   []Difference
	Labels []Label
}

// Difference is one day, in percent.
type Difference struct {
	At    float64 // days after the first
	Off   float64
	Usual float64 // what is usual of such a day
	Odd   bool    // it disagrees: a triangle
}

// Label names a place along the days.
type Label struct {
	At   float64
	Text string
}

const (
	apartTall = 150.0
	apartBase = apartTall - 22
)

// Crowded is the number of days from which the line of what is usual would cover
// them.
const Crowded = 100

// Apart draws a mark for each day, and the line of what is usual. Days that lie
// beyond the others are drawn at the edge.
func Apart(s Differences) markup.Markup {
	low, high := 0.0, 0.0
	for _, d := range s.Days {
		low, high = math.Min(low, d.Usual), math.Max(high, d.Usual)
		if !d.Odd && finite(d.Off) {
			low, high = math.Min(low, d.Off), math.Max(high, d.Off)
		}
	}
	room := math.Max(0.15*(high-low), 0.02)
	low, high = low-room, high+room
	by := step(high-low, 4)
	x := func(at float64) float64 { return plotLeft + (at+0.5)/math.Max(1, s.Long)*(plotRight-plotLeft) }
	y := func(v float64) float64 {
		return apartBase - (clamp(v, low, high)-low)/(high-low)*(apartBase-plotTop)
	}
	out := []markup.Part{words("small", "start", 2, 9, "percent more than the meter")}
	for v := math.Ceil(low/by) * by; v <= high; v += by {
		out = append(out, segment("grid", plotLeft, y(v), plotRight, y(v)), words("small", "end", plotLeft-4, y(v)+3.5, tick(v, by)))
	}
	for _, l := range s.Labels {
		if at := x(l.At); at < plotRight-14 {
			out = append(out, segment("axis", at, apartBase, at, apartBase+4), words("small", "middle", at, apartBase+15, l.Text))
		}
	}
	out = append(out, segment("axis", plotLeft, apartBase, plotRight, apartBase),
		group(Meter.Class(), segment("line dash", plotLeft, y(0), plotRight, y(0))),
		group(s.Ink.Class(), s.marks(x, y)...))
	return drawing(s.ID, s.Title, s.Words, apartTall, out...)
}

// marks draws all usual days as one path, which keeps years of them small, and a
// triangle for each day that disagrees.
func (s Differences) marks(x, y func(float64) float64) []markup.Part {
	dots, line := "", ""
	var odd []markup.Part
	last := math.Inf(-1)
	for _, d := range s.Days {
		if !finite(d.Off) || !finite(d.Usual) {
			continue
		}
		at := x(d.At)
		if d.Odd {
			tip := y(d.Off)
			odd = append(odd, path("warn", to("M", at, tip-4)+to("L", at+4, tip+3.5)+to("L", at-4, tip+3.5)+"Z"))
		} else {
			dots += to("M", at-1.5, y(d.Off)-1.5) + "h3v3h-3z"
		}
		pen := "L"
		if d.At-last > 1.5 {
			pen = "M"
		}
		line += to(pen, at, y(d.Usual))
		last = d.At
	}
	if len(s.Days) > Crowded {
		line = ""
	}
	return append([]markup.Part{path("solid", dots), path("line", line)}, odd...)
}
