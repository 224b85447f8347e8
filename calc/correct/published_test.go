package correct

import (
	"testing"

	"splittally/calc/energy"
)

// Definitions of the error, turned round into factors.

// ANSI C12.1 definitions and IEC 62052-11 percentage error (both from memory):
// registration = registered/true × 100, error = registration − 100. What reads
// 2.5 % high needs the factor 1/1.025 (algebra); eight decimals.
func TestFactorOfAnError(t *testing.T) {
	c := found(t, input(month{w: 1025 * kWh, r: 1000 * kWh}))
	near(t, "factor", c.Factor, 0.97560976, 5e-9)
	// 1012.5 kWh registered of 1000 is a registration of 101.25 %, and the
	// factor its inverse.
	c = found(t, input(month{w: 1012*kWh + kWh/2, r: 1000 * kWh}))
	near(t, "error", c.Judged[0].Before, 1.25, 1e-9)
	near(t, "registration times factor", 101.25*c.Factor, 100, 1e-9)
}

// Canada, Electricity and Gas Inspection Regulations SOR/86-131: s. 46(a)
// counts the error against the true amount, s. 31(1)(a) against what was
// registered. 970 kWh registered of 1000 is −3 % and −3.092784 %. What the
// factor adds is the second, not the first. The rules are published, the inputs
// are ours; six decimals.
func TestFactorGoesWithTheRegisteredAmount(t *testing.T) {
	c := found(t, input(month{w: 970 * kWh, r: 1000 * kWh}))
	near(t, "of the true amount", c.Judged[0].Before, -3, 1e-9)
	near(t, "of the registered amount", 100*(1-c.Factor), -3.092784, 5e-7)
	near(t, "corrected", corrected(-3, c.Factor), 0, 1e-9)
}

// Average error of a meter at two loads by the weights of the energies, 52 Pa.
// Code 57.24(a)(2): one fifth of (light-load error + 4 × heavy-load error), for
// −3 and +1 % 0.2 %. The formula is published, the inputs are ours. A ratio of
// sums gives it; a mean of the two ratios would not.
func TestRatioOfSums(t *testing.T) {
	c := found(t, input(month{w: 404 * kWh, r: 400 * kWh}, month{w: 97 * kWh, r: 100 * kWh}))
	near(t, "factor", 1/c.Factor, 1.002, 1e-12)
	var total energy.Energy
	for _, w := range []energy.Energy{404 * kWh, 97 * kWh} {
		e, err := ratio{energy.Energy(500 * kWh).Decimal(), energy.Energy(501 * kWh).Decimal()}.of(w)
		if err != nil {
			t.Fatal(err)
		}
		total += e
	}
	near(t, "the total is the meter's", total.KilowattHours(), 500, 1e-8)
}
