package fill

import "math"

// lower is a lower triangular matrix, its rows packed one after the other.
type lower struct {
	n int
	a []float64
}

func newLower(n int) lower { return lower{n, make([]float64, n*(n+1)/2)} }

// row gives row i up to its diagonal.
func (m lower) row(i int) []float64 {
	start := i * (i + 1) / 2
	return m.a[start : start+i+1]
}

// dot is the inner product of a and of as much of b. Four partial sums let the
// processor add while it multiplies.
func dot(a, b []float64) float64 {
	b = b[:len(a)]
	var s0, s1, s2, s3 float64
	i := 0
	for ; i+4 <= len(a); i += 4 {
		s0 += a[i] * b[i]
		s1 += a[i+1] * b[i+1]
		s2 += a[i+2] * b[i+2]
		s3 += a[i+3] * b[i+3]
	}
	for ; i < len(a); i++ {
		s0 += a[i] * b[i]
	}
	return s0 + s1 + (s2 + s3)
}

// factor replaces the lower half of a symmetric matrix by its Cholesky factor.
// ok is false if the matrix is not positive definite.
func (m lower) factor() (ok bool) {
	for i := 0; i < m.n; i++ {
		ri := m.row(i)
		for j := 0; j < i; j++ {
			rj := m.row(j)
			ri[j] = (ri[j] - dot(ri[:j], rj)) / rj[j]
		}
		d := ri[i] - dot(ri[:i], ri)
		if !(d > 0) {
			return false
		}
		ri[i] = math.Sqrt(d)
	}
	return true
}

// solve replaces b by the solution x of m·x = b.
func (m lower) solve(b []float64) {
	for i := range b {
		r := m.row(i)
		b[i] = (b[i] - dot(r[:i], b)) / r[i]
	}
}

// solveTransposed replaces b by the solution x of mᵀ·x = b.
func (m lower) solveTransposed(b []float64) {
	for i := len(b) - 1; i >= 0; i-- {
		r := m.row(i)
		b[i] /= r[i]
		for k, l := range r[:i] {
			b[k] -= l * b[i]
		}
	}
}

// inverse gives the lower half of the inverse of the matrix whose Cholesky
// factor is m.
func (m lower) inverse() lower {
	// Row i of up is column i of the inverse of m.
	up, inv := make([]float64, m.n*m.n), newLower(m.n)
	for i := 0; i < m.n; i++ {
		x := up[i*m.n : (i+1)*m.n]
		x[i] = 1 / m.row(i)[i]
		for k := i + 1; k < m.n; k++ {
			r := m.row(k)
			x[k] = -dot(r[i:k], x[i:]) / r[k]
		}
		for j := 0; j <= i; j++ {
			inv.row(i)[j] = dot(x[i:], up[j*m.n+i:])
		}
	}
	return inv
}
