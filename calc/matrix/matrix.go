// Package matrix solves with symmetric positive definite matrices, such as
// covariances, by their Cholesky factor.
//
// Fill a Lower with the lower half of a matrix A and call Factor: it then holds
// L with A = L·Lᵀ, and the other methods answer for A. Matrices here have tens
// of rows; a library for all kinds would cost the engine more bytes than the
// rooms that call this one.
package matrix

import "math"

// Lower is a lower triangular matrix, its rows packed one after the other. It
// is the lower half of a symmetric matrix until Factor makes it the factor.
// Copies share their numbers; Clone gives one that does not.
type Lower struct {
	n int
	a []float64
}

// New gives a matrix of n rows, all zero.
func New(n int) Lower { return Lower{n, make([]float64, n*(n+1)/2)} }

// Order is the number of rows.
func (m Lower) Order() int { return m.n }

// Row gives row i up to its diagonal, to be read or filled.
func (m Lower) Row(i int) []float64 {
	start := i * (i + 1) / 2
	return m.a[start : start+i+1]
}

// Clone gives a copy with numbers of its own.
func (m Lower) Clone() Lower { return Lower{m.n, append([]float64(nil), m.a...)} }

// AddSquare adds weight·c·cᵀ to a matrix that is not factored yet.
func (m Lower) AddSquare(c []float64, weight float64) {
	for i, a := range c {
		if a == 0 {
			continue
		}
		for j, row := 0, m.Row(i); j <= i; j++ {
			row[j] += weight * a * c[j]
		}
	}
}

// Dot is the inner product of a and of as much of b.
func Dot(a, b []float64) float64 {
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
// pass over x for four rows is what makes Factor and Inverse fast.
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

// Factor replaces the lower half of a symmetric matrix by its Cholesky factor.
// ok is false if the matrix is not positive definite, or not finite; what m
// holds then is of no use.
func (m Lower) Factor() (ok bool) { return m.FactorWithin(0) }

// FactorWithin is Factor, but refuses a matrix too that is positive definite
// only by rounding: one where given the rows before it a row keeps no more than
// the fraction relative of its own variance. Some mix of the values of such a
// covariance has no uncertainty at all. 1e-12 suits tens of rows.
func (m Lower) FactorWithin(relative float64) (ok bool) {
	for i := 0; i < m.n; i++ {
		ready := 0 // columns of row i that are done
		if full := m.n &^ 3; i < full {
			ready = i &^ 3
			if ready == i {
				m.factorFour(i)
			}
		}
		r := m.Row(i)
		for j := ready; j < i; j++ {
			s := m.Row(j)
			r[j] = (r[j] - Dot(r[:j], s)) / s[j]
		}
		d := r[i] - Dot(r[:i], r)
		if !(d > relative*r[i]) || math.IsInf(d, 0) {
			return false
		}
		r[i] = math.Sqrt(d)
	}
	return true
}

// factorFour does the first i columns of rows i to i+3.
func (m Lower) factorFour(i int) {
	a, b, c, d := m.Row(i), m.Row(i+1), m.Row(i+2), m.Row(i+3)
	for j := range i {
		r := m.Row(j)
		sa, sb, sc, sd := dots(r[:j], a, b, c, d)
		x := 1 / r[j]
		a[j], b[j], c[j], d[j] = (a[j]-sa)*x, (b[j]-sb)*x, (c[j]-sc)*x, (d[j]-sd)*x
	}
}

// Solve replaces b by the solution x of L·x = b. Then bᵀ·b is what
// Quadratic gives for the old b.
func (m Lower) Solve(b []float64) {
	for i := range b {
		r := m.Row(i)
		b[i] = (b[i] - Dot(r[:i], b)) / r[i]
	}
}

// SolveTransposed replaces b by the solution x of Lᵀ·x = b. After Solve it
// completes the solution of A·x = b.
func (m Lower) SolveTransposed(b []float64) {
	for i := len(b) - 1; i >= 0; i-- {
		r := m.Row(i)
		b[i] /= r[i]
		for k, l := range r[:i] {
			b[k] -= l * b[i]
		}
	}
}

// Solved gives the solution x of A·x = b and leaves b as it is.
func (m Lower) Solved(b []float64) []float64 {
	x := append([]float64(nil), b...)
	m.Solve(x)
	m.SolveTransposed(x)
	return x
}

// Towards gives A⁻¹·c / (cᵀ·A⁻¹·c): the weights that give the size of c in
// values with covariance A, by least squares.
func (m Lower) Towards(c []float64) []float64 {
	w := m.Solved(c)
	size := Dot(w, c)
	for i := range w {
		w[i] /= size
	}
	return w
}

// Quadratic gives bᵀ·A⁻¹·b and leaves b as it is: the χ² of remainders b with
// covariance A.
func (m Lower) Quadratic(b []float64) float64 {
	x := append([]float64(nil), b...)
	m.Solve(x)
	return Dot(x, x)
}

// LogDet gives the natural logarithm of the determinant of A.
func (m Lower) LogDet() float64 {
	sum := 0.0
	for i := range m.n {
		sum += math.Log(m.Row(i)[i])
	}
	return 2 * sum
}

// Inverse gives the lower half of A⁻¹.
func (m Lower) Inverse() Lower {
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
			r := m.Row(k)
			x := -1 / r[k]
			sa, sb, sc, sd := dots(r[i:k], a[i:], b[i:], c[i:], d[i:])
			a[k], b[k], c[k], d[k] = sa*x, sb*x, sc*x, sd*x
			if k < i+4 {
				up[k][k] = -x
			}
		}
	}
	inv := New(m.n)
	for i := range m.n {
		r, x := inv.Row(i), up[i][i:]
		for j := 0; j <= i; j += 4 {
			var s [4]float64
			s[0], s[1], s[2], s[3] = dots(x, up[j][i:], up[j+1][i:], up[j+2][i:], up[j+3][i:])
			copy(r[j:], s[:])
		}
	}
	return inv
}
