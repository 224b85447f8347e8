package fit

import (
	"math"

	"splittally/calc/matrix"
	"splittally/calc/uncertainty"
)

// Covariance says how uncertain n points are and how their errors hang
// together: what the matrices hold and what Causes do, added. What is left at
// its zero value is no uncertainty.
type Covariance struct {
	XX, YY matrix.Lower // lower halves, of x among themselves and of y, not factored
	XY     [][]float64  // XY[i][j] is the covariance of x_i and y_j
	Causes []Cause
}

// Cause is one cause of doubt and what it does to the points: its standard
// contributions to every x and every y, with their signs. nil is nothing.
type Cause struct {
	X, Y []float64
	DoF  float64 // degrees of freedom if its size was estimated from data; 0 and +Inf if not
}

// Independent gives the covariance of points of which every x and every y errs
// for itself, from standard uncertainties. nil is no uncertainty.
func Independent(ux, uy []float64) Covariance {
	return Covariance{XX: diagonal(ux), YY: diagonal(uy)}
}

func diagonal(u []float64) matrix.Lower {
	m := matrix.New(len(u))
	for i, s := range u {
		m.Row(i)[i] = s * s
	}
	return m
}

// Covariances gathers what the budgets of x and y, point by point, say of how
// the points hang together. Parts of one Source are one cause wherever they
// stand, and their contributions keep their signs; a part without a Source is
// alone. There must be as many budgets of x as of y.
func Covariances(x, y []uncertainty.Budget) Covariance {
	n := len(x)
	c := Independent(make([]float64, n), make([]float64, n))
	at := map[string]int{}
	gather := func(budgets []uncertainty.Budget, own matrix.Lower, side func(*Cause) []float64) {
		for i, b := range budgets {
			for _, p := range b.Merged() {
				if p.Source == "" && math.IsInf(p.DoF, 1) {
					own.Row(i)[i] += p.Standard * p.Standard
					continue
				}
				k, seen := at[p.Source]
				if !seen || p.Source == "" {
					k = len(c.Causes)
					at[p.Source] = k
					c.Causes = append(c.Causes, Cause{make([]float64, n), make([]float64, n), math.Inf(1)})
				}
				side(&c.Causes[k])[i] = p.Standard
				c.Causes[k].DoF = min(c.Causes[k].DoF, p.DoF)
			}
		}
	}
	gather(x, c.XX, func(s *Cause) []float64 { return s.X })
	gather(y, c.YY, func(s *Cause) []float64 { return s.Y })
	return c
}

// filled gives c with matrices and contributions for n points where it had
// none, and without causes that do nothing. ok is false if it is of another
// number of points, or not finite.
func (c Covariance) filled(n int) (f Covariance, ok bool) {
	f = Covariance{XX: sized(c.XX, n), YY: sized(c.YY, n), XY: c.XY}
	if f.XX.Order() != n || f.YY.Order() != n || len(c.XY) != 0 && len(c.XY) != n {
		return f, false
	}
	for i := range n {
		if !finite(f.XX.Row(i)...) || !finite(f.YY.Row(i)...) {
			return f, false
		}
	}
	for _, row := range c.XY {
		if len(row) != n || !finite(row...) {
			return f, false
		}
	}
	for _, s := range c.Causes {
		if s.X == nil {
			s.X = make([]float64, n)
		}
		if s.Y == nil {
			s.Y = make([]float64, n)
		}
		if len(s.X) != n || len(s.Y) != n || !finite(s.X...) || !finite(s.Y...) {
			return f, false
		}
		if matrix.Dot(s.X, s.X)+matrix.Dot(s.Y, s.Y) == 0 {
			continue
		}
		if !(s.DoF > 0) {
			s.DoF = math.Inf(1)
		}
		f.Causes = append(f.Causes, s)
	}
	return f, true
}

func sized(m matrix.Lower, n int) matrix.Lower {
	if m.Order() == 0 {
		return matrix.New(n)
	}
	return m
}

// without gives c less what its causes do to all x or to all y alike, along the
// line: for points about x, the part of one-signed contributions that a line
// could take up.
//
// What shifts or tilts all points together can't scatter them about a line, so
// offset and gain and χ² come out the same with it or without it, and it is
// added to their uncertainty afterwards. But a cause that is a percentage of
// each reading contributes a little more where the reading strays upward, and
// least squares would use that to pull the line below the points.
func (c Covariance) without(x []float64) Covariance {
	own := c
	own.Causes = make([]Cause, len(c.Causes))
	for i, s := range c.Causes {
		own.Causes[i] = Cause{offLine(s.X, x), offLine(s.Y, x), s.DoF}
	}
	return own
}

// offLine gives what a line through a leaves of it, if all of a has one sign; x
// are about their mean.
func offLine(a, x []float64) []float64 {
	lo, hi := a[0], a[0]
	for _, v := range a {
		lo, hi = min(lo, v), max(hi, v)
	}
	if lo <= 0 && hi >= 0 {
		return a
	}
	off, _ := about(a)
	slope := matrix.Dot(off, x) / matrix.Dot(x, x)
	for i := range off {
		off[i] -= slope * x[i]
		// Nothing but rounding is nothing.
		if math.Abs(off[i]) < 1e-12*math.Abs(a[i]) {
			off[i] = 0
		}
	}
	return off
}

// along gives what cause s does to y − gain·x.
func (s Cause) along(gain float64) []float64 {
	d := make([]float64, len(s.Y))
	for i := range d {
		d[i] = s.Y[i] - gain*s.X[i]
	}
	return d
}

// remainder gives the covariance of y − gain·x as far as the matrices have it,
//
//	YY − gain·(XY + XYᵀ) + gain²·XX
func (c Covariance) remainder(gain float64) matrix.Lower {
	v := matrix.New(c.YY.Order())
	for i := range v.Order() {
		row, xx, yy := v.Row(i), c.XX.Row(i), c.YY.Row(i)
		for j := range row {
			row[j] = yy[j] + gain*gain*xx[j]
			if c.XY != nil {
				row[j] -= gain * (c.XY[i][j] + c.XY[j][i])
			}
		}
	}
	return v
}

// crossed gives (XY − gain·XX)·q, the causes counted in: how x goes with the
// remainders.
func (c Covariance) crossed(gain float64, q []float64) []float64 {
	sum := make([]float64, len(q))
	for i := range q {
		for j, xx := range c.XX.Row(i) {
			sum[i] -= gain * xx * q[j]
			if j < i {
				sum[j] -= gain * xx * q[i]
			}
		}
		if c.XY != nil {
			sum[i] += matrix.Dot(c.XY[i], q)
		}
	}
	for _, s := range c.Causes {
		d := matrix.Dot(s.along(gain), q)
		for i, x := range s.X {
			sum[i] += x * d
		}
	}
	return sum
}
