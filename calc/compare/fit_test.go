package compare

import (
	"math"
	"math/rand/v2"
	"testing"

	"splittally/calc/uncertainty"
)

// Welch's analysis of variance in its textbook form (Biometrika 38 (1951) 330,
// from memory), for independent means of variances v known from ν degrees of
// freedom each; the test is written quite otherwise, for any covariance.
func TestConsistencyIsWelchsAnalysisOfVariance(t *testing.T) {
	random := rand.New(rand.NewPCG(31, 37))
	for range 200 {
		k := 2 + random.IntN(6)
		y, w, nu := make([]float64, k), make([]float64, k), make([]float64, k)
		sources := make([]source, k)
		var sum, mean float64
		for i := range y {
			y[i], nu[i] = random.NormFloat64(), float64(2+random.IntN(9))
			w[i] = 0.5 + random.ExpFloat64()
			own := make([]float64, k)
			own[i] = 1 / math.Sqrt(w[i])
			sources[i] = source{own, own, nu[i]}
			sum += w[i]
			mean += w[i] * y[i]
		}
		mean /= sum
		var between, lambda float64
		for i := range y {
			between += w[i] * (y[i] - mean) * (y[i] - mean)
			lambda += (1 - w[i]/sum) * (1 - w[i]/sum) / nu[i]
		}
		n := float64(k)
		f := between / (n - 1) / (1 + 2*(n-2)/(n*n-1)*lambda)
		dof := (n*n - 1) / (3 * lambda)
		want := uncertainty.AboveF(f*(n-1), n-1, dof)

		l, _ := factor(covariance(sources, k))
		got := l.mean().test(y, sources)
		near(t, "p", got.P, want, 1e-12)
		near(t, "dof", got.VarianceDoF, dof, 1e-9*dof)
	}
}

func TestLineWantsDifferentTimes(t *testing.T) {
	if _, ok := unit(3).line([]float64{20015, 20015, 20015}); ok {
		t.Error("a slope over no time")
	}
	f, ok := unit(2).line([]float64{-15, 15})
	if !ok || f.center != 0 {
		t.Errorf("around zero: center %g, %v", f.center, ok)
	}
}
