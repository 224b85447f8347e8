package paired

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/ledger"
)

// Whatever the ledgers hold, every figure is a number, sums are exact, and the days
// that disagree are among the days.
func TestAnyLedgers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string) (l ledger.Ledger) {
			first := calendar.Day(19000 + rapid.IntRange(-3, 3).Draw(t, name))
			zero := rapid.Bool().Draw(t, "zero")
			for d := range calendar.Day(rapid.IntRange(0, 50).Draw(t, "days")) {
				e := ledger.Entry{State: ledger.Measured, Energy: energy.Energy(rapid.Int64Range(-3e9, 40e9).Draw(t, "day"))}
				if zero {
					e.Energy = 0
				}
				if rapid.IntRange(0, 9).Draw(t, "state") == 0 {
					e = ledger.Entry{}
				}
				l.Put(first+d, e)
				for h := range 24 {
					l.Slots = append(l.Slots, ledger.Slot{Day: first + d, From: 60 * h, To: 60*h + 60, Energy: e.Energy / 24})
				}
			}
			return l
		}
		a, b := draw("monitor"), draw("meter")
		r, done := Compare(a, b, Options{Confidence: 0.95})
		if !done {
			return
		}
		sum, odd := energy.Energy(0), 0
		for _, d := range r.Days {
			sum += d.Monitor
			if d.Disagrees {
				odd++
			}
			if math.IsNaN(d.Expected) || math.IsNaN(d.Limit) {
				t.Fatalf("%+v", d)
			}
		}
		if sum != r.Monitor || odd != len(r.Odd) {
			t.Errorf("sum %s, %s; odd %d, %d", sum, r.Monitor, odd, len(r.Odd))
		}
		for _, x := range []float64{r.Percent.Value, r.Percent.Expanded, r.PerDay.Value, r.Drift.Value, r.Drift.Expanded, r.Scatter, r.Rounding, r.Weekdays.P, r.Lag.Left, r.Cut.Value} {
			if math.IsNaN(x) || math.IsInf(x, 0) {
				t.Errorf("%g in %+v", x, r)
			}
		}
		for _, o := range r.Odd {
			if o.Kind == "" {
				t.Errorf("%+v", o)
			}
		}
	})
}
