package tariff

import (
	"github.com/shopspring/decimal"

	"splittally/calc/remark"
)

// settleBare asks once what the prices per kWh without a unit are in, if one of
// them would be dear beyond belief in the currency's unit.
func (b *builder) settleBare() {
	var high, low []*decimal.Decimal
	for _, p := range b.bare {
		switch {
		case p.Abs().GreaterThanOrEqual(dear):
			high = append(high, p)
		case !p.IsZero():
			low = append(low, p)
		}
	}
	if len(high) == 0 || !b.hasLargeUnit() {
		return
	}
	taken := b.ask("rows", "price-unit", bareQuestion(high, low), "hundredths")
	if taken == "units" {
		return
	}
	for _, p := range high {
		*p = p.Shift(-2)
	}
	if taken == "all-hundredths" {
		for _, p := range low {
			*p = p.Shift(-2)
		}
	}
}

// bareQuestion says what each choice would make of a high and a low price.
func bareQuestion(high, low []*decimal.Decimal) remark.Question {
	gives := func(highBy, lowBy int32) string {
		text := high[0].Shift(highBy).String()
		if len(low) > 0 {
			text += " and " + low[0].Shift(lowBy).String()
		}
		return text + " per kWh"
	}
	q := remark.Question{
		Asks: "Is the price of " + high[0].String() + " per kWh in cents, pence or the like?",
		Why:  "It would be a very high price if it is not.",
		Choices: []remark.Choice{
			{ID: "hundredths", Label: "Prices of 2 and more are in cents", Gives: gives(-2, 0)},
			{ID: "units", Label: "They are in the currency’s unit", Gives: gives(0, 0)},
		},
	}
	if len(low) > 0 {
		q.Choices = append(q.Choices, remark.Choice{ID: "all-hundredths", Label: "All prices per kWh without a unit are in cents", Gives: gives(-2, -2)})
	}
	return q
}
