package compare

import (
	"math"
	"math/rand/v2"
	"testing"

	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/uncertainty"
)

// A trial is six months of an invented home, with errors drawn for every cause
// and the budgets that somebody without sight of them would have made.

const (
	monthsPerTrial  = 6
	monitorAccuracy = 1.0 // percent, rectangular
	meterClass      = 0.5
	readHalfWidth   = 0.5 // kWh: whole kilowatt-hours on the register
	fillSigma       = 3.0 // kWh, estimated from fillDoF data
	fillDoF         = 6
	dayHalfWidth    = 0.05
)

func uniform(random *rand.Rand, halfWidth float64) float64 {
	return halfWidth * (2*random.Float64() - 1)
}

// trial draws one home. drift is a real change of the monitor in percentage
// points per month.
func trial(random *rand.Rand, drift float64) []Period {
	monitor, meter := uniform(random, monitorAccuracy), uniform(random, meterClass)
	start := uniform(random, readHalfWidth)
	var periods []Period
	for i := range monthsPerTrial {
		truth := 500 + 500*random.Float64()
		end := uniform(random, readHalfWidth)
		w := truth*(1+(monitor+drift*float64(i))/100) + fillSigma*random.NormFloat64()
		for range 30 {
			w += uniform(random, dayHalfWidth)
		}
		r := truth*(1+meter/100) + end - start
		periods = append(periods, withoutSight(random, i, w, r))
		start = end
	}
	return periods
}

func withoutSight(random *rand.Rand, i int, indicated, reference float64) Period {
	var w, r Amount
	w.Energy, _ = energy.FromKilowattHours(indicated)
	r.Energy, _ = energy.FromKilowattHours(reference)
	var squares float64
	for range fillDoF {
		z := random.NormFloat64()
		squares += z * z
	}
	w.AddOfReading(uncertainty.Part{Source: "monitor", HalfWidth: monitorAccuracy, Distribution: uncertainty.Rectangular, Promise: true})
	r.AddOfReading(uncertainty.Part{Source: "meter", HalfWidth: meterClass, Distribution: uncertainty.Rectangular, Promise: true})
	w.Add(uncertainty.Part{HalfWidth: fillSigma * math.Sqrt(squares/fillDoF), Distribution: uncertainty.Student, DoF: fillDoF})
	w.Add(uncertainty.Part{HalfWidth: dayHalfWidth, Repeats: 30, Distribution: uncertainty.Rectangular})
	r.Add(uncertainty.Part{Source: read(i), HalfWidth: readHalfWidth, Sensitivity: -1, Distribution: uncertainty.Rectangular})
	r.Add(uncertainty.Part{Source: read(i + 1), HalfWidth: readHalfWidth, Distribution: uncertainty.Rectangular})
	span := calendar.Span{First: calendar.Day(30 * i), End: calendar.Day(30*i + 30)}
	return Period{span, Judge(w, r, 0.95)}
}

// Of homes where nothing is wrong beyond the stated causes, about one in twenty
// may be accused, by the interval of a month, of the total and of the mean, by
// the test of consistency and by the test for drift. 4,000 trials put ±0.7 %
// (two standard deviations) around a true 5 %. The intervals hold more than
// 95 %, since two rectangular promises rule them; they may hold less by what
// Welch–Satterthwaite lacks.
func TestSoundHomesAreSeldomAccused(t *testing.T) {
	const trials = 4000
	random := rand.New(rand.NewPCG(17, 19))
	var month, total, mean, consistency, drift, line float64
	for range trials {
		periods := trial(random, 0)
		for _, p := range periods {
			if math.Abs(p.En) > 1 {
				month += 1. / monthsPerTrial
			}
		}
		p := pool(t, periods)
		count(&total, math.Abs(p.Total.En) > 1)
		count(&mean, math.Abs(p.Mean.Value) > p.Mean.Expanded)
		count(&consistency, !p.Consistency.Passes)
		count(&drift, p.Drift.Drifts)
		count(&line, !p.Drift.Line.Passes)
	}
	for _, c := range []struct {
		name          string
		accused       float64
		least, atMost float64
	}{
		{"a month", month, 0, 0.05},
		{"the total", total, 0, 0.05},
		{"the mean", mean, 0, 0.05},
		{"consistency", consistency, 0.03, 0.07},
		{"drift", drift, 0.03, 0.07},
		{"about the line", line, 0.03, 0.07},
	} {
		share := c.accused / trials
		t.Logf("%-15s accused in %.2f %%", c.name, 100*share)
		if share < c.least || share > c.atMost {
			t.Errorf("%s: accused in %.2f %%, want %.0f to %.0f %%", c.name, 100*share, 100*c.least, 100*c.atMost)
		}
	}
}

// A monitor that really drifts is found, and the stated interval of the slope
// holds the real one.
func TestDriftingHomesAreFound(t *testing.T) {
	const trials = 2000
	const real = 0.5 // percentage points per month of 30 days
	random := rand.New(rand.NewPCG(23, 29))
	var found, held float64
	for range trials {
		p := pool(t, trial(random, real))
		count(&found, p.Drift.Drifts)
		count(&held, math.Abs(p.Drift.Slope.Value-real) <= p.Drift.Slope.Expanded)
	}
	t.Logf("found in %.1f %%, interval holds %.1f %%", 100*found/trials, 100*held/trials)
	if found/trials < 0.95 {
		t.Errorf("found in %.1f %%", 100*found/trials)
	}
	if held/trials < 0.93 || held/trials > 0.97 {
		t.Errorf("the interval of the slope holds %.1f %%", 100*held/trials)
	}
}

func count(n *float64, happened bool) {
	if happened {
		*n++
	}
}
