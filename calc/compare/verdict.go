package compare

import "math"

// Verdict is what a comparison comes to.
type Verdict string

// The verdicts; the package comment has the rule.
const (
	Agree      Verdict = "agree"
	DifferHigh Verdict = "differ-high" // the indicated energy is higher than what is not known can explain
	DifferLow  Verdict = "differ-low"
	CannotTell Verdict = "cannot-tell"
	Nothing    Verdict = "nothing-to-compare"
)

// Reason is the ground of a verdict, by a stable name.
type Reason string

// The reasons.
const (
	WithinPromise  Reason = "within-promise"  // agree
	BeyondDoubt    Reason = "beyond-doubt"    // differ: |E_n| > 1
	EstimatedRead  Reason = "estimated-read"  // can't tell: the reference is a guess
	NoPromise      Reason = "no-promise"      // can't tell: neither instrument's accuracy is stated
	BeyondPromise  Reason = "beyond-promise"  // can't tell: more than promised, less than the doubt
	WideInterval   Reason = "wide-interval"   // can't tell: U is more than twice the promise
	UnlimitedDoubt Reason = "unlimited-doubt" // can't tell: a part of the budget has no limit
	NoReadings     Reason = "no-readings"     // nothing: the indicated energy is missing
	NoBill         Reason = "no-bill"         // nothing: the reference is missing
	ReferenceZero  Reason = "reference-zero"  // nothing: the reference is zero or negative
)

// Sentence gives the reason in words, without numbers.
func (r Reason) Sentence() string {
	switch r {
	case WithinPromise:
		return "The error is no larger than the two instruments promise, and the interval is narrow enough to say so."
	case BeyondDoubt:
		return "That is more than everything uncertain here, taken together, can explain."
	case EstimatedRead:
		return "The reference rests on an estimated read, so it is not a measurement of this period."
	case NoPromise:
		return "No accuracy is stated for either instrument, so there is nothing that they could keep to."
	case BeyondPromise:
		return "The error is larger than the two instruments promise, but what is not known here could explain it."
	case WideInterval:
		return "The error is no larger than the two instruments promise, but the interval is more than twice as wide as that promise."
	case UnlimitedDoubt:
		return "One part of the uncertainty has no limit that the data could give."
	case NoReadings:
		return "There is no reading of this instrument in the period."
	case NoBill:
		return "There is no billed energy for the period."
	case ReferenceZero:
		return "The billed energy is not above zero, and a percentage of nothing is no number."
	}
	return ""
}

// comparable says whether there is anything to compare; if so the verdict is
// still empty.
func comparable(indicated, reference Amount) (Verdict, Reason) {
	switch {
	case reference.Missing:
		return Nothing, NoBill
	case reference.Energy <= 0:
		return Nothing, ReferenceZero
	case indicated.Missing:
		return Nothing, NoReadings
	}
	return "", ""
}

// judge applies the rule of the package comment with the given U.
func (c *Comparison) judge(expanded float64) (Verdict, Reason) {
	e := c.percentError()
	switch {
	case len(c.Reference.EstimatedReads) > 0:
		return CannotTell, EstimatedRead
	case math.IsInf(expanded, 0) || math.IsNaN(expanded):
		return CannotTell, UnlimitedDoubt
	case e > expanded:
		return DifferHigh, BeyondDoubt
	case e < -expanded:
		return DifferLow, BeyondDoubt
	case c.Promise == 0:
		return CannotTell, NoPromise
	case math.Abs(e) > c.Promise:
		return CannotTell, BeyondPromise
	case expanded > 2*c.Promise:
		return CannotTell, WideInterval
	}
	return Agree, WithinPromise
}
