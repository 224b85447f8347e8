package gain

import (
	"math"
	"strings"
	"testing"
)

// fuzzed spreads a few texts over every field of the checks.
func fuzzed(name, share, a, b, c, d, percent, digits string) Checks {
	first := Leg{
		Name: name, Share: share, Setting: d,
		Pairs: []Pair{{a, b}, {c, d}},
		Amps:  []Pair{{b, c}, {a, d}, {percent, digits}},
		Steps: []Step{{a, b, c}, {d, c, a}, {percent, b, digits}},
	}
	second := Leg{Share: percent, Pairs: []Pair{{b, c}}, Amps: []Pair{{c, a}}, Steps: []Step{{c, a, d}}}
	return Checks{
		Service: name, Drop: digits, PowerFactor: share,
		Voltmeter: Accuracy{percent, digits}, Clampmeter: Accuracy{digits, percent}, Plugmeter: Accuracy{percent, ""},
		Legs:  []Leg{first, second, {}, {Name: a}},
		Lines: []Pair{{a, b}, {c, d}, {"", share}},
	}
}

func FuzzRead(f *testing.F) {
	f.Add("A", "60", "121.3", "120.1", "121,3 V", "119", "1.0", "3", 1.0, 2.0)
	f.Add("", "", "12", "", "1,234", "120,125", "", "", -3.0, 0.0)
	f.Add("both", "50 %", "1e2", "5.", "−120", "１２０", "0,5 %", "200", 0.0, math.NaN())
	f.Add("split", "0.92", "400", "1,850 W", "1.48 kW", "208.0", "2", "1,5", 0.6, 0.4)
	f.Add("three", "1", "230.1", "231", "398.7", "12.4 A", "0", "0", math.Inf(1), 1.0)
	f.Fuzz(func(t *testing.T, name, share, a, b, c, d, percent, digits string, one, two float64) {
		checks := fuzzed(name, share, a, b, c, d, percent, digits)
		for legs := range len(checks.Legs) + 1 {
			some := checks
			some.Legs = checks.Legs[:legs]
			r := Read(some, Options{Shares: []float64{one, two}})
			wantSound(t, r)
			wantFinite(t, r)
		}
	})
}

// wantSound holds what is true of every result, however it was typed.
func wantSound(t *testing.T, r Result) {
	t.Helper()
	total := 0.0
	for _, l := range r.Legs {
		if !l.Given && l.Waits == "" {
			t.Errorf("%s is not given and does not say why", l.Name)
		}
		if !(l.Share >= 0 && l.Share <= 1) {
			t.Errorf("%s has a share of %v", l.Name, l.Share)
		}
		if l.Given != (l.Volts.Given || l.Amps.Given || l.Power.Given) || l.Given != (l.Basis != "") {
			t.Errorf("%s rests on %q", l.Name, l.Basis)
		}
		total += l.Share
	}
	if total > 1+1e-9 {
		t.Errorf("shares of %v", total)
	}
	for _, l := range r.Lines {
		if (l.Waits == "") != (l.Reference.Given || l.Monitor.Given) {
			t.Errorf("%+v", l)
		}
	}
	for _, problem := range r.Problems {
		if !strings.HasPrefix(problem.Path, "gain.") || problem.Wanted == "" {
			t.Errorf("problem without place or words: %+v", problem)
		}
	}
	for _, n := range r.Notices {
		if !strings.HasPrefix(n.Path, "gain.") || n.Text == "" || n.Code == "" {
			t.Errorf("notice without place or words: %+v", n)
		}
	}
}

// wantFinite fails on a figure that is none.
func wantFinite(t *testing.T, r Result) {
	t.Helper()
	reach := r.Reach(1.5, 0.5)
	figures := []float64{r.Effect(1).After, reach.Left, reach.LeftExpanded, reach.Current, reach.CurrentExpanded, r.PowerFactor}
	for _, l := range r.Legs {
		figures = append(figures, l.Volts.Expanded, l.Amps.Expanded, l.Power.Expanded, l.Expanded, l.Factor)
	}
	for _, w := range []Correction{r.Overall, r.Volts.Correction, r.Amps.Correction, r.Power.Correction} {
		figures = append(figures, w.Factor, w.Standard, w.Expanded)
	}
	for _, l := range r.Lines {
		figures = append(figures, l.Reference.Expanded, l.Monitor.Expanded, l.Gain.Expanded, l.Gain.Difference)
	}
	for _, d := range r.Differ {
		figures = append(figures, d.Percent, d.Expanded)
	}
	for i, v := range figures {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			t.Errorf("figure %d is no number: %+v", i, r)
		}
	}
}
