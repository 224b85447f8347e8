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
	case p < faint:
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

// faint is the part of the evidence below which a cause is only named.
const faint = 0.005

// Told is how many of the causes are worth more than their name, and a sentence
// that names the others, the fainter ones; it is empty if there are none.
func Told(w cause.Weighed) (n int, others string) {
	for n < len(w.Causes) && (n < max(1, w.Open) || w.Causes[n].Probability >= faint) {
		n++
	}
	if n == len(w.Causes) {
		return n, ""
	}
	names := make([]string, 0, len(w.Causes)-n)
	for _, c := range w.Causes[n:] {
		names = append(names, strings.TrimSuffix(c.Name, "."))
	}
	return n, "Also weighed, and explained far less well: " + strings.Join(names, "; ") + "."
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
