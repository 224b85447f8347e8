package cause

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/mat"

	"splittally/calc/calendar"
	"splittally/calc/compare"
	"splittally/calc/energy"
	"splittally/calc/uncertainty"
)

func kWh(x float64) energy.Energy {
	e, err := energy.FromKilowattHours(x)
	if err != nil {
		panic(err)
	}
	return e
}

// bills makes periods of 30 days of the given daily use by the meter; monitor
// says what the monitor makes of a period's energy. The monitor promises 1 %,
// the meter 0.5 %, and reads are at midnight.
func bills(monitor func(p int, kWh float64) float64, perDay ...float64) Seen {
	s := Seen{Confidence: 0.95, Accuracy: "monitor"}
	random := rand.New(rand.NewPCG(1, 2))
	for p, use := range perDay {
		truth := 30 * use
		w := compare.Amount{Energy: kWh(monitor(p, truth))}
		w.AddOfReading(uncertainty.Part{Source: "monitor", HalfWidth: 1, Distribution: uncertainty.Rectangular, Promise: true})
		w.Add(uncertainty.Part{HalfWidth: 0.05, Unit: "kWh", Repeats: 30, Distribution: uncertainty.Rectangular})
		r := compare.Amount{Energy: kWh(truth)}
		r.AddOfReading(uncertainty.Part{Source: "meter", HalfWidth: 0.5, Distribution: uncertainty.Rectangular, Promise: true})
		r.Add(uncertainty.Part{HalfWidth: 1, Unit: "kWh", Distribution: uncertainty.Triangular})
		first := calendar.Day(20000 + 30*p)
		period := Period{
			Index: p, Span: calendar.Span{First: first, End: first + 30}, Compared: compare.Judge(w, r, 0.95),
			StartRead: first.String(), EndRead: (first + 30).String(), HourKnown: true, LossFactor: 1,
		}
		for range 30 {
			e := monitor(p, truth) / 30 * (1 + 0.2*random.NormFloat64())
			period.Days = append(period.Days, Day{Energy: kWh(math.Round(10*e) / 10), Measured: true, Known: true})
		}
		period.Before = Day{Energy: kWh(use), Measured: true, Known: true}
		period.After = Day{Energy: kWh(use), Measured: true, Known: true}
		s.Periods = append(s.Periods, period)
	}
	return s
}

func sound(_ int, kWh float64) float64 { return kWh }

// TestEvidenceIsTheNormalDensity sets the evidence of a form beside the density
// of a normal distribution by gonum's matrices.
func TestEvidenceIsTheNormalDensity(t *testing.T) {
	s := bills(func(p int, kWh float64) float64 { return kWh*1.04 + float64(3*p) }, 12, 20, 31)
	s.Checks.Volts = Factor{Given: true, Value: 0.97, Standard: 0.004}
	f := newFrame(s)
	fo := form{weight: 1, scale: []float64{1, 2, 0.5}, add: []float64{3, 0, -2}, less: []float64{0, 5, 0}, effects: []effect{
		f.gained(3, inAll), {by: []float64{24, 24, 24}, mean: 0.5, sd: 0.3},
	}}
	o := fo.hold(f)
	v := mat.NewSymDense(4, nil)
	add := func(c []float64, weight float64) {
		for i := range c {
			for j := i; j < len(c); j++ {
				v.SetSym(i, j, v.At(i, j)+weight*c[i]*c[j])
			}
		}
	}
	for _, c := range fo.doubt(f) {
		add(c, 1)
	}
	for p := range f.n() {
		v.SetSym(p, p, v.At(p, p)+math.Pow(f.repeats/100*f.r[p], 2))
	}
	for _, e := range fo.effects {
		add(e.column(f), e.sd*e.sd)
	}
	y := mat.NewVecDense(4, []float64{f.w[0] + 3 - f.r[0] - 12, 2*f.w[1] - f.r[1] + 5 - 12, f.w[2]/2 - 2 - f.r[2] - 12, 100 * (1/0.97 - 1)})
	var l mat.Cholesky
	if !l.Factorize(v) {
		t.Fatal("no normal distribution")
	}
	var x mat.VecDense
	if err := l.SolveVecTo(&x, y); err != nil {
		t.Fatal(err)
	}
	// The scales of 2 and ½ stretch by nothing together.
	want := -(mat.Dot(y, &x) + l.LogDet() + 4*math.Log(2*math.Pi)) / 2
	if math.Abs(o.evidence-want) > 1e-9 {
		t.Errorf("evidence %v, want %v", o.evidence, want)
	}
}

// TestSizeByIntegration finds the size of a gain and the evidence for it by
// plain summation over the size.
func TestSizeByIntegration(t *testing.T) {
	f := newFrame(bills(func(_ int, kWh float64) float64 { return 1.04 * kWh }, 12, 20))
	held := form{weight: 1, effects: []effect{f.gained(3, nowhere)}}.hold(f)
	free := held.outcome()
	var total, first, second float64
	const step = 0.001
	for x := -15.0; x <= 15; x += step {
		add := f.ofPeriods(func(p int) float64 { return -x * f.r[p] / 100 })
		at := form{weight: 1, add: add}.hold(f)
		density := math.Exp(at.evidence) * math.Exp(-x*x/18) / math.Sqrt(2*math.Pi*9) * step
		total += density
		first += x * density
		second += x * x * density
	}
	mean := first / total
	for _, c := range []struct {
		name      string
		got, want float64
	}{
		{"evidence", held.evidence, math.Log(total)},
		{"size", free.sizes[0], mean},
		{"doubt", free.doubts[0], math.Sqrt(second/total - mean*mean)},
	} {
		if math.Abs(c.got-c.want) > 1e-4*math.Abs(c.want) {
			t.Errorf("%s %v, want %v", c.name, c.got, c.want)
		}
	}
}

func TestWhatWasDoneIsFound(t *testing.T) {
	for _, c := range []struct {
		name string
		seen Seen
		want ID
		// alone says that nothing else is as good.
		alone bool
	}{
		{"sound", bills(sound, 12, 20, 31, 18), Chance, false},
		{"a gain", bills(func(_ int, kWh float64) float64 { return 1.06 * kWh }, 12, 20, 31, 18), Gain, true},
		{"a constant power", bills(func(_ int, kWh float64) float64 { return kWh - 30*24*0.08 }, 12, 20, 31, 18), Offset, true},
		{"watt-hours", bills(func(_ int, kWh float64) float64 { return 1000 * kWh }, 12, 20), Unit, true},
		{"mean kilowatts", bills(func(_ int, kWh float64) float64 { return kWh / 24 }, 12, 20), Unit, true},
		{"one leg of two", bills(func(p int, kWh float64) float64 { return []float64{0.44, 0.47, 0.43}[p] * kWh }, 12, 20, 31), Clamp, true},
		{"a guess caught up", bills(func(p int, kWh float64) float64 { return kWh + []float64{0, 0, 55, -55, 0}[p] }, 20, 21, 20, 22, 20), Estimated, true},
		{"losses", bills(func(_ int, kWh float64) float64 { return kWh / 1.04 }, 12, 20, 31, 18), Losses, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			w := Weigh(c.seen)
			if w.Causes[0].ID != c.want && !open(w, c.want) {
				t.Errorf("%s is first, %s is not open: %s", w.Causes[0].ID, c.want, w.Words)
			}
			if c.alone && (!w.Asserted || w.Causes[0].ID != c.want) {
				t.Errorf("open %d, asserted %v: %s", w.Open, w.Asserted, w.Words)
			}
		})
	}
}

func open(w Weighed, id ID) bool {
	for _, e := range w.Causes[:w.Open] {
		if e.ID == id {
			return true
		}
	}
	return false
}

// Two monitors that are off alike point to the bill, one that is off alone to
// itself.
func TestAnotherInstrumentTells(t *testing.T) {
	low := func(_ int, kWh float64) float64 { return kWh / 1.05 }
	for _, c := range []struct {
		name  string
		other func(int, float64) float64
		first ID
	}{
		{"both are off", low, Losses},
		{"the other agrees", sound, Gain},
	} {
		s := bills(low, 12, 20, 31)
		var o Instrument
		for p, period := range bills(c.other, 12, 20, 31).Periods {
			for k := range period.Compared.Indicated.Budget {
				if period.Compared.Indicated.Budget[k].Promise {
					period.Compared.Indicated.Budget[k].Source = "monitor 2"
				}
			}
			o.Periods = append(o.Periods, Beside{Period: p, Compared: period.Compared})
		}
		s.Others = []Instrument{o}
		if w := Weigh(s); w.Causes[0].ID != c.first {
			t.Errorf("%s: %s is first", c.name, w.Causes[0].ID)
		}
	}
}

func TestProbabilitiesAddUp(t *testing.T) {
	w := Weigh(bills(func(p int, kWh float64) float64 { return 1.02*kWh - float64(p) }, 12, 20, 31))
	sum := 0.0
	for i, e := range w.Causes {
		sum += e.Probability
		if i > 0 && e.LogEvidence > w.Causes[i-1].LogEvidence {
			t.Errorf("%s stands behind %s", e.ID, w.Causes[i-1].ID)
		}
		if e.How == "" || e.Name == "" || e.Remedy == "" || len(e.Remaining) != 3 {
			t.Errorf("%s says too little: %+v", e.ID, e)
		}
	}
	if math.Abs(sum-1) > 1e-9 {
		t.Errorf("probabilities add up to %v", sum)
	}
}

func TestNothingToWeigh(t *testing.T) {
	if w := Weigh(Seen{Confidence: 0.95}); w.Done || len(w.Causes) > 0 {
		t.Errorf("%+v", w)
	}
}
