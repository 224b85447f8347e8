package say

import (
	"fmt"
	"strconv"
	"strings"

	"splittally/calc/cause"
	"splittally/calc/correct"
	"splittally/calc/fit"
)

// Share gives a part of the evidence, a fraction, as whole percents: "72 %".
// What is not nothing is not shown as nothing, and what is not all not as all.
func Share(p float64) string {
	switch {
	case p > 0 && p < 0.005:
		return "under 1" + Thin + "%"
	case p < 1 && p > 0.995:
		return "over 99" + Thin + "%"
	}
	return strconv.FormatFloat(100*p, 'f', 0, 64) + Thin + "%"
}

// Remaining is the error that a cause would leave in a bill: "bill 2: +0.4 % ± 1.1 %".
func Remaining(r cause.Remaining) string {
	return "bill " + strconv.Itoa(r.Period+1) + ": " + Percentage(r.Percent, r.Expanded)
}

// Bills names periods by their indexes in the case: "bill 1", "bills 1, 2 and 4".
func Bills(periods []int) string {
	names := make([]string, len(periods))
	for i, p := range periods {
		names[i] = strconv.Itoa(p + 1)
	}
	switch last := len(names) - 1; last {
	case -1:
		return "no bill"
	case 0:
		return "bill " + names[0]
	default:
		return "bills " + strings.Join(names[:last], ", ") + " and " + names[last]
	}
}

// FoundOn says what a correction multiplies with and where that comes from.
func FoundOn(c correct.Correction) string {
	from := "from the checks of the legs"
	if c.Basis == correct.FromBills {
		from = "on " + Bills(c.Found)
	}
	said := fmt.Sprintf("Multiply by %s, found %s.", Factor(fit.Value{Value: c.Factor, Expanded: c.Expanded}), from)
	if !c.Significant {
		said += " The interval holds 1: nothing needs setting on this ground."
	}
	return said
}

// Setting is one line of what to set.
func Setting(s correct.Setting) string {
	name, factor := s.Name, strconv.FormatFloat(s.Factor, 'f', 4, 64)
	if name == "" {
		name = "The overall setting"
	}
	switch {
	case s.IsAssumed:
		return fmt.Sprintf("%s: multiply what is set by %s. If that is %s, set %s.", name, factor, s.Old, s.New)
	case s.New.Equal(s.Old):
		return fmt.Sprintf("%s: leave it at %s. Times %s is less than half a step of %s.", name, s.Old, factor, s.Step)
	}
	return fmt.Sprintf("%s: from %s to %s (times %s, in steps of %s).", name, s.Old, s.New, factor, s.Step)
}

// Judged says what a correction would do to a bill, and whether that is a test
// of it: on a bill that it was found on it can't fail.
func Judged(j correct.Judged, basis correct.Basis) string {
	test := ""
	switch {
	case j.HeldOut:
		test = ", found on the other bills"
	case basis == correct.FromBills:
		test = ", found on this very bill, so no test of it"
	}
	return fmt.Sprintf("Bill %d: %s%s%% would become %s: %s%s.", j.Period+1, Fixed(j.Before, 2), Thin, Percentage(j.After, j.Expanded), Short(j.Verdict), test)
}
