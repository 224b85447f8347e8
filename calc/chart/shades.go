package chart

import (
	"math"
	"strconv"

	"splittally/calc/chart/markup"
)

// Shades are steps of darkness that stand for figures, the darker the more.
type Shades struct {
	// Edges lie between the shades, ascending; there is one shade more than there
	// are edges.
	Edges [shades - 1]float64
	Unit  string
}

const shades = 6

// ShadesEven gives steps of equal height over the range that most figures lie
// in, with round edges.
func ShadesEven(low, high float64, unit string) Shades {
	by := finerStep((high - low) / shades)
	from := math.Floor(low/by) * by
	s := Shades{Unit: unit}
	for i := range s.Edges {
		s.Edges[i] = from + by*float64(i+1)
	}
	return s
}

// ShadesDoubled gives steps of which each is twice the one before, for figures
// that reach over powers of ten; high is where the last but one should be.
func ShadesDoubled(high float64, unit string) Shades {
	s := Shades{Unit: unit}
	last := finerStep(high / 1.12) // to the nearest, not the next
	for i := range s.Edges {
		s.Edges[i] = last / float64(int(1)<<(shades-2-i))
	}
	return s
}

// finerStep gives the next round figure that is no less; of those the half, the
// quarter and the sixteenth are round too, or nearly.
func finerStep(v float64) float64 {
	if !(v > 0) || math.IsInf(v, 0) {
		return 1
	}
	power := math.Pow(10, math.Floor(math.Log10(v)))
	for _, m := range []float64{1, 1.2, 1.6, 2, 2.4, 3.2, 4, 4.8, 6.4, 8} {
		if m*power >= v*0.9999 {
			return m * power
		}
	}
	return 10 * power
}

// level gives the shade of a figure, from 0.
func (s Shades) level(v float64) int {
	n := 0
	for n < len(s.Edges) && v >= s.Edges[n] {
		n++
	}
	return n
}

// shadeClass has a class for each shade; the style sheet knows how dark it is.
var shadeClass = [shades]markup.Name{"shade-0", "shade-1", "shade-2", "shade-3", "shade-4", "shade-5"}

// key explains the shades below a drawing: a sample of each, drawn by sample in a
// room of width keyRoom from x, and the edges between them.
func (s Shades) key(ink Ink, y float64, sample func(level int, x float64) markup.Markup) markup.Markup {
	var samples, texts []markup.Part
	for i := range shades {
		samples = append(samples, sample(i, keyLeft+keyRoom*float64(i)))
	}
	for i, edge := range s.Edges {
		texts = append(texts, words("small", "middle", keyLeft+keyRoom*float64(i+1), y+23, plain(edge)))
	}
	texts = append(texts, words("small", "start", keyLeft+keyRoom*shades+4, y+23, s.Unit))
	return markup.Join(group(ink.Class()+" cells", samples...), markup.Join(texts...))
}

const (
	keyLeft = 28.0
	keyRoom = 42.0
)

// plain writes an edge with no more digits than it has.
func plain(v float64) string {
	return strconv.FormatFloat(math.Round(v*1e4)/1e4, 'f', -1, 64)
}

// Mark is a name at a day of a drawing, counted from its first.
type Mark struct {
	Day  int
	Text string
}

// named writes marks along y as far as they don't touch; x gives the place of a
// day.
func named(marks []Mark, y float64, x func(day int) float64) markup.Markup {
	var out []markup.Part
	free := 0.0
	for _, m := range marks {
		at := x(m.Day)
		wide := 6.2 * float64(len([]rune(m.Text)))
		if at < free || at+wide > Width+2 {
			continue
		}
		free = at + wide + 3
		out = append(out, words("small", "start", at, y, m.Text))
	}
	return markup.Join(out...)
}
