package say

import (
	"math"
	"strings"
	"testing"

	"splittally/calc/compare"
	"splittally/calc/energy"
	"splittally/calc/uncertainty"
)

func TestSigned(t *testing.T) {
	for _, c := range []struct {
		value, u float64
		want     string
	}{
		{2.3149, 1.1, "+2.3"},
		{-0.404, 0.025, "−0.404"},
		{-0.004, 0.25, "0.00"}, // nothing is left but a sign, which would mislead
		{123.4, 38, "+123"},
		{-11, 3.8, "−11.0"},
	} {
		if got := Signed(c.value, c.u); got != c.want {
			t.Errorf("Signed(%g, %g) = %q, want %q", c.value, c.u, got, c.want)
		}
	}
}

func TestIntervalUnknown(t *testing.T) {
	for _, u := range []float64{math.Inf(1), math.NaN()} {
		if got := Interval(u); got != "unknown" {
			t.Errorf("Interval(%g) = %q", u, got)
		}
	}
}

// judged compares 500 kWh with a reference, with a monitor of ±2 %, a meter of
// ±1 % and a doubt of the given size that could be reduced.
func judged(reference, doubt float64) compare.Comparison {
	r, _ := energy.FromKilowattHours(reference)
	a, b := compare.Amount{Energy: 500 * energy.KilowattHour}, compare.Amount{Energy: r}
	a.AddOfReading(uncertainty.Part{HalfWidth: 2, Distribution: uncertainty.Rectangular, Promise: true})
	b.AddOfReading(uncertainty.Part{HalfWidth: 1, Distribution: uncertainty.Rectangular, Promise: true})
	a.Add(uncertainty.Part{HalfWidth: doubt, Unit: "kWh", Distribution: uncertainty.Normal, Reducible: true, Remedy: "find the missing days"})
	return compare.Judge(a, b, 0.95)
}

func TestVerdictInWords(t *testing.T) {
	for _, c := range []struct {
		reference, doubt float64
		want             []string
		not              string
	}{
		{500, 0.1, []string{"Attic and the meter agree", "0.0\u202f%"}, "narrow it most"},
		{450, 0.1, []string{"Attic reads high by 11.1"}, "+"},
		{560, 0.1, []string{"Attic reads low by 10.7"}, "−"},
		{480, 40, []string{"Can’t tell yet whether Attic", "What would narrow it most: find the missing days (± 17"}, "agree: −"},
	} {
		got := Verdict("Attic", judged(c.reference, c.doubt))
		for _, want := range c.want {
			if !strings.Contains(got, want) {
				t.Errorf("%g kWh: %q does not say %q", c.reference, got, want)
			}
		}
		if strings.Contains(got, c.not) {
			t.Errorf("%g kWh: %q says %q", c.reference, got, c.not)
		}
	}
}

func TestNoFigureBreaksAcrossLines(t *testing.T) {
	if got := Error(judged(480, 1)); strings.ContainsAny(got, " ") {
		t.Errorf("%q holds a blank at which a line may break", got)
	}
}

func TestEveryVerdictHasWords(t *testing.T) {
	seen := map[string]compare.Verdict{}
	for _, v := range []compare.Verdict{compare.Agree, compare.DifferHigh, compare.DifferLow, compare.CannotTell, compare.Nothing} {
		if other, twice := seen[Short(v)]; twice {
			t.Errorf("%s and %s are both %q", v, other, Short(v))
		}
		seen[Short(v)] = v
	}
}

func TestPlace(t *testing.T) {
	for path, want := range map[string]string{
		"":                                "",
		"confidence":                      "Intervals",
		"checks":                          "Leg checks",
		"meter.class":                     "The meter, accuracy",
		"meter.readings":                  "The meter’s daily figures",
		"monitors.0.readings":             "Monitor 1, daily totals",
		"monitors.1.setting":              "Monitor 2, setting",
		"monitors.0.columns":              "Monitor 1, columns",
		"periods.1.kwh":                   "Bill 2, energy billed",
		"periods.0.apart":                 "Bill 1, energy on other circuits",
		"periods.0.produced":              "Bill 1, solar produced",
		"periods.0.exported":              "Bill 1, energy exported",
		"periods.0.lines.1.amount":        "Bill 1, printed line 2, amount",
		"periods.0.uses.0.amount":         "Bill 1, time-of-use period 1, amount",
		"periods.1.total":                 "Bill 2, printed total",
		"periods.1.solve":                 "Bill 2, what to find",
		"plans.1.currency":                "Tariff 2, currency",
		"plans.0.half":                    "Tariff 1, where half a coin goes",
		"plans.0.dates":                   "Tariff 1, holidays of your own",
		"plans.0.rows.2":                  "Tariff 1, row 3",
		"plans.0.rows.2.price":            "Tariff 1, row 3, price",
		"plans.0.rows.1.from":             "Tariff 1, row 2, season’s first day",
		"plans.0.rows.1.on":               "Tariff 1, row 2, on which rows",
		"plans.0.rows.0.steps.1.up-to":    "Tariff 1, row 1, tier 2, up to",
		"plans.0.rows.0.bands":            "Tariff 1, row 1, time-of-use period",
		"plans.0.rows.0.bands.1.hours":    "Tariff 1, row 1, time-of-use period 2, hours",
		"plans.0.rows.0.bands.1.days":     "Tariff 1, row 1, time-of-use period 2, days",
		"checks.service":                  "Leg checks, service",
		"checks.voltmeter.digits":         "Multimeter, digits",
		"checks.plugmeter.percent":        "Plug-in meter, percent of reading",
		"checks.legs.1":                   "Leg 2",
		"checks.legs.1.setting":           "Leg 2, setting",
		"checks.legs.0.pairs.2.reference": "Leg 1, pair 3, multimeter",
		"checks.legs.0.pairs.2.monitor":   "Leg 1, pair 3, monitor’s value",
		"checks.legs.0.amps.1.reference":  "Leg 1, current pair 2, clamp meter",
		"checks.legs.0.amps.1.monitor":    "Leg 1, current pair 2, monitor’s value",
		"checks.legs.0.steps.0.before":    "Leg 1, load step 1, monitor before",
		"checks.legs.0.steps.0.load":      "Leg 1, load step 1, plug-in meter",
		"timing.constant":                 "Timing, meter constant",
		"timing.runs.1.turns":             "Timing, run 2, how many",
		"checks.lines":                    "Leg checks, between the lines",
		"checks.lines.0.reference":        "Between the lines, pair 1, multimeter",
		"checks.lines.1.monitor":          "Between the lines, pair 2, monitor’s value",
	} {
		if got := Place(path); got != want {
			t.Errorf("Place(%q) = %q, want %q", path, got, want)
		}
	}
}
