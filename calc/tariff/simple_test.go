package tariff

import (
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"splittally/calc/calendar"
	"splittally/calc/energy"
)

// A plan as a tariff comes to what Bill reckons line by line.
func TestPlanIsATariffOfThreeRows(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		money := func(name string, most int64) decimal.Decimal {
			return decimal.New(rapid.Int64Range(0, most).Draw(t, name), -4)
		}
		p := Plan{Given: true, Price: money("price", 500_000), HasFixed: rapid.Bool().Draw(t, "has fixed"), HasTax: rapid.Bool().Draw(t, "has tax")}
		if p.HasFixed {
			p.Fixed = money("fixed", 300_000)
		}
		if p.HasTax {
			p.Tax = money("tax", 300_000)
		}
		e := energy.Energy(rapid.Int64Range(1, 5_000).Draw(t, "kWh")) * energy.KilowattHour / 7
		span := calendar.Span{First: 20000, End: 20031}
		want := p.Bill(e.Decimal())
		got := p.Tariff().Price(Usage{Span: span, Import: []Slot{{First: span.First, Last: span.Last(), To: 1440, Energy: e}}})
		if !got.Total.Equal(want.Total) || len(got.Lines) != len(want.Lines) {
			t.Fatalf("total %s of %d lines, want %s of %d", got.Total, len(got.Lines), want.Total, len(want.Lines))
		}
		for i := range want.Lines {
			if !got.Lines[i].Amount.Equal(want.Lines[i].Amount) || got.Lines[i].Name != want.Lines[i].Name {
				t.Errorf("%s %s, want %s %s", got.Lines[i].Name, got.Lines[i].Amount, want.Lines[i].Name, want.Lines[i].Amount)
			}
		}
	})
}
