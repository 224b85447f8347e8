package cause

import (
	"fmt"
	"math"

	"splittally/calc/compare"
	"splittally/calc/matrix"
	"splittally/calc/uncertainty"
)

// frame is what all forms are weighed against: one row for each period, the
// difference W − R in kWh, then one for each gain measured on the legs, as a
// percentage that the monitor reads high by, two for what the days show and
// one for what timing the meter does, as percentages too, and last one for each period of each other instrument, as the
// first.
type frame struct {
	Seen
	w, r    []float64 // kWh, of the periods and of those of the other instruments
	of      []int     // the period of each of these
	sources []source
	others  trouble // of the other instruments
	poor    float64 // percent that the checks may be off beyond what they state
	weight  float64 // how likely it is that all this is so
	repeats float64 // percent that an error moves by itself
	stray   [][]stray
	pieceOf []int               // see pieces
	factors map[float64]float64 // coverage factors by degrees of freedom

	// The covariance of what is not known, and its diagonal, where a form
	// leaves the monitor's figure as it is.
	known    bool
	v        matrix.Lower
	variance []float64
	checks   []check
	// legChecks counts those of the checks that are of the legs: the first.
	legChecks int
}

// trouble is what another instrument may be off by itself beyond its promise,
// whatever the cause: of its figure in percent, as a steady power in watts, and
// from period to period in percent; standard deviations.
type trouble struct{ weight, gain, watts, moves float64 }

// troubles: most others are sound, some are off and steady, some are off and
// wander (a choice).
var troubles = [3]trouble{{0.7, 0.7, 10, 0.2}, {0.15, 5, 100, 0.2}, {0.15, 5, 100, 1}}

// poor is by how many percent an instrument that the legs were checked with may
// be off beyond what it states, a standard deviation, and poorPart how often it
// is (a choice).
const (
	poor     = 3
	poorPart = 0.1
)

// source is one cause of doubt and what it does to both sides of each row of
// energies, in kWh, with signs.
type source struct {
	name string
	w, r []float64
}

// check is a row of a measured gain.
type check struct {
	by       measure
	high     float64 // percent that the monitor reads high by
	standard float64
}

// measure is what a gain was measured by.
type measure uint8

const (
	byVolts  measure = iota // on the legs, volts alone
	byPower                 // on the legs, volts, amperes and phase at once
	byDays                  // the days that the meter gave too, on the whole
	bySlope                 // their slope: what each further kWh adds
	byPulses                // of the meter, over some minutes
)

func (c check) onLegs() bool { return c.by <= byPower }

func newFrame(s Seen) *frame {
	f := &frame{Seen: s, factors: map[float64]float64{}}
	rows := len(s.Periods)
	for _, o := range s.Others {
		rows += len(o.Periods)
	}
	at := map[string]int{}
	for i, p := range s.Periods {
		f.addRow(at, rows, i, p.Compared)
	}
	for _, o := range s.Others {
		for _, b := range o.Periods {
			f.addRow(at, rows, b.Period, b.Compared)
		}
	}
	f.findPieces()
	f.repeats = repeatsLeast
	for _, source := range f.sources {
		if source.name == s.Accuracy {
			f.repeats = max(repeatsLeast, repeatsPart*math.Abs(f.promised(source)))
		}
	}
	for by, c := range [...]Factor{s.Checks.Volts, s.Checks.Power} {
		if c.Given && c.Value > 0 {
			f.checks = append(f.checks, check{measure(by), 100 * (1/c.Value - 1), 100 * c.Standard / c.Value})
		}
	}
	f.legChecks = len(f.checks)
	if s.Daily.Given {
		f.checks = append(f.checks, check{byDays, s.Daily.High, s.Daily.Standard}, check{bySlope, s.Daily.Slope, s.Daily.SlopeStandard})
	}
	if s.Timed.Given {
		f.checks = append(f.checks, check{byPulses, s.Timed.High, s.Timed.Standard})
	}
	return f
}

// promised gives what a source of doubt is of the monitor's figure, in percent,
// by the first period over which it counted anything.
func (f *frame) promised(s source) float64 {
	for p := range f.n() {
		if f.w[p] != 0 {
			return 100 * s.w[p] / f.w[p]
		}
	}
	return 0
}

// ofMeter gives what a source of doubt is of the meter's figure, in percent, by
// the first period.
func (f *frame) ofMeter(s source) float64 {
	if f.r[0] == 0 {
		return 0
	}
	return 100 * s.r[0] / f.r[0]
}

// troubled gives the columns of what the other instruments may be off by
// themselves.
func (f *frame) troubled() [][]float64 {
	var out [][]float64
	k := f.n()
	for _, o := range f.Others {
		gain, watts := make([]float64, f.rows()), make([]float64, f.rows())
		for range o.Periods {
			row := f.row(k)
			gain[row], watts[row] = f.others.gain*f.w[k]/100, f.others.watts*24*f.days(f.of[k])/1000
			moves := make([]float64, f.rows())
			moves[row] = f.others.moves * f.w[k] / 100
			out = append(out, moves)
			k++
		}
		out = append(out, gain, watts)
	}
	return out
}

// base gives a copy of the covariance of what is not known, for forms without a
// scale, and its diagonal.
func (f *frame) base() (matrix.Lower, []float64) {
	if !f.known {
		f.v, f.variance = form{}.covariance(f)
		f.known = true
	}
	return f.v.Clone(), f.variance
}

// addRow adds what an instrument shows of a period, one of so many rows.
func (f *frame) addRow(at map[string]int, rows, period int, c compare.Comparison) {
	f.w = append(f.w, c.Indicated.Energy.KilowattHours())
	f.r = append(f.r, c.Reference.Energy.KilowattHours())
	f.of = append(f.of, period)
	k := len(f.w) - 1
	for _, part := range c.Indicated.Budget {
		f.source(at, rows, part.Source).w[k] += f.standard(part)
	}
	for _, part := range c.Reference.Budget {
		name := part.Source
		if name == "" { // the bill's figure is the same to all instruments
			name = fmt.Sprintf("%s of period %d", part.Name, period)
		}
		f.source(at, rows, name).r[k] += f.standard(part)
	}
}

// source finds the source of a part, or makes one. A part without a name of its
// source is one of its own.
func (f *frame) source(at map[string]int, rows int, name string) *source {
	k, seen := at[name]
	if !seen || name == "" {
		k = len(f.sources)
		at[name] = k
		f.sources = append(f.sources, source{name: name, w: make([]float64, rows), r: make([]float64, rows)})
	}
	return &f.sources[k]
}

// standard gives a part's contribution. One that was estimated from few data is
// widened as its interval is, since the density that it goes into is a normal one.
func (f *frame) standard(p uncertainty.Part) float64 {
	if math.IsInf(p.DoF, 1) {
		return p.Standard
	}
	return p.Standard * f.coverage(p.DoF) / f.k()
}

// k is the factor of a normal distribution at the confidence of the case.
func (f *frame) k() float64 { return f.coverage(math.Inf(1)) }

// coverage remembers factors, which take long to find.
func (f *frame) coverage(dof float64) float64 {
	k, known := f.factors[dof]
	if !known {
		k = uncertainty.Coverage(f.Confidence, dof)
		f.factors[dof] = k
	}
	return k
}

// n counts the periods, rows all rows.
func (f *frame) n() int    { return len(f.Periods) }
func (f *frame) rows() int { return len(f.w) + len(f.checks) }

// row gives the row of the energy at k in w.
func (f *frame) row(k int) int {
	if k < f.n() {
		return k
	}
	return k + len(f.checks)
}

// days gives the length of a period.
func (f *frame) days(p int) float64 { return float64(f.Periods[p].Span.Days()) }

// meanDay gives the monitor's mean day in a period, in kWh.
func (f *frame) meanDay(p int) float64 { return f.w[p] / f.days(p) }

// read is one read of the meter, between two periods or at an outer end.
type read struct {
	ends, begins int // indexes of the periods that it ends and begins, or -1
	marked       bool
	hourKnown    bool
}

// reads lists the reads of all periods, by their names, in order of appearance.
func (f *frame) reads() []read {
	var out []read
	at := map[string]int{}
	find := func(name string) *read {
		k, seen := at[name]
		if !seen {
			k = len(out)
			at[name] = k
			out = append(out, read{ends: -1, begins: -1})
		}
		return &out[k]
	}
	for i, p := range f.Periods {
		a := find(p.StartRead)
		a.begins, a.marked, a.hourKnown = i, a.marked || p.StartEstimated, p.HourKnown
		b := find(p.EndRead)
		b.ends, b.marked, b.hourKnown = i, b.marked || p.EndEstimated, p.HourKnown
	}
	return out
}

// ofPeriods makes a row for each period.
func (f *frame) ofPeriods(value func(p int) float64) []float64 {
	out := make([]float64, f.n())
	for p := range out {
		out[p] = value(p)
	}
	return out
}

// alone is a row with a value in one period.
func (f *frame) alone(p int, value float64) []float64 {
	out := make([]float64, f.n())
	out[p] = value
	return out
}
