package calc

import (
	"github.com/shopspring/decimal"

	"splittally/calc/account"
	"splittally/calc/billing"
	"splittally/calc/calendar"
	"splittally/calc/cause"
	"splittally/calc/compare"
	"splittally/calc/correct"
	"splittally/calc/energy"
	"splittally/calc/fill"
	"splittally/calc/fit"
	"splittally/calc/gain"
	"splittally/calc/intake"
	"splittally/calc/ledger"
	"splittally/calc/load"
	"splittally/calc/metered"
	"splittally/calc/outage"
	"splittally/calc/paired"
	"splittally/calc/pulse"
	"splittally/calc/record"
	"splittally/calc/remark"
	"splittally/calc/tariff"
)

// Findings is everything that the page, the report and the tests show of a
// Case. Every list has the order of the case.
type Findings struct {
	Problems  []remark.Problem  // wrong input, each at its field or line
	Questions []remark.Question // each with the choice that the figures rest on
	Notices   []remark.Notice   // what was assumed, what stands out

	Readings    []Readings          // one for each monitor of the case
	Periods     []billing.Statement // one for each period of the case
	Instruments []Instrument        // one for each column of readings

	MeterDays   Readings // what became of the meter's own daily figures
	Meter       ledger.Ledger
	MeterLoad   load.Load // what the meter's own hours show, if IsMeterLoad
	IsMeterLoad bool
	// Metered is what the meter's own days say of its bills, if IsMetered: if
	// they cover one.
	Metered   metered.Result
	IsMetered bool

	Checks gain.Result  // what the leg checks say
	Timing pulse.Result // what was timed at the utility's meter
	Timed  int          // index of the monitor whose watts were noted beside it
	Plan   tariff.Plan  // the price, as far as it could be read

	Plans    []tariff.Built    // one for each tariff of the case; the household's is the first
	Accounts []account.Account // one for each period; none while the household's tariff has no price
	// Running is the period that has begun and is not billed, if IsRunning.
	Running   account.Running
	IsRunning bool
	Choices   []account.Choice // the tariffs by their cost, the cheapest first, if there are several

	Confidence float64 // the fraction that the intervals hold, such as 0.95
}

// Readings is what became of the text pasted for one monitor, and of its file. Every line of it
// is in Lines: used, ignored or wrong.
type Readings struct {
	Lines                []intake.Line
	Used, Ignored, Wrong int
	Unit                 string // as understood, in words
	First                int    // index of its first column in Findings.Instruments
	Columns              int    // how many instruments its columns of readings made
	// Record is what a file of interval readings came to, without its days, if
	// IsRecord; Beside are the channels of it that are no instruments.
	Record   record.Record
	IsRecord bool
	Beside   []Channel
	Outages  outage.Found // what the gaps of the record look like
}

// Instrument is one column of daily readings.
type Instrument struct {
	Monitor int    // index in Case.Monitors
	Name    string // never empty
	Ledger  ledger.Ledger
	Odd     []ledger.Oddity
	Results []Result // one for each period of the case
	// Pooled takes all periods together, if IsPooled: if two or more of them
	// could be compared.
	Pooled   compare.Pooled
	IsPooled bool
	// Fitted is monitor = offset + gain · meter over the periods, both in kWh a
	// day, if IsFitted: with three or more periods. Daily is the same over the
	// days that the meter's own daily figures cover, if IsDaily.
	Fitted   Fitted
	IsFitted bool
	Daily    Fitted
	IsDaily  bool
	// Paired is the instrument beside the meter's own figures day by day, if
	// IsPaired.
	Paired   paired.Result
	IsPaired bool
	// Legs are the columns that the instrument is the sum of, if its text gave
	// one for each leg, and Shares their parts of the energy.
	Legs   []ledger.Ledger
	Shares []float64
	Causes cause.Weighed
	// Reach is what the voltage can and cannot explain, if IsReached: if the
	// legs' volts were checked and there is an error.
	Reach     gain.Reach
	IsReached bool
	// Corrections are ways to set the instrument right: from the bills, and
	// from the checks of the legs, as far as there are any.
	Corrections []correct.Correction
	// Worth is what the disagreement costs over all periods, if IsWorth.
	Worth   account.Worth
	IsWorth bool
	// Load is what its hours show, if IsLoad: if its readings hold hours.
	Load   load.Load
	IsLoad bool
	// BasePrice is what a kilowatt-hour of a steady load costs, if IsBasePriced:
	// if there are a base load, bills and a tariff.
	BasePrice    decimal.Decimal
	IsBasePriced bool
}

// Fitted is a line through energies, both ways to lay it.
type Fitted struct {
	Points   []Point
	Line     fit.Line // errors in both variables
	Ordinary fit.Line // least squares of the monitor's figure alone
	// Watts is the offset as a steady power, with its uncertainties.
	Watts fit.Value
}

// Point is one period or day: kWh a day by the meter and by the monitor, with
// their standard uncertainties.
type Point struct {
	Period                   int          // index in the case; -1 for a day
	Day                      calendar.Day // of a day
	Meter, Monitor           float64
	MeterDoubt, MonitorDoubt float64
}

// Result is one instrument over one billing period.
type Result struct {
	// Waits says what is still missing for a comparison; empty if nothing is.
	Waits string
	// Filled is the instrument's record of exactly the billed days. It holds
	// days as soon as the period has dates and the instrument has readings.
	Filled   fill.Result
	Compared compare.Comparison
	Shifts   []compare.Shift
	Best     int // index of the shift that would mend the error best, or -1
	// Corrected is what setting the legs' gains would do to the error, if
	// IsCorrected: if the checked monitor is this instrument's.
	Corrected   gain.Effect
	IsCorrected bool
	// Worth is what the two energies cost, if IsPriced: if there is a price and
	// a comparison.
	Worth    account.Worth
	IsPriced bool
	// Ways gives the error under each way to read the bill's dates, while that
	// is a question.
	Ways []WayResult
}

// Compares says whether there is a percentage error.
func (r Result) Compares() bool {
	return r.Compared.Verdict != "" && r.Compared.Verdict != compare.Nothing
}

// WayResult is what one reading of the bill's dates would give.
type WayResult struct {
	Way     billing.Way
	Total   energy.Energy
	Percent decimal.Decimal
	Known   bool // false if there is no percentage error
}
