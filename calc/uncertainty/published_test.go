package uncertainty

import (
	"math"
	"testing"
)

// NIST Technical Note 1297 (1994), appendix B, table B.1, "Value of t_p(ν)",
// which has the content of JCGM 100:2008 table G.2. Printed to two decimals
// (three in the row for 100 and the last row), so half a unit of that is the
// tolerance.
func TestCoverageNIST1297TableB1(t *testing.T) {
	for _, c := range []struct {
		percent float64
		k       map[float64]float64
	}{
		{90, map[float64]float64{
			1: 6.31, 2: 2.92, 3: 2.35, 4: 2.13, 5: 2.02, 6: 1.94, 7: 1.89, 8: 1.86, 9: 1.83, 10: 1.81,
			20: 1.72, 30: 1.70, 50: 1.68, 100: 1.660,
		}},
		{95, map[float64]float64{
			1: 12.71, 3: 3.18, 5: 2.57, 7: 2.36, 9: 2.26, 11: 2.20, 13: 2.16, 15: 2.13, 17: 2.11, 19: 2.09,
			25: 2.06, 35: 2.03, 45: 2.01, 100: 1.984,
		}},
		{95.4499736, map[float64]float64{
			1: 13.97, 2: 4.53, 3: 3.31, 4: 2.87, 5: 2.65, 6: 2.52, 7: 2.43, 8: 2.37, 9: 2.32, 10: 2.28,
			11: 2.25, 12: 2.23, 13: 2.21, 14: 2.20, 15: 2.18, 16: 2.17, 17: 2.16, 18: 2.15, 19: 2.14, 20: 2.13,
			25: 2.11, 30: 2.09, 35: 2.07, 40: 2.06, 45: 2.06, 50: 2.05, 100: 2.025,
		}},
	} {
		for dof, want := range c.k {
			near(t, "k", Coverage(c.percent/100, dof), want, 0.00501)
		}
	}
	// The row for infinitely many, three decimals.
	for percent, want := range map[float64]float64{90: 1.645, 95: 1.960, 95.45: 2.000, 99: 2.576, 99.73: 3.000} {
		near(t, "normal k", Coverage(percent/100, math.Inf(1)), want, 0.000501)
	}
}

// JCGM 100:2008 example H.1, calibration of an end gauge. Contributions and
// degrees of freedom are those of H.1.6; 16, 2.92 and 93 nm are printed there
// (from memory), u_c and ν before rounding are computed.
func TestEndGaugeH1(t *testing.T) {
	b := Budget{{Standard: 25, DoF: 18}, {Standard: 9.7, DoF: 25.6}, {Standard: 2.9, DoF: 50}, {Standard: 16.6, DoF: 2}}
	u, dof := b.Combined()
	near(t, "u_c in nm", u, 31.67112, 1e-5)
	near(t, "ν_eff", dof, 16.76455, 1e-4)
	near(t, "ν_eff cut down", math.Floor(dof), 16, 0)
	near(t, "t99 of 16", Coverage(0.99, 16), 2.92, 0.005)
	near(t, "U99 from the rounded u_c", math.Round(32*Coverage(0.99, 16)), 93, 0)
	// We differ from the printed 93 nm on purpose: neither u_c nor ν_eff is
	// rounded on the way, which gives 92 nm.
	u99, _ := b.Expanded(0.99)
	near(t, "U99 without rounding midway", math.Round(u99), 92, 0)
}

// The same example from its unrounded inputs, as in the test suite of the MSL's
// GUM Tree Calculator (test_uncertain_real_dof.py, GuideExampleH1). Tolerance
// 1e-8, the digits printed there.
func TestEndGaugeUnrounded(t *testing.T) {
	d := Budget{{Standard: 5.8, DoF: 24}, {Standard: 3.9, DoF: 5}, {Standard: 6.7, DoF: 8}}
	u, dof := d.Combined()
	near(t, "u(d)", u, 9.68194195397, 1e-8)
	near(t, "ν(d)", dof, 25.4472507774, 1e-8)
	full := append(Budget{
		{Standard: 25, DoF: 18},
		{Standard: 2.88675134595, DoF: 50},
		{Standard: 16.5988202392, DoF: 2},
	}, d...)
	u, dof = full.Combined()
	near(t, "u", u, 31.6637674111, 1e-8)
	near(t, "ν", dof, 16.7521475092, 1e-8)
}

// Welch–Satterthwaite with sensitivities: the inputs are those of the w.s
// example of the R package metRology; the result is computed from them.
func TestWelchSatterthwaiteWithSensitivities(t *testing.T) {
	var b Budget
	for _, p := range []Part{
		{HalfWidth: 0.1, Sensitivity: 1, Distribution: Normal},
		{HalfWidth: 0.3, Sensitivity: 2, Distribution: Student, DoF: 6},
		{HalfWidth: 0.2, Sensitivity: 3, Distribution: Student, DoF: 8},
		{HalfWidth: 1.1, Sensitivity: 0.5, Distribution: Student, DoF: 3},
	} {
		b = append(b, Evaluate(p))
	}
	u, dof := b.Combined()
	near(t, "u_c", u, 1.0161201, 1e-6)
	near(t, "ν_eff", dof, 15.607961, 1e-6)
}

// JCGM 100:2008 4.3.7 (rectangular), 4.3.9 (triangular, from memory), H.1.3.4
// (arcsine): standard uncertainty of a half-width of 1.
func TestHalfWidths(t *testing.T) {
	for d, want := range map[Distribution]float64{Rectangular: 0.5773503, Triangular: 0.4082483, Arcsine: 0.7071068} {
		near(t, string(d), Evaluate(Part{HalfWidth: 1, Distribution: d}).Standard, want, 1e-7)
	}
	// From H.1 as in the GTC test: ±0.000002 rectangular, ±0.5 arcsine.
	near(t, "uniform", Evaluate(Part{HalfWidth: 0.000002, Distribution: Rectangular}).Standard, 1.1547e-6, 1e-10)
	near(t, "arcsine", Evaluate(Part{HalfWidth: 0.5, Distribution: Arcsine}).Standard, 0.35355, 5e-6)
}
