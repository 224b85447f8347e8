package gain

import (
	"splittally/calc/remark"
	"splittally/calc/uncertainty"
)

// Correction is a factor with its uncertainty. Percent, Standard and Expanded
// are in percent of the monitor's value, so that they stand beside each other.
type Correction struct {
	Factor   float64 // what to multiply the monitor's value with
	Percent  float64 // 100 · (Factor − 1)
	Budget   uncertainty.Budget
	Standard float64 // combined standard uncertainty
	DoF      float64 // effective degrees of freedom, +Inf if nothing was estimated
	Coverage float64 // k
	Expanded float64 // k · Standard
	// Significant says that the correction is larger than its expanded
	// uncertainty: the monitor is off by more than the look at it can err.
	Significant bool
}

// Found is a gain found from pairs of one kind, or from steps.
type Found struct {
	Given bool
	Correction
	Pairs      int     // how many pairs or steps were used
	Reference  float64 // mean of the reference instrument: V, A or W
	Monitor    float64 // mean of the monitor; of steps, the mean rise
	Resolution float64 // last digit that the monitor showed, the coarsest if they differ
	Odd        []int   // indexes of pairs that stand apart from the others; they are used
}

// Basis says what the gain of a leg rests on.
type Basis string

// The bases, the weightiest first.
const (
	ByPower       Basis = "power"          // known loads switched on
	ByVoltsAndAmp Basis = "volts-and-amps" // both gains multiplied
	ByVolts       Basis = "volts"          // nothing is known of the current
	ByAmps        Basis = "amps"           // nothing is known of the voltage
)

// Whence says where the share of a leg comes from.
type Whence string

// The origins of a share; "" is a leg that has none.
const (
	ShareTyped    Whence = "typed"
	ShareReadings Whence = "readings" // the monitor gives its energy leg by leg
	ShareEqual    Whence = "equal"    // nobody said it: an equal part of what the others leave
)

// LegResult is what was found of one leg.
type LegResult struct {
	Name string // as typed, or "Leg 1"
	// Given says that at least one kind was measured. Waits says in words what
	// is missing; it can be set beside Given for a half-typed pair.
	Given bool
	Waits string

	Share              float64 // portion of the home's energy, 0 to 1
	ShareFrom          Whence
	Volts, Amps, Power Found
	// Correction is what the leg's energy is to be multiplied with as far as
	// is known, and Basis what it rests on.
	Correction
	Basis Basis
}

// Whole is one kind of gain over all legs, each by its share.
type Whole struct {
	Given    bool // some leg was measured
	Complete bool // every leg with a share was measured
	Correction
}

// Service is how the home is connected.
type Service string

// The services.
const (
	Single     Service = "single"
	Split      Service = "split"        // two legs, half a turn apart: line to line is their sum
	Three      Service = "three"        // three legs, a third of a turn apart: √3 of one
	TwoOfThree Service = "two-of-three" // two legs of a three-phase network, such as 120/208 V
)

// Result holds the legs in the order typed and the correction of the whole.
type Result struct {
	Legs []LegResult
	// Given says that at least one leg is; Overall then multiplies the
	// monitor's energy: Σ share · gain over the legs, where a leg that was not
	// measured is left as it is.
	Given              bool
	Overall            Correction
	Volts, Amps, Power Whole // the same, by what was measured

	// Service is as typed, or as what was measured shows; ServiceFrom says so
	// in words. Both are empty while no leg is entered. LegCount is how many
	// legs the home has, as far as is known.
	Service     Service
	ServiceFrom string
	LegCount    int

	Lines  []LineCheck  // one for each pair of line volts that is not blank, in their order
	Differ []Difference // volts, amps, power, as far as two legs were measured

	PowerFactor        float64 // as typed, 0.9 if not
	PowerFactorAssumed bool

	Problems []remark.Problem
	Notices  []remark.Notice
}
