package fit

import (
	"math"

	"splittally/calc/matrix"
	"splittally/calc/uncertainty"
)

// Both fits a line to points with errors in both variables and covariance c. It
// makes
//
//	χ² = rᵀ·V⁻¹·r,  r = y − offset − gain·x,  V = YY − gain·(XY + XYᵀ) + gain²·XX
//
// as small as can be: the line of York et al. (Am. J. Phys. 72 (2004) 367) where
// points are independent, of ISO/TS 28037:2010 clause 10 in general. Standard
// uncertainties are (X̂ᵀ·V⁻¹·X̂)⁻¹ with X̂ = (1, x̂) at the adjusted x, as there.
//
// Where x spread not much more than they are uncertain, intervals by those are
// too short; Expanded then is more (see widening).
//
// Uncertainties that are known give intervals by the normal distribution. For
// causes with degrees of freedom they are by Student's t with those of
// Welch–Satterthwaite, and allow for weights that lean on estimates; P allows
// for them too (package compare has the formulas and where they come from).
//
// Two points make a line, but test nothing. Without any uncertainty the line is
// Ordinary's. confidence is a fraction, 0.95 for 95 %.
func Both(x, y []float64, c Covariance, confidence float64) Line {
	if why := refused(x, y, 2); why != "" {
		return Line{Why: why}
	}
	c, ok := c.filled(len(x))
	if !ok {
		return Line{Why: NoNumber}
	}
	if c.nothing() {
		return Ordinary(x, y, confidence)
	}
	dx, mx := about(x)
	dy, my := about(y)
	if alike(dx, mx) {
		return Line{Why: Alike}
	}
	p := &problem{x: dx, y: dy, own: c.without(dx)}
	t, why := p.best()
	if why != "" {
		return Line{Why: why}
	}
	f := newSolution(t, mx, c, p.own)
	if f.widen = t.widening(p); math.IsNaN(f.widen) {
		return Line{Why: Uncertain}
	}
	l := Line{Known: true, DoF: len(x) - 2, ChiSquared: t.chi2, P: f.p(t.chi2, len(x)-2)}
	l.Offset, l.Gain, l.Correlation = f.values(my+t.level-t.gain*mx, t.gain, confidence)
	return checked(l)
}

// nothing tells if c, filled, is no uncertainty at all.
func (c Covariance) nothing() bool {
	for i := range c.YY.Order() {
		if c.XX.Row(i)[i] != 0 || c.YY.Row(i)[i] != 0 {
			return false
		}
	}
	return len(c.Causes) == 0
}

// solution is a fit as weights: what each point's remainder adds to the
// parameters.
type solution struct {
	gain, shift  float64 // shift is the x at which level and gain are independent
	factor       matrix.Lower
	matrices     matrix.Lower // covariance of the remainders without causes
	offset, tilt []float64    // weights of offset and gain
	one, off     []float64    // columns of level and of gain about center
	level        []float64    // weights of the level at center
	full, own    []Cause
	widen        float64 // factor on the gain's own uncertainty that makes its interval hold
}

func newSolution(t trial, mean float64, full, own Covariance) *solution {
	n := len(t.one)
	f := &solution{
		gain: t.gain, factor: t.factor, matrices: full.remainder(t.gain),
		one: make([]float64, n), off: make([]float64, n), full: full.Causes, own: own.Causes,
	}
	for i := range f.one {
		f.one[i] = 1
	}
	f.level = f.factor.Towards(f.one)
	center := matrix.Dot(f.level, t.adjusted)
	for i := range f.off {
		f.off[i] = t.adjusted[i] - center
	}
	f.tilt = f.factor.Towards(f.off)
	f.offset = make([]float64, n)
	f.shift = mean + center
	for i := range f.offset {
		f.offset[i] = f.level[i] - f.shift*f.tilt[i]
	}
	return f
}

// open gives the share of cause k's variance that the line leaves open: dᵀ·V⁻¹·r(d)
// with r(d) what the line leaves of its contributions d.
func (f *solution) open(k int) float64 {
	d := f.own[k].along(f.gain)
	level, tilt := matrix.Dot(f.level, d), matrix.Dot(f.tilt, d)
	r := make([]float64, len(d))
	for i := range r {
		r[i] = d[i] - level - tilt*f.off[i]
	}
	return max(0, matrix.Dot(f.factor.Solved(d), r))
}

// values gives offset and gain with their uncertainties and correlation.
func (f *solution) values(offset, gain, confidence float64) (o, g Value, correlation float64) {
	var ob, gb uncertainty.Budget
	covariance := bilinear(f.matrices, f.offset, f.tilt)
	add := func(o, g, dof float64) {
		ob = append(ob, uncertainty.Part{Standard: o, DoF: dof})
		gb = append(gb, uncertainty.Part{Standard: g, DoF: dof})
	}
	add(math.Sqrt(max(0, bilinear(f.matrices, f.offset, f.offset))),
		math.Sqrt(max(0, bilinear(f.matrices, f.tilt, f.tilt))), math.Inf(1))
	for k, s := range f.full {
		d, raised := s.along(f.gain), 1.0
		if !math.IsInf(s.DoF, 1) {
			raised = math.Sqrt(1 + 4*f.open(k)/s.DoF)
		}
		byOffset, byGain := raised*matrix.Dot(f.offset, d), raised*matrix.Dot(f.tilt, d)
		add(byOffset, byGain, s.DoF)
		covariance += byOffset * byGain
	}
	uo, dofOffset := ob.Combined()
	ug, dofGain := gb.Combined()
	o, g = Value{offset, uo, 0, dofOffset}, Value{gain, ug, 0, dofGain}
	more := math.Sqrt((f.widen*f.widen - 1) / matrix.Dot(f.off, f.factor.Solved(f.off)))
	add(more*f.shift, more, math.Inf(1))
	o.Expanded, _ = ob.Expanded(confidence)
	g.Expanded, _ = gb.Expanded(confidence)
	if uo > 0 && ug > 0 {
		correlation = max(-1, min(1, covariance/uo/ug))
	}
	return o, g, correlation
}

// bilinear gives aᵀ·m·b of a symmetric m.
func bilinear(m matrix.Lower, a, b []float64) float64 {
	sum := 0.0
	for i := range a {
		row := m.Row(i)
		for j, v := range row[:i] {
			sum += v * (a[i]*b[j] + a[j]*b[i])
		}
		sum += row[i] * a[i] * b[i]
	}
	return sum
}

// p gives the chance of at least this χ², by the Welch–James approximation where
// causes were estimated.
func (f *solution) p(chi2 float64, dof int) float64 {
	if dof == 0 {
		return 1
	}
	var a float64
	for k, s := range f.own {
		if !math.IsInf(s.DoF, 1) {
			open := f.open(k)
			a += open * open / s.DoF
		}
	}
	p, _ := uncertainty.WelchJames(chi2, float64(dof), a)
	return p
}
