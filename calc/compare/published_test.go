package compare

import (
	"math"
	"testing"

	"github.com/shopspring/decimal"

	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/uncertainty"
)

// Definitions of the error, and averages of tests at two loads.

func kilowattHours(t *testing.T, text string) energy.Energy {
	t.Helper()
	e, exact, err := energy.FromDecimal(decimal.RequireFromString(text), energy.KilowattHour)
	if err != nil || !exact {
		t.Fatalf("%s kWh: %v", text, err)
	}
	return e
}

func sameDecimal(t *testing.T, what string, got decimal.Decimal, err error, want string) {
	t.Helper()
	if w := decimal.RequireFromString(want); err != nil || !got.Round(-w.Exponent()).Equal(w) {
		t.Errorf("%s = %s, %v; want %s", what, got, err, want)
	}
}

// Canada, Electricity and Gas Inspection Regulations SOR/86-131: s. 46(a)
// counts the error against the true amount, s. 31(1)(a) against what the meter
// registered. 970 kWh registered of 1000 is 3 % slow by the one and beyond 3 %
// by the other. The rules are published, the inputs are ours; six decimals.
func TestTwoDenominatorsOfOneRegulation(t *testing.T) {
	w, r := kilowattHours(t, "970"), kilowattHours(t, "1000")
	e, err := PercentError(w, r, Places)
	sameDecimal(t, "of the true amount", e, err, "-3")
	if e.Abs().GreaterThan(decimal.NewFromInt(3)) {
		t.Error("exactly 3 % is beyond 3 %")
	}
	wrong, err := WrongBase(w, r, Places)
	sameDecimal(t, "of the registered amount", wrong, err, "-3.092784")
}

// COMAR 20.70.06.04 B (Maryland, water meters): 100 × (indicated − standard) /
// indicated, positive is fast. Formula published, inputs ours; six decimals.
func TestIndicatedAsDenominator(t *testing.T) {
	wrong, err := WrongBase(kilowattHours(t, "1030"), kilowattHours(t, "1000"), Places)
	sameDecimal(t, "COMAR", wrong, err, "2.912621")
}

// ANSI C12.1 definitions and IEC 62052-11 percentage error (both from memory):
// registration = registered/true × 100, error = registration − 100. Exact.
func TestRegistrationAndError(t *testing.T) {
	w, r := kilowattHours(t, "1012.5"), kilowattHours(t, "1000")
	reg, err := Registration(w, r, Places)
	sameDecimal(t, "registration", reg, err, "101.25")
	e, err := PercentError(w, r, Places)
	sameDecimal(t, "error", e, err, "1.25")
	// What reads 2.5 % high needs the factor 1/1.025 (algebra): that is one less
	// the difference on the wrong base.
	wrong, err := WrongBase(kilowattHours(t, "1.025"), kilowattHours(t, "1"), Places)
	sameDecimal(t, "factor", decimal.NewFromInt(1).Sub(wrong.Shift(-2)), err, "0.97560976")
}

// Average registration and error of a meter tested at full (heavy) and light
// load: a total over test energies in the ratio of the weights. The formulas
// are published, the inputs ours; exact.
//
//	North Carolina Admin. Code 11 R08-11, method 1: (4·FL + LL)/5
//	the same, method 2: (FL + LL)/2
//	52 Pa. Code 57.24(a)(2): one fifth of (light-load error + 4 × heavy-load error)
func TestAverageRegistration(t *testing.T) {
	for _, c := range []struct {
		name                 string
		heavy, light         string // registered kWh
		heavyTrue, lightTrue string
		registration, error  string
	}{
		{"North Carolina 1: 100.4 and 98.9 %", "401.6", "98.9", "400", "100", "100.1", "0.1"},
		{"North Carolina 2: 100.4 and 98.9 %", "100.4", "98.9", "100", "100", "99.65", "-0.35"},
		{"Pennsylvania: +1 and −3 %", "404", "97", "400", "100", "100.2", "0.2"},
	} {
		heavy := Judge(Amount{Energy: kilowattHours(t, c.heavy)}, Amount{Energy: kilowattHours(t, c.heavyTrue)}, 0.95)
		light := Judge(Amount{Energy: kilowattHours(t, c.light)}, Amount{Energy: kilowattHours(t, c.lightTrue)}, 0.95)
		p, err := Pool([]Period{{calendar.Span{First: 0, End: 1}, heavy}, {calendar.Span{First: 1, End: 2}, light}})
		sameDecimal(t, c.name, p.Total.Registration, err, c.registration)
		sameDecimal(t, c.name, p.Total.Percent, err, c.error)
	}
}

// E_n = (x − X)/√(U_x² + U_X²), satisfactory if |E_n| <= 1: EUROLAB Cook Book
// Doc. 4 (2018) for the formula; ISO/IEC Guide 43-1, now ISO 13528, for the
// criterion. Inputs ours, k = 2 for all; six decimals.
func TestNormalizedError(t *testing.T) {
	x := uncertainty.Budget{uncertainty.Evaluate(uncertainty.Part{HalfWidth: 12. / 2, Distribution: uncertainty.Normal})}
	y := uncertainty.Budget{uncertainty.Evaluate(uncertainty.Part{HalfWidth: 10. / 2, Distribution: uncertainty.Normal})}
	k2 := math.Erf(math.Sqrt2) // the confidence at which k is 2
	expanded, k := uncertainty.Weighted([]float64{1, -1}, []uncertainty.Budget{x, y}).Expanded(k2)
	near(t, "k", k, 2, 1e-12)
	near(t, "E_n", normalized(1015-1000, expanded), 0.960277, 1e-6)
}
