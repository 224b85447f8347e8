package compare

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat"
	"splittally/calc/matrix"
)

// Against gonum, a general-purpose library: 1,000 random sets of 2 to 12
// values.

// randomCovariance gives sources of n values, some of them common to
// neighbours, and their covariance.
func randomCovariance(random *rand.Rand, n int) ([]source, matrix.Lower) {
	var sources []source
	for i := range n {
		own := make([]float64, n)
		own[i] = 0.1 + random.Float64()
		sources = append(sources, source{own, own, math.Inf(1)})
		if i > 0 {
			pair := make([]float64, n)
			pair[i-1], pair[i] = -random.Float64(), random.Float64()
			sources = append(sources, source{pair, pair, math.Inf(1)})
		}
	}
	return sources, covariance(sources, n)
}

func symmetric(v matrix.Lower) *mat.SymDense {
	s := mat.NewSymDense(v.Order(), nil)
	for i := range v.Order() {
		for j, x := range v.Row(i) {
			s.SetSym(i, j, x)
		}
	}
	return s
}

func TestFitAgainstGonumMat(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 8))
	for range 1000 {
		n := 2 + random.IntN(11)
		sources, v := randomCovariance(random, n)
		x, y := make([]float64, n), make([]float64, n)
		for i := range x {
			x[i], y[i] = 20000+30*float64(i)+10*random.Float64(), 3*random.NormFloat64()
		}
		l, ok := factor(v.Clone())
		if !ok {
			t.Fatal("not positive definite")
		}
		var c mat.Cholesky
		if !c.Factorize(symmetric(v)) {
			t.Fatal("gonum finds it not positive definite")
		}

		// Solve, and the least-squares mean.
		var solved, inverseOnes mat.VecDense
		_ = c.SolveVecTo(&solved, mat.NewVecDense(n, y))
		_ = c.SolveVecTo(&inverseOnes, mat.NewVecDense(n, ones(n)))
		for i, s := range l.Solved(y) {
			near(t, "solve", s, solved.AtVec(i), 1e-9*(1+math.Abs(s)))
		}
		mean := mat.Dot(&inverseOnes, mat.NewVecDense(n, y)) / mat.Sum(&inverseOnes)
		near(t, "mean", matrix.Dot(l.mean().weights[0], y), mean, 1e-9)

		// χ² about the mean, by the Mahalanobis distance.
		means := ones(n)
		for i := range means {
			means[i] = mean
		}
		distance := stat.Mahalanobis(mat.NewVecDense(n, y), mat.NewVecDense(n, means), &c)
		near(t, "χ²", l.mean().test(y, sources).ChiSquared, distance*distance, 1e-8*(1+distance*distance))

		// The line, from the normal equations XᵀV⁻¹X·b = XᵀV⁻¹y.
		design := mat.NewDense(n, 2, nil)
		for i := range x {
			design.Set(i, 0, 1)
			design.Set(i, 1, x[i]-20000) // gonum's way has no centre of its own
		}
		var vx, xvx, b mat.Dense
		_ = c.SolveTo(&vx, design)
		xvx.Mul(design.T(), &vx)
		var xvy mat.Dense
		xvy.Mul(vx.T(), mat.NewVecDense(n, y))
		if err := b.Solve(&xvx, &xvy); err != nil {
			t.Fatal(err)
		}
		line, _ := l.line(x)
		near(t, "slope", matrix.Dot(line.weights[1], y), b.At(1, 0), 1e-9)
		near(t, "level", matrix.Dot(line.weights[0], y), b.At(0, 0)+b.At(1, 0)*(line.center-20000), 1e-8)
	}
}

func TestFitAgainstGonumStat(t *testing.T) {
	random := rand.New(rand.NewPCG(13, 21))
	for range 1000 {
		n := 3 + random.IntN(20)
		v, weights := matrix.New(n), make([]float64, n)
		x, y := make([]float64, n), make([]float64, n)
		for i := range n {
			variance := 0.01 + random.ExpFloat64()
			v.Row(i)[i], weights[i] = variance, 1/variance
			x[i], y[i] = 1000*random.Float64(), random.NormFloat64()
		}
		l, _ := factor(v)
		near(t, "mean", matrix.Dot(l.mean().weights[0], y), stat.Mean(y, weights), 1e-12)
		intercept, beta := stat.LinearRegression(x, y, weights, false)
		line, _ := l.line(x)
		slope := matrix.Dot(line.weights[1], y)
		near(t, "slope", slope, beta, 1e-10)
		near(t, "intercept", matrix.Dot(line.weights[0], y)-slope*line.center, intercept, 1e-7)
		near(t, "variance", unit(n).mean().test(y, nil).ChiSquared/float64(n-1), stat.Variance(y, nil), 1e-12)
	}
}

// What is common to all values, even in unequal measure, may be dropped: χ²
// about the least-squares mean and the slope are those of the full covariance.
func TestDroppingTheCommonChangesNoContrast(t *testing.T) {
	random := rand.New(rand.NewPCG(2, 3))
	for range 1000 {
		n := 3 + random.IntN(8)
		sources, _ := randomCovariance(random, n)
		common, x, y := make([]float64, n), make([]float64, n), make([]float64, n)
		for i := range y {
			common[i] = -1 - random.Float64()
			x[i], y[i] = 30*float64(i), random.NormFloat64()
		}
		full, _ := factor(covariance(append(sources, source{own: common}), n))
		less, _ := factor(covariance(append(sources, source{own: withoutCommon(common)}), n))
		a, b := full.mean().test(y, nil).ChiSquared, less.mean().test(y, nil).ChiSquared
		near(t, "χ²", b, a, 1e-8*(1+a))
		lineFull, _ := full.line(x)
		lineLess, _ := less.line(x)
		near(t, "slope", matrix.Dot(lineLess.weights[1], y), matrix.Dot(lineFull.weights[1], y), 1e-9)
	}
}
