// # How a Schedule is priced
//
// Where printed bills differ, these are choices.
//
//   - Energies, portions of days and months, thresholds and shares are exact
//     fractions. An amount becomes a decimal of 24 places and is then rounded by
//     Round, Half and Places, once. A discount, tax or minimum counts the
//     rounded amounts of its rows if each line is rounded, else the exact ones.
//   - Only the days of Usage.Span count. A slot is split over its days by their
//     minutes of the clock, so one of whole days evenly. A row prices what falls
//     on the days on which it holds; if there are none it has no line.
//   - A slot of less than 1440 minutes of the clock is split among time-of-use
//     periods by minutes. A longer one is known only if one period has all its
//     minutes; else what falls to each is assumed: periods named in Usage.Shares
//     by their share, those not named share by minutes what remains of 1, and
//     if a named one does not occur the others are scaled up to 1.
//   - Least and Most put what is assumed into the period of the lowest and of
//     the highest price among those that have minutes in the slot.
//   - Thresholds of tiers are per period, per day × days held, or per month ×
//     Σ 1/(days of the month) over the days held. Those per period, like charges,
//     percentages, amounts and minimums that hold for some days only, are
//     multiplied by days held / days of the period. So is a demand charge.
//   - Netting, if its row holds on any day, takes export and what was carried
//     off all import slots in proportion, before losses and prices. It has no
//     line. An export row prices all export, netted or not.
//   - Tax is what tax lines and Inclusive hold: (Total − tax lines)·p/(100 + p).
//   - Holidays count on the day on which they are observed.
package tariff

import (
	"github.com/shopspring/decimal"

	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/remark"
)

// Schedule is a household's tariff as its owner describes it from the printed
// bill, every field the text as typed; "" is not given.
type Schedule struct {
	Name     string
	Currency string // ISO 4217 code such as USD
	Round    string // "line": each line by itself, or "total": the total alone; "" is "line"
	Half     string // "up" (away from zero), "even", or "down" (towards zero, all digits cut); "" is "up"
	Places   string // decimals of an amount; "" the currency's
	// Inclusive is the percentage of a tax that the prices hold already; the
	// bill then shows what of its total is tax.
	Inclusive string
	Region    string // whose public holidays count, an ID of package holiday; "" none
	Dates     string // the owner's own holidays, a date a line, as year-month-day or month-day
	Rows      []Row
}

// Kind says what a row of a schedule does.
type Kind string

// The kinds.
const (
	Energy   Kind = "energy"   // a price per kWh on all energy; as many such rows as the bill has adders
	Tiers    Kind = "tiers"    // a price per kWh that changes with the energy used
	Times    Kind = "times"    // a price per kWh that changes with the hour and the day
	Fixed    Kind = "fixed"    // a charge per period, day or month
	Demand   Kind = "demand"   // a price per kW of the highest mean power
	Export   Kind = "export"   // a credit per kWh sent out
	Netting  Kind = "netting"  // energy sent out is taken off energy drawn; the rest is carried over
	Discount Kind = "discount" // a percentage taken off the rows named, or an amount
	Tax      Kind = "tax"      // a percentage on the rows named
	Minimum  Kind = "minimum"  // what the rows named come to at least
)

// Row is one line of the printed bill, or the few that one rule makes: a tier or
// a time-of-use period each has a line.
type Row struct {
	Kind  string // a Kind
	Name  string // as printed; a name of the kind if ""
	Price string // money per kWh, per kW, per period and so on; percent of a tax or discount
	// Per is "period", "day" or "month" of a fixed charge, of the thresholds of
	// tiers, and of a minimum; "15", "30" or "60" minutes of a demand.
	Per string
	// Basis is which energy rows of energy, tiers and times price: "metered",
	// "adjusted" for losses, or "losses", the difference; "" is metered.
	Basis string
	On    string // of a discount, tax or minimum: names of rows, a comma between; "" is all rows above
	// The season of the row: the first and last day of each year, such as "1 May"
	// and "31 Oct"; both belong, and it may run over the end of the year.
	From, To string
	// Since and Until are the first and last date for which the row holds at
	// all: a price that changes inside the period is two rows.
	Since, Until string
	Steps        []Step // of tiers
	Bands        []Band // of times
}

// Step is a tier.
type Step struct {
	UpTo  string // kWh from the start of the period, day or month; "" is without end
	Price string
}

// Band is a time-of-use period. The first band that holds a moment has it; one
// without Hours and Days holds whatever the others leave.
type Band struct {
	Name  string
	Price string
	// Days is "all", "workdays" (Monday to Friday, no holidays), "rest" (the
	// other days), or names of weekdays and "holidays", a comma between; "" is all.
	Days string
	// Hours is one or several spans of the local clock, such as "7-11, 17-19" or
	// "22:30-6"; one may run over midnight, and then belongs to the day on which
	// it begins. "" is all day.
	Hours string
}

// Tariff is a Schedule as far as it could be read. Build makes it.
type Tariff struct {
	// Given says that it has a price. While it is false, Waits says in words
	// what is missing.
	Given bool
	Waits string
	Name  string
	// LeftOut are the names of rows that lack something or can't be read, so
	// that a bill does not hold them.
	LeftOut []string
	Currency
	// NeedsHours says that a price depends on the hour, NeedsPower that one
	// depends on the power of minutes, NeedsExport on energy sent out.
	NeedsHours, NeedsPower, NeedsExport bool
	// HasEdges says that one kWh more may cost another price: there are tiers, a
	// minimum or netting.
	HasEdges bool

	path      string
	rows      []*row
	round     rounding
	inclusive decimal.Decimal // percent; 0 if none
	region    string
	dates     []calendar.Day // the owner's holidays
	yearDays  []yearDay      // and those of every year
}

// Built is a Tariff and what is to be said about it.
type Built struct {
	Tariff    Tariff
	Problems  []remark.Problem
	Questions []remark.Question
	Notices   []remark.Notice
}

// Usage is what is priced: the energy of one billing period, as it is known.
type Usage struct {
	Span calendar.Span
	// Import and Export hold slots in the order of time: hours, quarters of an
	// hour, whole days, or one slot for all of the period, as a total that
	// nobody knows the days of is.
	Import, Export []Slot
	LossFactor     decimal.Decimal // adjusted = metered · LossFactor; 0 is read as 1
	// Shares are what is assumed of the time-of-use periods where slots are too
	// long to tell: by name of the band, portions that add up to 1. What is not
	// named shares the rest by its hours.
	Shares map[string]decimal.Decimal
	// IsPrinted says that Shares are not assumed: the bill prints them. It holds
	// for rows of whose periods they name all, or all but one.
	IsPrinted bool
	// Carried is energy sent out in earlier periods that netting still owes, in kWh.
	Carried decimal.Decimal
}

// Slot is energy over a stretch of time. A slot within one day has a local clock
// time; one of whole days has From 0 and To 1440 on its last day.
type Slot struct {
	First, Last calendar.Day // the same within one day
	From, To    int          // minutes of the local clock on First and on Last
	Energy      energy.Energy
	// Again marks the second run of the hour that a clock set back repeats.
	Again bool
	Count int // hours or other stretches that the slot stands for; 0 is 1
}

// Priced is a bill reckoned by a Tariff.
type Priced struct {
	Bill
	// Uses says what energy fell into each time-of-use period and each tier, by
	// the names of its lines.
	Uses []Use
	// IsAssumed says that shares of the time-of-use periods were assumed. Least
	// and Most are then the totals if all that is not known fell into the
	// cheapest period, and into the dearest.
	IsAssumed   bool
	Least, Most decimal.Decimal
	Carry       decimal.Decimal // kWh that netting carries over to the next period
	Tax         decimal.Decimal // the tax that the total holds, lines and Inclusive together
	// Skipped lists rows that could not be priced, and why: a demand without
	// the power of minutes.
	Skipped []remark.Notice
	// Notices tell what was assumed: a total of several days split among rows.
	Notices []remark.Notice
}

// Use is the energy of one line.
type Use struct {
	Row     int    // index in the schedule
	Name    string // of the band or tier
	KWh     decimal.Decimal
	Assumed bool
}
