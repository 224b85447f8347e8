// Package gain finds by how much a monitor is off, leg by leg, from spot checks
// against a reference instrument:
//
//	volts    pairs of a multimeter's volts and the monitor's
//	amps     pairs of a second clamp meter's amperes and the monitor's
//	power    a known load switched on: its watts by a meter at its plug, and the
//	         monitor's watts before and after
//
//	gain g = reference / monitor,  correction = 100 · (g − 1) %
//
// Power is volts times amperes, so the energy a monitor counts on a leg is off
// by the product of both gains, and g is what to multiply it with. The step
// before reads a person's texts; the steps after show what correcting would do
// to the error of a billing period (Result.Effect) and what the voltage can and
// cannot explain of it (Result.Reach).
//
// Volts and amperes are measured at live parts: whatever shows this package's
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
	Lines       []Pair // volts between two lines; with three legs L1-L2, L2-L3, L3-L1 in this order
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

// Read reads the checks and works out the gains.
func Read(c Checks, o Options) Result {
	if o.Path == "" {
		o.Path = "gain"
	}
	if o.Confidence <= 0 || o.Confidence >= 1 {
		o.Confidence = 0.95
	}
	s := &sheet{path: o.Path, confidence: o.Confidence}
	s.readLegs(c.Legs)
	s.readLines(c.Lines)
	s.readAccuracies(c)
	s.readDrop(c.Drop)
	s.readPowerFactor(c.PowerFactor)
	for i := range s.out.Legs {
		s.workLeg(i)
	}
	s.judgeService(c, len(o.Shares))
	s.readShares(c.Legs, o.Shares)
	s.combine()
	s.checkLines()
	s.compareLegs()
	return s.out
}

// sheet is the work on all legs.
type sheet struct {
	path       string
	confidence float64
	accuracy   [kindCount]accuracy
	drop       drop
	samples    [][kindCount][]sample // by leg
	lines      []line
	missing    int // legs of the service that were not entered
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

// judged completes a correction from its factor and its budget.
func (s *sheet) judged(factor float64, b uncertainty.Budget) Correction {
	c := Correction{Factor: factor, Percent: 100 * (factor - 1), Budget: b}
	c.Standard, c.DoF = b.Combined()
	c.Expanded, c.Coverage = b.Expanded(s.confidence)
	c.Significant = math.Abs(c.Percent) > c.Expanded
	return c
}
