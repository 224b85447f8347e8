package chart

import (
	"encoding/xml"
	"errors"
	"flag"
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"splittally/calc/chart/markup"
)

var update = flag.Bool("update", false, "write the golden files anew")

func golden(t *testing.T, name string, m markup.Markup) {
	t.Helper()
	wellFormed(t, m.String())
	// One element a line: a difference can be read.
	got := strings.ReplaceAll(m.String(), "><", ">\n<") + "\n"
	file := filepath.Join("testdata", name)
	if *update {
		if err := os.MkdirAll("testdata", 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), got); diff != "" {
		t.Errorf("%s (-update writes it anew):\n%s", file, diff)
	}
}

// wellFormed reads the drawing and gives the places of all numbers in it.
func wellFormed(t testing.TB, text string) {
	t.Helper()
	if strings.Contains(text, "NaN") || strings.Contains(text, "Inf") {
		t.Errorf("a place that is no number: %.200s", text)
	}
	d := xml.NewDecoder(strings.NewReader(text))
	titles := 0
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatalf("%v in %.200s", err, text)
		}
		if e, ok := token.(xml.StartElement); ok && (e.Name.Local == "title" || e.Name.Local == "desc") {
			titles++
		}
	}
	if titles != 2 {
		t.Errorf("%d titles and descriptions, want one of each", titles)
	}
}

func september() Stick {
	s := Stick{
		ID: "stick-0-0", Title: "Hallway monitor and the meter", Words: "The monitor's half overhangs by 2.3 %.", Name: "Hallway monitor", Ink: 0,
		Reference: 571, ReferenceText: "571 kWh", Indicated: 584.1, IndicatedText: "584.1 kWh",
		Percent: 2.3, PercentText: "+2.3 % ± 1.1 %", Expanded: 1.1,
	}
	for i := range 30 {
		s.Days = append(s.Days, Notch{Share: float64(i+1) / 30, Filled: i == 11 || i == 12})
	}
	return s
}

func TestSplit(t *testing.T) {
	golden(t, "stick-high.svg", Split(september()))
	low := september()
	low.Indicated, low.Percent, low.Expanded, low.Ink, low.Days = 342.6, -40, math.Inf(1), 1, nil
	golden(t, "stick-far-low-unknown.svg", Split(low))
}

// Half of the fibres end above the error, half below, and none beyond the
// interval: the frayed end shows the interval and nothing else.
func TestFrayedEndHoldsTheInterval(t *testing.T) {
	s := september()
	z := zoomOn(s)
	above, below := 0, 0
	for i := range fibres {
		q := s.fibre(i)
		if math.Abs(q-s.Percent) > s.Expanded {
			t.Errorf("fibre %d ends at %g, outside the interval", i, q)
		}
		if q > s.Percent+1e-9 {
			above++
		}
		if q < s.Percent-1e-9 {
			below++
		}
		if !strings.Contains(Split(s).String(), markup.Number(z.at(q))) {
			t.Errorf("no fibre ends at %g", q)
		}
	}
	if above != below {
		t.Errorf("%d fibres above, %d below", above, below)
	}
}

func week() Days {
	return Days{
		ID: "days-0-0", Title: "Days", Words: "7 days, one filled", Ink: 0, Mean: 19,
		Days: []Day{
			{Label: "2 Sep", Energy: 14, Sure: 14, Known: true, Outside: true},
			{Label: "3 Sep", Energy: 18.46, Sure: 18.46, Known: true},
			{Label: "4 Sep", Energy: 20, Known: true},
			{Label: "5 Sep", Energy: 20, Sure: 9, Known: true},
			{Label: "6 Sep"},
			{Label: "7 Sep", Energy: 41, Sure: 41, Known: true, Odd: true},
			{Label: "8 Sep", Energy: -1, Sure: -1, Known: true},
		},
	}
}

func TestDaily(t *testing.T) { golden(t, "days-all-kinds.svg", Daily(week())) }

func TestIntervals(t *testing.T) {
	golden(t, "errors-two-monitors.svg", Intervals(Errors{
		ID: "errors", Title: "Errors", Words: "Three errors.", Promise: 1.6,
		Rows: []Row{
			{Label: "Hallway monitor, bill 1", Ink: 0, Percent: 2.3, Expanded: 1.1, Text: "+2.3 % ± 1.1 %"},
			{Label: "Cellar <monitor>, bill 1", Ink: 1, Percent: -0.4, Expanded: math.Inf(1), Text: "−0.4 %"},
			{Label: "Hallway monitor, both", Ink: 0, Percent: 2.2, Expanded: 0.9, Pooled: true, Text: "+2.2 % ± 0.9 %"},
		},
	}))
}

// Whatever the figures, a drawing is well formed and has no place that is no number.
func TestDrawingsOfAnyFigures(t *testing.T) {
	figure := rapid.Float64Range(1e-6, 1e9)
	rapid.Check(t, func(t *rapid.T) {
		reference, indicated := figure.Draw(t, "reference"), figure.Draw(t, "indicated")
		percent := 100 * (indicated - reference) / reference
		u := rapid.SampledFrom([]float64{0, 1e-9, 0.5, 80, math.Inf(1)}).Draw(t, "u")
		name := rapid.String().Draw(t, "name")
		text := rapid.StringMatching(`[ -~]*`).Draw(t, "text")
		if strings.ContainsFunc(name, func(r rune) bool { return r < ' ' || r == 0xfffe || r == 0xffff }) {
			name = "control"
		}
		n := rapid.IntRange(0, 120).Draw(t, "days")
		s := Stick{ID: "s", Title: text, Words: text, Name: name, Ink: Ink(n % 6), Reference: reference, Indicated: indicated, Percent: percent, Expanded: u}
		d := Days{ID: "d", Title: text, Words: text, Mean: reference}
		for i := range n {
			s.Days = append(s.Days, Notch{Share: float64(i+1) / float64(n), Filled: i%3 == 0})
			d.Days = append(d.Days, Day{Label: text, Energy: indicated, Sure: reference, Known: i%5 > 0, Outside: i%7 == 0, Odd: i%11 == 0})
		}
		e := Errors{ID: "e", Title: text, Words: text, Rows: []Row{{Label: name, Percent: percent, Expanded: u}}, Promise: u}
		if !finite(u) {
			e.Promise = 0
		}
		for _, m := range []markup.Markup{Split(s), Daily(d), Intervals(e)} {
			if text := m.String(); strings.Contains(text, "NaN") || strings.Contains(text, "Inf") {
				t.Fatalf("a place that is no number: %s", text)
			}
		}
	})
}

func TestSteps(t *testing.T) {
	for _, c := range []struct {
		span float64
		n    int
		want float64
	}{{10, 5, 2}, {1, 4, 0.5}, {37, 4, 10}, {0.013, 6, 0.005}, {0, 5, 1}, {math.Inf(1), 5, 1}} {
		if got := step(c.span, c.n); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("step(%g, %d) = %g, want %g", c.span, c.n, got, c.want)
		}
	}
	for _, c := range []struct {
		v, by float64
		want  string
	}{{-0.5, 0.5, "−0.5"}, {-0.0001, 0.5, "0.0"}, {20, 10, "20"}, {0.25, 0.05, "0.25"}} {
		if got := tick(c.v, c.by); got != c.want {
			t.Errorf("tick(%g, %g) = %q, want %q", c.v, c.by, got, c.want)
		}
	}
}
