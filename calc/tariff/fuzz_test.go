package tariff

import (
	"testing"

	"github.com/shopspring/decimal"
)

func FuzzRead(f *testing.F) {
	f.Add("0.14", "7.50", "5.5", "USD")
	f.Add("14.2 ct/kWh", "€ 0,14", "5 %", "")
	f.Add("1,234", "1.234 kr", "0.05", "jpy")
	f.Add("R$1e3 per kWh", "61p a day", "100", "Taler")
	f.Fuzz(func(t *testing.T, price, fixed, tax, currency string) {
		r := Read(Flat{price, fixed, tax, currency}, Options{})
		p := r.Plan
		if p.Given == (p.Waits != "") {
			t.Errorf("given %v and waits for %q", p.Given, p.Waits)
		}
		if p.Price.IsNegative() || p.Fixed.IsNegative() || p.Tax.IsNegative() {
			t.Errorf("below zero: price %s, fixed %s, tax %s", p.Price, p.Fixed, p.Tax)
		}
		for _, problem := range r.Problems {
			if problem.Wanted == "" || problem.Found == "" {
				t.Errorf("problem without words: %+v", problem)
			}
		}
		if p.Given {
			p.Currency.Text(p.Bill(decimal.NewFromInt(412)).Total)
		}
	})
}
