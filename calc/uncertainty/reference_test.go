package uncertainty

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"
)

// Against gonum's stat/distuv, a general-purpose library: 1,000 random
// confidences, degrees of freedom and statistics. The CDFs are used backwards
// here, so a wrong inverse would show.
func TestAgainstGonum(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	for range 1000 {
		p := 0.5 + 0.4999*random.Float64()
		dof := math.Exp(12*random.Float64() - 0.5) // 0.6 to 100,000
		student := distuv.StudentsT{Sigma: 1, Nu: dof}
		k := Coverage(p, dof)
		near(t, "held by ±k", student.CDF(k)-student.CDF(-k), p, 1e-10)

		x := 5 * random.NormFloat64()
		near(t, "beyond ±t", TwoSidedT(x, dof), 2*student.CDF(-math.Abs(x)), 1e-14)
		near(t, "beyond ±z", TwoSidedT(x, math.Inf(1)), 2*distuv.UnitNormal.CDF(-math.Abs(x)), 1e-14)

		n := float64(1 + random.IntN(30))
		chi2 := n * random.ExpFloat64()
		near(t, "above χ²", AboveF(chi2, n, math.Inf(1)), distuv.ChiSquared{K: n}.Survival(chi2), 1e-13)
		near(t, "above F", AboveF(chi2, n, dof), 1-distuv.F{D1: n, D2: dof}.CDF(chi2/n), 1e-10)
	}
}
