package view

import (
	"math"
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"splittally/calc"
	"splittally/calc/calendar"
	"splittally/calc/cause"
	"splittally/calc/compare"
	"splittally/calc/correct"
	"splittally/calc/energy"
	"splittally/calc/fit"
	"splittally/calc/gain"
	"splittally/calc/intake"
	"splittally/calc/ledger"
)

// caused is the small case with all that is said of causes, made by hand: two
// that can't be told apart, two more, and one of everything else.
func caused() (calc.Case, calc.Findings) {
	c, f := small()
	c.Meter.Readings = "3 Sep 10\nnonsense"
	f.MeterDays = calc.Readings{Lines: []intake.Line{{Number: 1, Use: intake.Used}, {Number: 2, Why: "no figure"}}, Used: 1, Ignored: 1, Unit: "kWh"}
	f.Checks = twoLegs()
	inst := &f.Instruments[0]
	inst.Causes = weighed()
	inst.IsFitted, inst.IsDaily = true, true
	inst.Fitted, inst.Daily = threePoints(), threePoints()
	inst.Daily.Line = fit.Line{Why: fit.Alike}
	inst.IsReached = true
	inst.Reach = gain.Reach{
		Percent: 1.72, Expanded: 1.1, Left: 3.9, LeftExpanded: 1.2, Current: 0.9625, CurrentExpanded: 0.012, PowerFactor: 0.9, IsAssumed: true,
		Limits: []gain.Limit{{Class: "1", Load: 5, Ratio: 3, Minutes: 180, Phase: 2.54}},
		Words:  []string{"The volts read low and the kWh high: the voltage is not the cause."},
	}
	inst.Corrections = []correct.Correction{fromBills(f.Periods[0].Span.First), fromChecks()}
	return c, f
}

func weighed() cause.Weighed {
	one := []cause.Remaining{{Period: 0, Percent: 0.2, Expanded: 1.1}}
	return cause.Weighed{
		Done: true, Open: 2, Words: "Two causes explain it alike.",
		Decide: cause.Step{Words: "Read the volts of both legs.", Panel: true, Separates: []cause.ID{cause.Offset}},
		Causes: []cause.Explanation{
			{
				ID: cause.Gain, Name: "One gain, the same in every bill", How: "The monitor reads 1.7 % ± 0.9 % high.", Probability: 0.611, Remaining: one, Fit: 0.61,
				For: []string{"The bills differ alike."}, Against: []string{"Its <maker> states ± 1 %.", "The volts are right."}, Sets: true,
				Check: cause.Step{Words: "Switch a known load on."}, Remedy: "Set the gain below.",
			},
			{ID: cause.Offset, Name: "A constant offset", How: "The monitor sees 12 W more.", Probability: 0.36, Remaining: []cause.Remaining{{}, {Period: 0}, {}, {}}, Fit: 0.4},
			{ID: cause.Chance, Name: "Chance", How: "Nothing is wrong.", Probability: 0.027, Remaining: one, Check: cause.Step{Words: "Wait for a bill.", Panel: true}},
			{ID: cause.Other, Name: "None of these", How: "Something else.", Probability: 0.002, Remaining: one},
		},
	}
}

func twoLegs() gain.Result {
	found := func(factor, u, reference, monitor float64) gain.Found {
		return gain.Found{
			Given: true, Pairs: 3, Reference: reference, Monitor: monitor,
			Correction: gain.Correction{Factor: factor, Percent: 100 * (factor - 1), Expanded: u, Significant: math.Abs(100*(factor-1)) > u},
		}
	}
	first := gain.LegResult{Name: "Black <leg>", Given: true, Share: 0.6, ShareFrom: gain.ShareReadings, Volts: found(1.0215, 0.9, 121.43, 118.87), Power: found(1.019, 1.5, 1480, 1452), Basis: gain.ByPower}
	first.Correction = first.Power.Correction
	second := gain.LegResult{Name: "Leg 2", Given: true, Share: 0.4, ShareFrom: gain.ShareTyped, Amps: found(1.001, 2, 10.1, 10.09), Basis: gain.ByAmps, Waits: "pair 2 lacks the monitor’s volts"}
	second.Correction = second.Amps.Correction
	return gain.Result{
		Given: true, Legs: []gain.LegResult{first, second, {Name: "Leg 3", Waits: "no pair yet"}}, Overall: found(1.012, 1.2, 0, 0).Correction,
		Service: gain.Split, ServiceFrom: "as typed",
		Lines:  []gain.LineCheck{{Name: "Black <leg> to Leg 2", Words: []string{"They agree within 1.2 V."}}, {Name: "Pair 2", Waits: "the volts of two legs are missing"}},
		Differ: []gain.Difference{{Kind: gain.ByVolts, Words: "The gains of the legs’ volts differ."}},
	}
}

func threePoints() calc.Fitted {
	line := fit.Line{
		Known: true, Offset: fit.Value{Value: 0.31, Standard: 0.1, Expanded: 0.22}, Gain: fit.Value{Value: 1.004, Expanded: 0.012},
		ChiSquared: 0.8, DoF: 1, P: 0.37, Residual: 0.12,
	}
	return calc.Fitted{
		Line: line, Ordinary: line, Watts: fit.Value{Value: 12.9, Expanded: 9.2},
		Points: []calc.Point{{Meter: 10, Monitor: 10.4, MeterDoubt: 0.1, MonitorDoubt: 0.2}, {Period: 1, Meter: 14, Monitor: 14.3}, {Period: 2, Meter: 18, Monitor: 18.5}},
	}
}

func fromBills(first calendar.Day) correct.Correction {
	kWh := energy.KilowattHour
	return correct.Correction{
		Basis: correct.FromBills, Found: []int{0, 2}, Factor: 0.9831, Expanded: 0.0088, Significant: true,
		Words: "Found on bills 1 and 3.", How: "Note the day of the change.",
		Settings: []correct.Setting{{Old: decimal.RequireFromString("1.04"), Factor: 0.9831, Expanded: 0.0088, New: decimal.RequireFromString("1.022"), Inverse: decimal.RequireFromString("1.058"), Step: decimal.RequireFromString("0.001"), Rounded: 0.9827}},
		Judged: []correct.Judged{
			{Period: 0, HeldOut: true, Before: 1.72, Predicted: -0.04, After: -0.1, Expanded: 1.2, Verdict: compare.Agree},
			{Period: 1, Before: 1.4, Predicted: -0.35, Verdict: compare.Nothing},
			{Period: 2, With: []int{3}, Before: 1.5, Predicted: -0.26, Verdict: compare.Nothing},
		},
		Days: []correct.Day{
			{Day: first, Was: 10 * kWh, Corrected: 9831 * kWh / 1000, Expanded: kWh / 10, State: ledger.Measured},
			{Day: first + 1, Was: 10 * kWh, Corrected: 9831 * kWh / 1000, Filled: true, State: ledger.Missing, IsUnlimited: true},
			{Day: first + 2, Was: 10 * kWh, Corrected: 9831 * kWh / 1000, State: ledger.Spread, Expanded: kWh},
			{Day: first + 3, Was: kWh, Corrected: 983 * kWh / 1000, State: ledger.Partial, Expanded: kWh / 10},
		},
	}
}

func fromChecks() correct.Correction {
	return correct.Correction{
		Basis: correct.FromChecks, Factor: 1.012, Expanded: 0.015, Words: "Found by the checks of the legs, on no bill.",
		Settings: []correct.Setting{{Name: "Black <leg>", Old: decimal.NewFromInt(100), Unit: "%", IsAssumed: true, Factor: 1.019, Expanded: 0.015, New: decimal.RequireFromString("101.9"), Step: decimal.RequireFromString("0.1"), Inverse: decimal.RequireFromString("98.1"), Rounded: 1.019}},
		Judged:   []correct.Judged{{Period: 0, HeldOut: true, Before: 1.72, Predicted: 2.88, After: 2.9, Expanded: 1.2, Verdict: compare.DifferHigh}},
	}
}

func TestGoldenCauses(t *testing.T) {
	c, f := caused()
	d := all(c, f)
	for slot := range d.Slots {
		switch slot {
		case "verdict", "causes", "corrections", "legs", "together", "meter.lines":
		default:
			delete(d.Slots, slot) // three-days.html has them
		}
	}
	golden(t, "causes.html", d)
}

// The verdict leads to the likeliest cause, and how it says so depends on
// whether that one is asserted.
func TestWhy(t *testing.T) {
	for _, test := range []struct {
		change func(w *cause.Weighed)
		want   string
	}{
		{func(*cause.Weighed) {}, "Why, perhaps: One gain, the same in every bill, or 1 other"},
		{func(w *cause.Weighed) { w.Open, w.Asserted = 1, true }, "Why: One gain, the same in every bill<"},
		{func(w *cause.Weighed) { w.Causes = w.Causes[2:] }, ""},
		{func(w *cause.Weighed) { w.Done = false }, ""},
	} {
		c, f := caused()
		test.change(&f.Instruments[0].Causes)
		got := Render(c, f, nil)
		if said := strings.Contains(got.Slots["verdict"], `class="why"`); said != (test.want != "") || !strings.Contains(got.Slots["verdict"], test.want) {
			t.Errorf("%s\nwant %q in it", got.Slots["verdict"], test.want)
		}
		if test.want != "" && !strings.Contains(got.Slots["causes"], `id="causes-0"`) {
			t.Error("the verdict leads nowhere")
		}
	}
}

// What is said of a gain that is no remedy stands above the settings, and these
// are folded away.
func TestNoRemedy(t *testing.T) {
	for _, test := range []struct {
		name   string
		change func(inst *calc.Instrument)
		notice string
		folded int
	}{
		{"not settled", func(*calc.Instrument) {}, "not settled yet", 0},
		{"a gain", func(i *calc.Instrument) { i.Causes.Open, i.Causes.Asserted = 1, true }, "", 0},
		{"an offset", func(i *calc.Instrument) {
			i.Causes.Open, i.Causes.Asserted, i.Causes.Causes = 1, true, i.Causes.Causes[1:]
		}, "is not the remedy for that", 1},
		{"far off", func(i *calc.Instrument) { i.Corrections[0].Factor, i.Corrections[1].Settings[0].Factor = 0.5, 2 }, "not settled yet", 2},
	} {
		c, f := caused()
		test.change(&f.Instruments[0])
		got := Render(c, f, nil).Slots["corrections"]
		if !strings.Contains(got, test.notice) || test.notice == "" && strings.Contains(got, `class="notice"`) {
			t.Errorf("%s: %s\nwant %q in it", test.name, got, test.notice)
		}
		if n := strings.Count(got, `<details class="more" id="settings-`); n != test.folded || strings.Count(got, "The settings") != 2-n {
			t.Errorf("%s: the settings of %d corrections are folded, want %d\n%s", test.name, n, test.folded, got)
		}
	}
}

// Only three causes are drawn until the others are unfolded, none where chance
// alone explains it all, and of the faintest only the names.
func TestCausesAreFolded(t *testing.T) {
	c, f := caused()
	drawn := func(d Drawing) int { return strings.Count(d.Slots["causes"], "<h5>") }
	if n := drawn(Render(c, f, nil)); n != mostCauses {
		t.Errorf("%d causes are drawn, want %d", n, mostCauses)
	}
	if d := all(c, f); drawn(d) != 3 || !strings.Contains(d.Slots["causes"], "far less well: None of these.") {
		t.Errorf("a faint cause is more than named: %s", d.Slots["causes"])
	}
	w := &f.Instruments[0].Causes
	w.Open = 4
	if got := Render(c, f, nil).Slots["causes"]; !strings.Contains(got, "1 more that can’t be told apart") || strings.Contains(got, "less likely") || strings.Contains(got, "far less well") {
		t.Errorf("four that can't be told apart: %s", got)
	}
	w.Open, w.Causes[3].Probability = 2, 0.006
	if got := Render(c, f, nil).Slots["causes"]; !strings.Contains(got, "1 less likely cause") || strings.Contains(got, "far less well") {
		t.Errorf("a fourth that is not faint: %s", got)
	}
	w.Causes, w.Open, w.Asserted = w.Causes[2:], 1, true
	if n := drawn(Render(c, f, nil)); n != 0 {
		t.Errorf("%d causes are drawn beside chance, want none", n)
	}
	if n := drawn(all(c, f)); n != 2 {
		t.Errorf("unfolded there are %d causes, want 2", n)
	}
}

// Wherever a step leads near a panel, the caution stands with it.
func TestCautionAtThePanel(t *testing.T) {
	c, f := caused()
	w := &f.Instruments[0].Causes
	if n := strings.Count(all(c, f).Slots["causes"], `class="caution"`); n != 2 {
		t.Errorf("%d cautions, want one at the deciding step and one at the check", n)
	}
	w.Decide.Panel, w.Causes[2].Check.Panel = false, false
	if n := strings.Count(all(c, f).Slots["causes"], `class="caution"`); n != 0 {
		t.Errorf("%d cautions where nothing is near a panel", n)
	}
}
