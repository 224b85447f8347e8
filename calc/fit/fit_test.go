package fit

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"splittally/calc/uncertainty"
)

func TestNoLine(t *testing.T) {
	three, ones := []float64{1, 2, 3}, []float64{1, 1, 1}
	inf, nan := math.Inf(1), math.NaN()
	for _, c := range []struct {
		name string
		line Line
		want Reason
	}{
		{"no points", York(nil, nil, nil, nil, 0.95), TooFew},
		{"one point", York(three[:1], three[:1], ones[:1], ones[:1], 0.95), TooFew},
		{"two points without uncertainty", York(three[:2], three[:2], nil, nil, 0.95), TooFew},
		{"two points, ordinary", Ordinary(three[:2], three[:2], 0.95), TooFew},
		{"unlike lengths", York(three, ones[:2], ones, ones, 0.95), NoNumber},
		{"unlike uncertainties", York(three, three, ones[:2], ones, 0.95), NoNumber},
		{"no number", York([]float64{1, nan, 3}, three, ones, ones, 0.95), NoNumber},
		{"without limit", Ordinary(three, []float64{1, 2, inf}, 0.95), NoNumber},
		{"uncertainty without limit", York(three, three, ones, []float64{1, inf, 1}, 0.95), NoNumber},
		{"too large to square", Ordinary([]float64{1e200, 2e200, 4e200}, three, 0.95), NoNumber},
		{"all x alike", York(ones, three, ones, ones, 0.95), Alike},
		{"all x alike, ordinary", Ordinary(ones, three, 0.95), Alike},
		{"all x alike but for rounding", Ordinary([]float64{1e9, 1e9, 1e9 + 1e-6}, three, 0.95), Alike},
		{"a point without uncertainty", York(three, three, nil, []float64{1, 0, 1}, 0.95), Certain},
		{"x within their uncertainty", York(three, three, []float64{4, 4, 4}, ones, 0.95), Uncertain},
	} {
		if diff := cmp.Diff(Line{Why: c.want}, c.line); diff != "" {
			t.Errorf("%s (-want +got):\n%s", c.name, diff)
		}
	}
}

// Points without any uncertainty have that of their scatter.
func TestWithoutUncertaintyIsOrdinary(t *testing.T) {
	x, y := []float64{1, 2, 4, 7}, []float64{2, 3, 5.5, 8}
	if diff := cmp.Diff(Ordinary(x, y, 0.95), York(x, y, nil, nil, 0.95)); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
}

// Points on the line: no scatter, and the stated uncertainties stay.
func TestPointsOnTheLine(t *testing.T) {
	x, y, u := []float64{100, 200, 300}, []float64{112, 212, 312}, []float64{1, 1, 1}
	l := York(x, y, u, u, 0.95)
	near(t, "offset", l.Offset.Value, 12, 1e-10)
	near(t, "gain", l.Gain.Value, 1, 1e-12)
	near(t, "χ²", l.ChiSquared, 0, 1e-12)
	near(t, "P", l.P, 1, 1e-9)
	near(t, "u(gain)", l.Gain.Standard, 0.01, 1e-12) // √2 kWh over √(100² + 100²)
	flat := York(x, []float64{5, 5, 5}, u, u, 0.95)
	near(t, "gain of a flat line", flat.Gain.Value, 0, 1e-12)
	near(t, "offset of a flat line", flat.Offset.Value, 5, 1e-10)
	if l := Ordinary(x, y, 0.95); !l.Known || l.Gain.Expanded > 1e-9 {
		t.Errorf("ordinary: %+v", l)
	}
}

// Few degrees of freedom widen the interval as Student's t does.
func TestEstimatedUncertainty(t *testing.T) {
	x, y := []float64{0, 100, 200, 300}, []float64{0, 101, 204, 303}
	known, estimated := Covariance{}, Covariance{}
	for i := range x {
		own := make([]float64, 4)
		own[i] = 2
		known.Causes = append(known.Causes, Cause{Y: own})
		estimated.Causes = append(estimated.Causes, Cause{Y: own, DoF: 5})
	}
	k, e := Both(x, y, known, 0.95), Both(x, y, estimated, 0.95)
	if !math.IsInf(k.Gain.DoF, 1) || e.Gain.DoF > 20 || e.Gain.DoF < 5 {
		t.Errorf("degrees of freedom %g and %g, want +Inf and 5 to 20", k.Gain.DoF, e.Gain.DoF)
	}
	if !(e.Gain.Expanded > 1.1*k.Gain.Expanded && e.P > k.P) {
		t.Errorf("known %+v, estimated %+v", k, e)
	}
}

// A read that two periods share, the monitor's accuracy in all of them, and
// parts that stand alone: the covariances by hand.
func TestCovariances(t *testing.T) {
	inf := math.Inf(1)
	part := func(source string, u, dof float64) uncertainty.Part {
		return uncertainty.Part{Source: source, Standard: u, DoF: dof}
	}
	c := Covariances(
		[]uncertainty.Budget{
			{part("", 3, inf), part("read 1", 5, inf), part("read 0", -1, inf)},
			{part("", 4, inf), part("read 1", -5, inf), part("read 1", -1, inf)},
		},
		[]uncertainty.Budget{
			{part("monitor", 10, inf), part("", 2, 7)},
			{part("monitor", 20, inf), part("", 2, inf), part("", 1, inf), part("read 1", 0.5, 9)},
		})
	rows := [][]float64{c.XX.Row(0), c.XX.Row(1), c.YY.Row(0), c.YY.Row(1)}
	if diff := cmp.Diff([][]float64{{9}, {0, 16}, {0}, {0, 5}}, rows); diff != "" {
		t.Errorf("matrices (-want +got):\n%s", diff)
	}
	want := []Cause{
		{X: []float64{5, -6}, Y: []float64{0, 0.5}, DoF: 9},
		{X: []float64{-1, 0}, Y: []float64{0, 0}, DoF: inf},
		{X: []float64{0, 0}, Y: []float64{10, 20}, DoF: inf},
		{X: []float64{0, 0}, Y: []float64{2, 0}, DoF: 7},
	}
	if diff := cmp.Diff(want, c.Causes); diff != "" {
		t.Errorf("causes (-want +got):\n%s", diff)
	}
}

func BenchmarkBoth(b *testing.B) {
	x, y, u := make([]float64, 62), make([]float64, 62), make([]float64, 62)
	for i := range x {
		x[i] = 20 + 5*math.Sin(float64(i))
		y[i], u[i] = 1.02*x[i]+math.Cos(float64(17*i)), 0.5
	}
	for _, n := range []int{6, 12, 62} {
		b.Run("", func(b *testing.B) {
			for b.Loop() {
				if l := York(x[:n], y[:n], u[:n], u[:n], 0.95); !l.Known {
					b.Fatal(l.Why)
				}
			}
		})
	}
}
