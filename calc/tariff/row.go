package tariff

import (
	"slices"

	"github.com/shopspring/decimal"

	"splittally/calc/calendar"
)

// row is a Row that could be read.
type row struct {
	kind     Kind
	index    int // in the schedule
	name     string
	price    decimal.Decimal // percent of a tax, and of a discount if isPercent
	percents bool
	per      period
	window   int // minutes of a demand
	basis    basis
	// on marks the rows that a discount, tax or minimum counts, by index in the
	// schedule.
	on           map[int]bool
	season       season
	since, until calendar.Day
	steps        []step
	bands        []band
	clocks       map[dayKinds]*face // of times
}

// step is a tier; the last has no end.
type step struct {
	upTo, price decimal.Decimal
	isLast      bool
}

// band is a time-of-use period.
type band struct {
	name  string
	price decimal.Decimal
	days  days
	hours []hours
	line  int // which line it is part of: that of the first band of its name
}

// period is what a charge or a threshold is for.
type period uint8

const (
	perPeriod period = iota
	perDay
	perMonth
)

// basis is which energy a row prices.
type basis uint8

const (
	metered basis = iota
	adjusted
	losses
)

// units are the units of a fixed charge's quantity.
var units = [...]string{"period", "day", "month"}

// holds says whether the row holds on a day.
func (r *row) holds(d calendar.Day, at yearDay) bool {
	return r.since <= d && d <= r.until && r.season.has(at)
}

// Counts says which rows of the schedule a discount, tax or minimum counts, by
// their index; nil of another row.
func (t Tariff) Counts(index int) map[int]bool {
	for _, r := range t.rows {
		if r.index == index {
			return r.on
		}
	}
	return nil
}

// Periods lists the names of the time-of-use periods, each once.
func (t Tariff) Periods() (names []string) {
	for _, r := range t.rows {
		for _, b := range r.bands {
			if !slices.Contains(names, b.name) {
				names = append(names, b.name)
			}
		}
	}
	return names
}

// TaxHeld is the percentage of a tax that the prices hold already; 0 if none.
func (t Tariff) TaxHeld() decimal.Decimal { return t.inclusive }

// rounding is how a bill becomes coins.
type rounding struct {
	total  bool // the total alone
	half   half
	places int32
}

type half uint8

const (
	halfUp half = iota
	halfEven
	cutDown
)

// round rounds an amount of money.
func (r rounding) round(amount decimal.Decimal) decimal.Decimal {
	switch r.half {
	case halfEven:
		return amount.RoundBank(r.places)
	case cutDown:
		return amount.Truncate(r.places)
	}
	return amount.Round(r.places)
}

// names are what rows are called that have no name.
var names = map[Kind]string{
	Energy: "Energy", Tiers: "Energy", Times: "Energy", Fixed: "Fixed charge", Demand: "Demand",
	Export: "Energy sent out", Netting: "Netting", Discount: "Discount", Tax: "Tax", Minimum: "To the minimum",
}
