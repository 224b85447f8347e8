package compare

import (
	"math"
	"testing"

	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/uncertainty"
)

// billed gives a 30-day period whose parts are the promises and one of its own.
func billed(first calendar.Day, indicated, reference float64, guessed ...string) Period {
	w, _ := energy.FromKilowattHours(indicated)
	r, _ := energy.FromKilowattHours(reference)
	a, b := Amount{Energy: w}, Amount{Energy: r, EstimatedReads: guessed}
	a.AddOfReading(uncertainty.Part{Source: "monitor", HalfWidth: 2, Distribution: uncertainty.Rectangular, Promise: true})
	b.AddOfReading(uncertainty.Part{Source: "meter", HalfWidth: 1, Distribution: uncertainty.Rectangular, Promise: true})
	b.Add(uncertainty.Part{HalfWidth: 1, Unit: "kWh", Distribution: uncertainty.Triangular})
	return Period{calendar.Span{First: first, End: first + 30}, Judge(a, b, 0.95)}
}

func TestPoolTakesPeriodsThatShareAnEstimateAsOne(t *testing.T) {
	// The estimate took 30 kWh from the second period and gave them to the third.
	p, err := Pool([]Period{
		billed(0, 500, 500),
		billed(30, 500, 470, "read B"),
		billed(60, 500, 530, "read B"),
	})
	if err != nil {
		t.Fatal(err)
	}
	if len(p.Weights) != 2 || !p.Consistency.Done || !p.Consistency.Passes || p.Drift.Drifts {
		t.Errorf("weights %v, consistency %+v, drift %+v", p.Weights, p.Consistency, p.Drift)
	}
	if p.Periods != 3 || p.Total.Verdict != Agree {
		t.Errorf("%d periods, %s", p.Periods, p.Total.Verdict)
	}
}

func TestPoolLeavesOutAPeriodThatEndsInAnEstimate(t *testing.T) {
	p, err := Pool([]Period{billed(0, 500, 500), billed(30, 500, 500), billed(60, 500, 400, "read C")})
	if err != nil {
		t.Fatal(err)
	}
	if len(p.Weights) != 2 || math.Abs(p.Mean.Value) > 1e-9 {
		t.Errorf("weights %v, mean %v: the guessed period counts", p.Weights, p.Mean.Value)
	}
	if p.Total.Verdict != CannotTell || p.Total.Why != EstimatedRead {
		t.Errorf("total %s, %s", p.Total.Verdict, p.Total.Why)
	}
	if only, err := Pool([]Period{billed(0, 500, 400, "x")}); err != nil || only.Mean.Known {
		t.Errorf("a guess alone has a mean: %+v, %v", only.Mean, err)
	}
}
