package chart

import (
	"math"
	"strconv"

	"splittally/calc/chart/markup"
)

// Heat is hours by days: a column for each day, a row for each hour.
type Heat struct {
	ID     string
	Title  string
	Words  string
	Ink    Ink
	Shades Shades
	Days   []HeatDay
	Marks  []Mark // months
	Edges  []int  // days with which a billing period begins
}

// HeatDay has the mean power of each hour, in the unit of the shades. An hour of
// which nothing is known is Unknown, one that the clock left out Never.
type HeatDay [24]float64

// What stands for an hour without a power.
var (
	Unknown = math.NaN()
	Never   = math.Inf(-1)
)

const (
	heatLeft = 26.0
	heatTop  = 16.0
	hourTall = 6.0
)

// What an hour is drawn as, beside the shades.
const (
	asGap   = shades // a thin line in place of a full one
	asBelow = shades + 1
	asNone  = shades + 2
	drawn   = asNone // how many have a path
)

var heatClass = [drawn]markup.Name{shadeClass[0], shadeClass[1], shadeClass[2], shadeClass[3], shadeClass[4], shadeClass[5], "gap", "below"}

// HoursByDay draws the hours. All hours of a shade are one path of strokes: hours
// alike in a row one stroke, in units of a day and an hour, each step of the path
// from where the last one ended. So a year of hours has few bytes.
func HoursByDay(h Heat) markup.Markup {
	wide := math.Floor(math.Min(14, (Width-heatLeft)/math.Max(1, float64(len(h.Days))))*100) / 100
	bottom := heatTop + 24*hourTall
	x := func(day int) float64 { return heatLeft + wide*float64(day) }
	right := x(len(h.Days))
	strips := []markup.Part{markup.A("transform", "translate("+markup.Number(heatLeft)+" "+markup.Number(heatTop+hourTall/2)+") scale("+markup.Number(wide)+" "+markup.Number(hourTall)+")")}
	for i, d := range h.paths() {
		if len(d) > 0 {
			strips = append(strips, path(heatClass[i], string(d)))
		}
	}
	var lines []markup.Part
	d := ""
	for hour := 0; hour <= 24; hour += 6 {
		y := heatTop + hourTall*float64(hour)
		d += to("M", heatLeft-4, y) + to("H", heatLeft)
		lines = append(lines, words("small", "end", heatLeft-6, y+4, strconv.Itoa(hour)))
	}
	lines = append(lines, path("axis", d))
	edges := ""
	for _, day := range h.Edges {
		if day >= 0 && day <= len(h.Days) {
			edges += to("M", x(day), heatTop-3) + to("V", bottom+3)
		}
	}
	return drawing(h.ID, h.Title, h.Words, bottom+42,
		group(h.Ink.Class()+" strips", strips...),
		markup.Join(lines...), segment("axis", heatLeft, bottom, right, bottom),
		across("line dash", edges),
		named(h.Marks, heatTop-5, x),
		h.Shades.key(h.Ink, bottom+14, func(level int, at float64) markup.Markup {
			return path(shadeClass[level], to("M", at, bottom+14)+to("h", keyRoom)+to("v", 11)+to("h", -keyRoom)+"z")
		}))
}

// paths gives the strokes of each class.
func (h Heat) paths() (out [drawn][]byte) {
	var ends [drawn]int // where the last stroke of this hour's row ended
	for hour := range 24 {
		for i := range ends {
			ends[i] = -1
		}
		for from := 0; from < len(h.Days); {
			as := h.as(from, hour)
			to := from + 1
			for to < len(h.Days) && h.as(to, hour) == as {
				to++
			}
			if as != asNone {
				out[as] = stroke(out[as], ends[as], from, to, hour)
				ends[as] = to
			}
			from = to
		}
	}
	return out
}

// stroke appends one from a day to another in the row of an hour. end is where
// the last one of that row ended, or -1.
func stroke(b []byte, end, from, to, hour int) []byte {
	if end < 0 {
		b = strconv.AppendInt(append(b, 'M'), int64(from), 10)
		b = strconv.AppendInt(append(b, ' '), int64(hour), 10)
	} else {
		b = strconv.AppendInt(append(b, 'm'), int64(from-end), 10)
		b = append(b, " 0"...)
	}
	return strconv.AppendInt(append(b, 'h'), int64(to-from), 10)
}

// as gives what an hour is drawn as.
func (h Heat) as(day, hour int) int {
	v := h.Days[day][hour]
	switch {
	case math.IsNaN(v):
		return asGap
	case math.IsInf(v, -1):
		return asNone
	case v < 0:
		return asBelow
	}
	return h.Shades.level(v)
}
