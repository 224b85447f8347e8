package correct

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"splittally/calc/compare"
	"splittally/calc/uncertainty"
)

// voltmeter is a budget in percent, of a cause that all legs share.
func voltmeter(percent float64) uncertainty.Budget {
	return uncertainty.Budget{uncertainty.Evaluate(uncertainty.Part{Source: "voltmeter", HalfWidth: percent, Distribution: uncertainty.Normal, Promise: true})}
}

// twoLegs has 60 % of the energy on a leg that reads low by 1 %, the rest on
// one that reads high.
func twoLegs(isWhole bool, months ...month) Legs {
	bills := input(months...)
	return Legs{
		Legs: []Leg{
			{Name: "A", Given: true, Share: 0.6, Gain: Gain{1.0104, voltmeter(0.5)}, Setting: Typed{"checks.legs.0.setting", "1.000"}},
			{Name: "B", Given: true, Share: 0.4, Gain: Gain{0.9896, voltmeter(0.5)}, Setting: Typed{"checks.legs.1.setting", "100 %"}},
		},
		Overall: Gain{0.6*1.0104 + 0.4*0.9896, voltmeter(0.5)}, // 1.00208
		IsWhole: isWhole, Accuracy: bills.Accuracy, Stated: 0.02 / math.Sqrt(3),
		Periods: bills.Periods, Confidence: 0.95, Setting: bills.Setting,
	}
}

func checked(t *testing.T, in Legs) Correction {
	t.Helper()
	c, ok := FromLegs(in)
	if !ok {
		t.Fatal("no correction")
	}
	return c
}

// By hand: 0.99 · 1.00208 is −0.79408 %. The class, 1 %/√3, and the voltmeter,
// 0.5 %, count for 0.9920592/1 and 0.99 of themselves: u² = 0.328061 +
// 0.245025, so u is 0.757024 and U 1.483741. The monitor's 2 %/√3 come to
// 1.145531 more if the checks saw the volts alone: u 1.373072 and U 2.691172.
func TestLegsByHand(t *testing.T) {
	m := month{w: 990 * kWh, r: 1000 * kWh, monitor: 2, class: 1}
	for _, c := range []struct {
		isWhole  bool
		expanded float64
	}{{true, 1.483741}, {false, 2.691172}} {
		got := checked(t, twoLegs(c.isWhole, m))
		// By the rounded settings, 1.010 and 99.0 %: 0.99 · (0.606 + 0.396).
		want := []Judged{{Period: 0, HeldOut: true, Before: -1, After: -0.794080, Expanded: c.expanded, Verdict: compare.Agree, Predicted: -0.802}}
		if d := cmp.Diff(want, got.Judged, cmpopts.EquateApprox(0, 2e-6), cmpopts.EquateEmpty()); d != "" {
			t.Errorf("judged (-want +got):\n%s", d)
		}
		near(t, "factor", got.Factor, 1.00208, 1e-12)
		near(t, "u", got.Standard, 0.005, 1e-12)
		if got.Significant || got.Basis != FromChecks || len(got.Found) > 0 {
			t.Errorf("%+v", got)
		}
	}
}

func TestSettingsOfLegs(t *testing.T) {
	in := twoLegs(false)
	in.Legs = append(in.Legs, Leg{Name: "C"})
	var names, now []string
	for _, s := range checked(t, in).Settings {
		names, now = append(names, s.Name), append(now, s.New.StringFixed(s.Places()))
		near(t, "U of "+s.Name, s.Expanded, 1.959964*0.005, 1e-8)
	}
	if d := cmp.Diff([]string{"A", "B", ""}, names); d != "" {
		t.Error(d)
	}
	if d := cmp.Diff([]string{"1.010", "99.0", "1.002"}, now); d != "" {
		t.Error(d)
	}
}

// A leg that was not checked stays as it is; without shares the overall
// setting foretells.
func TestPredictionOfLegs(t *testing.T) {
	in := twoLegs(true, month{w: 1000 * kWh, r: 1000 * kWh, class: 1})
	in.Legs[1].Given = false
	near(t, "0.6 · 1.010 + 0.4", checked(t, in).Judged[0].Predicted, 0.6, 1e-9)
	in.Legs[0].Share, in.Legs[1].Share = 0, 0
	in.Overall.Factor, in.Setting.Text = 1.0204, "1.00"
	near(t, "overall, rounded to 1.020", checked(t, in).Judged[0].Predicted, 2, 1e-9)
}

func TestLegsAndGuesses(t *testing.T) {
	c := checked(t, twoLegs(true, month{w: 990 * kWh, r: 1000 * kWh, class: 1, guessEnd: true}))
	if len(c.Judged) != 1 || !c.Judged[0].HeldOut || c.Judged[0].Verdict != compare.CannotTell {
		t.Errorf("%+v", c.Judged)
	}
}

func TestNoLegs(t *testing.T) {
	whole, bare := twoLegs(true), twoLegs(true)
	whole.Overall.Factor = math.NaN()
	bare.Legs[0].Given, bare.Legs[1].Given = false, false
	far := twoLegs(true)
	far.Legs[0].Gain.Factor = math.Inf(1)
	for name, in := range map[string]Legs{"none": {}, "none checked": bare, "no factor": whole, "no factor of a leg": far} {
		if c, ok := FromLegs(in); ok {
			t.Errorf("%s: %+v", name, c)
		}
	}
}
