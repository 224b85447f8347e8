package compare

import "math"

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
