package compare

import (
	"math"

	"splittally/calc/matrix"
	"splittally/calc/uncertainty"
)

// cholesky is the factor of the covariance matrix V of some values.
type cholesky struct{ matrix.Lower }

// factor factors the lower half v of a covariance matrix, in its place. ok is
// false if some mix of the values would have no uncertainty at all.
func factor(v matrix.Lower) (l cholesky, ok bool) {
	return cholesky{v}, v.FactorWithin(1e-12)
}

// fit is a generalised least-squares fit of values whose covariance is V:
// parameters, each a weighted sum of the values, and the column that each adds
// to what is fitted.
type fit struct {
	l       cholesky
	weights [][]float64 // by parameter; Σ weights·y is its estimate
	columns [][]float64
	center  float64 // of a line: where the first parameter is its height
}

// mean is the fit of one level, with
//
//	w = V⁻¹·1 / (1ᵀ·V⁻¹·1)
//
// which add to 1. Correlated values may get negative weights.
func (l cholesky) mean() fit {
	level := ones(l.Order())
	return fit{l: l, columns: [][]float64{level}, weights: [][]float64{l.Towards(level)}}
}

// line is the fit of level + slope·(x − center), where center = Σ w·x with the
// weights of the mean, so that level and slope do not depend on one another and
// large x (days since some epoch) lose no digits. ok is false if all x are the
// same.
func (l cholesky) line(x []float64) (f fit, ok bool) {
	f = l.mean()
	f.center = matrix.Dot(f.weights[0], x)
	off := make([]float64, len(x))
	var size float64
	for i := range x {
		off[i] = x[i] - f.center
		size = max(size, math.Abs(off[i]))
	}
	if !(size > 1e-9*math.Abs(f.center)) {
		return f, false
	}
	f.columns = append(f.columns, off)
	f.weights = append(f.weights, l.Towards(off))
	return f, true
}

// residuals gives what the fit leaves of y.
func (f fit) residuals(y []float64) []float64 {
	r := append([]float64(nil), y...)
	for k, column := range f.columns {
		estimate := matrix.Dot(f.weights[k], y)
		for i := range r {
			r[i] -= estimate * column[i]
		}
	}
	return r
}

// open gives the share of a source's variance that the fit leaves open,
//
//	t = aᵀ·V⁻¹·r(a)
//
// where r(a) is what the fit leaves of its contributions: 1 − w_i/Σw for a
// value's own variance about a weighted mean.
func (f fit) open(s source) float64 {
	return max(0, matrix.Dot(f.l.Solved(s.own), f.residuals(s.own)))
}

// test tests y against the fit:
//
//	χ² = rᵀ·V⁻¹·r
//
// V is made of the sources, and variances that were estimated from few data
// make χ² come out too large, the more so as the fit leans on those that came
// out too small. P allows for it by the Welch–James approximation with
// A = Σ t_s²/ν_s over the sources.
func (f fit) test(y []float64, sources []source) Test {
	r := f.residuals(y)
	t := Test{Done: true, ChiSquared: f.l.Quadratic(r), DoF: len(y) - len(f.columns)}
	var a float64
	for _, s := range sources {
		if open := f.open(s); !math.IsInf(s.dof, 1) {
			a += open * open / s.dof
		}
	}
	t.P, t.VarianceDoF = uncertainty.WelchJames(t.ChiSquared, float64(t.DoF), a)
	return t
}

// estimate gives Σ weights·y with its uncertainty. All of each source counts,
// its common part too: in a mean it stays, in a slope it cancels. allow, if not
// nil, is the fit that the weights come from. Its weights lean on the variances
// that came out too small, so the contribution of an estimated source is raised:
//
//	(Σ w·a_s)²·(1 + 4·t_s/ν_s)
//
// which is Meier's correction for a weighted mean (Biometrics 9 (1953) 59, from
// memory), written for correlated values.
func estimate(weights, y []float64, sources []source, allow *fit, confidence float64) Estimate {
	b := make(uncertainty.Budget, len(sources))
	for i, s := range sources {
		b[i] = uncertainty.Part{Standard: matrix.Dot(weights, s.contributions), DoF: s.dof}
		if allow != nil && !math.IsInf(s.dof, 1) {
			b[i].Standard *= math.Sqrt(1 + 4*allow.open(s)/s.dof)
		}
	}
	u, dof := b.Combined()
	return Estimate{
		Known: !math.IsInf(u, 0) && !math.IsNaN(u),
		Value: matrix.Dot(weights, y), Standard: u, DoF: dof,
		Expanded: u * uncertainty.Coverage(confidence, dof),
	}
}

func ones(n int) []float64 {
	x := make([]float64, n)
	for i := range x {
		x[i] = 1
	}
	return x
}
