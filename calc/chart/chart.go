// Package chart draws findings as SVG: the split stick, the days of a period,
// errors with their intervals, and one instrument against the other.
//
// The drawings are small enough to be read on a phone: they are 340 units wide,
// a unit being a CSS pixel there. Every drawing has a title and a description
// in words, and no colour of its own: classes name the ink, the style sheet
// knows it. Beside its ink each instrument has a hatch and a mark, so that
// colour is never the only sign.
//
// The step before is wasm/view or a report, which take the figures out of
// Findings; nothing here goes back into a calculation.
package chart

import (
	"math"
	"strconv"
	"strings"

	"splittally/calc/chart/markup"
)

// Width is the width of every drawing, in units.
const Width = 340.0

// Ink says whose figures are drawn: Meter, or the number of an instrument from
// 0. There are four; a fifth instrument has the first one's again.
type Ink int

// Meter is the ink of the utility's meter.
const Meter Ink = -1

const inks = 4

// Class gives the class that has the ink as its colour.
func (k Ink) Class() markup.Name {
	switch {
	case k < 0:
		return "ink-meter"
	case k%inks == 0:
		return "ink-0"
	case k%inks == 1:
		return "ink-1"
	case k%inks == 2:
		return "ink-2"
	}
	return "ink-3"
}

// drawing gives the outer element with its title and description.
func drawing(id, title, words string, height float64, inside ...markup.Part) markup.Markup {
	parts := []markup.Part{
		markup.A("viewBox", "0 0 "+markup.Number(Width)+" "+markup.Number(height)),
		markup.A("role", "img"), markup.A("aria-labelledby", id+"-title "+id+"-words"),
		markup.El("title", markup.ID(id+"-title"), markup.Text(title)),
		markup.El("desc", markup.ID(id+"-words"), markup.Text(words)),
	}
	return markup.El("svg", append(parts, inside...)...)
}

func num(name markup.Name, v float64) markup.Attr { return markup.Num(name, v) }

func class(name markup.Name) markup.Attr { return markup.Class(name) }

func group(name markup.Name, parts ...markup.Part) markup.Markup {
	return markup.El("g", append([]markup.Part{class(name)}, parts...)...)
}

func rect(name markup.Name, x, y, width, height float64, more ...markup.Part) markup.Markup {
	return markup.El("rect", append([]markup.Part{class(name), num("x", x), num("y", y), num("width", math.Max(0, width)), num("height", math.Max(0, height))}, more...)...)
}

func path(name markup.Name, d string) markup.Markup {
	return markup.El("path", class(name), markup.A("d", d))
}

// segment gives a straight line.
func segment(name markup.Name, x1, y1, x2, y2 float64) markup.Markup {
	return path(name, to("M", x1, y1)+to("L", x2, y2))
}

// to writes one step of a path.
func to(step string, at ...float64) string {
	b := append(make([]byte, 0, 24), step...)
	for i, v := range at {
		if i > 0 {
			b = append(b, ' ')
		}
		b = markup.AppendNumber(b, v)
	}
	return string(b)
}

// words writes text whose anchor is start, middle or end.
func words(name markup.Name, anchor string, x, y float64, text string) markup.Markup {
	return markup.El("text", class(name), num("x", x), num("y", y), markup.A("text-anchor", anchor), markup.Text(text))
}

// fitted cuts a text to about the width of so many letters.
func fitted(text string, letters int) string {
	runes := []rune(text)
	if len(runes) <= letters {
		return text
	}
	return strings.TrimSpace(string(runes[:letters-1])) + "…"
}

// step gives a round distance for about n ticks over a range: 1, 2 or 5 times
// a power of ten.
func step(span float64, n int) float64 {
	if span <= 0 || math.IsInf(span, 0) || math.IsNaN(span) {
		return 1
	}
	rough := span / float64(n)
	power := math.Pow(10, math.Floor(math.Log10(rough)))
	for _, m := range []float64{1, 2, 5} {
		if m*power >= rough*0.999 {
			return m * power
		}
	}
	return 10 * power
}

// tick writes a number of an axis: no more decimals than its step has.
func tick(v, step float64) string {
	places := int(math.Max(0, math.Ceil(-math.Log10(step)-1e-9)))
	text := strconv.FormatFloat(v, 'f', places, 64)
	bare := strings.TrimPrefix(text, "-")
	switch {
	case strings.Trim(bare, "0.") == "":
		return bare
	case bare != text:
		return "−" + bare
	}
	return text
}

func finite(v float64) bool { return !math.IsInf(v, 0) && !math.IsNaN(v) }
