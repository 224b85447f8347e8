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

// dot is the inner product of a and of as much of b.
func dot(a, b []float64) float64 {
	var s0, s1, s2, s3 float64
	b = b[:len(a)]
	for len(a) >= 4 && len(b) >= 4 {
		s0 += a[0] * b[0]
		s1 += a[1] * b[1]
		s2 += a[2] * b[2]
		s3 += a[3] * b[3]
		a, b = a[4:], b[4:]
	}
	for i, x := range a {
		s0 += x * b[i]
	}
	return s0 + s1 + (s2 + s3)
}

// dots gives the inner products of x and of as much of each of four rows. One
// pass over x for four rows is what makes factor and inverse fast.
func dots(x, a, b, c, d []float64) (sa, sb, sc, sd float64) {
	a, b, c, d = a[:len(x)], b[:len(x)], c[:len(x)], d[:len(x)]
	for i, y := range x {
		sa += a[i] * y
		sb += b[i] * y
		sc += c[i] * y
		sd += d[i] * y
	}
	return sa, sb, sc, sd
}

// factor replaces the lower half of a symmetric matrix by its Cholesky factor.
// ok is false if the matrix is not positive definite.
func (m lower) factor() (ok bool) {
	for i := 0; i < m.n; i++ {
		ready := 0 // columns of row i that are done
		if full := m.n &^ 3; i < full {
			ready = i &^ 3
			if ready == i {
				m.factorFour(i)
			}
		}
		r := m.row(i)
		for j := ready; j < i; j++ {
			s := m.row(j)
			r[j] = (r[j] - dot(r[:j], s)) / s[j]
		}
		d := r[i] - dot(r[:i], r)
		if !(d > 0) {
			return false
		}
		r[i] = math.Sqrt(d)
	}
	return true
}

// factorFour does the first i columns of rows i to i+3.
func (m lower) factorFour(i int) {
	a, b, c, d := m.row(i), m.row(i+1), m.row(i+2), m.row(i+3)
	for j := range i {
		r := m.row(j)
		sa, sb, sc, sd := dots(r[:j], a, b, c, d)
		x := 1 / r[j]
		a[j], b[j], c[j], d[j] = (a[j]-sa)*x, (b[j]-sb)*x, (c[j]-sc)*x, (d[j]-sd)*x
	}
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
	// The inverse of m by columns, four at a time: column i is up[i], and up
	// to place i it is zero. Columns past the last are only there to make four.
	up := make([][]float64, (m.n+3)&^3)
	room := make([]float64, len(up)*m.n)
	for i := range up {
		up[i] = room[i*m.n : (i+1)*m.n]
	}
	for i := 0; i < m.n; i += 4 {
		a, b, c, d := up[i], up[i+1], up[i+2], up[i+3]
		for k := i; k < m.n; k++ {
			r := m.row(k)
			x := -1 / r[k]
			sa, sb, sc, sd := dots(r[i:k], a[i:], b[i:], c[i:], d[i:])
			a[k], b[k], c[k], d[k] = sa*x, sb*x, sc*x, sd*x
			if k < i+4 {
				up[k][k] = -x
			}
		}
	}
	inv := newLower(m.n)
	for i := range m.n {
		r, x := inv.row(i), up[i][i:]
		for j := 0; j <= i; j += 4 {
			var s [4]float64
			s[0], s[1], s[2], s[3] = dots(x, up[j][i:], up[j+1][i:], up[j+2][i:], up[j+3][i:])
			copy(r[j:], s[:])
		}
	}
	return inv
}
