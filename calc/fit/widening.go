package fit

import (
	"math"

	"splittally/calc/matrix"
)

// leastClear is how much of the adjusted points' spread must be more than their
// own doubt for a line to be told; where less is, no interval would hold.
const leastClear = 0.5

// widening gives the factor by which the uncertainty of the gain is more than
// the usual (X̂ᵀ·V⁻¹·X̂)⁻¹ says, or NaN if the true x can't be told apart.
//
// The adjusted x̂ spread wider than the true x, by what is left of their doubt,
// and that doubt also makes the gain itself less certain. To first order both
// go by d = tr(P·D), where D is the covariance of x̂ about the true x,
//
//	D = XX − K·V⁻¹·Kᵀ,  K = XY − gain·XX,  P = V⁻¹ − V⁻¹·1·1ᵀ·V⁻¹/(1ᵀ·V⁻¹·1)
//
// With h = x̂ᵀ·P·x̂ the usual variance is 1/h; it should be 1/(h−d) for the
// spread and (1 + d/(h−d)) times that for the doubt, h²/(h−d)² times the usual.
// For alike, independent points that is the variance in Fuller, Measurement
// Error Models (1987), chapter 1.3 (from memory). coverage_test.go has what it
// does for the intervals.
func (t *trial) widening(p *problem) float64 {
	h, d := t.stiffness(t.adjusted), t.unclear(p)
	if !(h-d > leastClear*h) {
		return math.NaN()
	}
	return h / (h - max(0, d))
}

// unclear gives d.
func (t *trial) unclear(p *problem) float64 {
	n := len(t.one)
	inverse, q := t.factor.Inverse(), append([]float64(nil), t.one...)
	t.factor.SolveTransposed(q)
	k := make([][]float64, n) // rows of L⁻¹·Kᵀ, transposed
	for i := range k {
		k[i] = make([]float64, n)
	}
	unit := make([]float64, n)
	for j := range n {
		unit[j] = 1
		for i, v := range p.own.crossed(t.gain, unit) {
			k[i][j] = v
		}
		unit[j] = 0
	}
	for i := range k {
		t.factor.Solve(k[i])
	}
	sum := 0.0
	for i := range n {
		for j := 0; j <= i; j++ {
			d := p.own.XX.Row(i)[j] - matrix.Dot(k[i], k[j])
			for _, s := range p.own.Causes {
				d += s.X[i] * s.X[j]
			}
			if j < i {
				d *= 2 // for j, i too
			}
			sum += d * (inverse.Row(i)[j] - q[i]*q[j]/t.oneOne)
		}
	}
	return sum
}
