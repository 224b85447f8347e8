package compare

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/uncertainty"
)

// amounts draws a month of 1 to 100,000 kWh with an error of some percent and a
// few causes of doubt. Energies are bounded so that a dozen of them, scaled,
// still fit.
func amounts(t *rapid.T) (w, r Amount) {
	r.Energy = energy.Energy(rapid.Int64Range(1e9, 1e14).Draw(t, "reference"))
	w.Energy = energy.Energy(float64(r.Energy) * rapid.Float64Range(0.5, 1.5).Draw(t, "ratio"))
	w.AddOfReading(uncertainty.Part{Source: "monitor", HalfWidth: rapid.Float64Range(0, 3).Draw(t, "monitor"), Distribution: uncertainty.Rectangular, Promise: true})
	r.AddOfReading(uncertainty.Part{Source: "meter", HalfWidth: rapid.Float64Range(0, 3).Draw(t, "meter"), Distribution: uncertainty.Rectangular, Promise: true})
	part := uncertainty.Part{
		HalfWidth:    r.Energy.KilowattHours() / 100 * rapid.Float64Range(0.01, 3).Draw(t, "fill"),
		Distribution: uncertainty.Student, DoF: rapid.Float64Range(2, 50).Draw(t, "dof"), Reducible: true, Name: "fill",
	}
	w.Add(part)
	return w, r
}

func TestScalingBothSidesLeavesThePercentage(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, r := amounts(t)
		by := rapid.Int64Range(1, 90).Draw(t, "factor")
		before := Judge(w, r, 0.95)
		w.Budget = uncertainty.Weighted([]float64{float64(by)}, []uncertainty.Budget{w.Budget})
		r.Budget = uncertainty.Weighted([]float64{float64(by)}, []uncertainty.Budget{r.Budget})
		w.Energy *= energy.Energy(by)
		r.Energy *= energy.Energy(by)
		after := Judge(w, r, 0.95)
		if !after.Percent.Equal(before.Percent) || !after.Registration.Equal(before.Registration) {
			t.Fatalf("%s became %s", before.Percent, after.Percent)
		}
		if math.Abs(after.Expanded-before.Expanded) > 1e-9*before.Expanded {
			t.Fatalf("U %g became %g", before.Expanded, after.Expanded)
		}
	})
}

func TestPercentagesHangTogether(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, r := amounts(t)
		c := Judge(w, r, 0.95)
		// Each is rounded once, in the twelfth place, and 100 is exact.
		if !c.Registration.Sub(hundred).Equal(c.Percent) {
			t.Fatalf("registration %s, error %s", c.Registration, c.Percent)
		}
		if (c.Verdict == DifferHigh || c.Verdict == DifferLow) != (math.Abs(c.En) > 1) {
			t.Fatalf("E_n %g: %s", c.En, c.Verdict)
		}
		if c.Promise > c.Expanded*(1+1e-12) || c.Narrow.Expanded > c.Expanded {
			t.Fatalf("promise %g, without %g, of U %g", c.Promise, c.Narrow.Expanded, c.Expanded)
		}
		// The other way round the sign turns.
		back, err := PercentError(r.Energy, w.Energy, Places)
		if err != nil || back.Sign() != -c.Percent.Sign() {
			t.Fatalf("%s one way, %s the other, %v", c.Percent, back, err)
		}
	})
}

func TestPoolOfIdenticalPeriodsIsThePeriod(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, r := amounts(t)
		// All causes common: the same month, counted again and again.
		w.Budget[1].Source = "fill"
		one := Judge(w, r, 0.95)
		var periods []Period
		for i := range rapid.IntRange(1, 12).Draw(t, "periods") {
			periods = append(periods, Period{calendar.Span{First: calendar.Day(30 * i), End: calendar.Day(30*i + 30)}, one})
		}
		p, err := Pool(periods)
		if err != nil || !p.Total.Percent.Equal(one.Percent) {
			t.Fatalf("%s became %s, %v", one.Percent, p.Total.Percent, err)
		}
		if math.Abs(p.Total.Expanded-one.Expanded) > 1e-9*one.Expanded || p.Total.Verdict != one.Verdict {
			t.Fatalf("U %g became %g, %s became %s", one.Expanded, p.Total.Expanded, one.Verdict, p.Total.Verdict)
		}
	})
}

func TestPoolIsTheEnergyWeightedMean(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var periods []Period
		var sum, weight float64
		for i := range rapid.IntRange(2, 8).Draw(t, "periods") {
			w, r := amounts(t)
			c := Judge(w, r, 0.95)
			periods = append(periods, Period{calendar.Span{First: calendar.Day(30 * i), End: calendar.Day(30*i + 30)}, c})
			sum += r.Energy.KilowattHours() * c.Percent.InexactFloat64()
			weight += r.Energy.KilowattHours()
		}
		p, err := Pool(periods)
		if err != nil || math.Abs(p.Total.Percent.InexactFloat64()-sum/weight) > 1e-9 {
			t.Fatalf("%s, want %g, %v", p.Total.Percent, sum/weight, err)
		}
		var weights float64
		for _, w := range p.Weights {
			weights += w
		}
		if math.Abs(weights-1) > 1e-9 {
			t.Fatalf("weights add to %g", weights)
		}
		if c := p.Consistency; !(c.P >= 0 && c.P <= 1) || !(p.Drift.P >= 0 && p.Drift.P <= 1) {
			t.Fatalf("p of %g and %g", c.P, p.Drift.P)
		}
	})
}

func TestShiftsUndoOneAnother(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, r := amounts(t)
		d := energy.Energy(rapid.Int64Range(0, 1e8).Draw(t, "day"))
		c := Judge(w, r, 0.95)
		// With all days alike, moving both ends changes nothing.
		shifts, _ := c.Shifts(Ends{day(d), day(d), day(d), day(d)})
		for _, s := range shifts {
			if s.Start == s.End && !s.Percent.Equal(c.Percent) {
				t.Fatalf("both ends by %+d: %s, want %s", s.End, s.Percent, c.Percent)
			}
		}
	})
}
