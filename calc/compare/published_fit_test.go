package compare

import (
	"math"
	"testing"

	"splittally/calc/matrix"
)

// Lines and means. The package knows the covariance beforehand and so has no
// use for a residual standard deviation; the published fits do, with weights of
// one: s² = χ²/(n − p), and every standard deviation is s times ours.

// unit gives the factor of n independent values with a variance of one each.
func unit(n int) cholesky {
	l := matrix.New(n)
	for i := range n {
		l.Row(i)[i] = 1
	}
	return cholesky{l}
}

type fitted struct{ intercept, slope, s, sIntercept, sSlope, ssr, corr float64 }

// fitLine fits y against x with weights of one.
func fitLine(t *testing.T, x, y []float64) fitted {
	t.Helper()
	line, ok := unit(len(x)).line(x)
	if !ok {
		t.Fatal("no line")
	}
	level, slope := matrix.Dot(line.weights[0], y), matrix.Dot(line.weights[1], y)
	test := line.test(y, nil)
	f := fitted{intercept: level - slope*line.center, slope: slope, ssr: test.ChiSquared}
	f.s = math.Sqrt(test.ChiSquared / float64(test.DoF))
	varLevel := matrix.Dot(line.weights[0], line.weights[0])
	varSlope := matrix.Dot(line.weights[1], line.weights[1])
	f.sSlope = f.s * math.Sqrt(varSlope)
	f.sIntercept = f.s * math.Sqrt(varLevel+line.center*line.center*varSlope)
	f.corr = -line.center * f.s * f.s * varSlope / f.sSlope / f.sIntercept
	return f
}

// NIST Statistical Reference Datasets, linear regression, Norris (lower level
// of difficulty): certified values, relative tolerance 1e-9.
func TestNorris(t *testing.T) {
	f := fitLine(t, norrisX, norrisY)
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"B0", f.intercept, -0.262323073774029},
		{"B1", f.slope, 1.00211681802045},
		{"sd of B0", f.sIntercept, 0.232818234301152},
		{"sd of B1", f.sSlope, 0.429796848199937e-03},
		{"residual sd", f.s, 0.884796396144373},
		{"residual sum of squares", f.ssr, 26.6173985294224},
	} {
		near(t, c.what, c.got, c.want, 1e-9*math.Abs(c.want))
	}
}

// NIST StRD, NoInt1: a line through the origin, as kept in the test suite of
// Apache Commons Math. It is the mean of the ratios y/x whose variances are
// 1/x², as an error pooled over periods is; relative tolerance 1e-12.
func TestNoInt1(t *testing.T) {
	v, ratios := matrix.New(11), make([]float64, 11)
	for i := range ratios {
		x := float64(60 + i)
		v.Row(i)[i], ratios[i] = 1/x/x, (x+70)/x
	}
	l, ok := factor(v.Clone())
	if !ok {
		t.Fatal("not positive definite")
	}
	mean := l.mean()
	w := mean.weights[0]
	slope := matrix.Dot(w, ratios)
	var variance float64
	for i := range w {
		variance += w[i] * w[i] * v.Row(i)[i]
	}
	sse := mean.test(ratios, nil).ChiSquared
	near(t, "B1", slope, 2.07438016528926, 2e-12)
	near(t, "residual sum of squares", sse, 127.272727272727, 1.3e-10)
	near(t, "sd of B1", math.Sqrt(sse/10*variance), 0.0165289256198347, 2e-14)
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
	f := fitLine(t, x, y)
	near(t, "y1 as printed", f.intercept, -0.1712, 0.00005)
	near(t, "y2 as printed", f.slope, 0.00218, 0.000005)
	near(t, "s(y1) as printed", f.sIntercept, 0.0029, 0.00005)
	near(t, "s(y2) as printed", f.sSlope, 0.00067, 0.000005)
	near(t, "s as printed", f.s, 0.0035, 0.00005)
	near(t, "r as printed", f.corr, -0.930, 0.005)
	near(t, "y1", f.intercept, -0.17120379013135, 1e-12)
	near(t, "y2", f.slope, 0.0021826977398872803, 1e-12)
	near(t, "s(y1)", f.sIntercept, 0.0028775978351599572, 1e-12)
	near(t, "s(y2)", f.sSlope, 0.0006679387732278323, 1e-12)
	near(t, "r", f.corr, -0.9304296030934459, 1e-12)
	near(t, "residual sum of squares", f.ssr, 0.00011009658310929732, 1e-12)
}

// The line_fit example in type_a.py of the MSL's GUM Tree Calculator;
// tolerance 1e-9.
func TestLineOfNinePoints(t *testing.T) {
	f := fitLine(t, []float64{1, 2, 3, 4, 5, 6, 7, 8, 9}, []float64{15.6, 17.5, 36.6, 43.8, 58.2, 61.6, 64.2, 70.4, 98.8})
	near(t, "intercept", f.intercept, 4.813888888889, 1e-9)
	near(t, "slope", f.slope, 9.408333333333, 1e-9)
	near(t, "u of the intercept", f.sIntercept, 4.886206312183, 1e-9)
	near(t, "u of the slope", f.sSlope, 0.868301647656, 1e-9)
}

// NIST StRD, univariate summary statistics: certified mean and standard
// deviation (n − 1), as kept in the test suite of Apache Commons Math.
// Tolerances are relative; NumAcc4 is made to show lost digits.
func TestMeansOfNIST(t *testing.T) {
	pairs := func(first, a, b float64) []float64 {
		y := []float64{first}
		for range 500 {
			y = append(y, a, b)
		}
		return y
	}
	for _, c := range []struct {
		name          string
		y             []float64
		mean, s       float64
		tolMean, tolS float64
	}{
		{"NumAcc1", []float64{10000001, 10000003, 10000002}, 10000002, 1, 0, 0},
		{"NumAcc2", pairs(1.2, 1.1, 1.3), 1.2, 0.1, 1e-12, 1e-12},
		{"NumAcc4", pairs(10000000.2, 10000000.1, 10000000.3), 10000000.2, 0.1, 1e-12, 1e-7},
		{"Michelso", michelso, 299.8524, 0.0790105478190518, 1e-12, 1e-10},
		{"Lew", lew, -177.435, 277.332168044316, 1e-12, 1e-10},
	} {
		fit := unit(len(c.y)).mean()
		test := fit.test(c.y, nil)
		near(t, c.name+" mean", matrix.Dot(fit.weights[0], c.y), c.mean, c.tolMean*math.Abs(c.mean))
		near(t, c.name+" s", math.Sqrt(test.ChiSquared/float64(test.DoF)), c.s, c.tolS*c.s)
	}
}
