package tariff

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"

	"splittally/calc/remark/remarktest"
)

func dec(text string) decimal.Decimal { return decimal.RequireFromString(text) }

func said(r Result) []string { return remarktest.Said(r.Problems, r.Questions, r.Notices) }

func wantSaid(t *testing.T, r Result, want ...string) {
	t.Helper()
	remarktest.Want(t, said(r), want...)
}

func equal(t *testing.T, what string, got decimal.Decimal, want string) {
	t.Helper()
	if !got.Equal(dec(want)) {
		t.Errorf("%s: %s, want %s", what, got, want)
	}
}

// used is kWh used at any time within a period of 31 days.
func used(t testing.TB, kWh string) Usage {
	t.Helper()
	return whole(t, "2024-01-01", "2024-01-31", kWh)
}

// bill prices that by a simple tariff.
func bill(t testing.TB, f Flat, kWh string) Priced {
	t.Helper()
	return Read(f, Options{}).Plan.Tariff().Price(used(t, kWh))
}

func TestPrice(t *testing.T) {
	cents := "notice read-as-hundredths tariff.per-kwh"
	for _, c := range []struct {
		typed, currency, price, code string
		said                         []string
	}{
		{"0.14", "", "0.14", "", nil},
		{"0,14", "", "0.14", "", nil},
		{"0.14", "usd", "0.14", "USD", nil},
		{"$0.14", "", "0.14", "", nil},
		{"$0.14/kWh", "USD", "0.14", "USD", nil},
		{"US$ 0.14 per kWh", "", "0.14", "USD", nil},
		{"€ 0,14", "", "0.14", "EUR", nil},
		{"0,2945 €/kWh", "", "0.2945", "EUR", nil},
		{"0.2945 EUR a kWh", "", "0.2945", "EUR", nil},
		{"CHF 0.27", "", "0.27", "CHF", nil},
		{"14 ¢", "", "0.14", "", []string{cents}},
		{"¢14", "", "0.14", "", []string{cents}},
		{"14c", "USD", "0.14", "USD", []string{cents}},
		{"14.2 ct/kWh", "EUR", "0.142", "EUR", []string{cents}},
		{"24.50p", "GBP", "0.245", "GBP", []string{cents}},
		{"6.5 cents per kWh", "CAD", "0.065", "CAD", []string{cents}},
		{"150 öre", "SEK", "1.5", "SEK", []string{cents}},
		{"31", "JPY", "31", "JPY", nil},
		{"1.5 kr/kWh", "", "1.5", "", nil},
		{"€0.14", "USD", "0.14", "USD", []string{"notice currency-differs tariff.per-kwh"}},
		// Nobody pays 14 dollars.
		{"14", "USD", "0.14", "USD", []string{"question tariff.per-kwh-unit = hundredths"}},
		{"14", "", "0.14", "", []string{"question tariff.per-kwh-unit = hundredths"}},
		{"$14", "USD", "14", "USD", nil},
		{"1,234", "JPY", "1.234", "JPY", []string{"question tariff.per-kwh = 1.234"}},
	} {
		t.Run(c.typed+" "+c.currency, func(t *testing.T) {
			r := Read(Flat{PerKWh: c.typed, Currency: c.currency}, Options{})
			wantSaid(t, r, c.said...)
			equal(t, "price", r.Plan.Price, c.price)
			if !r.Plan.Given || r.Plan.Waits != "" || r.Plan.Currency.Code != c.code {
				t.Errorf("given %v, waits %q, currency %q; want %q", r.Plan.Given, r.Plan.Waits, r.Plan.Currency.Code, c.code)
			}
		})
	}
}

func TestWrongPrice(t *testing.T) {
	for _, typed := range []string{"cheap", "-0.14", "0.14 per day", "0.14/month", "14 ¢ $", "$14 ¢", "0.14.2", "¢"} {
		t.Run(typed, func(t *testing.T) {
			r := Read(Flat{PerKWh: typed, Fixed: "7.50"}, Options{})
			wantSaid(t, r, "problem tariff.per-kwh")
			if r.Plan.Given || r.Plan.Waits != "the price per kWh can’t be used" {
				t.Errorf("given %v, waits %q", r.Plan.Given, r.Plan.Waits)
			}
			equal(t, "fixed charge", r.Plan.Fixed, "7.50") // the rest is kept
		})
	}
}

func TestUnfinished(t *testing.T) {
	for _, f := range []Flat{{}, {PerKWh: "$"}, {PerKWh: "eur"}, {PerKWh: " "}, {Currency: "US"}} {
		r := Read(f, Options{})
		wantSaid(t, r)
		if r.Plan.Given || r.Plan.Waits == "" {
			t.Errorf("%+v: given %v, waits %q", f, r.Plan.Given, r.Plan.Waits)
		}
	}
}

func TestFixedChargeAndTax(t *testing.T) {
	for _, c := range []struct {
		fixed, tax, wantFixed, wantTax string
		said                           []string
	}{
		{"", "", "0", "0", nil},
		{"7.50", "5.5", "7.5", "5.5", nil},
		{"$7.50 per month", "5,5 %", "7.5", "5.5", nil},
		{"7.50 per billing period", "0", "7.5", "0", nil},
		{"7.50/period", "0", "7.5", "0", nil},
		{"750 ¢", "100%", "7.5", "100", []string{"notice read-as-hundredths tariff.fixed"}},
		{"1,234", "20", "1.234", "20", []string{"question tariff.fixed = 1.234"}},
		{"60.99p/day", "5", "0", "5", []string{"problem tariff.fixed"}},
		{"0.14/kWh", "5", "0", "5", []string{"problem tariff.fixed"}},
		{"-3", "-3", "0", "0", []string{"problem tariff.fixed", "problem tariff.tax"}},
		{"none", "101", "0", "0", []string{"problem tariff.fixed", "problem tariff.tax"}},
		{"", "0.055", "0", "5.5", []string{"question tariff.tax-unit = portion"}},
		{"", "0.055 %", "0", "0.055", nil},
	} {
		t.Run(c.fixed+" "+c.tax, func(t *testing.T) {
			r := Read(Flat{PerKWh: "0.14", Fixed: c.fixed, Tax: c.tax}, Options{})
			wantSaid(t, r, c.said...)
			equal(t, "fixed charge", r.Plan.Fixed, c.wantFixed)
			equal(t, "tax", r.Plan.Tax, c.wantTax)
		})
	}
}

func TestAnswers(t *testing.T) {
	r := Read(Flat{PerKWh: "14", Fixed: "1,234", Tax: "0.05"}, Options{Path: "plan", Answers: map[string]string{
		"plan.per-kwh-unit": "units", "plan.fixed": "1234", "plan.tax-unit": "percent",
	}})
	wantSaid(t, r, "question plan.fixed = 1234, answered", "question plan.per-kwh-unit = units, answered", "question plan.tax-unit = percent, answered")
	equal(t, "price", r.Plan.Price, "14")
	equal(t, "fixed charge", r.Plan.Fixed, "1234")
	equal(t, "tax", r.Plan.Tax, "0.05")
}

func TestCurrency(t *testing.T) {
	for _, c := range []struct {
		field, price, shown string
		said                []string
	}{
		{"", "0.14", "−1.01", nil},
		{"", "$0.14", "−$1.01", nil},
		{"", "£0.14", "−1.01 GBP", nil},
		{"eur", "0.14", "−1.01 EUR", nil},
		{"JPY", "31", "−1 JPY", nil},
		{"KWD", "0.01", "−1.005 KWD", nil},
		{"Taler", "0.14", "−1.01", []string{"problem tariff.currency"}},
	} {
		t.Run(c.field+c.price, func(t *testing.T) {
			r := Read(Flat{PerKWh: c.price, Currency: c.field}, Options{})
			wantSaid(t, r, c.said...)
			if got := r.Plan.Currency.Text(dec("-1.005")); got != c.shown {
				t.Errorf("shown as %s, want %s", got, c.shown)
			}
		})
	}
	if got := (Currency{}).Text(dec("-0.004")); got != "0.00" {
		t.Errorf("next to nothing is shown as %s, want 0.00 without a sign", got)
	}
}

func TestBill(t *testing.T) {
	b := bill(t, Flat{PerKWh: "0.1425", Fixed: "7.505", Tax: "5.5", Currency: "USD"}, "412.6")
	var lines []string
	for _, l := range b.Lines {
		lines = append(lines, strings.TrimSpace(l.Name+": "+l.Quantity.String()+" "+l.Unit)+" at "+l.Rate.String()+" is "+l.Amount.StringFixed(2))
	}
	want := []string{
		"Energy: 412.6 kWh at 0.1425 is 58.80", // 58.7955
		"Fixed charge: 1 period at 7.505 is 7.51",
		"Tax: 66.31 at 0.055 is 3.65", // 3.64705
	}
	if d := cmp.Diff(want, lines); d != "" {
		t.Errorf("lines (-want +got):\n%s", d)
	}
	equal(t, "total", b.Total, "69.96")
	if n := len(bill(t, Flat{PerKWh: "0.14"}, "1").Lines); n != 1 {
		t.Errorf("%d lines without charge and tax, want 1", n)
	}
}

func TestWhatAKilowattHourMoreCosts(t *testing.T) {
	flat := Flat{PerKWh: "0.14", Fixed: "7.50", Tax: "5", Currency: "USD"}
	equal(t, "1020 kWh", bill(t, flat, "1020").Total, "157.82") // 142.80 + 7.50 = 150.30, tax 7.515
	equal(t, "1000 kWh", bill(t, flat, "1000").Total, "154.88") // 140 + 7.50 = 147.50, tax 7.375
	equal(t, "one more", Read(flat, Options{}).Plan.Tariff().Marginal(used(t, "1000")), "0.147")
}
