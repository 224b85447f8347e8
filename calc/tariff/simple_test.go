package tariff

import (
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"splittally/calc/calendar"
	"splittally/calc/energy"
)

// A plan as a tariff comes to what it does by hand: each line rounded by itself,
// the tax on the sum of the rounded lines.
func TestPlanIsATariffOfThreeRows(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		money := func(name string, most int64) decimal.Decimal {
			return decimal.New(rapid.Int64Range(0, most).Draw(t, name), -4)
		}
		p := Plan{Given: true, Price: money("price", 500_000), HasFixed: rapid.Bool().Draw(t, "has fixed"), HasTax: rapid.Bool().Draw(t, "has tax")}
		e := energy.Energy(rapid.Int64Range(1, 5_000).Draw(t, "kWh")) * energy.KilowattHour / 7
		want := []Line{{Name: "Energy", Amount: e.Decimal().Mul(p.Price).Round(2)}}
		sum := want[0].Amount
		if p.HasFixed {
			p.Fixed = money("fixed", 300_000)
			want = append(want, Line{Name: "Fixed charge", Amount: p.Fixed.Round(2)})
			sum = sum.Add(want[1].Amount)
		}
		if p.HasTax {
			p.Tax = money("tax", 300_000)
			tax := sum.Mul(p.Tax).Shift(-2).Round(2)
			want = append(want, Line{Name: "Tax", Amount: tax})
			sum = sum.Add(tax)
		}
		span := calendar.Span{First: 20000, End: 20031}
		got := p.Tariff().Price(Usage{Span: span, Import: []Slot{{First: span.First, Last: span.Last(), To: 1440, Energy: e}}})
		if !got.Total.Equal(sum) || len(got.Lines) != len(want) {
			t.Fatalf("total %s of %d lines, want %s of %d", got.Total, len(got.Lines), sum, len(want))
		}
		for i := range want {
			if !got.Lines[i].Amount.Equal(want[i].Amount) || got.Lines[i].Name != want[i].Name {
				t.Errorf("%s %s, want %s %s", got.Lines[i].Name, got.Lines[i].Amount, want[i].Name, want[i].Amount)
			}
		}
	})
}
