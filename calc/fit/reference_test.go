package fit

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/stat"
)

// Against gonum, a general-purpose library: Ordinary, and Both where x are
// exact and y independent.
func TestAgainstGonumStat(t *testing.T) {
	r := rand.New(rand.NewPCG(13, 21))
	for range 500 {
		n := 3 + r.IntN(20)
		x, y, uy, weights := make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n)
		for i := range x {
			x[i], y[i], uy[i] = 1000*r.Float64(), 50*r.NormFloat64(), 0.1+r.ExpFloat64()
			weights[i] = 1 / uy[i] / uy[i]
		}
		alpha, beta := stat.LinearRegression(x, y, nil, false)
		l := Ordinary(x, y, 0.95)
		near(t, "offset", l.Offset.Value, alpha, 1e-9)
		near(t, "gain", l.Gain.Value, beta, 1e-12)
		alpha, beta = stat.LinearRegression(x, y, weights, false)
		l = York(x, y, nil, uy, 0.95)
		near(t, "weighted offset", l.Offset.Value, alpha, 1e-7)
		near(t, "weighted gain", l.Gain.Value, beta, 1e-9)
	}
}

// Deming's line has a closed form where all points have the same ux and uy
// (from memory): with λ = uy²/ux²
//
//	(Syy − λ·Sxx + √((Syy − λ·Sxx)² + 4λ·Sxy²)) / 2Sxy
func TestAgainstDeming(t *testing.T) {
	r := rand.New(rand.NewPCG(34, 55))
	for range 500 {
		n := 3 + r.IntN(20)
		x, y, ux, uy := make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n)
		u := 0.1 + r.Float64()
		for i := range x {
			x[i] = 10 * float64(i)
			y[i] = 7 - 2*x[i] + r.NormFloat64()
			x[i] += r.NormFloat64()
			ux[i], uy[i] = u, 1.5*u
		}
		const lambda = 2.25
		sxx, syy, sxy := stat.Variance(x, nil), stat.Variance(y, nil), stat.Covariance(x, y, nil)
		b := syy - lambda*sxx
		want := (b + math.Sqrt(b*b+4*lambda*sxy*sxy)) / (2 * sxy)
		near(t, "gain", York(x, y, ux, uy, 0.95).Gain.Value, want, 1e-9)
	}
}
