package say

import (
	"math"
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"splittally/calc/cause"
	"splittally/calc/correct"
	"splittally/calc/fit"
)

// Multiply says what a correction multiplies with, and where that may be nothing.
func Multiply(c correct.Correction) string {
	said := "Multiply its energy by " + Factor(fit.Value{Value: c.Factor, Expanded: c.Expanded}) + "."
	if !c.Significant {
		said += " The interval holds 1: for the home as a whole nothing needs setting on this ground."
	}
	return said
}

// Reserve warns of setting a gain for what is no matter of gain, or may be none.
// It is empty where a gain is the remedy for all that may be the cause. What the
// checks of the legs show stands beside it either way.
func Reserve(w cause.Weighed, list []correct.Correction) string {
	if !w.Done || len(w.Causes) == 0 {
		return ""
	}
	off := false
	for i := range list {
		off = off || offAtLegs(&list[i])
	}
	first := w.Causes[0]
	switch {
	case first.ID == cause.Chance && off:
		return "The bills alone show nothing that has to be set, but the checks at the legs do: a leg is off by more than its check can err. Legs that are off in opposite directions hide each other in a bill."
	case first.ID == cause.Chance:
		return "Nothing shows that anything has to be set: sound instruments may differ by as much. What the bills would make of it stands here all the same."
	case notGain(w):
		said := "The cause found above is “" + first.Name + "”. A changed gain is not the remedy for that."
		if off {
			said += " What the checks at the legs show is a second matter: mend the first before you set them."
		}
		return said
	}
	for _, c := range w.Causes[:min(max(1, w.Open), len(w.Causes))] {
		if !c.Sets {
			return "The cause is not settled yet, so wait with the setting: if it is no matter of gain, a changed gain would only hide it. What the bills would make of it stands here all the same."
		}
	}
	return ""
}

// notGain says that the one cause found is none that a setting mends.
func notGain(w cause.Weighed) bool {
	return w.Done && w.Asserted && len(w.Causes) > 0 && !w.Causes[0].Sets
}

// offAtLegs says whether a correction comes from checks of which one at least
// is beyond what it can err by.
func offAtLegs(c *correct.Correction) bool {
	off := false
	for i := range c.Settings {
		off = off || math.Abs(c.Settings[i].Factor-1) > c.Settings[i].Expanded
	}
	return off && c.Basis == correct.FromChecks
}

// NoRemedy says, in a few words, why the settings of a correction are not what
// mends the instrument; it is empty where they may be.
func NoRemedy(w cause.Weighed, c correct.Correction) string {
	least, most := c.Factor, c.Factor
	for i := range c.Settings {
		least, most = min(least, c.Settings[i].Factor), max(most, c.Settings[i].Factor)
	}
	switch {
	case least < 0.8 || most > 1.25: // where package correct has its notice
		return "A setting is not the remedy for so much: find the cause first"
	case notGain(w) && !offAtLegs(&c):
		return "A setting is not the remedy here"
	}
	return ""
}

// Set gives a figure of a setting with the digits and the unit to set it in.
func Set(s correct.Setting, figure decimal.Decimal) string { return digits(s, figure, s.Places()) }

// Old gives a setting as it stands, with the digits it was typed with.
func Old(s correct.Setting) string { return digits(s, s.Old, -s.Old.Exponent()) }

func digits(s correct.Setting, figure decimal.Decimal, places int32) string {
	text := strings.Replace(figure.StringFixed(max(0, places)), "-", Minus, 1)
	if s.Unit != "" {
		text += Thin + s.Unit
	}
	return text
}

// Inverse is what to set where the monitor's figure falls when the setting
// rises; it is empty where there is nothing to set.
func Inverse(s correct.Setting) string {
	if s.Inverse.IsZero() || s.New.Equal(s.Old) {
		return ""
	}
	return Set(s, s.Inverse)
}

// Judged names the bills of a judgement: those that share an estimated read
// are judged as one.
func Judged(j correct.Judged) string {
	name := Bills(append([]int{j.Period}, j.With...))
	if len(j.With) > 0 {
		name += " together"
	}
	return name
}

// NoTest says why a bill does not judge a correction; it is empty where it does.
func NoTest(c correct.Correction, j correct.Judged) string {
	switch {
	case j.HeldOut:
		return ""
	case slices.Contains(c.Found, j.Period):
		return "no test: found on it"
	}
	return "no test"
}
