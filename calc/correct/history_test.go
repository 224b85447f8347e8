package correct

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"

	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/fill"
	"splittally/calc/ledger"
	"splittally/calc/uncertainty"
)

// week is a record with one day of each kind; the day at 3 is missing.
func week() ledger.Ledger {
	l := ledger.Ledger{First: 100}
	total := calendar.Span{First: 101, End: 103}
	l.Put(100, ledger.Entry{State: ledger.Measured, Energy: 10 * kWh, Rounding: kWh / 20})
	l.Put(101, ledger.Entry{State: ledger.Spread, Energy: 8 * kWh, Total: total, Rounding: kWh / 40})
	l.Put(102, ledger.Entry{State: ledger.Spread, Energy: 8 * kWh, Total: total, Rounding: kWh / 40})
	l.Put(104, ledger.Entry{State: ledger.Partial, Energy: 4 * kWh, Hours: 12})
	l.Put(105, ledger.Entry{State: ledger.Partial, Energy: 3 * kWh, Hours: 9})
	return l
}

// The gap of two days that the period 103 to 104 has: 12 kWh were estimated of
// the first and 5 of the second, so 12/13 and 5/13 of the doubt are theirs.
func twoFilled(standard float64) fill.Result {
	return fill.Result{
		Days: []fill.Day{
			{Day: 102, Energy: 8 * kWh, State: ledger.Spread},
			{Day: 103, Energy: 12 * kWh, Filled: true},
			{Day: 104, Energy: 9 * kWh, State: ledger.Partial, Filled: true},
		},
		Standard: standard, DoF: 7,
	}
}

func TestHistory(t *testing.T) {
	want := []Reading{
		{Day: 100, Energy: 10 * kWh, State: ledger.Measured, Rounding: kWh / 20},
		{Day: 101, Energy: 8 * kWh, State: ledger.Spread, Rounding: kWh / 40, Standard: 0.35 * 8 * math.Sqrt(0.5)},
		{Day: 102, Energy: 8 * kWh, State: ledger.Spread, Rounding: kWh / 40, Standard: 0.35 * 8 * math.Sqrt(0.5)},
		{Day: 103, Energy: 12 * kWh, Filled: true, Standard: 2.4, DoF: 7},
		{Day: 104, Energy: 9 * kWh, State: ledger.Partial, Filled: true, Standard: 1, DoF: 7},
		{Day: 105, Energy: 3 * kWh, State: ledger.Partial},
	}
	got := History(week(), []fill.Result{twoFilled(5), twoFilled(2.6)})
	if d := cmp.Diff(want, got, cmpopts.EquateApprox(0, 1e-12)); d != "" {
		t.Errorf("(-want +got):\n%s", d)
	}
	// A home that used nothing: the doubt is shared evenly.
	nothing := fill.Result{Days: []fill.Day{{Day: 103, Filled: true}, {Day: 106, Filled: true}}, Standard: 2}
	got = History(ledger.Ledger{First: 100}, []fill.Result{nothing})
	near(t, "an even share", got[0].Standard, math.Sqrt2, 1e-12)
}

// By hand: no doubt of the factor but its class of 1 %/√3 = 0.57735 %, factor
// 1000/1025. Day 100: 10 kWh become 9.756098, u² = (0.05/√3 · F)² + (9.756098 ·
// 0.57735 %)², u = 0.0629754. Day 103: 11.707317, u² = (2.4·F)² + 0.0675923²,
// u = 2.3424390, with little over 7 degrees of freedom, cut to 7: k = 2.364624.
func TestCorrectedDays(t *testing.T) {
	in := input(month{w: 1025 * kWh, r: 1000 * kWh, class: 1})
	in.History = History(week(), []fill.Result{twoFilled(2.6)})
	days := found(t, in).Days
	if len(days) != 6 {
		t.Fatalf("%d days", len(days))
	}
	check := func(i int, corrected energy.Energy, expanded float64, filled bool) {
		t.Helper()
		d := days[i]
		if d.Corrected != corrected || d.Filled != filled || d.Was != in.History[i].Energy || d.State != in.History[i].State || d.IsUnlimited {
			t.Errorf("%+v, want %d", d, corrected)
		}
		near(t, "expanded", d.Expanded.KilowattHours(), expanded, 1e-6)
	}
	check(0, 9_756_097_561, 1.959964*0.0629754, false)
	check(3, 11_707_317_073, 2.364624*2.3424390, true)
	check(5, 2_926_829_268, 1.959964*2.926829*0.0057735, false)
}

func TestDayWithoutLimit(t *testing.T) {
	in := input(month{w: 1025 * kWh, r: 1000 * kWh, class: 1})
	in.History = []Reading{{Day: 1, Energy: kWh, Standard: math.Inf(1)}, {Day: 2, Energy: kWh}}
	if days := found(t, in).Days; !days[0].IsUnlimited || days[1].IsUnlimited {
		t.Errorf("%+v", days)
	}
}

// What the checks did not see of the monitor is in each day.
func TestDaysByChecks(t *testing.T) {
	whole, volts := twoLegs(true), twoLegs(false)
	whole.History = []Reading{{Day: 1, Energy: 100 * kWh}}
	volts.History = whole.History
	near(t, "all seen", checked(t, whole).Days[0].Expanded.KilowattHours(), 1.959964*0.5, 1e-6)
	near(t, "volts alone", checked(t, volts).Days[0].Expanded.KilowattHours(), 1.959964*math.Hypot(0.5, 2*1.00208/math.Sqrt(3)), 1e-5)
}

// Cutting degrees of freedom never makes an interval smaller, and never by more
// than 1.5 % larger from 10 on.
func TestCoverageIsNeverTooSmall(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		dof := rapid.OneOf(rapid.Float64Range(0.5, 40), rapid.Float64Range(1, 2000), rapid.Just(math.Inf(1))).Draw(t, "dof")
		cut, exact := coverages{0.95, map[float64]float64{}}.coverage(dof), uncertainty.Coverage(0.95, dof)
		if cut < exact*(1-1e-9) || dof >= 10 && cut > exact*1.015 {
			t.Fatalf("%g degrees of freedom: %g, want %g", dof, cut, exact)
		}
	})
}

// The short way to combine is that of the budget.
func TestCombinedAsInABudget(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var parts []variance
		var budget uncertainty.Budget
		for range 3 {
			v := variance{rapid.Float64Range(0, 10).Draw(t, "standard"), rapid.SampledFrom([]float64{0, 1, 3.5, 20}).Draw(t, "dof")}
			parts = append(parts, v)
			budget = append(budget, uncertainty.Evaluate(uncertainty.Part{HalfWidth: v.standard, Distribution: uncertainty.Normal, DoF: v.dof}))
		}
		u, dof := combined(parts...)
		want, wantDoF := budget.Combined()
		if math.Abs(u-want) > 1e-12*want || dof != wantDoF && math.Abs(dof-wantDoF) > 1e-12*wantDoF {
			t.Fatalf("%v: %g with %g, want %g with %g", parts, u, dof, want, wantDoF)
		}
	})
}
