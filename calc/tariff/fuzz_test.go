package tariff

import (
	"strings"
	"testing"
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
		if tariff := p.Tariff(); tariff.Given != p.Given {
			t.Errorf("given %v, as a tariff %v", p.Given, tariff.Given)
		} else if p.Given && max(len(price), len(fixed), len(tax)) <= 40 { // no longer ones: numbers beyond any price
			p.Currency.Text(tariff.Price(used(t, "412")).Total)
		}
	})
}

// FuzzBuild types anything into a row of every kind. What could be read prices
// without a panic, and says what it is about.
func FuzzBuild(f *testing.F) {
	f.Add("tiers", "14.2 ¢", "month", "adjusted", "", "1 May", "31 Oct", "2024-05-01", "600", "7-11, 17-19", "workdays", "24 Dec")
	f.Add("times", "$0.14", "", "", "", "05-01", "04-30", "1 May 2024", "1,234", "22:30-6", "Sat, Sun, holidays", "2024-12-24\n05-01")
	f.Add("tax", "5,5 %", "period", "metered", "Base, Energy", "1 M", "", "3/4/2024", "x", "4 pm to 9 pm", "Mon-", "soon")
	f.Add("demand", "-0.0012", "15", "losses", ",", "29 Feb", "28 Feb", "", "", "7", "rest", "")
	f.Fuzz(func(t *testing.T, kind, price, per, basis, on, from, to, since, upTo, hours, days, dates string) {
		row := Row{
			Kind: kind, Price: price, Per: per, Basis: basis, On: on, From: from, To: to, Since: since,
			Steps: []Step{{upTo, price}, {"", price}}, Bands: []Band{{"Peak", price, days, hours}, {"Rest", "0.1", "", ""}},
		}
		s := Schedule{Region: "US", Dates: dates, Inclusive: per, Rows: []Row{{Kind: "fixed", Name: "Base", Price: "7"}, row, {Kind: "energy", Price: price}}}
		for _, kind := range []Kind{Energy, Tiers, Times, Fixed, Demand, Export, Netting, Discount, Tax, Minimum} {
			row.Kind = string(kind)
			s.Rows = append(s.Rows, row)
		}
		b := Build(s, Options{})
		if b.Tariff.Given == (b.Tariff.Waits != "") {
			t.Errorf("given %v and waits for %q", b.Tariff.Given, b.Tariff.Waits)
		}
		for _, problem := range b.Problems {
			if problem.Wanted == "" || problem.Found == "" || !strings.HasPrefix(problem.Path, "tariff.") {
				t.Errorf("problem without words: %+v", problem)
			}
		}
		if len(price) > 40 {
			return // numbers beyond any price
		}
		u := flat(19723, 41, 1e9)
		u.Import = append(u.Import[:48:48], Slot{First: u.Span.First + 2, Last: u.Span.First + 40, To: 1440, Energy: 412e9})
		p := b.Tariff.Price(u)
		if p.Least.GreaterThan(p.Most) && !strings.ContainsAny(price, "-−–") {
			t.Errorf("from %s to %s", p.Least, p.Most)
		}
		b.Tariff.Marginal(u)
	})
}
