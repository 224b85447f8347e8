package chart

import (
	"math"

	"splittally/calc/chart/markup"
)

// Pace is a run of pulses: what each interval between two comes to, by time.
type Pace struct {
	ID    string
	Title string
	Words string
	Unit  string  // of the values, in words
	Long  float64 // seconds that are drawn, from 0
	Holds []Hold
	// Mean is the value of the whole run, with ± Doubt, if IsKnown.
	Mean, Doubt float64
	IsKnown     bool
	Beats       []Placed
	// Dots are what the monitor read, in its Ink.
	Dots []At
	Ink  Ink
}

// Hold is a value that holds from one pulse to the next.
type Hold struct {
	From, To, Value float64
	Lacks           bool // one or more pulses lack within: dashed
}

// At is a value at a time.
type At struct{ At, Value float64 }

const (
	paceTall = 192.0
	paceLeft = 40.0
	paceTop  = 20.0
	paceBase = paceTall - 54
	beatsAt  = paceTall - 32
)

// Crowd is the number of intervals from which they are drawn as the least, mean
// and most of each of Columns equal stretches of time.
const (
	Crowd   = 400
	columns = 150
)

// Paced draws the intervals as stairs, with the whole run's value across and the
// monitor's beside; below them the pulses.
func Paced(c Pace) markup.Markup {
	if !(c.Long > 0) || !finite(c.Long) {
		c.Long = 1
	}
	p := c.scale()
	x := func(at float64) float64 {
		return paceLeft + clamp(at/math.Max(1e-9, c.Long), 0, 1)*(Width-8-paceLeft)
	}
	own := []markup.Part{}
	if c.IsKnown && finite(c.Mean) {
		if d := bounded(c.Doubt); d > 0 {
			own = append(own, rect("body", paceLeft, p.y(c.Mean+d), Width-8-paceLeft, p.y(c.Mean-d)-p.y(c.Mean+d)))
		}
		own = append(own, segment("line dash", paceLeft, p.y(c.Mean), Width-8, p.y(c.Mean)))
	}
	if len(c.Holds) > Crowd {
		own = append(own, c.gathered(p, x))
	} else {
		own = append(own, c.stairs(p, x))
	}
	var dots []markup.Part
	for _, d := range c.Dots {
		if finite(d.Value) && d.At >= 0 && d.At <= c.Long {
			dots = append(dots, path("solid", string(Unsure.outline(nil, x(d.At), p.y(d.Value)))))
		}
	}
	return drawing(c.ID, c.Title, c.Words, paceTall, words("small", "start", 2, 10, c.Unit), p.levels(),
		seconds(0, c.Long, beatsAt+8, paceLeft, Width-8, x),
		group(Meter.Class(), own...), group(c.Ink.Class(), dots...), strewn(c.Beats, beatsAt, (Width-8-paceLeft)/c.Long, x))
}

// paceScale is the range of values that is drawn.
type paceScale struct{ low, high float64 }

// scale holds all values, and not only their scatter if that is next to nothing.
func (c Pace) scale() paceScale {
	p := paceScale{math.Inf(1), math.Inf(-1)}
	take := func(v float64) {
		if finite(v) {
			p.low, p.high = math.Min(p.low, v), math.Max(p.high, v)
		}
	}
	for _, h := range c.Holds {
		take(h.Value)
	}
	for _, d := range c.Dots {
		take(d.Value)
	}
	if c.IsKnown {
		take(c.Mean - bounded(c.Doubt))
		take(c.Mean + bounded(c.Doubt))
	}
	if p.low > p.high {
		return paceScale{0, 1}
	}
	room := math.Max(0.1*(p.high-p.low), math.Max(0.005*math.Abs(p.high), 1e-9))
	return paceScale{p.low - room, p.high + room}
}

func (p paceScale) y(v float64) float64 {
	return paceBase - (clamp(v, p.low, p.high)-p.low)/(p.high-p.low)*(paceBase-paceTop)
}

// levels draws the scale of values.
func (p paceScale) levels() markup.Markup {
	by := step(p.high-p.low, 4)
	d := ""
	out := []markup.Part{markup.Markup{}}
	for v := math.Ceil(p.low/by) * by; v <= p.high; v += by {
		d += to("M", paceLeft, p.y(v)) + to("H", Width-8)
		out = append(out, words("small", "end", paceLeft-4, p.y(v)+4, tick(v, by)))
	}
	out[0] = path("grid", d)
	return markup.Join(out...)
}

// stairs draws each interval.
func (c Pace) stairs(p paceScale, x func(float64) float64) markup.Markup {
	full, dashed := "", ""
	end := math.Inf(-1)
	for _, h := range c.Holds {
		if !finite(h.Value) {
			continue
		}
		if h.From > end+1e-6 {
			full += to("M", x(h.From), p.y(h.Value))
		} else {
			full += to("V", p.y(h.Value))
		}
		if h.Lacks {
			full += to("M", x(h.To), p.y(h.Value))
			dashed += to("M", x(h.From), p.y(h.Value)) + to("H", x(h.To))
		} else {
			full += to("H", x(h.To))
		}
		end = h.To
	}
	out := []markup.Part{path("line", full)}
	if dashed != "" {
		out = append(out, path("line dash", dashed))
	}
	return markup.Join(out...)
}

// gathered draws many intervals: in each column a stroke from the least to the
// most, and the mean as stairs.
func (c Pace) gathered(p paceScale, x func(float64) float64) markup.Markup {
	var low, high, sum, time [columns]float64
	for _, h := range c.Holds {
		at := int(clamp((h.From+h.To)/2/c.Long, 0, 0.999999) * columns)
		if !finite(h.Value) || !(h.To > h.From) {
			continue
		}
		if time[at] == 0 {
			low[at], high[at] = h.Value, h.Value
		}
		low[at], high[at] = math.Min(low[at], h.Value), math.Max(high[at], h.Value)
		sum[at] += h.Value * (h.To - h.From)
		time[at] += h.To - h.From
	}
	strokes, mean := "", ""
	pen := "M"
	for i := range columns {
		if time[i] == 0 {
			pen = "M"
			continue
		}
		from, till := x(c.Long*float64(i)/columns), x(c.Long*float64(i+1)/columns)
		strokes += to("M", (from+till)/2, p.y(low[i])) + to("V", p.y(high[i]))
		mean += to(pen, from, p.y(sum[i]/time[i])) + to("H", till)
		pen = "L"
	}
	return markup.Join(path("whisker", strokes), path("line", mean))
}
