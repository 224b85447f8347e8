package fill

import "math"

// prepare sets the inverses that trials need.
func (m *model) prepare() {
	for i := range m.fits {
		f := &m.fits[i]
		f.inverse = f.factor.inverse()
		ones := append([]float64(nil), f.one...)
		f.factor.solveTransposed(ones)
		for j := range ones {
			for k, r := 0, f.inverse.row(j); k <= j; k++ {
				r[k] -= ones[j] * ones[k] / f.oneOne
			}
		}
	}
}

// blank tells what the model would have missed by, had it not known some of
// its days: the error of the sum of days c.at, positive if too much, with
// c.hidden not known either, and the variance that it expects of that error.
// All days are places in m.at. prepare must have been called.
//
// With A the inverse covariance of the blanked days, given the mean is not
// known, the errors of a day y are A⁻¹·(K⁻¹(y−μ)) and their covariance A⁻¹,
// so that nothing has to be fitted anew.
func (m *model) blank(out []int, share []float64) (miss, variance float64) {
	k := len(out)
	misses, vars := make([]float64, len(m.fits)), make([]float64, len(m.fits))
	a, pull, sum := newLower(k), make([]float64, k), make([]float64, k)
	for i := range m.fits {
		f := &m.fits[i]
		for j, t := range out {
			for l, r := 0, a.row(j); l <= j; l++ {
				r[l] = f.inverse.row(max(t, out[l]))[min(t, out[l])]
			}
			pull[j], sum[j] = f.pull[t], 0
			if j < len(share) {
				sum[j] = share[j]
			}
		}
		if !a.factor() {
			return 0, 0
		}
		a.solve(pull)
		a.solve(sum)
		misses[i] = -dot(sum, pull)
		vars[i] = f.variance * dot(sum, sum)
		miss += f.weight * misses[i]
	}
	for i, f := range m.fits {
		variance += f.weight * (vars[i] + (misses[i]-miss)*(misses[i]-miss))
	}
	return miss, variance
}

// usualTrials is how many independent trials the model's own variance is
// worth when trials correct it.
const usualTrials = 10

// strain gives the factor by which trials say that the model's variance has to
// be multiplied, drawn towards 1 for want of many that are independent: misses
// and variances as from blank, length the days from the first to the last of
// the pattern.
func (m *model) strain(misses, variances []float64, length int) float64 {
	sum, n := 0.0, 0.0
	for i, v := range variances {
		if v > 0 {
			sum += misses[i] * misses[i] / v
			n++
		}
	}
	if n == 0 {
		return 1
	}
	// Copies that overlap say nearly the same.
	free := min(n, float64(len(m.at))/float64(length+3))
	return (usualTrials + free*sum/n) / (usualTrials + free)
}

// mostFreedom bounds the degrees of freedom. Households have heavier tails
// than a normal distribution however many days are known.
const mostFreedom = 14

// freedom gives the degrees of freedom of the model's variance. Neighbouring
// days are alike, so that two of them tell as much of the spread as one.
func (m *model) freedom() float64 {
	return math.Max(1, min(mostFreedom, float64(len(m.at))/2))
}
