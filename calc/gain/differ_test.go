package gain

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// Gains of 1.03 and 1.005 by a multimeter of ±2 %: each alone is in doubt by
// more than it differs from 1, or nearly, but they differ from each other.
func TestLegsDiffer(t *testing.T) {
	poor := Accuracy{"2", "3"}
	for _, c := range []struct {
		name        string
		legs        []Leg
		meter       Accuracy
		high, low   int
		significant bool
		off         []int
		words       string
	}{
		{"one is off", []Leg{steady("A", "120.6/120.0"), steady("B", "123.6/120.0")}, poor, 1, 0, true, []int{1}, "B reads lower than A"},
		{"which can't be told", []Leg{steady("A", "119.0/120.0"), steady("B", "121.0/120.0")}, poor, 1, 0, true, nil, "Which of them is off can’t be told"},
		{"both are off", []Leg{steady("A", "116.0/120.0"), steady("B", "124.0/120.0")}, poor, 1, 0, true, []int{0, 1}, "A reads high by 3.4\u202f%, B reads low by 3.2\u202f%"},
		{"alike", []Leg{steady("A", "121.0/120.0"), steady("B", "121.0/120.0")}, poor, 0, 1, false, nil, "Nor is any of them off"},
		{"alike and off", []Leg{steady("A", "125.0/120.0"), steady("B", "125.0/120.0")}, poor, 0, 1, false, []int{0, 1}, "no more than chance may make"},
		{"three", []Leg{steady("A", "121.0/120.0"), steady("B", "119.0/120.0"), steady("C", "120.0/120.0")}, poor, 0, 1, true, nil, "A reads lower than B"},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := Read(Checks{Legs: c.legs, Voltmeter: c.meter}, Options{})
			if len(r.Differ) != 1 {
				t.Fatalf("%d differences, want 1", len(r.Differ))
			}
			d := r.Differ[0]
			if d.Kind != ByVolts || d.High != c.high || d.Low != c.low || d.Significant != c.significant || !cmp.Equal(d.Off, c.off) || !strings.Contains(d.Words, c.words) {
				t.Errorf("%+v", d)
			}
			near(t, "percent", d.Percent, 100*(r.Legs[c.high].Volts.Factor-r.Legs[c.low].Volts.Factor), 1e-9)
		})
	}
}

// What was measured of one leg alone is compared with nothing; kinds stand each
// for itself.
func TestKindsAreComparedApart(t *testing.T) {
	a, b := steady("A", "121.0/120.0"), leg("B")
	b.Amps = current("", "20.4/20.0", "20.4/20.0").Amps
	if r := Read(Checks{Legs: []Leg{a, b}}, Options{}); r.Differ != nil {
		t.Errorf("%+v", r.Differ)
	}
	a.Amps, a.Steps = b.Amps, stepped("", "400/1850/1450").Steps
	b.Pairs, b.Steps = a.Pairs, a.Steps
	r := Read(Checks{Legs: []Leg{a, b}}, Options{})
	var got []Basis
	for _, d := range r.Differ {
		got = append(got, d.Kind)
	}
	if d := cmp.Diff([]Basis{ByVolts, ByAmps, ByPower}, got); d != "" {
		t.Error(d)
	}
}
