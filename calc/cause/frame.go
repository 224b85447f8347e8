package cause

import (
	"math"

	"splittally/calc/uncertainty"
)

// frame is what all forms are weighed against: one row for each period, the
// difference W − R in kWh, and one for each gain measured on the legs, as a
// percentage that the monitor reads high by.
type frame struct {
	Seen
	w, r    []float64 // kWh
	sources []source
	checks  []check
}

// source is one cause of doubt and what it does to both sides of each period,
// in kWh, with signs.
type source struct {
	name string
	w, r []float64
}

// check is a row of a measured gain.
type check struct {
	power    bool    // volts, amperes and phase at once; else volts alone
	high     float64 // percent that the monitor reads high by
	standard float64
}

func newFrame(s Seen) *frame {
	f := &frame{Seen: s}
	at := map[string]int{}
	for i, p := range s.Periods {
		f.w = append(f.w, p.Compared.Indicated.Energy.KilowattHours())
		f.r = append(f.r, p.Compared.Reference.Energy.KilowattHours())
		for _, part := range p.Compared.Indicated.Budget {
			f.source(at, part).w[i] += f.standard(part)
		}
		for _, part := range p.Compared.Reference.Budget {
			f.source(at, part).r[i] += f.standard(part)
		}
	}
	for _, c := range []struct {
		Factor
		power bool
	}{{s.Checks.Volts, false}, {s.Checks.Power, true}} {
		if c.Given && c.Value > 0 {
			f.checks = append(f.checks, check{c.power, 100 * (1/c.Value - 1), 100 * c.Standard / c.Value})
		}
	}
	return f
}

// source finds the source of a part, or makes one. A part without a source is
// one of its own.
func (f *frame) source(at map[string]int, p uncertainty.Part) *source {
	k, seen := at[p.Source]
	if !seen || p.Source == "" {
		k = len(f.sources)
		at[p.Source] = k
		n := len(f.Periods)
		f.sources = append(f.sources, source{name: p.Source, w: make([]float64, n), r: make([]float64, n)})
	}
	return &f.sources[k]
}

// standard gives a part's contribution. One that was estimated from few data is
// widened as its interval is, since the density that it goes into is a normal one.
func (f *frame) standard(p uncertainty.Part) float64 {
	if math.IsInf(p.DoF, 1) {
		return p.Standard
	}
	return p.Standard * uncertainty.Coverage(f.Confidence, p.DoF) / uncertainty.Coverage(f.Confidence, math.Inf(1))
}

// n counts the periods, rows the periods and checks.
func (f *frame) n() int    { return len(f.Periods) }
func (f *frame) rows() int { return len(f.Periods) + len(f.checks) }

// days gives the length of a period.
func (f *frame) days(p int) float64 { return float64(f.Periods[p].Span.Days()) }

// meanDay gives the monitor's mean day in a period, in kWh.
func (f *frame) meanDay(p int) float64 { return f.w[p] / f.days(p) }

// read is one read of the meter, between two periods or at an outer end.
type read struct {
	name         string
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
			out = append(out, read{name: name, ends: -1, begins: -1})
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
