package fit

import (
	"math"

	"splittally/calc/matrix"
	"splittally/calc/uncertainty"
)

// Ordinary fits a line by least squares of y, all of equal weight: with x about
// their mean x̄ and s² = Σr²/(n − 2)
//
//	gain = Σx·y/Σx²,  u(gain) = s/√Σx²,  u(offset) = s·√(1/n + x̄²/Σx²)
//
// as JCGM 100:2008 H.3 has it. x count as exact. Intervals are by Student's t
// with n − 2 degrees of freedom; two points leave none, and so are too few.
// confidence is a fraction, 0.95 for 95 %.
func Ordinary(x, y []float64, confidence float64) Line {
	if why := refused(x, y, 3); why != "" {
		return Line{Why: why}
	}
	dx, mx := about(x)
	dy, my := about(y)
	if alike(dx, mx) {
		return Line{Why: Alike}
	}
	n, squares := float64(len(x)), matrix.Dot(dx, dx)
	gain := matrix.Dot(dx, dy) / squares
	rest := 0.0
	for i := range dx {
		r := dy[i] - gain*dx[i]
		rest += r * r
	}
	s := math.Sqrt(rest / (n - 2))
	uGain, uOffset := s/math.Sqrt(squares), s*math.Sqrt(1/n+mx*mx/squares)
	l := Line{
		Known: true, DoF: len(x) - 2, P: 1, Residual: s,
		Offset: value(my-gain*mx, uOffset, n-2, confidence),
		Gain:   value(gain, uGain, n-2, confidence),
		// By the geometry of x alone, so that it is there without scatter too.
		Correlation: -mx / math.Hypot(math.Sqrt(squares/n), mx),
	}
	return checked(l)
}

func value(v, standard, dof, confidence float64) Value {
	return Value{Value: v, Standard: standard, Expanded: standard * uncertainty.Coverage(confidence, dof), DoF: dof}
}
