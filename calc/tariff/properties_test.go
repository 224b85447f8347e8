package tariff

import (
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"splittally/calc/calendar"
	"splittally/calc/energy"
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

// drawUsage draws a total of a month, and one that is larger.
func drawUsage(t *rapid.T) (some, more Usage) {
	span := calendar.Span{First: 20000, End: 20031}
	wattHours := rapid.Int64Range(0, 10_000_000).Draw(t, "Wh")
	use := func(n int64) Usage {
		return Usage{Span: span, Import: []Slot{{First: span.First, Last: span.Last(), To: minutesOfDay, Energy: energy.Energy(n) * energy.WattHour}}}
	}
	return use(wattHours), use(wattHours + rapid.Int64Range(0, 10_000_000).Draw(t, "Wh more"))
}

func TestBillProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		plan := drawPlan(t)
		some, more := drawUsage(t)
		b := plan.Tariff().Price(some)
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
		if plan.Tariff().Price(more).Total.LessThan(b.Total) {
			t.Fatalf("more energy costs less")
		}
	})
}

// What more energy costs is its price with tax, but for the rounding of lines.
func TestMarginalProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		plan := drawPlan(t)
		some, more := drawUsage(t)
		tariff := plan.Tariff()
		marginal := plan.Price.Mul(decimal.NewFromInt(1).Add(plan.Tax.Shift(-2)))
		if got := tariff.Marginal(some); !got.Equal(marginal.Round(12)) {
			t.Fatalf("marginal price %s, want %s", got, marginal)
		}
		worth := more.Import[0].Energy.Decimal().Sub(some.Import[0].Energy.Decimal()).Mul(marginal)
		// Two lines on two bills are rounded, each by half a coin at most, and
		// the energy's rounding is taxed.
		coin := decimal.New(1, -plan.Currency.Places())
		difference := tariff.Price(more).Total.Sub(tariff.Price(some).Total)
		if off := difference.Sub(worth).Abs(); off.GreaterThan(coin.Mul(decimal.New(225, -2))) {
			t.Fatalf("bills %s apart, the energy is worth %s", difference, worth)
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
