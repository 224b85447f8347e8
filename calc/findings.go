package calc

import (
	"github.com/shopspring/decimal"

	"splittally/calc/billing"
	"splittally/calc/compare"
	"splittally/calc/energy"
	"splittally/calc/fill"
	"splittally/calc/gain"
	"splittally/calc/intake"
	"splittally/calc/ledger"
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

	Volts gain.Result // what the leg checks say
	Plan  tariff.Plan // the price, as far as it could be read

	Confidence float64 // the fraction that the intervals hold, such as 0.95
}

// Readings is what became of the text pasted for one monitor. Every line of it
// is in Lines: used, ignored or wrong.
type Readings struct {
	Lines                []intake.Line
	Used, Ignored, Wrong int
	Unit                 string // as understood, in words
	First                int    // index of its first column in Findings.Instruments
	Columns              int    // how many columns of readings it had
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
	// IsCorrected: if the volts that were checked are this instrument's.
	Corrected   gain.Effect
	IsCorrected bool
	// Money is what the two energies cost, if IsPriced: if there is a price and
	// a comparison.
	Money    tariff.Disagreement
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
