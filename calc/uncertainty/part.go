// Package uncertainty keeps the uncertainty budget of a result, as in
// JCGM 100:2008 (the GUM): what could be wrong, by how much, how that reaches
// the result, and what it comes to in all.
//
// Floats start here. Energies and money stay exact up to the line that makes a
// Part; nothing of a budget ever flows back into a sum of readings.
//
// The step before is a measurement with its causes of doubt: Evaluate makes a
// Part of each. The step after is a judgement, which wants an interval:
// Combined and Coverage give it. Budgets of different results may share causes
// (one meter read ends one period and begins the next, one monitor's accuracy
// is in every period), so each Part names its Source, and Weighted adds within
// a source with signs before it squares across sources.
//
// What it does not do: correlation other than none or full. Two causes that
// are partly the same must be split by the caller into what they share and
// what they do not.
package uncertainty

import "math"

// Distribution is what is known of a quantity within its half-width, in a word
// that the page may show.
type Distribution string

// The distributions, each with the divisor that takes its half-width to a
// standard uncertainty.
const (
	Rectangular Distribution = "rectangular" // √3, GUM 4.3.7: anywhere between the limits alike
	Triangular  Distribution = "triangular"  // √6, GUM 4.3.9: the middle is likelier
	Arcsine     Distribution = "arcsine"     // √2, GUM H.1.3.4: swings between the limits like a sine
	Normal      Distribution = "normal"      // 1: the half-width is a standard uncertainty already
	Student     Distribution = "t"           // 1: a standard uncertainty estimated from data, with DoF
	// Together marks several parts of one source that have been added. Their
	// half-widths were not alike, so HalfWidth holds the sum's standard
	// uncertainty, in the unit of the result.
	Together Distribution = "together"
)

// divisor is half-width over standard uncertainty.
func (d Distribution) divisor() float64 {
	switch d {
	case Rectangular:
		return math.Sqrt(3)
	case Triangular:
		return math.Sqrt(6)
	case Arcsine:
		return math.Sqrt2
	}
	return 1
}

// Part is one component of an uncertainty budget. Make it with Evaluate, which
// fills in Standard.
type Part struct {
	// Source is the identity of the cause. Parts with the same Source are one
	// and the same cause: they add with their signs before squaring. A part
	// without a Source shares its cause with nothing.
	Source string
	Name   string // in words for the page, such as "Rounding of the daily totals"

	// HalfWidth is how far the quantity may be off to either side, in Unit; for
	// Normal and Student it is the standard uncertainty. Its sign is ignored.
	HalfWidth    float64
	Unit         string
	Distribution Distribution
	// Repeats is how many independent quantities have this half-width and act
	// alike, such as 30 rounded daily totals of one sum. They come to √Repeats
	// times one of them. 0 is 1.
	Repeats int

	// Sensitivity is d(result)/d(quantity), signed, in the unit of the result
	// per Unit. Evaluate reads 0 as 1: the quantity is in the result's unit.
	Sensitivity float64
	// Standard is the contribution to the result, in its unit, with the sign of
	// Sensitivity: sensitivity × standard uncertainty of the quantity.
	Standard float64
	// DoF is the degrees of freedom of Standard, +Inf where it is not estimated
	// from data. Evaluate reads 0 and less as +Inf.
	DoF float64

	Promise   bool   // an instrument's own stated accuracy
	Assumed   bool   // nobody said it: a default of this program
	Reducible bool   // something can be done about it, told in Remedy
	Remedy    string // such as "say at what hour the meter was read"
}

// Evaluate gives p with its Standard, and with the defaults that its zero
// fields stand for made plain. A Student part without degrees of freedom rests
// on no data: its Standard is infinite, so that it can't pass for a known one.
func Evaluate(p Part) Part {
	p.HalfWidth = math.Abs(p.HalfWidth)
	p.Repeats = max(1, p.Repeats)
	if p.Sensitivity == 0 {
		p.Sensitivity = 1
	}
	p.Standard = p.Sensitivity * p.HalfWidth / p.Distribution.divisor() * math.Sqrt(float64(p.Repeats))
	if !(p.DoF > 0) {
		p.DoF = math.Inf(1)
		if p.Distribution == Student {
			p.Standard = math.Copysign(math.Inf(1), p.Sensitivity)
		}
	}
	return p
}

// scaled gives p as a part of a result that changes by the factor for every
// unit of the result that p belongs to now.
func (p Part) scaled(factor float64) Part {
	p.Sensitivity *= factor
	// 0 × Inf is no number; what does not reach the result does not count.
	if factor == 0 {
		p.Standard = 0
		return p
	}
	p.Standard *= factor
	return p
}
