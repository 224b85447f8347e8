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

// Leg is one leg or phase, every field the text as typed; "" is not given.
type Leg struct {
	Name  string
	Share string // percent of the home's energy on this leg; equal shares if not given
	Pairs []Pair
}

// Pair is the volts of a multimeter and of the monitor, read at the same time.
type Pair struct{ Reference, Monitor string }

// Voltmeter is the multimeter's stated accuracy on its AC volts range: percent
// of the reading and counts of the last digit. Both are assumed if neither is
// given.
type Voltmeter struct{ Percent, Digits string }

// Options say where the legs stand in the case and how sure to be.
type Options struct {
	Path       string  // "gain" if empty; the legs are at Path.legs, the accuracy at Path.voltmeter
	Confidence float64 // a fraction; 0.95 if 0
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

// LegResult is what the pairs of one leg say.
type LegResult struct {
	Name string // as typed, or "Leg 1"
	// Given says that at least one pair could be read. Waits says in words
	// what is missing; it can be set beside Given for a half-typed pair.
	Given bool
	Waits string

	Correction
	Pairs      int     // how many pairs were used
	Reference  float64 // mean volts of the multimeter
	Monitor    float64 // mean volts of the monitor
	Resolution float64 // volts of the last digit that the monitor showed
	Share      float64 // portion of the home's energy, 0 to 1
	Odd        []int   // indexes of pairs that stand apart from the others; they are used
}

// Result holds the legs in the order typed and the correction of the whole.
type Result struct {
	Legs []LegResult
	// Given says that at least one leg is; Overall then multiplies the
	// monitor's energy: Σ share · gain over the legs, where a leg that was not
	// measured is left as it is.
	Given   bool
	Overall Correction

	Problems []remark.Problem
	Notices  []remark.Notice
}

// Read reads the legs and works out their gains.
func Read(legs []Leg, v Voltmeter, o Options) Result {
	if o.Path == "" {
		o.Path = "gain"
	}
	if o.Confidence <= 0 || o.Confidence >= 1 {
		o.Confidence = 0.95
	}
	s := &sheet{path: o.Path, confidence: o.Confidence}
	s.readLegs(legs)
	if s.anyPair() {
		s.readVoltmeter(v)
	}
	for i := range s.out.Legs {
		s.workLeg(i)
	}
	s.readShares(legs)
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
