// Package correct turns a gain into settings, and says what they would do.
//
// The step before is a gain: found from the bills, or measured on the legs. The
// step after shows the settings to make, the corrected days, and how the
// correction does on bills that it was not found from.
package correct

import (
	"github.com/shopspring/decimal"

	"splittally/calc/calendar"
	"splittally/calc/compare"
	"splittally/calc/energy"
)

// Basis says what a correction was found from.
type Basis string

// The bases.
const (
	FromBills  Basis = "bills"
	FromChecks Basis = "checks"
)

// Correction is one way to set an instrument right.
type Correction struct {
	Basis Basis
	// Found lists the periods it was found on, as indexes in the case; empty
	// for FromChecks.
	Found []int
	// Factor is what to multiply the monitor's energy with; Expanded is that of
	// the factor, as a fraction, without the monitor's own stated accuracy.
	Factor, Standard, Expanded float64
	Significant                bool // the factor departs from 1 by more than Expanded
	Settings                   []Setting
	// Judged is how it does on each period: for FromBills, found on the others.
	Judged []Judged
	Days   []Day // the corrected history, each day with an entry
	// Words sum up what it was found on and how it does where it was not.
	Words string
}

// Setting is one setting to change.
type Setting struct {
	Name string // the leg's name; empty for the instrument's overall setting
	// Old is the setting as it stands; 1 if nobody said, and then IsAssumed.
	Old       decimal.Decimal
	IsAssumed bool
	Factor    float64 // exact
	New       decimal.Decimal
	Step      decimal.Decimal // what New is rounded to
	Rounded   float64         // New / Old, what the rounded setting does
}

// Judged is the error of a period with the correction.
type Judged struct {
	Period  int // index in the case
	HeldOut bool
	// Before is the error as it is; After with the correction, or with the one
	// found without this period if HeldOut. Expanded belongs to After.
	Before, After, Expanded float64
	Verdict                 compare.Verdict
}

// Day is one corrected day.
type Day struct {
	Day       calendar.Day
	Was       energy.Energy
	Corrected energy.Energy
	Expanded  energy.Energy // of Corrected
	Filled    bool          // the day was estimated, not measured
}
