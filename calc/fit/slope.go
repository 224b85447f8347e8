package fit

import (
	"math"

	"splittally/calc/matrix"
)

// problem is the points of a line about their means and what is known of their
// scatter.
type problem struct {
	x, y []float64
	own  Covariance
}

// trial is one gain tried: the best level for it and what is left.
type trial struct {
	gain     float64
	factor   matrix.Lower // of V, the covariance of the remainders
	one      []float64    // L⁻¹·1
	oneOne   float64      // 1ᵀ·V⁻¹·1
	level    float64      // at x = 0
	scaled   []float64    // V⁻¹·r
	chi2     float64      // rᵀ·V⁻¹·r
	adjusted []float64    // x̂, the likeliest true x
	pull     float64      // x̂ᵀ·V⁻¹·r = −½·d(chi2)/d(gain)
}

// noDoubt is the share of its own variance below which what is left of a point,
// given the others, is rounding.
const noDoubt = 1e-12

// try gives the trial of a gain. ok is false if the remainders, or a mix of
// them, would have no uncertainty.
func (p *problem) try(gain float64) (t trial, ok bool) {
	t = trial{gain: gain, factor: p.own.remainder(gain)}
	for _, s := range p.own.Causes {
		t.factor.AddSquare(s.along(gain), 1)
	}
	if !t.factor.FactorWithin(noDoubt) {
		return t, false
	}
	t.one = make([]float64, len(p.x))
	r := make([]float64, len(p.x))
	for i := range r {
		t.one[i], r[i] = 1, p.y[i]-gain*p.x[i]
	}
	t.factor.Solve(t.one)
	t.factor.Solve(r)
	t.oneOne = matrix.Dot(t.one, t.one)
	t.level = matrix.Dot(t.one, r) / t.oneOne
	for i := range r {
		r[i] -= t.level * t.one[i]
	}
	t.chi2 = matrix.Dot(r, r)
	t.factor.SolveTransposed(r)
	t.scaled = r
	return t, true
}

// adjust fills in adjusted and pull: the x that go with the remainders,
//
//	x̂ = x − (XY − gain·XX)·V⁻¹·r
//
// (York et al., Am. J. Phys. 72 (2004) 367, for any covariance).
func (t *trial) adjust(p *problem) {
	t.adjusted = p.own.crossed(t.gain, t.scaled)
	for i, moved := range t.adjusted {
		t.adjusted[i] = p.x[i] - moved
	}
	t.pull = matrix.Dot(t.adjusted, t.scaled)
}

// stiffness gives xᵀ·V⁻¹·x of x about its best mean. For the adjusted x it is
// how fast pull falls with gain, and the reciprocal variance of the gain.
func (t *trial) stiffness(x []float64) float64 {
	z := append([]float64(nil), x...)
	t.factor.Solve(z)
	c := matrix.Dot(t.one, z) / t.oneOne
	for i := range z {
		z[i] -= c * t.one[i]
	}
	return matrix.Dot(z, z)
}

// directions is how many directions of the line are tried before the best is
// refined: chi2 may have more than one valley.
const directions = 12

// best gives the trial with the least chi2.
func (p *problem) best() (trial, Reason) {
	scale, why := p.scale()
	if why != "" {
		return trial{}, why
	}
	gain := func(k int) float64 {
		return scale * math.Tan(math.Pi*(float64(k)+0.5)/directions-math.Pi/2)
	}
	least, at := math.Inf(1), -1
	for k := range directions {
		if t, ok := p.try(gain(k)); ok && t.chi2 < least {
			least, at = t.chi2, k
		}
	}
	switch {
	case at < 0:
		return trial{}, Certain
	case at == 0 || at == directions-1: // steeper than anything that the points would tell from upright
		return trial{}, Uncertain
	}
	return p.refine(gain(at-1), gain(at), gain(at+1))
}

// scale gives the size that the gain may be expected to have: that of least
// squares whose weights have been brought in line with it, or its uncertainty
// if that is larger.
func (p *problem) scale() (float64, Reason) {
	gain := matrix.Dot(p.x, p.y) / matrix.Dot(p.x, p.x)
	size := math.Abs(gain)
	for range 5 {
		t, ok := p.try(gain)
		if !ok {
			break
		}
		// The step to the least squares of these weights.
		stiff := t.stiffness(p.x)
		gain += matrix.Dot(p.x, t.scaled) / stiff
		size = max(math.Abs(gain), 1/math.Sqrt(stiff))
	}
	if size == 0 || !finite(size) {
		return 0, Certain
	}
	return size, ""
}

// refine finds the valley between lo and hi, which at is in, by secants of pull
// that are kept inside.
func (p *problem) refine(lo, at, hi float64) (t trial, why Reason) {
	size := max(math.Abs(lo), math.Abs(hi))
	gain, last, lastPull := at, math.NaN(), 0.0
	for range 100 {
		next, ok := p.try(gain)
		if !ok {
			return t, Certain
		}
		t = next
		t.adjust(p)
		if t.pull > 0 {
			lo = gain
		} else {
			hi = gain
		}
		slope := (lastPull - t.pull) / (gain - last)
		if !(slope > 0) {
			slope = t.stiffness(t.adjusted)
		}
		last, lastPull = gain, t.pull
		gain += t.pull / slope
		if !(gain > lo && gain < hi) {
			gain = lo + (hi-lo)/2
		}
		if math.Abs(gain-last) <= 1e-15*size || gain == lo || gain == hi {
			break
		}
	}
	return t, ""
}
