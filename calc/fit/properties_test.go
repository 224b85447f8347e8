package fit

import (
	"math"
	"testing"

	"pgregory.net/rapid"
	"splittally/calc/matrix"
)

// cloud is points about a line with covariance, the causes of which are drawn
// at random: its own for each x and y, and some that several share.
type cloud struct {
	x, y   []float64
	causes []Cause
}

func drawCloud(t *rapid.T) cloud {
	n := rapid.IntRange(3, 12).Draw(t, "n")
	small := rapid.Float64Range(-1, 1)
	size := rapid.Float64Range(0.2, 2)
	var c cloud
	gain := rapid.SampledFrom([]float64{-2, -0.5, 0.3, 1, 1.05, 4}).Draw(t, "gain")
	for i := range n {
		c.x = append(c.x, 20*float64(i)+3*small.Draw(t, "dx"))
		c.y = append(c.y, 5+gain*20*float64(i)+3*small.Draw(t, "dy"))
		mine := Cause{X: make([]float64, n), Y: make([]float64, n)}
		mine.X[i] = size.Draw(t, "ux")
		his := Cause{X: make([]float64, n), Y: make([]float64, n)}
		his.Y[i] = size.Draw(t, "uy")
		c.causes = append(c.causes, mine, his)
		if i > 0 { // of neighbours, in both x and y
			shared := Cause{X: make([]float64, n), Y: make([]float64, n)}
			shared.X[i-1], shared.X[i] = -0.9, 0.9
			shared.Y[i-1], shared.Y[i] = 0.4, -0.4
			c.causes = append(c.causes, shared)
		}
	}
	return c
}

// matrices gives the covariance that the causes make.
func (c cloud) matrices() Covariance {
	n := len(c.x)
	m := Covariance{XX: matrix.New(n), YY: matrix.New(n), XY: make([][]float64, n)}
	for i := range n {
		m.XY[i] = make([]float64, n)
		for _, s := range c.causes {
			for j := range n {
				m.XY[i][j] += s.X[i] * s.Y[j]
				if j <= i {
					m.XX.Row(i)[j] += s.X[i] * s.X[j]
					m.YY.Row(i)[j] += s.Y[i] * s.Y[j]
				}
			}
		}
	}
	return m
}

func (c cloud) fit() Line { return Both(c.x, c.y, Covariance{Causes: c.causes}, 0.95) }

func same(t *rapid.T, what string, got, want float64) {
	t.Helper()
	if !(math.Abs(got-want) <= 1e-7*(1e-3+math.Abs(want))) {
		t.Fatalf("%s = %.12g, want %.12g", what, got, want)
	}
}

func alikeLines(t *rapid.T, got, want Line) {
	t.Helper()
	if !got.Known || !want.Known {
		t.Fatalf("known: %v (%s), %v (%s)", got.Known, got.Why, want.Known, want.Why)
	}
	same(t, "offset", got.Offset.Value, want.Offset.Value)
	same(t, "u(offset)", got.Offset.Standard, want.Offset.Standard)
	same(t, "U(offset)", got.Offset.Expanded, want.Offset.Expanded)
	same(t, "gain", got.Gain.Value, want.Gain.Value)
	same(t, "u(gain)", got.Gain.Standard, want.Gain.Standard)
	same(t, "U(gain)", got.Gain.Expanded, want.Gain.Expanded)
	same(t, "correlation", got.Correlation, want.Correlation)
	same(t, "χ²", got.ChiSquared, want.ChiSquared)
	same(t, "P", got.P, want.P)
}

func TestCausesAreTheirMatrices(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := drawCloud(t)
		alikeLines(t, Both(c.x, c.y, c.matrices(), 0.95), c.fit())
	})
}

// x and y changed over: the same line, read the other way.
func TestSwappedLineIsInverse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := drawCloud(t)
		l := c.fit()
		s := cloud{x: c.y, y: c.x}
		for _, k := range c.causes {
			s.causes = append(s.causes, Cause{X: k.Y, Y: k.X})
		}
		back := s.fit()
		same(t, "gain", back.Gain.Value, 1/l.Gain.Value)
		same(t, "offset", back.Offset.Value, -l.Offset.Value/l.Gain.Value)
		same(t, "relative u(gain)", back.Gain.Standard/math.Abs(back.Gain.Value), l.Gain.Standard/math.Abs(l.Gain.Value))
		same(t, "χ²", back.ChiSquared, l.ChiSquared)
	})
}

// Other units and another origin of x and y change the line as they should.
func TestUnitsAndOrigins(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := drawCloud(t)
		l := c.fit()
		kx, ky := rapid.SampledFrom([]float64{1e-6, 0.1, 1000, 1e9}).Draw(t, "kx"), rapid.SampledFrom([]float64{-1, 1e-3, 3.6}).Draw(t, "ky")
		x0, y0 := rapid.Float64Range(-1e5, 1e5).Draw(t, "x0"), rapid.Float64Range(-1e5, 1e5).Draw(t, "y0")
		m := cloud{}
		for i := range c.x {
			m.x = append(m.x, kx*(c.x[i]+x0))
			m.y = append(m.y, ky*(c.y[i]+y0))
		}
		for _, k := range c.causes {
			var s Cause
			for i := range c.x {
				s.X, s.Y = append(s.X, kx*k.X[i]), append(s.Y, ky*k.Y[i])
			}
			m.causes = append(m.causes, s)
		}
		got := m.fit()
		same(t, "gain", got.Gain.Value, l.Gain.Value*ky/kx)
		same(t, "u(gain)", got.Gain.Standard, l.Gain.Standard*math.Abs(ky)/kx)
		same(t, "χ²", got.ChiSquared, l.ChiSquared)
		// Both lines at one place, as far from the points as the origins are apart.
		at := 100.0
		there := got.Offset.Value + got.Gain.Value*kx*(at+x0)
		here := ky * (l.Offset.Value + l.Gain.Value*at + y0)
		if math.Abs(there-here) > 1e-8*math.Abs(ky)*(1+math.Abs(x0)+math.Abs(y0)) {
			t.Fatalf("at %g: %g, want %g", at, there, here)
		}
	})
}

// What is common to all points widens the result and moves nothing.
func TestCommonCausesMoveNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := drawCloud(t)
		l := c.fit()
		shift, tilt := Cause{}, Cause{}
		for _, x := range c.x {
			shift.Y = append(shift.Y, 7)
			tilt.Y = append(tilt.Y, 0.02*(100+x))
		}
		more := Both(c.x, c.y, Covariance{Causes: append(c.causes, shift, tilt)}, 0.95)
		same(t, "offset", more.Offset.Value, l.Offset.Value)
		same(t, "gain", more.Gain.Value, l.Gain.Value)
		same(t, "χ²", more.ChiSquared, l.ChiSquared)
		// The points' place along the line is estimated too, so that tilt reaches
		// the gain by somewhat more or less than 0.02.
		least, most := math.Hypot(l.Gain.Standard, 0.6*0.02), math.Hypot(l.Gain.Standard, 1.4*0.02)
		if u := more.Gain.Standard; u < least || u > most {
			t.Fatalf("u(gain) = %g, want %g to %g", u, least, most)
		}
	})
}

// No input ends in a panic, or in a line that is not finite.
func TestOddInput(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		usual := []float64{0, 0, 1, 1, 2, -1, 3.5, 1e-9, 1e15}
		from := rapid.SampledFrom([][]float64{usual, usual, append(usual, 1e-300, 1e-200, 1e160, 1e300), append(usual, math.NaN(), math.Inf(1), math.Inf(-1))}).Draw(t, "from")
		n := rapid.IntRange(0, 6).Draw(t, "n")
		draw := func(name string) []float64 { return rapid.SliceOfN(rapid.SampledFrom(from), n, n).Draw(t, name) }
		x, y, ux, uy := draw("x"), draw("y"), draw("ux"), draw("uy")
		for _, l := range []Line{Ordinary(x, y, 0.95), York(x, y, ux, uy, 0.95)} {
			if l.Known == (l.Why != "") {
				t.Fatalf("known %v because %q", l.Known, l.Why)
			}
			if !finite(l.Offset.Value, l.Offset.Standard, l.Gain.Value, l.Gain.Standard, l.ChiSquared, l.Correlation, l.Offset.Expanded, l.Gain.Expanded) {
				t.Fatalf("not finite: %+v", l)
			}
		}
	})
}
