package say

import (
	"fmt"
	"strconv"
	"strings"

	"splittally/calc/gain"
)

// Gained gives a gain as a factor and as a percentage with its interval:
// "× 0.9784 (−2.16 % ± 0.45 %)".
func Gained(c gain.Correction) string {
	return "×\u00a0" + strconv.FormatFloat(c.Factor, 'f', 4, 64) + " (" + Percentage(c.Percent, c.Expanded) + ")"
}

// Found says what the means of the pairs of one kind, or steps, give. The unit
// is V, A or W.
func Found(f gain.Found, unit string) string {
	count, places := Counted(f.Pairs, "pair", "pairs"), 1
	switch unit {
	case "A":
		places = 2
	case "W":
		count, places = Counted(f.Pairs, "step", "steps"), 0
	}
	mean := func(x float64) string { return strconv.FormatFloat(x, 'f', places, 64) + Thin + unit }
	return fmt.Sprintf("%s, %s by the reference, %s by the monitor: %s", count, mean(f.Reference), mean(f.Monitor), Gained(f.Correction))
}

// Basis says what the gain of a leg rests on, to follow "It rests on".
func Basis(b gain.Basis) string {
	switch b {
	case gain.ByPower:
		return "known loads: volts and amperes at once; one that only heats does not show a phase displacement"
	case gain.ByVoltsAndAmp:
		return "volts and amperes, both gains multiplied; the phase is not in it"
	case gain.ByVolts:
		return "the volts alone; nothing is known of the current"
	case gain.ByAmps:
		return "the amperes alone; nothing is known of the volts"
	}
	return "nothing"
}

// Service tells how a home is connected and what that was taken from; it is
// empty while nothing is known of it.
func Service(r gain.Result) string {
	if r.ServiceFrom == "" {
		return ""
	}
	said := strings.ReplaceAll(r.ServiceFrom, "'", "’") + "."
	switch r.Service {
	case gain.Single:
		return "single phase, " + said
	case gain.Split:
		return "split phase, " + said
	case gain.Three:
		return "three phases, " + said
	case gain.TwoOfThree:
		return "two legs of three phases, " + said
	}
	return said
}
