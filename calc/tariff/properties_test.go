package tariff

import (
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

func drawPlan(t *rapid.T) Plan {
	return Plan{
		Given: true, HasFixed: true, HasTax: true,
		Price:    decimal.New(rapid.Int64Range(0, 1_000_000).Draw(t, "price"), -6),
		Fixed:    decimal.New(rapid.Int64Range(0, 10_000).Draw(t, "fixed"), -2),
		Tax:      decimal.New(rapid.Int64Range(0, 2500).Draw(t, "tax"), -2),
		Currency: rapid.SampledFrom([]Currency{{}, {Code: "JPY", places: -2}, {Code: "KWD", places: 1}}).Draw(t, "currency"),
	}
}

func drawKWh(t *rapid.T, label string) decimal.Decimal {
	return decimal.New(rapid.Int64Range(0, 10_000_000).Draw(t, label), -3)
}

func TestBillProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		plan, kWh, more := drawPlan(t), drawKWh(t, "kWh"), drawKWh(t, "more")
		b := plan.Bill(kWh)
		sum := decimal.Zero
		for _, l := range b.Lines {
			sum = sum.Add(l.Amount)
			if !l.Amount.Equal(l.Amount.Round(plan.Currency.Places())) {
				t.Fatalf("%s of %s is finer than the currency", l.Name, l.Amount)
			}
		}
		if !sum.Equal(b.Total) {
			t.Fatalf("lines add up to %s, total %s", sum, b.Total)
		}
		if plan.Bill(kWh.Add(more)).Total.LessThan(b.Total) {
			t.Fatalf("more energy costs less")
		}
	})
}

func TestDisagreementProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		plan, w, r := drawPlan(t), drawKWh(t, "indicated"), drawKWh(t, "reference")
		there, back := plan.Disagreement(w, r), plan.Disagreement(r, w)
		if !there.Difference.Equal(back.Difference.Neg()) || !there.Marginal.Equal(back.Marginal.Neg()) {
			t.Fatalf("there %s and %s, back %s and %s", there.Difference, there.Marginal, back.Difference, back.Marginal)
		}
		// Two lines on two bills are rounded, each by half a coin at most, and
		// the energy's rounding is taxed.
		coin := decimal.New(1, -plan.Currency.Places())
		if off := there.Difference.Sub(there.Marginal).Abs(); off.GreaterThan(coin.Mul(decimal.New(225, -2))) {
			t.Fatalf("difference %s and marginal %s are %s apart", there.Difference, there.Marginal, off)
		}
	})
}

// A price typed in any of its forms is the same price.
func TestFormsOfAPrice(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		price := decimal.New(rapid.Int64Range(1, 19_999).Draw(t, "price"), -4)
		units, hundredths := price.StringFixed(4), price.Shift(2).StringFixed(2)
		comma := strings.Replace(units, ".", ",", 1)
		for _, typed := range []string{units, "$" + units, units + " €", comma + " EUR/kWh", hundredths + " ¢", hundredths + "ct/kWh", hundredths + " p per kWh"} {
			r := Read(Flat{PerKWh: typed}, Options{})
			if !r.Plan.Given || !r.Plan.Price.Equal(price) || len(r.Problems)+len(r.Questions) > 0 {
				t.Fatalf("%q: %s, want %s; %v %v", typed, r.Plan.Price, price, r.Problems, r.Questions)
			}
		}
	})
}
