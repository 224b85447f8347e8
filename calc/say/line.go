package say

import (
	"fmt"
	"math"
	"strings"

	"splittally/calc/fit"
)

// Line gives a fitted line in words: its offset as a steady power, in watts,
// and its gain.
func Line(l fit.Line, watts fit.Value) string {
	if !l.Known {
		return "No line can be laid: " + ofMeter.Replace(string(l.Why)) + "."
	}
	return fmt.Sprintf("Offset %s, the same at all hours; gain %s, what the monitor shows for each kWh of the meter.",
		beside(Signed(watts.Value, watts.Expanded), watts.Expanded, Thin+"W"), Factor(l.Gain))
}

// ofMeter says what x is.
var ofMeter = strings.NewReplacer("all x are", "all the meter’s figures are", "the x differ", "the meter’s figures differ")

// LineMeans says what of the line is more than its interval. Offset and gain
// lean on each other, so that neither showing does not mean that nothing does.
func LineMeans(l fit.Line) string {
	if !l.Known {
		return ""
	}
	offset, gain := !holds(l.Offset, 0), !holds(l.Gain, 1)
	switch {
	case offset && gain:
		return "Both show: the interval of the offset does not hold 0, nor that of the gain 1."
	case offset:
		return "The offset shows, the gain does not: the interval of the offset does not hold 0, that of the gain holds 1."
	case gain:
		return "The gain shows, the offset does not: the interval of the gain does not hold 1, that of the offset holds 0."
	}
	return "The interval of the offset holds 0 and that of the gain holds 1: each may be nothing, though perhaps not both at once, as more of one would mean less of the other."
}

// holds says whether the interval of v holds x.
func holds(v fit.Value, x float64) bool { return math.Abs(v.Value-x) <= v.Expanded }

// LineFits says how well the points lie on the line, judged at a confidence such
// as 0.95; it is empty where nothing is left over to test. widened says that the
// intervals were made as wide as the scatter asks for.
func LineFits(l fit.Line, confidence float64, widened bool) string {
	if !l.Known || l.DoF == 0 {
		return ""
	}
	how := "The points lie on the line as well as their uncertainties let them"
	switch {
	case l.P >= 1-confidence:
	case widened:
		how = "The points scatter more than their rounding explains, and the intervals are widened by as much"
	default:
		how = "The points lie farther from the line than their uncertainties explain: the line or those uncertainties don’t fit, and offset and gain may be off by more than their intervals"
	}
	return fmt.Sprintf("%s (χ² = %.1f with %s of freedom, %s).", how, l.ChiSquared, Counted(l.DoF, "degree", "degrees"), Chance(l.P))
}

// Factor gives a number to multiply with and its interval: "0.982 ± 0.011".
func Factor(v fit.Value) string {
	return beside(strings.TrimPrefix(Signed(v.Value, v.Expanded), "+"), v.Expanded, "")
}

// Percentage gives a percentage with its interval: "+0.4 % ± 1.1 %".
func Percentage(value, expanded float64) string {
	return beside(Signed(value, expanded), expanded, Thin+"%")
}

// beside puts a value, already in words, beside its interval, both with the unit.
func beside(value string, expanded float64, unit string) string {
	return value + unit + PlusMinus + Interval(expanded) + unit
}
