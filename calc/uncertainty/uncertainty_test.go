package uncertainty

import (
	"math"
	"testing"
)

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) && got != want {
		t.Errorf("%s = %.15g, want %.15g ± %g", what, got, want, tolerance)
	}
}

func TestNearFails(t *testing.T) {
	probe := &testing.T{}
	near(probe, "off", 1, 1.1, 0.01)
	if !probe.Failed() {
		t.Error("near lets 1 pass for 1.1 ± 0.01")
	}
	probe = &testing.T{}
	near(probe, "no number", math.NaN(), 1, 0.01)
	if !probe.Failed() {
		t.Error("near lets NaN pass")
	}
}

func TestEvaluate(t *testing.T) {
	inf := math.Inf(1)
	for _, c := range []struct {
		name          string
		part          Part
		standard, dof float64
	}{
		{"zero part", Part{}, 0, inf},
		{"rectangular", Part{HalfWidth: 3, Distribution: Rectangular}, math.Sqrt(3), inf},
		{"sign of half-width", Part{HalfWidth: -3, Distribution: Rectangular}, math.Sqrt(3), inf},
		{"sign of sensitivity", Part{HalfWidth: 2, Sensitivity: -3, Distribution: Normal}, -6, inf},
		{"30 rounded days", Part{HalfWidth: 0.05, Repeats: 30, Distribution: Rectangular}, 0.05 * math.Sqrt(10), inf},
		{"estimated", Part{HalfWidth: 2, Distribution: Student, DoF: 4.5}, 2, 4.5},
		{"estimated from nothing", Part{HalfWidth: 2, Distribution: Student}, inf, inf},
		{"estimated from nothing, downwards", Part{HalfWidth: 2, Sensitivity: -1, Distribution: Student, DoF: math.NaN()}, math.Inf(-1), inf},
		{"no distribution named", Part{HalfWidth: 2}, 2, inf},
	} {
		got := Evaluate(c.part)
		near(t, c.name+": standard", got.Standard, c.standard, 1e-15)
		near(t, c.name+": dof", got.DoF, c.dof, 0)
	}
}

func TestSharedSourceAddsBeforeSquaring(t *testing.T) {
	b := Budget{
		Evaluate(Part{Source: "read", Name: "Read", HalfWidth: 3, Unit: "kWh", Distribution: Normal}),
		Evaluate(Part{Name: "Alone", HalfWidth: 4, Unit: "kWh", Distribution: Normal}),
		Evaluate(Part{Name: "Alone", HalfWidth: 4, Unit: "kWh", Distribution: Normal}),
		Evaluate(Part{Source: "read", Name: "Read", HalfWidth: 3, Unit: "kWh", Distribution: Normal, Sensitivity: -2}),
	}
	u, _ := b.Combined()
	near(t, "u", u, math.Sqrt(9+16+16), 1e-14)
	m := b.Merged()
	if len(m) != 3 || m[0].Standard != -3 || m[0].Sensitivity != -1 || m[0].Distribution != Normal {
		t.Errorf("merged into %d parts, the first %+v", len(m), m[0])
	}
	shares := b.Shares()
	for i, want := range []float64{-9. / 41, 16. / 41, 16. / 41, 18. / 41} {
		near(t, "share", shares[i], want, 1e-15)
	}
}

func TestMergedPartsThatAreNotAlike(t *testing.T) {
	m := Budget{
		Evaluate(Part{Source: "s", HalfWidth: 3, Unit: "h", Distribution: Rectangular, Sensitivity: -1, DoF: 9, Promise: true}),
		Evaluate(Part{Source: "s", HalfWidth: 1, Unit: "kWh", Distribution: Normal, DoF: 4, Assumed: true, Reducible: true, Remedy: "ask"}),
	}.Merged()[0]
	want := 1 - math.Sqrt(3)
	near(t, "standard", m.Standard, want, 1e-15)
	near(t, "half-width", m.HalfWidth*m.Sensitivity, want, 1e-15)
	if m.Distribution != Together || m.Unit != "" || m.DoF != 4 || m.Promise || !m.Assumed || !m.Reducible || m.Remedy != "ask" {
		t.Errorf("%+v", m)
	}
}

func TestCombinedAtTheEdges(t *testing.T) {
	inf := math.Inf(1)
	for _, c := range []struct {
		name   string
		budget Budget
		u, dof float64
	}{
		{"empty", nil, 0, inf},
		{"only zeros", Budget{{Standard: 0, DoF: 3}}, 0, inf},
		{"one without limit", Budget{{Standard: 1, DoF: 3}, {Standard: inf, DoF: inf}}, inf, inf},
		{"without limit, estimated", Budget{{Standard: inf, DoF: 3}}, inf, inf},
		{"one estimated", Budget{{Standard: -2, DoF: 3}}, 2, 3},
	} {
		u, dof := c.budget.Combined()
		near(t, c.name+": u", u, c.u, 0)
		near(t, c.name+": dof", dof, c.dof, 1e-12)
		for _, share := range c.budget.Shares() {
			if math.IsNaN(share) {
				t.Errorf("%s: a share is no number", c.name)
			}
		}
	}
}

func TestWeightOfZeroSilencesEvenTheUnlimited(t *testing.T) {
	b := Weighted([]float64{0, 2}, []Budget{{{Standard: math.Inf(1), DoF: 1}}, {{Standard: 3, DoF: 5}}})
	u, dof := b.Combined()
	near(t, "u", u, 6, 0)
	near(t, "dof", dof, 5, 1e-12)
}

func TestCoverageAtTheEdges(t *testing.T) {
	inf := math.Inf(1)
	near(t, "nothing to hold", Coverage(0, 5), 0, 0)
	near(t, "all of it", Coverage(1, 5), inf, 0)
	near(t, "no degrees of freedom", Coverage(0.95, 0), inf, 0)
	if !math.IsNaN(Coverage(math.NaN(), 5)) || !math.IsNaN(Coverage(0.95, math.NaN())) {
		t.Error("a k from no number")
	}
	// The step where the normal distribution takes over, as its comment states.
	for _, p := range []float64{0.9, 0.95, 0.99, 0.9973} {
		step := Coverage(p, manyDoF) - Coverage(p, 2*manyDoF)
		if step < 0 || step > 8e-6 {
			t.Errorf("at %g k steps by %g", p, step)
		}
	}
}

func TestTailsAtTheEdges(t *testing.T) {
	near(t, "t of 0", TwoSidedT(0, 4), 1, 0)
	near(t, "t without end", TwoSidedT(math.Inf(-1), 4), 0, 0)
	near(t, "normal without end", TwoSidedT(math.Inf(1), math.Inf(1)), 0, 0)
	near(t, "chi² of 0", AboveF(0, 3, math.Inf(1)), 1, 0)
	near(t, "chi² without end", AboveF(math.Inf(1), 3, 5), 0, 0)
}

func TestShow(t *testing.T) {
	for _, c := range []struct {
		value, u         float64
		valueWant, uWant string
	}{
		{2.3456, 1.149, "2.3", "1.1"},
		{2.3456, 0.0996, "2.35", "0.10"},
		{2.3456, 9.96, "2", "10"},
		{2.3456, 0.00123, "2.3456", "0.0012"},
		{1234.5, 123, "1230", "120"},
		{-0.04, 1.2, "0.0", "1.2"},
		{-0.06, 1.2, "-0.1", "1.2"},
		{-4, 1234, "0", "1200"},
		{1.5, 0, "1.50", "0"},
		{1.5, math.Inf(1), "1.50", "unknown"},
		{1.5, math.NaN(), "1.50", "unknown"},
		{1.5, -0.25, "1.50", "0.25"},
		{3e-12, 1e-12, "0.0000000000030", "0.0000000000010"},
	} {
		v, u := Show(c.value, c.u)
		if v != c.valueWant || u != c.uWant {
			t.Errorf("Show(%g, %g) = %q, %q; want %q, %q", c.value, c.u, v, u, c.valueWant, c.uWant)
		}
	}
}
