package gain

import (
	"math"
	"strconv"

	"splittally/calc/figure"
)

// say puts a reach in words.
func (r Reach) say(checks Result) []string {
	words := []string{r.sayVolts(checks.Volts.Correction)}
	if !checks.Volts.Complete {
		words = append(words, "Not every leg’s volts were measured; the others are taken as right.")
	}
	if r.Current == 0 {
		return words
	}
	gain := "The gain of the current would have to be ×\u00a0" + factor(r.Current) + figure.PlusMinus + factor(r.CurrentExpanded/100) + " to mend that: "
	words = append(words, gain+"the ratio of the clamps’ transformers, or their phase displacement, if the rest comes from the current at all.")
	if checks.Amps.Given {
		words = append(words, r.sayAmps(checks.Amps.Correction))
	}
	if checks.Power.Given {
		left, u := put(r.Percent, r.Expanded, checks.Power.Correction)
		words = append(words, "By the load steps the whole gain is "+times(checks.Power.Correction)+"; that would leave "+figure.Error(left, u)+".")
	}
	return append(words, r.sayPhase(), r.sayClass())
}

func (r Reach) sayVolts(volts Correction) string {
	is, left := figure.Error(r.Percent, r.Expanded), figure.Error(r.Left, r.LeftExpanded)
	// The monitor's own error of volts is that of 1/F.
	off := 100 * (1/volts.Factor - 1)
	reads := "The volts read " + way(off) + " by " + size(off, volts.Expanded)
	energy := "the energy reads " + way(r.Percent) + " by " + size(r.Percent, r.Expanded)
	switch r.Explains {
	case Hidden:
		return reads + ", yet the error of " + is + " is no more than its uncertainty. With the volts put right it would be " + left + ": something else hides what the volts do."
	case NoError:
		return "The error of " + is + " is no more than its uncertainty: there is nothing yet for the voltage to explain."
	case VoltsRight:
		return "The volts are right as far as the multimeter can tell, " + times(volts) + ". The voltage does not explain an error of " + is + ": with the volts put right it would be " + left + "."
	case CannotTell:
		return "The volts are right as far as the multimeter can tell, " + times(volts) + ", but it can’t tell well enough: what they may be off by would do for the error of " + is + ". With the volts put right it would be " + left + "."
	case Opposite:
		return reads + ", but " + energy + ". The voltage gain is not the cause, or something else outweighs it: with the volts put right the error would be " + left + "."
	case All:
		return reads + ", and " + energy + ". With the volts put right " + left + " is left, no more than its uncertainty: the voltage explains the error."
	case Partly:
		return reads + ", and " + energy + ". The voltage explains a part: with the volts put right " + left + " is left."
	}
	return reads + ", and " + energy + ". The voltage is more than enough: with the volts put right the error would turn to " + left + ", so something else works against it."
}

// sayAmps holds the gain that the current would need against the one measured.
func (r Reach) sayAmps(amps Correction) string {
	apart := 100*r.Current - 100*amps.Factor
	said := "The current pairs give " + times(amps)
	if math.Abs(apart) <= math.Hypot(r.CurrentExpanded, amps.Expanded) {
		return said + ", which fits."
	}
	return said + ", which is not that: the rest is not the clamps’ ratio, as far as it was measured."
}

// sayPhase tells what a phase displacement comes to at the power factor.
func (r Reach) sayPhase() string {
	said := "At a power factor of " + strconv.FormatFloat(r.PowerFactor, 'f', 2, 64)
	if r.IsAssumed {
		said += ", which is assumed,"
	}
	return said + " a phase displacement of 60 minutes of arc changes the energy by " + figure.Percent(figure.Interval(math.Abs(PhaseError(r.PowerFactor, -60)))) +
		": a current that leads reads high, one that lags low, while the home’s own current lags."
}

// sayClass says whether what is left is within reach of a class 1 transformer.
// A home mostly draws a small part of what its clamps are rated for, so the
// limits at 20 % and 5 % of the rated current are the ones that matter.
func (r Reach) sayClass() string {
	some, little := limitOf(r.Limits, "1", 20), limitOf(r.Limits, "1", 5)
	left := math.Abs(r.Left)
	at := func(l Limit) string {
		return figure.Percent(strconv.FormatFloat(l.Load, 'f', 0, 64)) + " of the rated current (ratio " + figure.Percent(strconv.FormatFloat(l.Ratio, 'f', 1, 64)) +
			", displacement " + figure.Percent(figure.Interval(l.Phase)) + "; IEC 61869-2)"
	}
	switch {
	case left <= some.both():
		return "What is left is within what a class 1 current transformer may be off at " + at(some) + "."
	case left <= little.both():
		return "What is left is more than a class 1 current transformer may be off at " + at(some) + ", and within what it may at " + at(little) + "."
	case left-r.LeftExpanded <= little.both():
		return "What is left is more than a class 1 current transformer may be off even at " + at(little) + ", but not by more than the uncertainty."
	}
	return "What is left is more than a class 1 current transformer may be off even at " + at(little) + ". A wrong ratio setting, a clamp of no such class, or something other than the current must be in it."
}

func way(percent float64) string {
	if percent > 0 {
		return "high"
	}
	return "low"
}

func size(percent, u float64) string { return figure.Between(math.Abs(percent), u, "%") }
