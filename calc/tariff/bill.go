package tariff

import "github.com/shopspring/decimal"

// Line is one line of a bill.
type Line struct {
	Name     string // such as "Energy, up to 600 kWh"
	Quantity decimal.Decimal
	Unit     string          // of Quantity: "kWh", "kW", "day", "month", "period"; "" if it is money, as of a tax
	Rate     decimal.Decimal // money per Unit; of a tax a portion, 0.055 for 5.5 %
	Amount   decimal.Decimal // Quantity × Rate, rounded by the tariff's rule
	// Exact is the amount before it is rounded, to 24 decimals.
	Exact decimal.Decimal
	Row   int // index of the row in the schedule that makes the line
}

// Bill is a priced amount of energy. Total is the sum of the lines' amounts,
// exactly; of a tariff that rounds the total alone it is the rounded sum of
// what they are before rounding.
type Bill struct {
	Lines    []Line
	Total    decimal.Decimal
	Currency Currency
}
