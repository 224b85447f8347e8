// Package fit lays straight lines through pairs of values.
//
// Both takes errors in both variables, with any covariance, and Many those of
// many independent points; Ordinary is least squares of y alone. The step before gives energies with their budgets, of which
// Covariances makes what Both wants; the step after tells offset from gain.
//
// Ordinary learns how far y strays from the scatter about the line. Both and Many
// go by the uncertainties that are stated, and tests the scatter against
// them: where P is small the line or the uncertainties are wrong, and what it
// states of offset and gain with them.
package fit

import "math"

// Line is y = Offset + Gain·x.
type Line struct {
	Known       bool    // false if Why says so; the rest is zero then
	Why         Reason  // why there is no line
	Offset      Value   // in the unit of y
	Gain        Value   // in the unit of y per unit of x
	Correlation float64 // of Offset and Gain
	ChiSquared  float64 // of the remainders, in units of their stated uncertainty; of Both and Many
	DoF         int     // points less parameters
	P           float64 // chance of at least this ChiSquared; 1 where nothing is tested
	Residual    float64 // standard deviation of y about the line, of Ordinary
}

// Value is a fitted number with its uncertainty. Expanded is the half-width of
// its interval at the confidence asked for: Standard times the coverage factor,
// and of Both a little more where x are known badly for their spread. DoF is the
// degrees of freedom of Standard, +Inf where nothing was estimated from data.
type Value struct{ Value, Standard, Expanded, DoF float64 }

// Reason says why there is no line, in words that may be shown.
type Reason string

// The reasons.
const (
	TooFew    Reason = "there are too few points"
	Alike     Reason = "all x are alike"
	Uncertain Reason = "the x differ by hardly more than their uncertainty"
	Certain   Reason = "some points, or a mix of them, have no uncertainty at all"
	NoNumber  Reason = "a value or an uncertainty is missing or without limit"
)

// apart is how far x must differ to tell them apart, as a fraction of their
// size: what rounding leaves of a difference of large numbers.
const apart = 1e-9

// refused gives the reason why there can be no line through x and y that wants
// least points, or "".
func refused(x, y []float64, least int) Reason {
	if len(x) != len(y) || !finite(x...) || !finite(y...) {
		return NoNumber
	}
	if len(x) < least {
		return TooFew
	}
	return ""
}

// finite tells if every x is a number with a limit.
func finite(x ...float64) bool {
	for _, v := range x {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return false
		}
	}
	return true
}

// about gives x less its mean, and the mean. Sums of squares of large numbers
// that are nearly alike lose no digits that way.
func about(x []float64) (off []float64, mean float64) {
	for _, v := range x {
		mean += v / float64(len(x))
	}
	off = make([]float64, len(x))
	rest := 0.0
	for i, v := range x {
		off[i] = v - mean
		rest += off[i] / float64(len(x))
	}
	for i := range off {
		off[i] -= rest // what rounding left in the mean
	}
	return off, mean + rest
}

// alike tells if x, given about their mean, are the same within rounding.
func alike(off []float64, mean float64) bool {
	size := 0.0
	for _, v := range off {
		size = max(size, math.Abs(v))
	}
	return !(size > apart*math.Abs(mean))
}

// checked gives l if its numbers are numbers. Values far out of range make sums
// of squares that are not.
func checked(l Line) Line {
	if !finite(l.Offset.Value, l.Offset.Standard, l.Gain.Value, l.Gain.Standard, l.ChiSquared, l.Residual) {
		return Line{Why: NoNumber}
	}
	return l
}
