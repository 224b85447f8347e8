package fit

import (
	"math"

	"splittally/calc/uncertainty"
)

// Many is Both for many points of which every x and every y errs for itself,
// with standard uncertainties ux and uy: its time grows with their number, where
// Both's grows with the cube of it. In return it knows no causes common to points, and
// does not widen the interval where x hardly spread. ux and uy must be above 0.
//
// It is the iteration of York et al. (Am. J. Phys. 72 (2004) 367), without
// correlation between an x and its y.
func Many(x, y, ux, uy []float64, confidence float64) Line {
	if why := refused(x, y, 3); why != "" {
		return Line{Why: why}
	}
	dx, mx := about(x)
	dy, my := about(y)
	if alike(dx, mx) {
		return Line{Why: Alike}
	}
	b := Ordinary(dx, dy, confidence).Gain.Value
	var at iteration
	for range 100 {
		at = iterate(dx, dy, ux, uy, b)
		if moved := math.Abs(at.gain - b); !(moved > 1e-12*math.Abs(at.gain)) {
			break
		}
		b = at.gain
	}
	l := Line{Known: true, DoF: len(x) - 2, ChiSquared: at.chi2}
	l.Correlation = -(at.center + mx) * at.gainDoubt / at.offsetDoubt(mx)
	l.Gain = value(at.gain, at.gainDoubt, math.Inf(1), confidence)
	l.Offset = value(my+at.offset-at.gain*mx, at.offsetDoubt(mx), math.Inf(1), confidence)
	l.P = uncertainty.AboveF(l.ChiSquared, float64(l.DoF), math.Inf(1))
	return checked(l)
}

// iteration is a line through points about their means, and what a gain that
// was taken for it leads to.
type iteration struct {
	gain, offset float64
	gainDoubt    float64
	level        float64 // variance of the height at center
	center       float64 // weighted mean of the adjusted x
	chi2         float64
}

func (i iteration) offsetDoubt(mean float64) float64 {
	return math.Hypot(math.Sqrt(i.level), (i.center+mean)*i.gainDoubt)
}

// iterate takes one step from a gain b.
func iterate(x, y, ux, uy []float64, b float64) (out iteration) {
	var sum, mx, my float64
	w := make([]float64, len(x))
	for i := range x {
		w[i] = 1 / (uy[i]*uy[i] + b*b*ux[i]*ux[i])
		sum += w[i]
		mx += w[i] * x[i]
		my += w[i] * y[i]
	}
	mx, my = mx/sum, my/sum
	var over, under float64
	adjusted := make([]float64, len(x))
	for i := range x {
		u, v := x[i]-mx, y[i]-my
		adjusted[i] = w[i] * (u*uy[i]*uy[i] + b*v*ux[i]*ux[i])
		over += w[i] * adjusted[i] * v
		under += w[i] * adjusted[i] * u
		out.center += w[i] * adjusted[i] / sum
	}
	out.gain = over / under
	out.offset = my - out.gain*mx
	squares := 0.0
	for i := range x {
		squares += w[i] * math.Pow(adjusted[i]-out.center, 2)
		out.chi2 += w[i] * math.Pow(y[i]-out.offset-out.gain*x[i], 2)
	}
	out.center += mx
	out.gainDoubt, out.level = 1/math.Sqrt(squares), 1/sum
	return out
}
