package chart

import (
	"math"
	"strings"

	"splittally/calc/chart/markup"
)

// Stick is the split stick of one period: the meter's half above, the
// instrument's below, as long as their energies, with a notch for each day.
type Stick struct {
	ID    string // begins the ids in the drawing; no two drawings of a page have the same
	Title string
	Words string // the same in words, for who can't see it
	Ink   Ink
	Name  string // of the instrument

	Reference, Indicated         float64 // kWh, above 0
	ReferenceText, IndicatedText string  // the same for show
	Days                         []Notch // in order

	Percent     float64 // the error
	PercentText string
	Expanded    float64 // its expanded uncertainty, percentage points; 0 or infinite is not known
}

// Notch is the share of the instrument's energy up to the end of a day.
type Notch struct {
	Share  float64 // 0 to 1
	Filled bool
}

const (
	halfHeight = 20.0
	topAt      = 18.0 // of the meter's half
	splitAt    = topAt + halfHeight
	closeAt    = 118.0 // of the magnified ends
	closeSplit = closeAt + halfHeight
	stickTall  = 196.0
)

// Split draws the stick. Notches stand at the same share of both halves: the
// instrument knows the days and the meter only their sum, so its half is cut as
// the other's, and the two part the further the more one overhangs.
func Split(s Stick) markup.Markup {
	unit := (Width - 8) / math.Max(s.Reference, s.Indicated)
	top, bottom := s.Reference*unit, s.Indicated*unit
	z := zoomOn(s)
	times := z.unit / (top / 100)
	return drawing(s.ID, s.Title, s.Words, stickTall,
		group(Meter.Class(),
			words("own", "start", 2, topAt-6, "Utility’s meter"), words("own", "end", Width-6, topAt-6, s.ReferenceText),
			half(top, splitAt-0.75, -1, s.Days)),
		group(s.Ink.Class(),
			half(bottom, splitAt+2.25, 1, s.Days), guesses(s, bottom),
			words("own", "start", 2, splitAt+halfHeight+16, fitted(s.Name, 34)), words("own", "end", Width-6, splitAt+halfHeight+16, s.IndicatedText)),
		lens(math.Min(top, bottom)),
		z.ends(s),
		words("small", "start", 2, stickTall-2, "The ends, "+tick(times, step(times, 2))+" times as large; scale in percent"),
	)
}

// half draws one half of the stick with its split edge at y; outward is -1 for
// the upper and 1 for the lower half.
func half(length, y, outward float64, days []Notch) markup.Markup {
	var d strings.Builder
	d.WriteString(to("M", 2, y+outward*halfHeight) + to("L", 2, y))
	room := length / math.Max(1, float64(len(days)))
	wide, deep := math.Min(2.2, 0.32*room), math.Min(7, 1.2+0.8*room)
	for _, n := range days {
		if at := 2 + n.Share*length; n.Share < 1-1e-9 {
			d.WriteString(to("L", at-wide, y, at, y+outward*deep, at+wide, y))
		}
	}
	d.WriteString(to("L", 2+length, y, 2+length, y+outward*halfHeight) + "Z")
	return path("wood", d.String())
}

// guesses hatches the days of the instrument's half that were filled.
func guesses(s Stick, length float64) markup.Markup {
	var out []markup.Part
	from := 0.0
	for _, n := range s.Days {
		if n.Filled {
			out = append(out, s.Ink.hatch(2+from*length, splitAt+10, (n.Share-from)*length, halfHeight-7.75))
		}
		from = n.Share
	}
	return markup.Join(out...)
}

// lens leads the eye from the ends of the stick to where they are magnified.
func lens(at float64) markup.Markup {
	y := splitAt + halfHeight + 21.0
	return path("lens", to("M", at-4, y)+to("L", 2, closeAt-15)+to("L", Width-2, closeAt-15)+to("L", math.Min(Width-2, at+8), y))
}

// zoom is the scale of the magnified ends.
type zoom struct {
	low, high float64 // percent at the left and right edge
	unit      float64 // units per percent
}

func zoomOn(s Stick) zoom {
	u := s.Expanded
	if !finite(u) {
		u = 0
	}
	low, high := math.Min(0, s.Percent-u), math.Max(0, s.Percent+u)
	room := math.Max(0.15*(high-low), 0.02)
	z := zoom{low: low - 2*room, high: high + room}
	z.unit = (Width - 8) / (z.high - z.low)
	return z
}

func (z zoom) at(percent float64) float64 { return 4 + (percent-z.low)*z.unit }

// ends draws the two ends, the scale below them, and what is not known as a
// frayed end.
func (z zoom) ends(s Stick) markup.Markup {
	return markup.Join(
		group(Meter.Class(), path("wood", to("M", 2, closeAt)+to("L", z.at(0), closeAt)+to("L", z.at(0), closeSplit)+to("L", 2, closeSplit))),
		group(s.Ink.Class(), z.frayed(s)),
		z.scale(),
		words("middle", "middle", clamp(z.at(s.Percent), 26, Width-26), closeSplit+halfHeight+20, s.PercentText),
	)
}

// fibres is how many fibres the frayed end has.
const fibres = 15

// frayed draws the instrument's end. Each fibre ends where one of as many
// equally likely values of the error lies (for a normal distribution of that
// expanded uncertainty), so that the end is as frayed as the error is unsure.
func (z zoom) frayed(s Stick) markup.Markup {
	y, thick := closeSplit+3, halfHeight/fibres
	if s.Expanded <= 0 || !finite(s.Expanded) {
		return path("wood", to("M", 2, y)+to("L", z.at(s.Percent), y)+to("L", z.at(s.Percent), y+halfHeight)+to("L", 2, y+halfHeight))
	}
	root := math.Max(4, z.at(s.Percent-s.Expanded)-6)
	spikes := ""
	for i := range fibres {
		top := y + float64(i)*thick
		spikes += to("M", root, top) + to("L", z.at(s.fibre(i)), top+thick/2) + to("L", root, top+thick)
	}
	bar, low, high := y+halfHeight+5, z.at(s.Percent-s.Expanded), z.at(s.Percent+s.Expanded)
	return markup.Join(
		path("wood", to("M", 2, y)+to("L", root, y)+to("M", root, y+halfHeight)+to("L", 2, y+halfHeight)),
		rect("body", 2, y, root-2, halfHeight), path("fray", spikes),
		path("line", to("M", low, bar-2)+to("L", low, bar+2)+to("M", low, bar)+to("L", high, bar)+to("M", high, bar-2)+to("L", high, bar+2)))
}

// fibre gives the error at which a fibre ends. Every rank comes once; 4 and 15
// have no factor in common, so that neighbours are far apart.
func (s Stick) fibre(i int) float64 {
	rank := float64(i*4%fibres) + 0.5
	return s.Percent + s.Expanded*math.Sqrt2*math.Erfinv(2*rank/fibres-1)/1.96
}

// scale draws the ticks, in percent, above the magnified ends.
func (z zoom) scale() markup.Markup {
	by := step(z.high-z.low, 6)
	var out []markup.Part
	for v := math.Ceil(z.low/by) * by; v <= z.high; v += by {
		x := z.at(v)
		if x < 14 || x > Width-14 {
			continue
		}
		out = append(out, segment("axis", x, closeAt-3, x, closeAt), words("small", "middle", x, closeAt-5, tick(v, by)))
	}
	return markup.Join(out...)
}

func clamp(v, low, high float64) float64 { return math.Min(high, math.Max(low, v)) }
