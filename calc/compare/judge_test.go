package compare

import (
	"math"
	"testing"

	"github.com/shopspring/decimal"

	"splittally/calc/energy"
	"splittally/calc/uncertainty"
)

const kWh = energy.KilowattHour

// month is a period of an invented home: both accuracies promised, rounded
// totals, and a read whose hour nobody wrote down.
func month(indicated, reference energy.Energy, hourHalfWidth float64) (w, r Amount) {
	w, r = Amount{Energy: indicated}, Amount{Energy: reference}
	w.AddOfReading(uncertainty.Part{Source: "monitor", Name: "Monitor's accuracy", HalfWidth: 1, Distribution: uncertainty.Rectangular, Promise: true})
	r.AddOfReading(uncertainty.Part{Source: "meter", Name: "Meter's class", HalfWidth: 0.5, Distribution: uncertainty.Rectangular, Promise: true})
	w.Add(uncertainty.Part{Name: "Rounding of the daily totals", Unit: "kWh", HalfWidth: 0.05, Repeats: 30, Distribution: uncertainty.Rectangular})
	w.Add(uncertainty.Part{
		Source: "start", Name: "Hour of the first read", Unit: "h", HalfWidth: hourHalfWidth, Sensitivity: 1.2,
		Distribution: uncertainty.Rectangular, Reducible: true, Remedy: "say at what hour the meter was read",
	})
	w.Add(uncertainty.Part{
		Source: "end", Name: "Hour of the last read", Unit: "h", HalfWidth: hourHalfWidth / 2, Sensitivity: 1.2,
		Distribution: uncertainty.Rectangular, Reducible: true, Remedy: "say at what hour the meter was read",
	})
	return w, r
}

func TestVerdicts(t *testing.T) {
	for _, c := range []struct {
		name                 string
		indicated, reference energy.Energy
		hours                float64
		change               func(w, r *Amount)
		want                 Verdict
		why                  Reason
	}{
		{"alike and well known", 1005 * kWh, 1000 * kWh, 0, nil, Agree, WithinPromise},
		{"far too high", 1050 * kWh, 1000 * kWh, 6, nil, DifferHigh, BeyondDoubt},
		{"far too low", 950 * kWh, 1000 * kWh, 6, nil, DifferLow, BeyondDoubt},
		{"beyond the promise, hour unknown", 1020 * kWh, 1000 * kWh, 24, nil, CannotTell, BeyondPromise},
		{"the same with the hour known", 1020 * kWh, 1000 * kWh, 0, nil, DifferHigh, BeyondDoubt},
		{"small error seen through fog", 1005 * kWh, 1000 * kWh, 60, nil, CannotTell, WideInterval},
		{"U just under twice the promise", 1005 * kWh, 1000 * kWh, 14, nil, Agree, WithinPromise},
		{"U just over twice the promise", 1005 * kWh, 1000 * kWh, 15, nil, CannotTell, WideInterval},
		{"estimated read", 1050 * kWh, 1000 * kWh, 0, func(_, r *Amount) { r.EstimatedReads = []string{"start"} }, CannotTell, EstimatedRead},
		{"nothing promised", 1000 * kWh, 1000 * kWh, 6, func(w, r *Amount) { w.Budget, r.Budget = w.Budget[1:], nil }, CannotTell, NoPromise},
		{"a fill without trials", 1000 * kWh, 1000 * kWh, 6, func(w, _ *Amount) {
			w.Add(uncertainty.Part{Name: "Filled days", HalfWidth: 1, Distribution: uncertainty.Student})
		}, CannotTell, UnlimitedDoubt},
		{"no bill", 1000 * kWh, 0, 6, func(_, r *Amount) { r.Missing = true }, Nothing, NoBill},
		{"bill of nothing", 1000 * kWh, 0, 6, nil, Nothing, ReferenceZero},
		{"no readings", 0, 1000 * kWh, 6, func(w, _ *Amount) { w.Missing = true }, Nothing, NoReadings},
		{"monitor off all month", 0, 1000 * kWh, 6, nil, DifferLow, BeyondDoubt},
		{"solar sent more than was used", -10 * kWh, 1000 * kWh, 6, nil, DifferLow, BeyondDoubt},
	} {
		t.Run(c.name, func(t *testing.T) {
			w, r := month(c.indicated, c.reference, c.hours)
			if c.change != nil {
				c.change(&w, &r)
			}
			got := Judge(w, r, 0.95)
			if got.Verdict != c.want || got.Why != c.why {
				t.Errorf("%s %% ± %.3g, promise %.3g: %s (%s), want %s (%s)", got.Percent.StringFixed(3), got.Expanded, got.Promise, got.Verdict, got.Why, c.want, c.why)
			}
			if got.Why.Sentence() == "" {
				t.Errorf("%s has no words", got.Why)
			}
		})
	}
}

func TestNarrowNamesTheReadThatMattersMost(t *testing.T) {
	w, r := month(1020*kWh, 1000*kWh, 24)
	got := Judge(w, r, 0.95)
	if got.Narrow.Part.Source != "start" || got.Narrow.Part.Remedy == "" {
		t.Fatalf("narrowed most by %+v", got.Narrow.Part)
	}
	// Without the read at the start the end's 12 h × 1.2 kWh/h is left:
	// 14.4/√3 = 8.31 kWh of 1000 beside 1.02 %/√3 and 0.51 %/√3 and rounding.
	u := math.Sqrt(0.831384*0.831384 + (1.02*1.02+0.51*0.51)/3 + 30*0.005*0.005/3)
	if want := 1.959964 * u; math.Abs(got.Narrow.Expanded-want) > 1e-5 {
		t.Errorf("U without it = %.6f, want %.6f", got.Narrow.Expanded, want)
	}
	if got.Narrow.Then != CannotTell {
		t.Errorf("then %s, want it still untold", got.Narrow.Then)
	}
	w, r = month(1020*kWh, 1000*kWh, 0)
	if n := Judge(w, r, 0.95).Narrow; n != (Narrow{}) {
		t.Errorf("nothing can be done, but %+v", n)
	}
}

func TestNoDoubtAtAll(t *testing.T) {
	got := Judge(Amount{Energy: 1001 * kWh}, Amount{Energy: 1000 * kWh}, 0.95)
	if got.Verdict != DifferHigh || !math.IsInf(got.En, 1) || got.Expanded != 0 {
		t.Errorf("%s, E_n %g, U %g", got.Verdict, got.En, got.Expanded)
	}
	if same := Judge(Amount{Energy: kWh}, Amount{Energy: kWh}, 0.95); same.En != 0 || same.Verdict != CannotTell {
		t.Errorf("equal without doubt: E_n %g, %s", same.En, same.Verdict)
	}
}

func TestSharedCauseOfBothSidesCancels(t *testing.T) {
	// A correction found from the reference and then compared with it: one
	// cause, the same percentage of both sides.
	w, r := Amount{Energy: 1000 * kWh}, Amount{Energy: 1000 * kWh}
	p := uncertainty.Part{Source: "meter", HalfWidth: 0.5, Distribution: uncertainty.Rectangular, Promise: true}
	w.AddOfReading(p)
	r.AddOfReading(p)
	if got := Judge(w, r, 0.95); got.Standard != 0 || len(got.Budget) != 1 {
		t.Errorf("u = %g from %d parts, want exactly 0 from one", got.Standard, len(got.Budget))
	}
}

func TestPercentages(t *testing.T) {
	for _, c := range []struct {
		name   string
		of     func(w, r energy.Energy, places int32) (decimal.Decimal, error)
		w, r   energy.Energy
		places int32
		want   string
		err    error
	}{
		{"error", PercentError, 2 * kWh, 3 * kWh, 6, "-33.333333", nil},
		{"error of extremes", PercentError, math.MaxInt64, 1, 0, "922337203685477580600", nil},
		{"error of opposite extremes", PercentError, -math.MaxInt64, math.MaxInt64, 4, "-200", nil},
		{"error without reference", PercentError, kWh, 0, 6, "0", ErrNoReference},
		{"error of a negative reference", PercentError, kWh, -1, 6, "0", ErrNoReference},
		{"registration", Registration, 2 * kWh, 3 * kWh, 6, "66.666667", nil},
		{"registration without reference", Registration, kWh, 0, 6, "0", ErrNoReference},
		{"wrong base", WrongBase, 2 * kWh, 3 * kWh, 6, "-50", nil},
		{"wrong base of nothing", WrongBase, 0, 3 * kWh, 6, "0", ErrNoIndicated},
	} {
		got, err := c.of(c.w, c.r, c.places)
		if err != c.err || !got.Equal(decimal.RequireFromString(c.want)) {
			t.Errorf("%s: %s, %v; want %s, %v", c.name, got, err, c.want, c.err)
		}
	}
}
