package chart

import (
	"math"
	"strconv"

	"splittally/calc/chart/markup"
)

// Usual is an average day: the power of each hour of weekdays and of weekends.
type Usual struct {
	ID    string
	Title string
	Words string
	Ink   Ink
	// Weekdays is drawn with a full line in a filled band, Weekends with a dashed
	// line in a dotted one.
	Weekdays, Weekends [24]Spread
}

// Spread holds quartiles, in kW.
type Spread struct {
	Low, Median, High float64
	Known             bool
}

const (
	powerTall  = 176.0
	powerLeft  = 30.0
	powerRight = Width - 6
	powerTop   = 32.0
	powerBase  = powerTall - 22
)

// AverageDay draws both, hour by hour: a power holds from one hour to the next.
func AverageDay(u Usual) markup.Markup {
	p := plot{low: 0}
	for _, hours := range [2][24]Spread{u.Weekdays, u.Weekends} {
		for _, q := range hours {
			p.low, p.high = math.Min(p.low, q.Low), math.Max(p.high, q.High)
		}
	}
	p.round()
	x := func(hour int) float64 { return powerLeft + (powerRight-powerLeft)*float64(hour)/24 }
	d := ""
	parts := []markup.Part{p.levels(), markup.Markup{}}
	for hour := 0; hour <= 24; hour += 3 {
		d += to("M", x(hour), powerBase) + to("v", 4)
		parts = append(parts, words("small", "middle", math.Min(x(hour), Width-8), powerBase+15, strconv.Itoa(hour)))
	}
	parts[1] = path("axis", d)
	full, dashed := p.stairs(u.Weekdays, x), p.stairs(u.Weekends, x)
	return drawing(u.ID, u.Title, u.Words, powerTall, append(parts,
		group(u.Ink.Class(), path("body", full.band), path("guess", dashed.band), path("line", full.middle), path("line dash", dashed.middle),
			segment("line", 76, 7, 96, 7), segment("line dash", 212, 7, 232, 7)),
		words("small", "start", 100, 11, "Monday to Friday"), words("small", "start", 236, 11, "Saturday, Sunday"))...)
}

// stairs are the paths of a kind of day.
type stairs struct{ band, middle string }

// stairs draws runs of hours that are known.
func (p plot) stairs(hours [24]Spread, x func(int) float64) stairs {
	var band, middle []byte
	tread := func(b []byte, step byte, from, to int, v float64) []byte {
		b = markup.AppendNumber(append(b, step), x(from))
		b = markup.AppendNumber(append(b, ' '), p.y(v))
		return markup.AppendNumber(append(b, 'H'), x(to))
	}
	for from := 0; from < 24; {
		till, step := from, byte('M')
		for ; till < 24 && hours[till].Known; till++ {
			band = tread(band, step, till, till+1, hours[till].High)
			middle = tread(middle, step, till, till+1, hours[till].Median)
			step = 'L'
		}
		for h := till - 1; h >= from; h-- {
			band = tread(band, 'L', h+1, h, hours[h].Low)
		}
		if till > from {
			band = append(band, 'Z')
		}
		from = till + 1
	}
	return stairs{string(band), string(middle)}
}

// plot is a scale of power, upwards.
type plot struct{ low, high, by float64 }

// round widens the scale to round ends.
func (p *plot) round() {
	p.by = step(p.high-p.low, 4)
	p.low, p.high = math.Floor(p.low/p.by+1e-9)*p.by, math.Ceil(p.high/p.by-1e-9)*p.by
	if p.high <= p.low {
		p.high = p.low + p.by
	}
}

func (p plot) y(v float64) float64 {
	return powerBase - (clamp(v, p.low, p.high)-p.low)/(p.high-p.low)*(powerBase-powerTop)
}

// levels draws the lines of the scale.
func (p plot) levels() markup.Markup {
	out := []markup.Part{words("small", "start", 2, 11, "kW")}
	for v := p.low; v <= p.high+p.by/2; v += p.by {
		name := markup.Name("grid")
		if math.Abs(v) < p.by/2 {
			name = "axis"
		}
		out = append(out, segment(name, powerLeft, p.y(v), powerRight, p.y(v)), words("small", "end", powerLeft-4, p.y(v)+4, tick(v, p.by)))
	}
	return markup.Join(out...)
}
