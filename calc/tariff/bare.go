package tariff

import (
	"github.com/shopspring/decimal"

	"splittally/calc/remark"
)

// bare is a price that says no unit. It stays where it is.
type bare struct {
	price *decimal.Decimal
	per   string // "kWh" or "day"
}

// dearDay is the bare charge per day from which hundredths are likely.
var dearDay = decimal.NewFromInt(20)

func (p bare) isDear() bool {
	if p.per == "day" {
		return p.price.Abs().GreaterThanOrEqual(dearDay)
	}
	return p.price.Abs().GreaterThanOrEqual(dear)
}

// settleBare asks once what the prices without a unit are in, if one of them
// would be dear beyond belief in the currency's unit.
func (b *builder) settleBare() {
	var high, low []bare
	for _, p := range b.bare {
		switch {
		case p.isDear():
			high = append(high, p)
		case p.per == "kWh" && !p.price.IsZero():
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
		*p.price = p.price.Shift(-2)
	}
	if taken == "all-hundredths" {
		for _, p := range low {
			*p.price = p.price.Shift(-2)
		}
	}
}

// bareQuestion says what each choice would make of a high price of each kind,
// and of a low one.
func bareQuestion(high, low []bare) remark.Question {
	shown, label := high[:1:1], "Prices of 2 and more are in cents"
	for _, p := range high {
		if p.per == "day" {
			label = "Prices of 2 and more per kWh, and charges of 20 and more a day, are in cents"
			if shown[0].per != "day" {
				shown = append(shown, p)
			}
			break
		}
	}
	gives := func(highBy, lowBy int32) string { return givesOf(shown, low, highBy, lowBy) }
	q := remark.Question{
		Asks: "Is the price of " + high[0].price.String() + " per " + high[0].per + " in cents, pence or the like?",
		Why:  "It would be a very high price if it is not.",
		Choices: []remark.Choice{
			{ID: "hundredths", Label: label, Gives: gives(-2, 0)},
			{ID: "units", Label: "They are in the currency’s unit", Gives: gives(0, 0)},
		},
	}
	if len(low) > 0 {
		q.Choices = append(q.Choices, remark.Choice{ID: "all-hundredths", Label: "All prices per kWh without a unit are in cents", Gives: gives(-2, -2)})
	}
	return q
}

func givesOf(shown, low []bare, highBy, lowBy int32) (text string) {
	for i, p := range shown {
		if i > 0 {
			text += " and "
		}
		text += p.price.Shift(highBy).String()
		if p.per == "day" {
			text += " per day"
		} else if len(low) == 0 {
			text += " per kWh"
		}
	}
	if len(low) > 0 {
		text += " and " + low[0].price.Shift(lowBy).String() + " per kWh"
	}
	return text
}
