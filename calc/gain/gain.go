// Package gain finds by how much a monitor's voltage is off, leg by leg, from
// pairs of a multimeter's volts and the monitor's volts.
//
//	gain g = reference volts / monitor volts,  correction = 100 · (g − 1) %
//
// Power is volts times amperes, so the energy a monitor counts on a leg is off
// by the same factor, and g is what to multiply it with. The step before reads
// a person's texts; the step after shows what correcting would do to the error
// of each billing period (Result.Effect).
//
// Multimeter readings are taken at live parts: whatever shows this package's
// results must show the cautions for that.
package gain

import (
	"math"
	"strconv"

	"splittally/calc/remark"
	"splittally/calc/uncertainty"
)

// Checks holds all spot checks of one monitor, every field the text as typed;
// "" is not given.
type Checks struct {
	Service     string   // "split", "single" or "three"; "" to take it from what was measured
	Drop        string   // volts lost at most between the panel and the socket that was measured at
	PowerFactor string   // of the home, 0.1 to 1; for what a phase displacement can come to
	Voltmeter   Accuracy // of the multimeter on AC volts
	Clampmeter  Accuracy // of the second clamp meter on AC amperes
	Plugmeter   Accuracy // of the meter between plug and socket, in watts
	Legs        []Leg
	Lines       []Pair // volts between two lines
}

// Leg is one leg or phase.
type Leg struct {
	Name    string
	Share   string // percent of the home's energy on this leg; as the readings show it, or equal, if not given
	Setting string // what the monitor's setting for this leg stands at
	Pairs   []Pair // volts
	Amps    []Pair // amperes, by the clamp meter and by the monitor
	Steps   []Step
}

// Pair is what a reference instrument and the monitor showed at the same time.
type Pair struct{ Reference, Monitor string }

// Step is a known load switched on: the monitor's watts before and after, and
// the watts of the load by a meter at its plug.
type Step struct{ Before, After, Load string }

// Accuracy is what the maker of a reference instrument states of the range
// used: percent of the reading and counts of the last digit. Both are assumed
// if neither is given.
type Accuracy struct{ Percent, Digits string }

// Options say where the legs stand in the case and how sure to be.
type Options struct {
	Shares     []float64 // of the legs, as the readings show them; nil if they do not
	Path       string    // "gain" if empty; the legs are at Path.legs, and so on
	Confidence float64   // a fraction; 0.95 if 0
}

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
	// uncertainty: the voltage is off by more than the look at it can err.
	Significant bool
}

// Found is a gain found from pairs of one kind, or from steps.
type Found struct {
	Given bool
	Correction
	Pairs      int     // how many pairs or steps were used
	Reference  float64 // mean of the reference instrument: V, A or W
	Monitor    float64 // mean of the monitor; of steps, the mean rise
	Resolution float64 // last digit that the monitor showed
	Odd        []int   // indexes of pairs that stand apart from the others; they are used
}

// Basis says what the gain of a leg rests on.
type Basis string

// The bases, the weightiest first.
const (
	ByPower       Basis = "power"          // known loads switched on: volts, amperes and phase at once
	ByVoltsAndAmp Basis = "volts-and-amps" // both gains multiplied
	ByVolts       Basis = "volts"          // nothing is known of the current
	ByAmps        Basis = "amps"           // nothing is known of the voltage
)

// LegResult is what was found of one leg.
type LegResult struct {
	Name string // as typed, or "Leg 1"
	// Given says that at least one kind was measured. Waits says in words what
	// is missing; it can be set beside Given for a half-typed pair.
	Given bool
	Waits string

	Share              float64 // portion of the home's energy, 0 to 1
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

// Result holds the legs in the order typed and the correction of the whole.
type Result struct {
	Legs []LegResult
	// Given says that at least one leg is; Overall then multiplies the
	// monitor's energy: Σ share · gain over the legs, where a leg that was not
	// measured is left as it is.
	Given              bool
	Overall            Correction
	Volts, Amps, Power Whole // the same, by what was measured

	Problems []remark.Problem
	Notices  []remark.Notice
}

// Read reads the legs and works out their gains.
func Read(c Checks, o Options) Result {
	if o.Path == "" {
		o.Path = "gain"
	}
	if o.Confidence <= 0 || o.Confidence >= 1 {
		o.Confidence = 0.95
	}
	s := &sheet{path: o.Path, confidence: o.Confidence}
	s.readLegs(c.Legs)
	if s.anyPair() {
		s.readVoltmeter(c.Voltmeter)
	}
	for i := range s.out.Legs {
		s.workLeg(i)
	}
	s.readShares(c.Legs)
	s.combine()
	return s.out
}

// sheet is the work on all legs.
type sheet struct {
	path       string
	confidence float64
	meter      accuracy
	pairs      [][]pair // by leg
	out        Result
}

func (s *sheet) field(leg int, field string) string {
	return s.path + ".legs." + strconv.Itoa(leg) + "." + field
}

func (s *sheet) problem(path, found, wanted string) {
	s.out.Problems = append(s.out.Problems, remark.Problem{Path: path, Found: found, Wanted: wanted})
}

func (s *sheet) notice(path, code, text string) {
	s.out.Notices = append(s.out.Notices, remark.Notice{Code: code, Path: path, Text: text})
}

func (s *sheet) anyPair() bool {
	for _, p := range s.pairs {
		if len(p) > 0 {
			return true
		}
	}
	return false
}

// judged completes a correction from its factor and its budget.
func (s *sheet) judged(factor float64, b uncertainty.Budget) Correction {
	c := Correction{Factor: factor, Percent: 100 * (factor - 1), Budget: b}
	c.Standard, c.DoF = b.Combined()
	c.Expanded, c.Coverage = b.Expanded(s.confidence)
	c.Significant = math.Abs(c.Percent) > c.Expanded
	return c
}
