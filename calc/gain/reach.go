package gain

import "math"

// Explains says what the voltage is to an error.
type Explains string

// What the voltage can be to an error.
const (
	// NoError: the error is no more than its uncertainty, with the volts put
	// right or not.
	NoError Explains = "no-error"
	// Hidden: the error is no more than its uncertainty, but putting the volts
	// right would bring one to light.
	Hidden Explains = "hidden"
	// VoltsRight: the volts show nothing to put right, and the error stays.
	VoltsRight Explains = "volts-right"
	// CannotTell: the volts show nothing to put right, yet what they may be off
	// by would be enough for the error.
	CannotTell Explains = "cannot-tell"
	// Opposite: the volts read low and the energy high, or the reverse.
	Opposite Explains = "opposite"
	// All: with the volts put right nothing is left beyond the uncertainty.
	All Explains = "all"
	// Partly: some error of the same sign is left.
	Partly Explains = "partly"
	// Beyond: an error of the other sign would come to light.
	Beyond Explains = "beyond"
)

// Reach says what the voltage can explain of an error, and what it leaves to
// the current.
type Reach struct {
	Percent, Expanded float64 // the error as it is
	Left              float64 // the error with the volts put right
	LeftExpanded      float64
	Explains          Explains // "" while no volts are known
	// Current is the factor on current that would mend what is left, if that
	// is more than its uncertainty; else 0. CurrentExpanded is in percent of
	// the monitor's value, as of a Correction.
	Current         float64
	CurrentExpanded float64
	PowerFactor     float64
	IsAssumed       bool // nobody said the power factor
	Limits          []Limit
	Words           []string
}

// Reach works out what putting the volts right, by the factor F over all legs,
// leaves of a percentage error e of energy with its expanded uncertainty:
//
//	e' = ((1 + e/100) · F − 1) · 100,  a = 1/(1 + e'/100)
//
// and the factor a on the current that would mend the rest. Both uncertainties
// are taken to be of the same confidence, and their causes to have nothing in
// common: U'² = (F·U)² + ((1 + e/100)·U_F)².
func (r Result) Reach(percent, expanded float64) Reach {
	out := Reach{Percent: percent, Expanded: expanded, Left: percent, LeftExpanded: expanded, PowerFactor: r.PowerFactor, IsAssumed: r.PowerFactorAssumed}
	if !r.Volts.Given || !(out.PowerFactor > 0) {
		return out
	}
	f := r.Volts.Correction
	out.Left, out.LeftExpanded = put(percent, expanded, f)
	out.Limits = Limits(r.PowerFactor)
	if whole := 1 + out.Left/100; out.open() && whole > 0 {
		out.Current = 1 / whole
		out.CurrentExpanded = out.LeftExpanded / whole / whole
	}
	out.Explains = out.judge(f)
	out.Words = out.say(r)
	return out
}

// put gives an error and its uncertainty after a correction.
func put(percent, expanded float64, c Correction) (left, leftExpanded float64) {
	return corrected(percent, c), math.Hypot(expanded*c.Factor, (1+percent/100)*c.Expanded)
}

// open says that what is left is more than its uncertainty.
func (r Reach) open() bool { return math.Abs(r.Left) > r.LeftExpanded }

func (r Reach) judge(volts Correction) Explains {
	isError := math.Abs(r.Percent) > r.Expanded
	switch {
	case !isError && r.open() && volts.Significant:
		return Hidden
	case !isError:
		return NoError
	case !volts.Significant && r.open():
		return VoltsRight
	case !volts.Significant:
		return CannotTell
	// A factor above 1 is for volts that read low.
	case (r.Percent > 0) == (volts.Percent > 0):
		return Opposite
	case !r.open():
		return All
	case (r.Left > 0) == (r.Percent > 0):
		return Partly
	}
	return Beyond
}
