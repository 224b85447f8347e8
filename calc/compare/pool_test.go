package compare

import (
	"math"
	"math/rand/v2"
	"testing"

	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/uncertainty"
)

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) && got != want {
		t.Errorf("%s = %.15g, want %.15g ± %g", what, got, want, tolerance)
	}
}

// read gives the name of the read at the start of month i.
func read(i int) string { return "read-" + string(rune('a'+i)) }

// months gives successive periods of 30 days with the errors in percent; the
// read between two is off in both, with opposite signs.
func months(errors ...float64) []Period {
	var periods []Period
	for i, e := range errors {
		w, r := Amount{}, Amount{Energy: 1000 * kWh}
		w.Energy, _ = energy.FromKilowattHours(1000 + 10*e)
		w.AddOfReading(uncertainty.Part{Source: "monitor", Name: "Monitor's accuracy", HalfWidth: 1, Distribution: uncertainty.Rectangular, Promise: true})
		r.AddOfReading(uncertainty.Part{Source: "meter", Name: "Meter's class", HalfWidth: 0.5, Distribution: uncertainty.Rectangular, Promise: true})
		w.Add(uncertainty.Part{Name: "Filled days", HalfWidth: 1, Unit: "kWh", Distribution: uncertainty.Normal})
		r.Add(uncertainty.Part{Source: read(i), Name: "Read", HalfWidth: 3, Unit: "kWh", Sensitivity: -1, Distribution: uncertainty.Normal})
		r.Add(uncertainty.Part{Source: read(i + 1), Name: "Read", HalfWidth: 3, Unit: "kWh", Distribution: uncertainty.Normal})
		first := calendar.Day(20000 + 30*i)
		periods = append(periods, Period{calendar.Span{First: first, End: first + 30}, Judge(w, r, 0.95)})
	}
	return periods
}

func pool(t *testing.T, periods []Period) Pooled {
	t.Helper()
	p, err := Pool(periods)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func TestTotalOfTwoMonths(t *testing.T) {
	p := pool(t, months(2, 1))
	if got := p.Total.Percent.String(); got != "1.5" {
		t.Errorf("total error %s", got)
	}
	// By hand: in kWh, monitor 2030·1 %/√3, meter 2000·0.5 %/√3, fills 1 and 1,
	// reads 3 and 3: the one between has gone. The W side is over 2000 kWh, the R
	// side over 2000 kWh and times 2030/2000.
	wSide := (20.3*20.3/3 + 2) / 400
	rSide := (10*10./3 + 18) / 400 * 1.015 * 1.015
	near(t, "u of the total", p.Total.Standard, math.Sqrt(wSide+rSide), 1e-12)
	near(t, "promise", p.Total.Promise, 1.959963984540054*math.Sqrt(20.3*20.3/3/400+10*10./3/400*1.015*1.015), 1e-9)

	// The difference: promises nearly cancel, the read between counts double.
	near(t, "difference", p.Drift.Difference.Value, -1, 1e-9)
	near(t, "u of the difference", p.Drift.Difference.Standard, math.Sqrt(0.01*2+0.09*(1.02*1.02+1.01*1.01+2.03*2.03)+0.0001/3+0.000025/3), 1e-12)
	if p.Drift.Slope.Known || p.Drift.Line.Done || !p.Drift.Tested || p.Drift.Drifts {
		t.Errorf("drift of two months: %+v", p.Drift)
	}
	near(t, "p of both tests", p.Consistency.P, p.Drift.P, 1e-12)
	if !p.Consistency.Done || !p.Consistency.Passes || p.Consistency.DoF != 1 {
		t.Errorf("consistency %+v", p.Consistency)
	}
}

func TestDriftIsSeen(t *testing.T) {
	p := pool(t, months(0, 1, 2, 3, 4, 5))
	near(t, "slope", p.Drift.Slope.Value, 1, 1e-9)
	if !p.Drift.Drifts || p.Consistency.Passes || !p.Drift.Line.Passes || p.Drift.Line.DoF != 4 {
		t.Errorf("a steady drift: %+v, consistency %+v", p.Drift, p.Consistency)
	}
	near(t, "chi-squared about the line", p.Drift.Line.ChiSquared, 0, 1e-9)
	p = pool(t, months(1, 1, 4, 1, 1))
	if p.Drift.Drifts || p.Consistency.Passes || p.Drift.Line.Passes {
		t.Errorf("one odd month: %+v, consistency %+v", p.Drift, p.Consistency)
	}
}

func TestOrderOfPeriodsDoesNotMatter(t *testing.T) {
	periods := months(0.5, 1.5, 1, 0)
	want := pool(t, periods)
	random := rand.New(rand.NewPCG(1, 1))
	for range 20 {
		random.Shuffle(len(periods), func(i, j int) { periods[i], periods[j] = periods[j], periods[i] })
		got := pool(t, periods)
		if got.Drift != want.Drift || got.Mean != want.Mean || got.Total.Expanded != want.Total.Expanded {
			t.Fatalf("order matters: %+v and %+v", got, want)
		}
	}
}

func TestPoolAtTheEdges(t *testing.T) {
	none := Judge(Amount{Missing: true}, Amount{Energy: kWh}, 0.95)
	if _, err := Pool([]Period{{Comparison: none}}); err != ErrNoReference {
		t.Errorf("nothing to pool: %v", err)
	}
	if _, err := Pool(nil); err != ErrNoReference {
		t.Errorf("no period: %v", err)
	}
	one := pool(t, append(months(1), Period{Comparison: none}))
	if one.Periods != 1 || one.Consistency.Done || one.Drift.Tested || one.Drift.Difference.Known || one.Mean.Value != 1 {
		t.Errorf("one month: %+v", one)
	}
	huge := Judge(Amount{Energy: math.MaxInt64}, Amount{Energy: math.MaxInt64}, 0.95)
	if _, err := Pool([]Period{{Comparison: huge}, {Comparison: huge}}); err != energy.ErrRange {
		t.Errorf("more than an energy holds: %v", err)
	}
	// Two months at the same time have no slope; they can still be consistent.
	same := months(1, 2, 3)
	for i := range same {
		same[i].Span = same[0].Span
	}
	p := pool(t, same)
	if p.Drift.Tested || p.Drift.Slope.Known || !p.Consistency.Done {
		t.Errorf("all at one time: %+v", p)
	}
}

func TestNothingOfTheirOwn(t *testing.T) {
	// Only promises, which are common: any difference would be a contradiction.
	w, r := Amount{Energy: 10 * kWh}, Amount{Energy: 10 * kWh}
	r.AddOfReading(uncertainty.Part{Source: "meter", HalfWidth: 1, Distribution: uncertainty.Rectangular, Promise: true})
	c := Judge(w, r, 0.95)
	p := pool(t, []Period{{Comparison: c}, {Span: calendar.Span{First: 30, End: 60}, Comparison: c}})
	if p.Consistency.Done || p.Drift.Tested || p.Mean.Known || p.Total.Verdict != Agree {
		t.Errorf("%+v", p)
	}
}

func TestEstimatedReadBetweenDropsOut(t *testing.T) {
	periods := months(1, 1, 1)
	mark := func(i int, reads ...string) {
		r := periods[i].Reference
		r.EstimatedReads = reads
		periods[i].Comparison = Judge(periods[i].Indicated, r, 0.95)
	}
	mark(0, read(1))
	mark(1, read(1))
	if periods[0].Verdict != CannotTell || periods[1].Why != EstimatedRead {
		t.Errorf("months on an estimated read: %s, %s", periods[0].Verdict, periods[1].Verdict)
	}
	if got := pool(t, periods).Total; got.Verdict != Agree {
		t.Errorf("together from actual read to actual read: %s (%s)", got.Verdict, got.Why)
	}
	mark(2, read(3))
	if got := pool(t, periods).Total; got.Why != EstimatedRead {
		t.Errorf("the last read is estimated: %s (%s)", got.Verdict, got.Why)
	}
}

// A cause in percent of each reading must not draw the mean out of the values.
func TestCommonPercentageDoesNotTiltTheMean(t *testing.T) {
	var periods []Period
	for i, w := range []energy.Energy{1000 * kWh, 1020 * kWh} {
		a := Amount{Energy: w}
		a.AddOfReading(uncertainty.Part{Source: "monitor", HalfWidth: 5, Distribution: uncertainty.Normal})
		a.Add(uncertainty.Part{HalfWidth: 0.3, Distribution: uncertainty.Normal})
		first := calendar.Day(30 * i)
		periods = append(periods, Period{calendar.Span{First: first, End: first + 30}, Judge(a, Amount{Energy: 1000 * kWh}, 0.95)})
	}
	// A least-squares mean of the full covariance would be at −85 %.
	p := pool(t, periods)
	near(t, "mean of 0 % and 2 %", p.Mean.Value, 1, 1e-9)
	near(t, "its u", p.Mean.Standard, math.Hypot(5.05, 0.03/math.Sqrt2), 1e-9)
}
