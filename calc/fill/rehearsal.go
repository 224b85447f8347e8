package fill

import (
	"math"

	"splittally/calc/matrix"
)

// rehearsal tells what the model would have missed by, had it not known some
// of the days that it knows. It takes the likeliest temperament for all.
type rehearsal struct {
	fit
	inverse matrix.Lower // K⁻¹ − K⁻¹11ᵀK⁻¹/1ᵀK⁻¹1
	place   []int        // of each day of the record among the known days of the model
	a       matrix.Lower // the part of inverse that is blanked
	pull    []float64    // the part of fit.pull that is blanked, then its solution
	sum     []float64    // the shares of the blanked days, then their solution
}

func (m *model) rehearse(days int) rehearsal {
	f := m.fits[0]
	for _, g := range m.fits {
		if g.weight > f.weight {
			f = g
		}
	}
	r := rehearsal{fit: f, inverse: f.factor.Inverse(), place: make([]int, days)}
	ones := append([]float64(nil), f.one...)
	f.factor.SolveTransposed(ones)
	for j := range ones {
		for k, row := 0, r.inverse.Row(j); k <= j; k++ {
			row[k] -= ones[j] * ones[k] / f.oneOne
		}
	}
	for i, t := range m.at {
		r.place[t] = i
	}
	return r
}

// blank gives the error of the sum of the first days out, each counted by its
// share, had none of the days out been known, positive if too much, and the
// variance that the model expects of that error.
//
// With A the part of inverse that belongs to the blanked days, their errors are
// A⁻¹·(K⁻¹(y−μ)) and the covariance of those A⁻¹, so that nothing has to be
// fitted anew. A hint h of a blanked day is one more row that ties it to what
// its hours tell: it adds σ²/h.variance to the diagonal of A, and as much of its
// miss to what is solved for.
func (r *rehearsal) blank(out []int, share []float64, hints []hint) (miss, variance float64) {
	if r.a.Order() != len(out) {
		r.a, r.pull, r.sum = matrix.New(len(out)), make([]float64, len(out)), make([]float64, len(out))
	}
	for j, t := range out {
		p := r.place[t]
		for l, row := 0, r.a.Row(j); l <= j; l++ {
			q := r.place[out[l]]
			row[l] = r.inverse.Row(max(p, q))[min(p, q)]
		}
		r.pull[j], r.sum[j] = r.fit.pull[p], 0
		if j < len(share) {
			r.sum[j] = share[j]
		}
	}
	for j, h := range hints {
		if h.variance > 0 {
			r.a.Row(j)[j] += r.variance / h.variance
			r.pull[j] -= r.variance / h.variance * h.miss
		}
	}
	if !r.a.Factor() {
		return 0, 0
	}
	r.a.Solve(r.pull)
	r.a.Solve(r.sum)
	return -matrix.Dot(r.sum, r.pull), r.variance * matrix.Dot(r.sum, r.sum)
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
