package chart

import (
	"math"

	"splittally/calc/chart/markup"
)

// Errors sets percentage errors with their intervals side by side.
type Errors struct {
	ID      string
	Title   string
	Words   string
	Rows    []Row
	Promise float64 // half-width of what the instruments promise, percentage points; 0 for none
}

// Row is one error.
type Row struct {
	Label    string
	Ink      Ink
	Percent  float64
	Expanded float64 // 0 or infinite is not known
	Pooled   bool    // of several periods together: drawn as a band
	Text     string  // the figure for show
}

const (
	rowTall  = 34.0
	rowsTop  = 22.0
	errorsAt = 12.0 // left end of the scale
)

// Intervals draws the errors, one below the other, on one scale. The meter is
// the line at 0.
func Intervals(s Errors) markup.Markup {
	low, high := reach(s)
	by := step(high-low, 6)
	x := func(v float64) float64 { return errorsAt + (v-low)/(high-low)*(Width-2*errorsAt) }
	tall := rowsTop + rowTall*float64(len(s.Rows)) + 8
	parts := []markup.Part{}
	if s.Promise > 0 {
		left, right := x(math.Max(low, -s.Promise)), x(math.Min(high, s.Promise))
		parts = append(parts, rect("band", left, rowsTop, right-left, tall-rowsTop))
	}
	for v := math.Ceil(low/by) * by; v <= high; v += by {
		parts = append(parts, segment("grid", x(v), rowsTop-4, x(v), tall), words("small", "middle", x(v), rowsTop-8, signed(v, by)))
	}
	parts = append(parts, group(Meter.Class(), segment("line", x(0), rowsTop-4, x(0), tall)))
	for i, r := range s.Rows {
		parts = append(parts, row(r, rowsTop+rowTall*float64(i), x, low, high))
	}
	return drawing(s.ID, s.Title, s.Words, tall, parts...)
}

// reach gives the ends of a scale that holds all intervals and 0.
func reach(s Errors) (low, high float64) {
	low, high = -s.Promise, s.Promise
	for _, r := range s.Rows {
		u := r.Expanded
		if !finite(u) {
			u = 0
		}
		low, high = math.Min(low, r.Percent-u), math.Max(high, r.Percent+u)
	}
	room := math.Max(0.08*(high-low), 0.05)
	return low - room, high + room
}

// signed writes a percentage of the scale with its sign.
func signed(v, by float64) string {
	text := tick(v, by)
	if v > by/2 {
		return "+" + text
	}
	return text
}

func row(r Row, top float64, x func(float64) float64, low, high float64) markup.Markup {
	middle := top + 23
	at := x(r.Percent)
	parts := []markup.Part{
		words("label", "start", 2, top+12, fitted(r.Label, 36)), words("own", "end", Width-2, top+12, r.Text),
	}
	left, right := x(math.Max(low, r.Percent-r.Expanded)), x(math.Min(high, r.Percent+r.Expanded))
	switch {
	case r.Pooled && finite(r.Expanded) && r.Expanded > 0:
		parts = append(parts, rect("wood", left, middle-5, right-left, 10))
	case finite(r.Expanded) && r.Expanded > 0:
		parts = append(parts, path("line", to("M", left, middle-4)+to("L", left, middle+4)+to("M", left, middle)+to("L", right, middle)+to("M", right, middle-4)+to("L", right, middle+4)))
	case !finite(r.Expanded):
		parts = append(parts, segment("line dash", x(low), middle, x(high), middle))
	}
	return group(r.Ink.Class(), append(parts, mark(r.Ink, at, middle))...)
}

// mark draws the sign of an instrument: a disc, a diamond, a square, a triangle.
func mark(k Ink, x, y float64) markup.Markup {
	switch {
	case k%inks == 1:
		return path("solid", to("M", x, y-5)+to("L", x+5, y)+to("L", x, y+5)+to("L", x-5, y)+"Z")
	case k%inks == 2:
		return rect("solid", x-4, y-4, 8, 8)
	case k%inks == 3:
		return path("solid", to("M", x, y-5)+to("L", x+5, y+4)+to("L", x-5, y+4)+"Z")
	}
	return markup.El("circle", class("solid"), num("cx", x), num("cy", y), num("r", 4.5))
}
