package fit

import (
	"math"
	"testing"

	"splittally/calc/matrix"
)

// near fails the test unless got is within tolerance of want.
func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s = %.15g, want %.15g within %g", what, got, want, tolerance)
	}
}

// York is Both for points of which every x and every y errs for itself, as the
// published examples have them.
func York(x, y, ux, uy []float64, confidence float64) Line {
	return Both(x, y, Independent(ux, uy), confidence)
}

var (
	norrisX = []float64{
		0.2, 337.4, 118.2, 884.6, 10.1, 226.5, 666.3, 996.3, 448.6, 777, 558.2, 0.4, 0.6, 775.5, 666.9, 338, 447.5, 11.6,
		556, 228.1, 995.8, 887.6, 120.2, 0.3, 0.3, 556.8, 339.1, 887.2, 999, 779, 11.1, 118.3, 229.2, 669.1, 448.9, 0.5,
	}
	norrisY = []float64{
		0.1, 338.8, 118.1, 888, 9.2, 228.1, 668.5, 998.5, 449.1, 778.9, 559.2, 0.3, 0.1, 778.1, 668.8, 339.3, 448.9, 10.8,
		557.7, 228.3, 998, 888.8, 119.6, 0.3, 0.6, 557.6, 339.3, 888, 998.5, 778.9, 10.2, 117.6, 228.9, 668.4, 449.2, 0.2,
	}
)

// NIST Statistical Reference Datasets, linear regression, Norris (lower level
// of difficulty): certified values, relative tolerance 1e-9.
func TestNorris(t *testing.T) {
	l := Ordinary(norrisX, norrisY, 0.95)
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"B0", l.Offset.Value, -0.262323073774029},
		{"B1", l.Gain.Value, 1.00211681802045},
		{"sd of B0", l.Offset.Standard, 0.232818234301152},
		{"sd of B1", l.Gain.Standard, 0.429796848199937e-03},
		{"residual sd", l.Residual, 0.884796396144373},
		{"degrees of freedom", float64(l.DoF), 34},
	} {
		near(t, c.what, c.got, c.want, 1e-9*math.Abs(c.want))
	}
}

// JCGM 100:2008 H.3, calibration of a thermometer: printed results to half of
// their last digit, and the full digits in the documentation of the GUM Tree
// Calculator (GUM_H3.rst) to 1e-12.
func TestThermometerH3(t *testing.T) {
	x := []float64{21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.010, 26.511}
	y := []float64{-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.160}
	for i := range x {
		x[i] -= 20
	}
	l := Ordinary(x, y, 0.95)
	near(t, "y1 as printed", l.Offset.Value, -0.1712, 0.00005)
	near(t, "y2 as printed", l.Gain.Value, 0.00218, 0.000005)
	near(t, "s(y1) as printed", l.Offset.Standard, 0.0029, 0.00005)
	near(t, "s(y2) as printed", l.Gain.Standard, 0.00067, 0.000005)
	near(t, "s as printed", l.Residual, 0.0035, 0.00005)
	near(t, "r as printed", l.Correlation, -0.930, 0.0005)
	near(t, "y1", l.Offset.Value, -0.17120379013135, 1e-12)
	near(t, "y2", l.Gain.Value, 0.0021826977398872803, 1e-12)
	near(t, "s(y1)", l.Offset.Standard, 0.0028775978351599572, 1e-12)
	near(t, "s(y2)", l.Gain.Standard, 0.0006679387732278323, 1e-12)
	near(t, "r", l.Correlation, -0.9304296030934459, 1e-12)
}

// The line_fit example in type_a.py of the MSL's GUM Tree Calculator;
// tolerance 1e-9.
func TestLineOfNinePoints(t *testing.T) {
	x := []float64{1, 2, 3, 4, 5, 6, 7, 8, 9}
	l := Ordinary(x, []float64{15.6, 17.5, 36.6, 43.8, 58.2, 61.6, 64.2, 70.4, 98.8}, 0.95)
	near(t, "intercept", l.Offset.Value, 4.813888888889, 1e-9)
	near(t, "slope", l.Gain.Value, 9.408333333333, 1e-9)
	near(t, "u of the intercept", l.Offset.Standard, 4.886206312183, 1e-9)
	near(t, "u of the slope", l.Gain.Standard, 0.868301647656, 1e-9)
	near(t, "degrees of freedom", l.Gain.DoF, 7, 0)
}

// roots gives 1/√w of weights w.
func roots(w ...float64) []float64 {
	for i := range w {
		w[i] = 1 / math.Sqrt(w[i])
	}
	return w
}

// Pearson's data with York's weights (York, Can. J. Phys. 44 (1966) 1079): the
// data and the line as kept in the tests of the MSL's GUM Tree Calculator; ten
// digits of the line, its standard uncertainties at the adjusted points and the
// reduced χ² as kept in the tests of the R package bfsl. York et al., Am. J.
// Phys. 72 (2004) 367, has the first digits of the line (from memory).
func TestPearsonWithYorksWeights(t *testing.T) {
	l := York(
		[]float64{0, 0.9, 1.8, 2.6, 3.3, 4.4, 5.2, 6.1, 6.5, 7.4},
		[]float64{5.9, 5.4, 4.4, 4.6, 3.5, 3.7, 2.8, 2.8, 2.4, 1.5},
		roots(1000, 1000, 500, 800, 200, 80, 60, 20, 1.8, 1),
		roots(1, 1.8, 4, 8, 20, 20, 70, 70, 100, 500), 0.95)
	near(t, "intercept", l.Offset.Value, 5.479910224, 5e-10)
	near(t, "slope", l.Gain.Value, -0.480533407, 5e-10)
	near(t, "u of the intercept", l.Offset.Standard, 0.294970735, 5e-10)
	near(t, "u of the slope", l.Gain.Standard, 0.0579850090, 5e-11)
	near(t, "reduced χ²", l.ChiSquared/float64(l.DoF), 1.483294149, 5e-10)
}

// The examples of ISO/TS 28037:2010, clauses 6.3 and 7.4, in which y or both
// have uncertainties: printed results as quoted in the documentation of the
// MSL's GUM Tree Calculator (ISO_28037), to half of their last digit.
func TestISO28037(t *testing.T) {
	six := []float64{1, 2, 3, 4, 5, 6}
	half := []float64{0.5, 0.5, 0.5, 0.5, 0.5, 0.5}
	for _, c := range []struct {
		clause               string
		x, y, ux, uy         []float64
		a, ua, b, ub, ab, q2 float64
		digits               float64
	}{
		{
			"6.3, equal weights", six,
			[]float64{3.3, 5.6, 7.1, 9.3, 10.7, 12.1},
			nil, half,
			1.867, 0.465, 1.757, 0.120, -0.050, 1.665, 0.0005,
		},
		{
			"6.3, unequal weights", six,
			[]float64{3.2, 4.3, 7.6, 8.6, 11.7, 12.8},
			nil,
			[]float64{0.5, 0.5, 0.5, 1, 1, 1},
			0.885, 0.530, 2.057, 0.178, -0.082, 4.131, 0.0005,
		},
		{
			"7.4",
			[]float64{1.2, 1.9, 2.9, 4, 4.7, 5.9},
			[]float64{3.4, 4.4, 7.2, 8.5, 10.8, 13.5},
			[]float64{0.2, 0.2, 0.2, 0.2, 0.2, 0.2},
			[]float64{0.2, 0.2, 0.2, 0.4, 0.4, 0.4},
			0.5788, 0.4764, 2.1597, 0.1355, -0.0577, 2.743, 0.00005,
		},
	} {
		l := York(c.x, c.y, c.ux, c.uy, 0.95)
		near(t, c.clause+": a", l.Offset.Value, c.a, c.digits)
		near(t, c.clause+": u(a)", l.Offset.Standard, c.ua, c.digits)
		near(t, c.clause+": b", l.Gain.Value, c.b, c.digits)
		near(t, c.clause+": u(b)", l.Gain.Standard, c.ub, c.digits)
		near(t, c.clause+": u(a, b)", l.Correlation*l.Offset.Standard*l.Gain.Standard, c.ab, c.digits)
		near(t, c.clause+": χ²", l.ChiSquared, c.q2, 0.0005)
		near(t, c.clause+": degrees of freedom", float64(l.DoF), 4, 0)
	}
}

// The example of ISO/TS 28037:2010 clause 10, full covariance of x and of y:
// data as in a port to R of NPL's software for it; the printed results from
// memory.
func TestISO28037FullCovariance(t *testing.T) {
	xx := [][]float64{
		{0.5},
		{0, 1.25},
		{0.25, 1, 1.5},
		{0, 0, 0, 1.25},
		{0.25, 0, 0.25, 1, 1.5},
		{0, 1, 1, 1, 1, 2.25},
		{0.25, 1, 1.25, 1, 1.25, 2, 2.5},
	}
	c := Covariance{XX: matrix.New(7), YY: matrix.New(7)}
	for i, row := range xx {
		copy(c.XX.Row(i), row)
		for j := range row {
			c.YY.Row(i)[j] = 1
		}
		c.YY.Row(i)[i] = 5
	}
	l := Both(
		[]float64{50.4, 99, 149.9, 200.4, 248.5, 299.7, 349.1},
		[]float64{52.3, 97.8, 149.7, 200.1, 250.4, 300.9, 349.2}, c, 0.95)
	near(t, "a", l.Offset.Value, 0.3424, 0.00005)
	near(t, "b", l.Gain.Value, 1.0012, 0.00005)
	near(t, "u(a)", l.Offset.Standard, 2.0569, 0.00005)
	near(t, "u(b)", l.Gain.Standard, 0.0090, 0.00005)
	near(t, "u(a, b)", l.Correlation*l.Offset.Standard*l.Gain.Standard, -0.0129, 0.00005)
	near(t, "χ²", l.ChiSquared, 1.772, 0.0005)
}
