package cause

import (
	"math"
	"slices"

	"splittally/calc/matrix"
	"splittally/calc/uncertainty"
)

// form is one way in which a cause could have acted.
type form struct {
	weight float64 // its part of the cause; those of a cause are put in proportion
	// What is known of it and can be undone: the monitor's figure is multiplied
	// with scale, then add is added, and less is taken off the meter's figure,
	// for all instruments. In kWh by period; nil leaves them as they are.
	scale, add, less []float64
	// steady says that add is of every day, so that the days show it too.
	steady  bool
	effects []effect
	// settled are the sources of doubt that it leaves nothing of.
	settled []string
	// how says what it did, and reasons what speaks for it beside the numbers
	// that every form gives.
	how     func(outcome) string
	reasons func(outcome) (pro, con []string)
	// isFar says that it leaves far too much to be worth working out; it counts
	// for nothing, but for its weight.
	isFar bool
	// besides is evidence that is not in the totals, as a logarithm.
	besides float64
}

// effect is a change of unknown size θ, normally distributed beforehand.
type effect struct {
	by       []float64 // kWh in W − R for each unit, by period
	bill     bool      // it is in the bill, so it shows in all instruments
	shows    shows     // in what was measured on the legs, 1 % for each unit
	days     days      // how it shows in the days that the meter gave too
	mean, sd float64
}

// shows says in which checks of the legs an effect shows.
type shows uint8

const (
	nowhere shows = iota
	inPower       // in known loads: a gain of the current
	inAll         // in volts too: a gain of the voltage
)

func (s shows) in(c check) bool {
	return c.onLegs() && (s == inAll || s == inPower && c.by == byPower)
}

// days says how an effect shows in the days that the meter gave too.
type days uint8

const (
	notInDays    days = iota // in none: it is in the bill, or on days of its own
	inProportion             // each day as much of its energy, and each minute
	inTotals                 // each day as much of its energy, but no minute
	evenly                   // each day alike
	ownHigh                  // in nothing else, 1 % for each unit: on the whole
	ownSlope                 // and in the slope
	ownPulses                // and in the timed minutes
)

// onDays gives what a unit of an effect does to a row of days or of minutes, in
// percent.
func (e effect) onDays(f *frame, c check) float64 {
	switch {
	case e.days == inProportion, e.days == inTotals && c.by != byPulses:
		return 100 * sum(e.by) / sum(f.r[:f.n()])
	case e.days == evenly && c.by == byDays:
		return 100 * f.daily(e.by) / f.Daily.MeanDay
	case e.days == evenly && c.by == byPulses:
		return 100 * f.daily(e.by) / (f.Timed.Watts * 24 / 1000)
	case e.days == ownHigh && c.by == byDays, e.days == ownSlope && c.by == bySlope, e.days == ownPulses && c.by == byPulses:
		return 1
	}
	return 0
}

// daily gives kWh of all periods as a mean day.
func (f *frame) daily(kWh []float64) float64 {
	all := 0.0
	for p := range f.n() {
		all += f.days(p)
	}
	return sum(kWh) / all
}

// outcome is a form held against the figures.
type outcome struct {
	*frame
	form
	sizes    []float64 // of the effects, as the figures make them likely
	doubts   []float64 // their standard uncertainties
	left     []float64 // kWh that remain of W − R, by period
	standard []float64 // what is not known of each
	fit      float64   // chance of remainders at least as large
}

// undone gives W − R of all rows with what is known undone, less the means of
// the effects, and the logarithm of how far undoing stretches them.
func (fo form) undone(f *frame) (y []float64, stretch float64) {
	y = make([]float64, f.rows())
	for k, p := range f.of {
		w, r := f.w[k], f.r[k]
		if own := k < f.n(); own && fo.scale != nil {
			w *= fo.scale[p]
			stretch += math.Log(fo.scale[p])
		}
		if own := k < f.n(); own && fo.add != nil {
			w += fo.add[p]
		}
		if fo.less != nil {
			r -= fo.less[p]
		}
		y[f.row(k)] = w - r
	}
	for k, c := range f.checks {
		y[f.n()+k] = c.high
		if (c.by == byDays || c.by == bySlope) && fo.scale != nil {
			y[f.n()+k] = 100 * (fo.scale[0]*(1+c.high/100) - 1)
		}
		if c.by == byDays && fo.steady && fo.add != nil {
			y[f.n()+k] += 100 * sum(fo.add) / sum(f.r[:f.n()])
		}
	}
	for _, e := range fo.effects {
		for k, by := range e.column(f) {
			y[k] -= e.mean * by
		}
	}
	return y, stretch
}

// column is what an effect does to all rows.
func (e effect) column(f *frame) []float64 {
	out := append(make([]float64, 0, f.rows()), e.by...)
	for _, c := range f.checks {
		switch {
		case e.shows.in(c):
			out = append(out, 1)
		case c.onLegs():
			out = append(out, 0)
		default:
			out = append(out, e.onDays(f, c))
		}
	}
	for _, p := range f.of[f.n():] {
		if e.bill {
			out = append(out, e.by[p])
		} else {
			out = append(out, 0)
		}
	}
	return out
}

// voltsPart is the part of a monitor's own stated accuracy that is taken to be
// its voltage's; the rest is the current's and the phase's. (Common practice, no
// source.)
const voltsPart = 0.5

// doubt gives the columns of all that is not known under a form.
func (fo form) doubt(f *frame) [][]float64 {
	var out [][]float64
	for _, s := range f.sources {
		if slices.Contains(fo.settled, s.name) && s.name != "" {
			continue
		}
		c := make([]float64, f.rows())
		for k, p := range f.of {
			scale := 1.0
			if k < f.n() && fo.scale != nil {
				scale = fo.scale[p]
			}
			c[f.row(k)] = scale*s.w[k] - s.r[k]
		}
		if s.name == f.Accuracy {
			promised := f.promised(s)
			for k, check := range f.checks {
				switch {
				case check.by == byVolts:
					c[f.n()+k] = promised * voltsPart
				case (check.by == byDays || check.by == bySlope) && fo.scale != nil:
					c[f.n()+k] = promised * fo.scale[0]
				default:
					c[f.n()+k] = promised
				}
			}
		}
		if s.name == f.Class && s.name != "" {
			for k := f.legChecks; k < len(f.checks); k++ {
				c[f.n()+k] = -f.ofMeter(s)
			}
		}
		out = append(out, c)
	}
	for k, check := range f.checks {
		c := make([]float64, f.rows())
		c[f.n()+k] = check.standard
		out = append(out, c)
	}
	if f.poor > 0 { // each kind of check has an instrument of its own
		for k := range f.legChecks {
			c := make([]float64, f.rows())
			c[f.n()+k] = f.poor
			out = append(out, c)
		}
	}
	return append(out, f.troubled()...)
}

// How far an instrument's error moves by itself from period to period, with load
// and weather: a part of the standard uncertainty of its stated accuracy, and at
// least so many percent. Budgets hold a stated accuracy whole, as one that
// stays. (A choice: without it, bills that agree to a hundredth of a percent
// would tell causes apart by a thousandth, and sound pairs be accused.)
const (
	repeatsPart  = 0.25
	repeatsLeast = 0.1
)

// covariance gives V, what is not known under a form, and its diagonal.
func (fo form) covariance(f *frame) (matrix.Lower, []float64) {
	m := matrix.New(f.rows())
	for _, c := range fo.doubt(f) {
		m.AddSquare(c, 1)
	}
	for k := range f.of {
		k, r := f.row(k), f.r[k]
		m.Row(k)[k] += math.Pow(f.repeats*r/100, 2)
	}
	for k := f.legChecks; k < len(f.checks); k++ {
		m.Row(f.n() + k)[f.n()+k] += f.repeats * f.repeats
	}
	own := make([]float64, f.n())
	for p := range own {
		own[p] = m.Row(p)[p]
	}
	return m, own
}

// held is a form held against the figures, as far as its evidence needs it.
type held struct {
	form
	frame    *frame
	evidence float64      // natural logarithm of the density
	m        matrix.Lower // Cholesky factor of M
	y, z     []float64    // the figures, and L⁻¹·y
	columns  [][]float64
	own      []float64
}

// hold finds the evidence of a form:
//
//	ln p = −½·(yᵀM⁻¹y + ln det M + n·ln 2π) + Σ ln scale,  M = V + Σ sd²·b·bᵀ
//
// with V the covariance of what is not known and b the columns of the effects.
func (fo form) hold(f *frame) held {
	h := held{form: fo, frame: f, evidence: math.Inf(-1)}
	if fo.isFar {
		return h
	}
	var stretch float64
	h.y, stretch = fo.undone(f)
	h.m, h.own = f.base()
	if fo.scale != nil || fo.settled != nil {
		h.m, h.own = fo.covariance(f)
	}
	for _, e := range fo.effects {
		c := e.column(f)
		h.columns = append(h.columns, c)
		h.m.AddSquare(c, e.sd*e.sd)
	}
	if !h.m.Factor() {
		return h
	}
	h.z = append([]float64(nil), h.y...)
	h.m.Solve(h.z)
	n := float64(f.rows())
	h.evidence = fo.besides + stretch - (matrix.Dot(h.z, h.z)+h.m.LogDet()+n*math.Log(2*math.Pi))/2
	return h
}

// outcome works out what a form says of the figures.
func (h held) outcome() outcome {
	o := outcome{frame: h.frame, form: h.form}
	mine := h.z[:o.n()+len(o.checks)] // the others have troubles of their own
	o.fit = uncertainty.AboveF(matrix.Dot(mine, mine), float64(len(mine)), math.Inf(1))
	z, left := append([]float64(nil), h.z...), append([]float64(nil), h.y...)
	h.m.SolveTransposed(z)
	for k, e := range h.effects {
		moved := e.sd * e.sd * matrix.Dot(h.columns[k], z)
		half := append([]float64(nil), h.columns[k]...)
		h.m.Solve(half)
		o.sizes = append(o.sizes, e.mean+moved)
		o.doubts = append(o.doubts, e.sd*math.Sqrt(max(0, 1-e.sd*e.sd*matrix.Dot(half, half))))
		for i := range left {
			left[i] -= moved * h.columns[k][i]
		}
	}
	o.left = left[:o.n()]
	for _, v := range h.own {
		o.standard = append(o.standard, math.Sqrt(v))
	}
	return o
}
