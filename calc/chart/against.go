package chart

import (
	"cmp"
	"math"

	"splittally/calc/chart/markup"
)

// Against sets an instrument's energies against the meter's, with the line
// through them.
type Against struct {
	ID    string
	Title string
	Words string
	Ink   Ink
	Name  string // of the instrument
	Unit  string // in words; blank is kWh a day
	Dots  []Dot
	// The line is Offset + Gain · meter, if IsLaid.
	Offset, Gain float64
	IsLaid       bool
}

// Dot is one bill or day, in kWh a day, or a run, in watts. A bar reaches so far to either side; 0
// or infinite is not known and has no bar.
type Dot struct {
	Meter, Monitor       float64
	MeterBar, MonitorBar float64
}

const (
	againstTall = 262.0
	fieldLeft   = 34.0
	fieldRight  = Width - 8
	fieldTop    = 20.0
	fieldBase   = againstTall - 34
)

// crowd is the number of dots from which they are drawn small.
const crowd = 40

// Scatter draws the dots on one scale both ways: the meter's figure along, the
// instrument's up. Where both count alike the dots lie on the dashed line.
func Scatter(a Against) markup.Markup {
	f := frameAround(a.Dots)
	unit := cmp.Or(a.Unit, "kWh a day")
	return drawing(a.ID, a.Title, a.Words, againstTall,
		f.grid(), words("small", "start", 2, 11, unit+" by "+fitted(a.Name, 34)),
		words("small", "end", fieldRight, againstTall-3, unit+" by the meter"),
		group(Meter.Class(), f.line("line dash", 0, 1)),
		group(a.Ink.Class(), f.dots(a), f.laid(a)))
}

// frame is the range of energies that is drawn, the same both ways.
type frame struct{ low, high float64 }

func frameAround(dots []Dot) frame {
	f := frame{math.Inf(1), math.Inf(-1)}
	for _, d := range dots {
		for _, v := range [4]float64{d.Meter - bounded(d.MeterBar), d.Meter + bounded(d.MeterBar), d.Monitor - bounded(d.MonitorBar), d.Monitor + bounded(d.MonitorBar)} {
			if finite(v) {
				f.low, f.high = math.Min(f.low, v), math.Max(f.high, v)
			}
		}
	}
	if f.low > f.high {
		return frame{0, 1}
	}
	room := math.Max(0.06*(f.high-f.low), 1e-3*math.Max(1, math.Abs(f.high)))
	return frame{f.low - room, f.high + room}
}

// bounded gives the length of a bar, 0 for one that is not known.
func bounded(bar float64) float64 {
	if finite(bar) {
		return math.Max(0, bar)
	}
	return 0
}

func (f frame) x(v float64) float64 {
	return fieldLeft + (v-f.low)/(f.high-f.low)*(fieldRight-fieldLeft)
}

func (f frame) y(v float64) float64 {
	return fieldBase - (v-f.low)/(f.high-f.low)*(fieldBase-fieldTop)
}

func (f frame) grid() markup.Markup {
	by := step(f.high-f.low, 5)
	d := ""
	out := []markup.Part{markup.Markup{}}
	for v := math.Ceil(f.low/by) * by; v <= f.high; v += by {
		d += to("M", f.x(v), fieldTop) + to("V", fieldBase) + to("M", fieldLeft, f.y(v)) + to("H", fieldRight)
		out = append(out, words("small", "middle", f.x(v), fieldBase+14, tick(v, by)), words("small", "end", fieldLeft-4, f.y(v)+4, tick(v, by)))
	}
	out[0] = path("grid", d)
	return markup.Join(append(out, path("axis", to("M", fieldLeft, fieldTop)+to("V", fieldBase)+to("H", fieldRight)))...)
}

// line draws offset + gain · x as far as it lies in the frame.
func (f frame) line(name markup.Name, offset, gain float64) markup.Markup {
	from, till := f.low, f.high
	if gain != 0 {
		a, b := (f.low-offset)/gain, (f.high-offset)/gain
		from, till = math.Max(from, math.Min(a, b)), math.Min(till, math.Max(a, b))
	}
	at := func(x float64) float64 { return clamp(offset+gain*x, f.low, f.high) }
	if !(from < till) {
		return markup.Markup{}
	}
	return segment(name, f.x(from), f.y(at(from)), f.x(till), f.y(at(till)))
}

func (f frame) laid(a Against) markup.Markup {
	if !a.IsLaid || !finite(a.Offset) || !finite(a.Gain) {
		return markup.Markup{}
	}
	return f.line("line", a.Offset, a.Gain)
}

// dots draws the marks, and all bars as one path.
func (f frame) dots(a Against) markup.Markup {
	bars := ""
	out := []markup.Part{markup.Markup{}}
	for _, d := range a.Dots {
		if !finite(d.Meter) || !finite(d.Monitor) {
			continue
		}
		x, y := f.x(d.Meter), f.y(d.Monitor)
		if u := bounded(d.MeterBar); u > 0 {
			bars += to("M", f.x(d.Meter-u), y) + to("H", f.x(d.Meter+u))
		}
		if u := bounded(d.MonitorBar); u > 0 {
			bars += to("M", x, f.y(d.Monitor-u)) + to("V", f.y(d.Monitor+u))
		}
		if len(a.Dots) > crowd {
			out = append(out, rect("solid", x-1.5, y-1.5, 3, 3))
		} else {
			out = append(out, mark(a.Ink, x, y))
		}
	}
	if bars != "" {
		out[0] = path("whisker", bars)
	}
	return markup.Join(out...)
}
