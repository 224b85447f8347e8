package tariff

import "github.com/shopspring/decimal"

// RoundingRule is how a Bill is rounded: each line by itself to the currency's
// places, a half away from zero, the tax on the sum of the rounded lines. It is
// how printed bills come out whose exact products end in half a cent.
const RoundingRule = "half-up-per-line"

// Line is one line of a bill.
type Line struct {
	Name     string // "Energy", "Fixed charge", "Tax"
	Quantity decimal.Decimal
	Unit     string          // of Quantity: "kWh", "period"; "" of a tax, whose quantity is money
	Rate     decimal.Decimal // money per Unit; of a tax a portion, 0.055 for 5.5 %
	Amount   decimal.Decimal // Quantity × Rate, rounded by the tariff's rule
	// Exact is the amount before it is rounded, to 24 decimals.
	Exact decimal.Decimal
	Row   int // index of the row in the schedule that makes the line; 0 of a Plan
}

// Bill is a priced amount of energy. Total is the sum of the lines' amounts,
// exactly; of a Schedule that rounds the total alone it is the rounded sum of
// what they are before rounding.
type Bill struct {
	Lines    []Line
	Total    decimal.Decimal
	Currency Currency
}

// Bill prices kWh kilowatt-hours used in one billing period. The plan must be
// Given. A charge or a tax that was not typed has no line.
func (p Plan) Bill(kWh decimal.Decimal) Bill {
	b := Bill{Currency: p.Currency}
	b.add("Energy", kWh, "kWh", p.Price)
	if p.HasFixed {
		b.add("Fixed charge", decimal.NewFromInt(1), "period", p.Fixed)
	}
	if p.HasTax {
		b.add("Tax", b.Total, "", p.Tax.Shift(-2))
	}
	return b
}

func (b *Bill) add(name string, quantity decimal.Decimal, unit string, rate decimal.Decimal) {
	exact := quantity.Mul(rate)
	amount := exact.Round(b.Currency.Places())
	b.Lines = append(b.Lines, Line{Name: name, Quantity: quantity, Unit: unit, Rate: rate, Amount: amount, Exact: exact})
	b.Total = b.Total.Add(amount)
}

// Disagreement is what a difference between two instruments is worth.
type Disagreement struct {
	Indicated, Reference Bill
	// Difference is the indicated bill less the reference's, both rounded as
	// bills are: positive if the bill would be higher by the indicating
	// instrument.
	Difference decimal.Decimal
	// Marginal is the difference in energy at the price with tax, exact and
	// not rounded: price · (indicated − reference) · (1 + tax/100). It differs
	// from Difference by the rounding of lines alone.
	Marginal decimal.Decimal
}

// Disagreement prices an indicated and a reference energy in kWh of the same
// billing period. The plan must be Given.
func (p Plan) Disagreement(indicated, reference decimal.Decimal) Disagreement {
	d := Disagreement{Indicated: p.Bill(indicated), Reference: p.Bill(reference)}
	d.Difference = d.Indicated.Total.Sub(d.Reference.Total)
	withTax := decimal.NewFromInt(1).Add(p.Tax.Shift(-2))
	d.Marginal = p.Price.Mul(indicated.Sub(reference)).Mul(withTax)
	return d
}
