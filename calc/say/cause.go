package say

import (
	"strconv"
	"strings"

	"splittally/calc/cause"
)

// Share gives a part of the evidence, a fraction, as whole percents: "72 %".
// No cause is ever all of it or nothing.
func Share(p float64) string {
	switch {
	case p < 0.005:
		return "under 1" + Thin + "%"
	case p > 0.995:
		return "over 99" + Thin + "%"
	}
	return strconv.FormatFloat(100*p, 'f', 0, 64) + Thin + "%"
}

// Remaining is the error that a cause would leave in a bill: "bill 2: +0.4 % ± 1.1 %".
func Remaining(r cause.Remaining) string {
	return "bill\u00a0" + strconv.Itoa(r.Period+1) + ":\u00a0" + Percentage(r.Percent, r.Expanded)
}

// Reserve warns of setting a gain for what is no matter of gain, or may be none.
// It is empty where a gain is the remedy for all that may be the cause.
func Reserve(w cause.Weighed) string {
	if !w.Done || len(w.Causes) == 0 {
		return ""
	}
	first := w.Causes[0]
	switch {
	case first.ID == cause.Chance:
		return "The bills show nothing that has to be set: sound instruments may differ by as much."
	case w.Asserted && !first.Sets:
		return "The cause found above is “" + first.Name + "”. A changed gain is not the remedy for that; what follows only shows what one would do."
	}
	for _, c := range w.Causes[:min(max(1, w.Open), len(w.Causes))] {
		if !c.Sets {
			return "The cause is not settled yet, so wait with the setting: if it is no matter of gain, a changed gain would only hide it."
		}
	}
	return ""
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
