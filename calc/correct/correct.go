// Package correct turns a gain into settings, and says what they would do.
//
// The step before is a gain: found from the bills, or measured on the legs. The
// step after shows the settings to make, the corrected days, and how the
// correction does on bills that it was not found from.
//
// # What does not count
//
// A factor found on bills measures the monitor against the meter. The monitor's
// own stated accuracy says how far its gain may be off, and that is what the
// factor takes away; so it is no part of the factor's uncertainty, nor of what
// is left after it. The meter's class is part of the factor's, since nothing
// else says how true the meter is, but drops out by itself where bills of the
// same meter judge each other. How much of a stated accuracy varies from bill
// to bill, with load or with weather, is not known: none of it is taken to.
//
// # The verdict
//
// A correction is never judged on the bills that it was found on: it fits them
// by construction. Where it can be judged, |After| > U says that the bill
// still differs; otherwise it agrees if |After| <= P and U <= 2·P, with the
// promise P that the two instruments make for the bill as it stands; else it
// can't be told. This is the rule of package compare with its own P, because
// After has no promise in it any more that could be taken as one.
package correct

import (
	"github.com/shopspring/decimal"

	"splittally/calc/calendar"
	"splittally/calc/compare"
	"splittally/calc/energy"
	"splittally/calc/ledger"
	"splittally/calc/remark"
	"splittally/calc/uncertainty"
)

// Basis says what a correction was found from.
type Basis string

// The bases.
const (
	FromBills  Basis = "bills"
	FromChecks Basis = "checks" // at the legs
	FromPulses Basis = "pulses" // of the meter, timed
)

// Correction is one way to set an instrument right.
type Correction struct {
	Basis Basis
	// Found lists the periods it was found on, as indexes in the case; empty
	// but for FromBills.
	Found []int
	// Factor is what to multiply the monitor's energy with. Standard and
	// Expanded are absolute, in the unit of the factor, and so is each part of
	// Budget; the monitor's own stated accuracy is not among them.
	Factor, Standard, Expanded float64
	DoF                        float64 // effective degrees of freedom of Standard
	Budget                     uncertainty.Budget
	Significant                bool // the factor departs from 1 by more than Expanded
	Settings                   []Setting
	// Judged is how it does on each period: for FromBills, found on the others.
	Judged []Judged
	Days   []Day // the corrected history, each day with an entry
	// Words sum up what it was found on and how it does where it was not.
	Words string
	// How says how to go about the change.
	How      string
	Problems []remark.Problem // settings that could not be read
	Notices  []remark.Notice
}

// Setting is one setting to change.
type Setting struct {
	Name string // the leg's name; empty for the instrument's overall setting
	// Old is the setting as it stands; 1 if nobody said, and then IsAssumed.
	Old       decimal.Decimal
	Unit      string // "%" if Old was typed so; else empty
	IsAssumed bool
	Factor    float64 // exact
	Expanded  float64 // of Factor, absolute
	New       decimal.Decimal
	Step      decimal.Decimal // what New is rounded to
	Rounded   float64         // New / Old, what the rounded setting does
	// Inverse is what to set instead, in the same steps, where the monitor's
	// figure falls when the setting rises: Old / Factor.
	Inverse decimal.Decimal
	// IsFiner says that New has more digits than Old was typed with, because
	// theirs are too coarse. Coarse is New in the digits of Old, for a setting
	// that takes no more, and CoarseRounded is Coarse / Old.
	IsFiner       bool
	Coarse        decimal.Decimal
	CoarseRounded float64
}

// Judged is the error of a period with the correction, in percent of the
// reference.
type Judged struct {
	Period int // index in the case
	// With are further periods judged in one with it, because the read between
	// them was estimated.
	With []int
	// HeldOut says that the factor behind After was found without this period.
	// Only then After is a judgement: else it is 0 by construction, Expanded is
	// 0, Verdict is compare.Nothing, and none of them is to be shown as a result.
	HeldOut bool
	// Before is the error as it is; After with the correction, or with the one
	// found without this period if HeldOut. Expanded belongs to After.
	Before, After, Expanded float64
	Verdict                 compare.Verdict
	// Predicted is the error that the rounded settings would have left. It is
	// no test of a period in Correction.Found.
	Predicted float64
}

// Day is one corrected day.
type Day struct {
	Day       calendar.Day
	Was       energy.Energy
	Corrected energy.Energy
	Expanded  energy.Energy // of Corrected; 0 if IsUnlimited
	// IsUnlimited says that a part of the uncertainty has no limit.
	IsUnlimited bool
	Filled      bool // the day was estimated, not measured
	// State is how the day was known. A Partial day that is not Filled holds
	// its measured part alone; a Spread one is an even share of a longer total.
	State ledger.State
}
