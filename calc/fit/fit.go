// Package fit lays straight lines through pairs of values.
//
// Line takes errors in both variables, with any covariance (York's line where
// they are independent); Ordinary is least squares of y alone, and Origin a line
// through the origin. The step before gives energies with their budgets, the
// step after tells offset from gain.
package fit

// Line is y = Offset + Gain·x.
type Line struct {
	Known       bool // false with too few points, or if all x are alike
	Offset      Value
	Gain        Value
	Correlation float64 // of Offset and Gain
	ChiSquared  float64 // of the remainders, in units of their stated uncertainty
	DoF         int
	P           float64 // chance of at least this ChiSquared
	Residual    float64 // standard deviation of y about the line, of Ordinary and Origin
}

// Value is a fitted number with its uncertainty.
type Value struct{ Value, Standard, Expanded float64 }
