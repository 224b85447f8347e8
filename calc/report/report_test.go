package report

import (
	"flag"
	"math"
	"os"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"splittally/calc"
	"splittally/calc/billing"
	"splittally/calc/calendar"
	"splittally/calc/cause"
	"splittally/calc/compare"
	"splittally/calc/correct"
	"splittally/calc/energy"
	"splittally/calc/fit"
	"splittally/calc/gain"
	"splittally/calc/ledger"
)

var update = flag.Bool("update", false, "rewrite the golden report; read the difference before keeping it")

// The findings here are made by hand, so that each section has each of its
// turns; whole cases are the scenarios of package calc.
func findings() calc.Findings {
	first := day(2024, 2, 1)
	f := calc.Findings{
		Confidence: 0.95,
		Periods: []billing.Statement{
			{Dated: true, Given: true, Span: calendar.Span{First: first, End: first + 29}, Reference: 461 * energy.KilowattHour},
			{Dated: true, Given: true, Span: calendar.Span{First: first + 29, End: first + 60}, Reference: 473 * energy.KilowattHour},
		},
		Checks: checks(),
	}
	f.Instruments = []calc.Instrument{{
		Name: "Attic", Causes: causes(), Corrections: corrections(first),
		Legs: []ledger.Ledger{{Name: "Leg A"}, {Name: "Leg B"}}, Shares: []float64{1.061, -0.061},
		IsReached: true, Reach: gain.Reach{Words: []string{"Setting the volts right would leave −4.9 %."}},
		IsFitted: true, Fitted: calc.Fitted{
			Points: []calc.Point{
				{Period: 0, Meter: 15.8966, Monitor: 15.1034, MeterDoubt: 0.0482, MonitorDoubt: 0.0091},
				{Period: 1, Meter: 15.2581, Monitor: 14.4194, MeterDoubt: 0.0465, MonitorDoubt: 0.012},
				{Period: 3, Meter: 31.4, Monitor: 29.97, MeterDoubt: 0.0465, MonitorDoubt: 0.012},
			},
			Line:     fit.Line{Known: true, Offset: fit.Value{Value: -0.11, Expanded: 0.44}, Gain: fit.Value{Value: 0.9561, Expanded: 0.0172}, ChiSquared: 4.2, DoF: 1, P: 0.04},
			Ordinary: fit.Line{Known: true, Offset: fit.Value{Value: -0.08, Expanded: 0.51}, Gain: fit.Value{Value: 0.9552, Expanded: 0.0193}, Residual: 0.0312},
			Watts:    fit.Value{Value: -4.58, Expanded: 18.3},
		},
		IsDaily: true, Daily: calc.Fitted{Points: make([]calc.Point, 61), Line: fit.Line{Why: fit.Alike}},
	}}
	return f
}

func day(y, m, d int) calendar.Day {
	out, _ := calendar.Date(y, m, d)
	return out
}

func causes() cause.Weighed {
	return cause.Weighed{
		Done: true, Open: 2, Words: "One gain or a constant power: these data do not tell them apart.",
		Decide: cause.Step{Words: "Wait for a bill of a month with twice the use.", Panel: true},
		Causes: []cause.Explanation{
			{
				ID: cause.Gain, Name: "One gain, the same in every bill", How: "The monitor reads 4.6 % ± 0.6 % low.", Probability: 0.724, Fit: 0.61,
				Remaining: []cause.Remaining{{Period: 0, Percent: -0.12, Expanded: 0.81}, {Period: 1, Percent: 0.21, Expanded: 0.83}},
				For:       []string{"The errors of the 2 bills lie between −4.8 % and −4.5 %."}, Against: []string{"Two bills can’t show much."},
				Check: cause.Step{Words: "Measure a known load on each leg."}, Remedy: "Set the gain.",
			},
			{ID: cause.Offset, Name: "A constant power that one of the two does not see", How: "The monitor misses a steady 31 W ± 6 W, which is a small thing that never rests and which nobody has thought of for years.", Probability: 0.22, Fit: 0.3},
			{ID: cause.Losses, Name: "The bill is in loss-adjusted kilowatt-hours", How: "About 4.8 %.", Probability: 0.05, Fit: 0.0004},
			{ID: cause.Other, Name: "None of these.", Probability: 0.0058},
			{ID: cause.Chance, Name: "Chance", Probability: 0.0002},
			{ID: cause.Unit, Name: "A wrong unit"},
		},
	}
}

func checks() gain.Result {
	correction := gain.Correction{Factor: 1.0177, Percent: 1.77, Expanded: 0.51, Significant: true}
	found := gain.Found{Given: true, Correction: correction, Pairs: 3, Reference: 121.03, Monitor: 118.92, Odd: []int{1}}
	return gain.Result{
		Given: true, Overall: correction,
		Legs: []gain.LegResult{
			{Name: "Leg A", Given: true, Share: 0.57, Volts: found, Correction: correction, Basis: gain.ByVolts, Waits: "current pair 1 is half typed"},
			{Name: "Leg B", Waits: "nothing was measured"},
		},
		Volts: gain.Whole{Given: true, Correction: correction},
		Power: gain.Whole{Given: true, Complete: true, Correction: correction},

		Service: gain.Split, ServiceFrom: "taken from the two legs that are entered",
		Differ: []gain.Difference{{Words: "The legs differ in their volts."}},
		Lines: []gain.LineCheck{
			{Name: "Leg A to Leg B", Words: []string{"The multimeter’s own volts add up.", "The monitor’s do not."}},
			{Name: "Line 2", Waits: "the volts of Leg B are missing"},
		},
	}
}

func corrections(first calendar.Day) []correct.Correction {
	d := decimal.RequireFromString
	day := func(n int, filled bool, state ledger.State) correct.Day {
		return correct.Day{Day: first + calendar.Day(n), Was: 15 * energy.KilowattHour, Corrected: 15_726 * energy.WattHour, Filled: filled, State: state}
	}
	return []correct.Correction{
		{
			Basis: correct.FromBills, Found: []int{0, 1, 2, 3}, Factor: 1.0484, Expanded: 0.0121, Significant: true, Words: "Found on bills 1 and 2.", How: "Change it on the day of a read.",
			Settings: []correct.Setting{{Old: d("1.000"), New: d("1.048"), Inverse: d("0.954"), Step: d("0.001"), Factor: 1.0484, Expanded: 0.0121, Rounded: 1.048}},
			Judged: []correct.Judged{
				{Period: 0, HeldOut: true, Before: -4.871, Predicted: -0.304, After: 0.31, Expanded: 1.18, Verdict: compare.Agree},
				{Period: 1, With: []int{2}, HeldOut: true, Before: -4.48, Predicted: 0.105, After: 1.9, Expanded: 1.2, Verdict: compare.DifferHigh},
				{Period: 3, Before: -4.5, Predicted: 0.084},
				{Period: 5, Before: -4.1, Predicted: 0.503},
			},
			Days: []correct.Day{
				day(0, false, ledger.Measured), day(1, true, ledger.Missing), day(2, true, ledger.Partial),
				day(30, false, ledger.Spread), day(31, false, ledger.Partial), day(99, false, ledger.Measured),
			},
		},
		{
			Basis: correct.FromChecks, Factor: 1.0043, Expanded: 0.0112, Words: "Found by the checks of the legs.",
			Settings: []correct.Setting{{Name: "Leg A", Old: d("1"), New: d("1.018"), Step: d("0.001"), Factor: 1.0177, Expanded: 0.0051, Rounded: 1.018, IsAssumed: true}},
			Judged:   []correct.Judged{{Period: 0, HeldOut: true, Before: -4.871, Predicted: -3.158, After: -3.2, Expanded: 1.18, Verdict: compare.DifferLow}},
		},
	}
}

func TestReport(t *testing.T) {
	const path = "testdata/made-by-hand.txt"
	got := Text(calc.Case{Title: "Made by hand"}, findings())
	if *update {
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(strings.Split(string(want), "\n"), strings.Split(got, "\n")); diff != "" {
		t.Errorf("the report has changed (-want +got):\n%s", diff)
	}
}

// A setting is not told where it is no remedy, and why is told instead.
func TestNoSettingWithoutARemedy(t *testing.T) {
	f := findings()
	w := &f.Instruments[0].Causes
	w.Causes, w.Open, w.Asserted = w.Causes[2:], 1, true
	got := Text(calc.Case{}, f)
	for want, is := range map[string]bool{"A setting is not the remedy here": true, "Set 1.048": false, "Leg A: Set 1.018": true, "a second matter": true} {
		if strings.Contains(strings.Join(strings.Fields(got), " "), want) != is {
			t.Errorf("says %q: %v, want %v\n%s", want, !is, is, got)
		}
	}
}

// Nothing of a section that has nothing to say, not even its title.
func TestNoEmptySections(t *testing.T) {
	got := Text(calc.Case{}, calc.Findings{Confidence: 0.95, Instruments: []calc.Instrument{{Name: "Attic"}}})
	for _, title := range []string{"WHY", "LINE OVER", "CORRECTIONS", "LEGS"} {
		if strings.Contains(got, title) {
			t.Errorf("a report of nothing has the section %s:\n%s", title, got)
		}
	}
}

func TestText(t *testing.T) {
	check := func(lead, words, want string) {
		t.Helper()
		r := &writer{}
		r.text(lead, words)
		if got := r.b.String(); got != want {
			t.Errorf("text(%q, %q) =\n%swant\n%s", lead, words, got, want)
		}
	}
	check("a: ", "", "")
	check("a: ", "b c", "a: b c\n")
	check("", strings.Repeat("é", 99)+" b c", strings.Repeat("é", 99)+"\nb c\n")
	check("   ", strings.Repeat("x", 120)+" y", "   "+strings.Repeat("x", 120)+"\n   y\n")
	check("on: ", strings.Repeat("x", 96)+" y", "on: "+strings.Repeat("x", 96)+"\n    y\n")
}

func TestTextFitsAndKeepsEveryWord(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		words := rapid.SliceOfN(rapid.StringMatching(`[a-zé±−]{1,12}`), 1, 60).Draw(t, "words")
		lead := rapid.StringMatching(`( {0,8}[a-z]{0,12}: )?`).Draw(t, "lead")
		r := &writer{}
		r.text(lead, strings.Join(words, " "))
		got := r.b.String()
		for _, line := range strings.Split(got, "\n") {
			if n := utf8.RuneCountInString(line); n > width {
				t.Fatalf("a line of %d characters: %q", n, line)
			}
		}
		if diff := cmp.Diff(append(strings.Fields(lead), words...), strings.Fields(got)); diff != "" {
			t.Fatalf("words changed (-want +got):\n%s", diff)
		}
	})
}

func TestSumOf(t *testing.T) {
	days := []correct.Day{
		{Day: 5, Was: 1, Corrected: 2}, {Day: 6, Was: 10, Corrected: 20, Filled: true}, {Day: 9, Was: math.MaxInt64, Corrected: 3},
	}
	check := func(span calendar.Span, want summed, wantOK bool) {
		t.Helper()
		if got, ok := sumOf(days, span); ok != wantOK || got != want {
			t.Errorf("sumOf(%v) = %+v, %v, want %+v, %v", span, got, ok, want, wantOK)
		}
	}
	check(calendar.Span{First: 5, End: 9}, summed{days: 2, filled: 1, was: 11, corrected: 22}, true)
	check(calendar.Span{First: 6, End: 6}, summed{}, false)
	check(calendar.Span{First: 5, End: 10}, summed{}, false) // does not fit
}
