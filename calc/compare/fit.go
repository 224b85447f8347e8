package compare

import (
	"math"

	"splittally/calc/uncertainty"
)

// cholesky is the lower triangle L of a covariance matrix V = L·Lᵀ, row by row.
// Months are few, so a plain triple loop is enough; a matrix library would cost
// the engine more bytes than the rest of this package.
type cholesky [][]float64

// factor gives the factor of v, which it reads below the diagonal. ok is false
// if v is not positive definite within rounding: some mix of the values would
// have no uncertainty at all.
func factor(v [][]float64) (l cholesky, ok bool) {
	l = make(cholesky, len(v))
	for i := range v {
		l[i] = make([]float64, i+1)
		for j := 0; j <= i; j++ {
			sum := v[i][j]
			for k := 0; k < j; k++ {
				sum -= l[i][k] * l[j][k]
			}
			if i != j {
				l[i][j] = sum / l[j][j]
				continue
			}
			// What is left of the variance must be more than its rounding.
			if !(sum > 1e-12*v[i][i]) || math.IsInf(sum, 0) {
				return nil, false
			}
			l[i][i] = math.Sqrt(sum)
		}
	}
	return l, true
}

// solve gives x with V·x = b.
func (l cholesky) solve(b []float64) []float64 {
	x := append([]float64(nil), b...)
	for i := range x {
		for k := 0; k < i; k++ {
			x[i] -= l[i][k] * x[k]
		}
		x[i] /= l[i][i]
	}
	for i := len(x) - 1; i >= 0; i-- {
		for k := i + 1; k < len(x); k++ {
			x[i] -= l[k][i] * x[k]
		}
		x[i] /= l[i][i]
	}
	return x
}

// meanWeights gives the w, Σw = 1, that make Σ w·y the least-squares mean:
//
//	w = V⁻¹·1 / (1ᵀ·V⁻¹·1)
//
// Correlated values may get negative weights.
func (l cholesky) meanWeights() []float64 {
	return scaleToSum(l.solve(ones(len(l))), 1)
}

// slopeWeights gives the h, Σh = 0 and Σ h·x = 1, that make Σ h·y the slope of
// the least-squares line of y against x:
//
//	h = V⁻¹·(x − x̄) / ((x − x̄)ᵀ·V⁻¹·(x − x̄)),  x̄ = Σ w·x
//
// ok is false if all x are the same. x̄ comes first out of x, so that large x
// (days since some epoch) lose no digits.
func (l cholesky) slopeWeights(x []float64) (h []float64, center float64, ok bool) {
	center = weightedSum(l.meanWeights(), x)
	off := make([]float64, len(x))
	var size float64
	for i := range x {
		off[i] = x[i] - center
		size = max(size, math.Abs(off[i]))
	}
	h = l.solve(off)
	spread := weightedSum(h, off)
	if !(size > 1e-9*math.Abs(center)) || !(spread > 0) {
		return nil, center, false
	}
	for i := range h {
		h[i] /= spread
	}
	return h, center, true
}

// line gives y = level + slope·(x − center) with the weights of meanWeights and
// slopeWeights, and what remains of y.
func (l cholesky) line(x, y []float64) (level, slope, center float64, residuals []float64, ok bool) {
	h, center, ok := l.slopeWeights(x)
	if !ok {
		return 0, 0, center, nil, false
	}
	level, slope = weightedSum(l.meanWeights(), y), weightedSum(h, y)
	residuals = make([]float64, len(y))
	for i := range y {
		residuals[i] = y[i] - level - slope*(x[i]-center)
	}
	return level, slope, center, residuals, true
}

// spread tests residuals, from which fitted parameters were estimated, against
// their covariance:
//
//	χ² = rᵀ·V⁻¹·r
//
// V's columns are the sources, one slice of contributions each. χ² is the
// square of the contrast g = V⁻¹·r that stands out most, in units of that
// contrast's variance gᵀ·V·g = Σ (gᵀ·a_s)²; so the Welch–Satterthwaite degrees
// of freedom of that variance say how well the unit is known, and P comes from
// the F distribution with them. If nothing was estimated from data that is the
// plain χ² test; with two values it is the t test of their difference.
func (l cholesky) spread(residuals []float64, fitted int, sources []source) Test {
	g := l.solve(residuals)
	chi2 := max(0, weightedSum(g, residuals))
	t := Test{Done: true, ChiSquared: chi2, DoF: len(residuals) - fitted}
	contrast := make(uncertainty.Budget, len(sources))
	for i, s := range sources {
		contrast[i] = uncertainty.Part{Standard: weightedSum(g, s.contributions), DoF: s.dof}
	}
	_, t.VarianceDoF = contrast.Combined()
	t.P = uncertainty.AboveF(chi2, float64(t.DoF), t.VarianceDoF)
	return t
}

func weightedSum(w, x []float64) float64 {
	var sum float64
	for i := range w {
		sum += w[i] * x[i]
	}
	return sum
}

func ones(n int) []float64 {
	x := make([]float64, n)
	for i := range x {
		x[i] = 1
	}
	return x
}

// scaleToSum changes w in place so that it adds to the wanted sum.
func scaleToSum(w []float64, want float64) []float64 {
	var sum float64
	for _, x := range w {
		sum += x
	}
	for i := range w {
		w[i] *= want / sum
	}
	return w
}
