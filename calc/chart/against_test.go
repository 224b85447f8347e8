package chart

import (
	"encoding/xml"
	"math"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"splittally/calc/chart/markup"
)

func fourBills() Against {
	return Against{
		ID: "fit-0", Title: "Hallway <monitor> against the meter", Words: "Four bills; the line lies above the other.", Name: "Hallway <monitor>", Ink: 1,
		Dots: []Dot{
			{Meter: 14, Monitor: 14.9, MeterBar: 0.2, MonitorBar: 0.4},
			{Meter: 18, Monitor: 18.8, MeterBar: 0.2, MonitorBar: 0.3},
			{Meter: 22, Monitor: 22.9, MonitorBar: 0.3},
			{Meter: 27, Monitor: 27.7, MeterBar: math.Inf(1), MonitorBar: 0.5},
		},
		Offset: 0.9, Gain: 0.995, IsLaid: true,
	}
}

func TestScatter(t *testing.T) { golden(t, "against-four-bills.svg", Scatter(fourBills())) }

// On one scale both ways the dashed line runs from corner to corner, and the
// laid one is above it where the instrument reads high.
func TestScatterLines(t *testing.T) {
	f := frameAround(fourBills().Dots)
	if got, want := f.line("line", 0, 1).String(), segment("line", fieldLeft, fieldBase, fieldRight, fieldTop).String(); got != want {
		t.Errorf("alike is %s, want %s", got, want)
	}
	if a, b := f.y(0.9+0.995*20), f.y(20); a >= b {
		t.Errorf("the line is at %g, where both count alike at %g", a, b)
	}
	if got := f.line("line", 1e6, 1); !got.Empty() {
		t.Errorf("a line far above is drawn: %s", got)
	}
}

// Whatever the figures, what is drawn stays in the drawing.
func TestScatterStaysInside(t *testing.T) {
	figure := rapid.OneOf(rapid.Float64Range(-50, 200), rapid.Float64Range(-1e9, 1e9), rapid.SampledFrom([]float64{0, math.Inf(1), math.NaN()}))
	rapid.Check(t, func(t *rapid.T) {
		a := Against{ID: "a", IsLaid: true, Offset: figure.Draw(t, "offset"), Gain: figure.Draw(t, "gain"), Ink: Ink(rapid.IntRange(0, 4).Draw(t, "ink"))}
		for range rapid.IntRange(0, 50).Draw(t, "dots") {
			a.Dots = append(a.Dots, Dot{figure.Draw(t, "meter"), figure.Draw(t, "monitor"), figure.Draw(t, "bar"), figure.Draw(t, "bar")})
		}
		drawn := Scatter(a).String()
		if strings.Contains(drawn, "NaN") || strings.Contains(drawn, "Inf") {
			t.Fatalf("a place that is no number: %s", drawn)
		}
		for _, v := range places(drawn) {
			if v < -6 || v > Width+6 {
				t.Fatalf("a place at %g: %s", v, drawn)
			}
		}
	})
}

// places gives the numbers of all paths and circles of a drawing.
func places(drawn string) []float64 {
	var out []float64
	d := xml.NewDecoder(strings.NewReader(drawn))
	for {
		token, err := d.Token()
		if err != nil {
			return out
		}
		e, ok := token.(xml.StartElement)
		if !ok {
			continue
		}
		for _, a := range e.Attr {
			if a.Name.Local != "d" && a.Name.Local != "cx" && a.Name.Local != "cy" {
				continue
			}
			for _, word := range strings.FieldsFunc(a.Value, func(r rune) bool { return strings.ContainsRune("MLHVZmlhvz ", r) }) {
				if v, err := strconv.ParseFloat(word, 64); err == nil {
					out = append(out, v)
				}
			}
		}
	}
}

func TestShare(t *testing.T) {
	golden(t, "share-two-thirds.svg", markup.El("svg", markup.El("title"), markup.El("desc"), Share(0, 0.667)))
	for _, share := range []float64{-1, 0, 1, 7, math.NaN(), math.Inf(1)} {
		if drawn := Share(2, share).String(); strings.Contains(drawn, "NaN") || strings.Contains(drawn, `width="1106`) {
			t.Errorf("a share of %g: %s", share, drawn)
		}
	}
}
