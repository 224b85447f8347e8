package gain

import (
	"math"

	"splittally/calc/figure"
)

// Effect is what correcting the gains would do to the error of a period.
type Effect struct {
	Before, After float64 // percentage errors
	// Standard is the standard uncertainty that the correction brings into
	// After, in percentage points.
	Standard      float64
	Better, Worse bool // neither where the two are within 0.05 of each other in size
	Words         string
}

// sameWithin is the difference in size of two percentage errors that is not
// worth a word.
const sameWithin = 0.05

// Effect works out what multiplying the monitor's energy with the overall
// factor F would do to a percentage error e on the meter's base:
//
//	e' = ((1 + e/100) · F − 1) · 100
//
// It is without effect while no leg is given.
func (r Result) Effect(percentError float64) Effect {
	e := Effect{Before: percentError, After: percentError}
	if !r.Given {
		return e
	}
	e.After = corrected(percentError, r.Overall)
	e.Standard = math.Abs(1+percentError/100) * r.Overall.Standard
	gained := math.Abs(e.Before) - math.Abs(e.After)
	e.Better, e.Worse = gained > sameWithin, gained < -sameWithin
	what, does := r.rests()
	change := fixed(e.Before) + " would become " + fixed(e.After) + "."
	switch {
	case e.Worse:
		e.Words = "Correcting " + what + " would make the agreement worse: " + change + " " + does
	case e.Better:
		e.Words = "Correcting " + what + " would make the agreement better: " + change
	default:
		e.Words = "Correcting " + what + " would leave the agreement as it is: " + change
	}
	if !r.Overall.Significant {
		e.Words += " But the correction is no larger than its own uncertainty (±" + figure.Percent(figure.Interval(r.Overall.Expanded)) + "), so nothing shows yet that there is anything to correct."
	}
	return e
}

// rests names what the overall correction rests on, and says that it does not
// explain an error.
func (r Result) rests() (what, doesNotExplain string) {
	only := map[Basis]bool{}
	for _, l := range r.Legs {
		if l.Given {
			only[l.Basis] = true
		}
	}
	switch {
	case len(only) == 1 && only[ByVolts]:
		return "the voltage", "The voltage does not explain this error."
	case len(only) == 1 && only[ByAmps]:
		return "the current", "The current does not explain this error."
	}
	return "the gains", "The gains do not explain this error."
}

// corrected is the percentage error e after multiplying with the factor.
func corrected(e float64, c Correction) float64 { return ((1+e/100)*c.Factor - 1) * 100 }

// fixed gives a percentage with its sign, such as "+2.10 %".
func fixed(percent float64) string { return figure.Percent(figure.Fixed(percent, 2)) }
