package say

import (
	"fmt"
	"strconv"

	"splittally/calc/compare"
	"splittally/calc/figure"
	"splittally/calc/fit"
	"splittally/calc/pulse"
)

// Watch writes seconds as a watch shows them: "2:05.4".
func Watch(seconds float64, places int) string { return figure.Clock(seconds, places) }

// Pulse names what is counted at a meter, one of it and many.
func Pulse(shows string) (one, many string) { return pulse.Noun(shows) }

// Each says what one pulse stands for; it is empty while that is not known.
func Each(shows string, perPulse float64) string {
	if !(perPulse > 0) {
		return ""
	}
	one, _ := Pulse(shows)
	return "Each " + one + " is " + strconv.FormatFloat(perPulse, 'g', 6, 64) + Thin + "Wh."
}

// Timed says what was counted and in what time: "14 flashes in 0:52.3".
func Timed(shows string, f pulse.Found) string {
	one, many := Pulse(shows)
	count := strconv.FormatFloat(f.Count, 'f', -1, 64)
	if f.Count == 1 {
		many = one
	}
	return count + " " + many + " in " + figure.Clock(f.Seconds, 1)
}

// Watts gives a power with its interval: "1243 W ± 12 W".
func Watts(f pulse.Figure) string { return figure.Between(f.Value, f.Expanded, "W") }

// Longer says how long to count for an interval.
func Longer(l pulse.Longer) string {
	if !l.Possible {
		return fmt.Sprintf("±\u00a0%g%s%% is out of reach: what is left does not shrink with time.", l.Percent, Thin)
	}
	readings := ""
	if l.Readings > 0 {
		readings = " and note " + Counted(l.Readings, "reading", "readings") + " of the monitor"
	}
	return fmt.Sprintf("For ±\u00a0%g%s%% count for %s at this load%s, in all.", l.Percent, Thin, figure.Clock(l.Seconds, 0), readings)
}

// RunsTogether is the judgement over all runs.
func RunsTogether(name string, runs int, c compare.Comparison) string {
	return fmt.Sprintf("%d runs together: %s", runs, Verdict(Within(name), c))
}

// RunsAgree says whether the runs show one error; it is empty where that was not
// tested.
func RunsAgree(t compare.Test) string {
	if !t.Done {
		return ""
	}
	how := "The runs are consistent with one error"
	if !t.Passes {
		how = "The runs are not consistent with one error, so it may depend on the load, or a count is wrong"
	}
	return fmt.Sprintf("%s (χ² = %.1f with %s of freedom, %s).", how, t.ChiSquared, Counted(t.DoF, "degree", "degrees"), Chance(t.P))
}

// LineOfLoads gives the line through runs at several loads in words.
func LineOfLoads(l fit.Line) string {
	if !l.Known {
		return Line(l, l.Offset)
	}
	return fmt.Sprintf("Offset %s, the same at all loads; gain %s, what the monitor shows for each watt of the meter.",
		beside(Signed(l.Offset.Value, l.Offset.Expanded), l.Offset.Expanded, Thin+"W"), Factor(l.Gain))
}
