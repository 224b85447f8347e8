package say

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"

	"splittally/calc/account"
	"splittally/calc/tariff"
)

func dec(text string) decimal.Decimal { return decimal.RequireFromString(text) }

var usd = tariff.Currency{Code: "USD"}

func TestApart(t *testing.T) {
	for off, want := range map[string]string{"0": "the same", "0.10": "+0.10 USD", "-1.5": "−1.50 USD", "0.004": "0.00 USD"} {
		check(t, Apart(dec(off), usd), want)
	}
	check(t, Plus(dec("2"), tariff.Currency{Sign: "$"}), "+$2.00")
}

func TestWorth(t *testing.T) {
	check(t, Worth(3.149, 1.836, usd), "+3.15 ± 1.84 USD")
	check(t, Worth(-0.676, 2.22, tariff.Currency{}), "−0.68 ± 2.22")
	check(t, Worth(1, math.Inf(1), usd), "+1.00 ± unknown")
	check(t, Worth(math.NaN(), math.NaN(), usd), "0.00 ± unknown")
}

func TestReckoned(t *testing.T) {
	line := func(quantity, unit, rate string) tariff.Line {
		return tariff.Line{Quantity: dec(quantity), Unit: unit, Rate: dec(rate)}
	}
	for _, c := range []struct {
		line tariff.Line
		want string
	}{
		{line("600", "kWh", "0.12"), "600 kWh × 0.12"},
		{line("67.632912345", "kWh", "0.242"), "67.6329 kWh × 0.242"},
		{line("391", "kWh", "-0.004"), "391 kWh × −0.004"},
		{line("7.2", "kW", "1.1"), "7.2 kW × 1.1"},
		{line("30", "day", "0.38"), "30 × 0.38 per day"},
		{line("0.5", "period", "12"), "0.5 × 12 per period"},
		{line("1", "period", "12"), ""},
		{line("4.2", "", "1"), ""}, // what is missing to a minimum
		{line("96.19", "", "0.05"), "5 % of 96.19 USD"},
		{line("74.13", "", "-0.12"), "−12 % of 74.13 USD"},
	} {
		check(t, Reckoned(c.line, usd), c.want)
	}
}

func TestReckonedPair(t *testing.T) {
	a := account.Account{Priced: tariff.Priced{Bill: tariff.Bill{Lines: []tariff.Line{{Quantity: dec("2"), Unit: "kWh", Rate: dec("0.1")}}}}}
	check(t, ReckonedPair(a, account.Pair{}), "2 kWh × 0.1")
	check(t, ReckonedPair(a, account.Pair{Lines: []int{0, 1, 2}}), "3 lines of the tariff")
	check(t, ReckonedPair(a, account.Pair{Line: -1}), "")
	check(t, ReckonedPair(a, account.Pair{Line: 1}), "")
}

// What one line tells is not told again.
func TestTaxIn(t *testing.T) {
	p := tariff.Priced{Bill: tariff.Bill{Currency: usd}}
	check(t, TaxIn(p), "")
	p.Tax = dec("4.81")
	check(t, TaxIn(p), "Tax in the total: 4.81 USD.")
	p.Lines = []tariff.Line{{Amount: dec("4.81"), Quantity: dec("96.2"), Rate: dec("0.05")}}
	check(t, TaxIn(p), "")
}

func TestNetting(t *testing.T) {
	p := tariff.Priced{Uses: []tariff.Use{{KWh: dec("-248")}, {KWh: dec("0")}}}
	check(t, Netting(p), "248 kWh that were sent out are taken off what was drawn.")
	p.Carry = dec("143.256")
	check(t, Netting(p), "248 kWh that were sent out are taken off what was drawn. 143.26 kWh are carried over to the next bill.")
	check(t, Netting(tariff.Priced{Uses: []tariff.Use{{KWh: dec("3")}}}), "")
}

func TestAssumedHours(t *testing.T) {
	p := tariff.Priced{Bill: tariff.Bill{Currency: usd}, Least: dec("70.1"), Most: dec("150")}
	check(t, AssumedHours(p), "")
	p.IsAssumed = true
	check(t, AssumedHours(p), "The readings do not tell these hours. If all that is assumed fell into the cheapest period, or all into the dearest, the bill would come to 70.10 USD or 150.00 USD.")
}

func TestInCommon(t *testing.T) {
	list := []account.Choice{{Words: []string{"a", "b"}}, {Words: []string{"c", "b"}}, {Words: []string{"b"}}}
	if d := cmp.Diff([]string{"b"}, InCommon(list)); d != "" {
		t.Errorf("in common (-want +got):\n%s", d)
	}
	if got := InCommon(list[:1]); got != nil {
		t.Errorf("of one tariff %q is said once", got)
	}
}
