package correct

import (
	"splittally/calc/compare"
)

// Timed is what the monitor's watts came to beside the meter's own pulses.
type Timed struct {
	Compared compare.Comparison // one run, or all together
	// Accuracy is the Source of the monitor's own stated accuracy in the budgets
	// of Compared and of Periods.
	Accuracy   string
	Periods    []Period
	Confidence float64   // a fraction, such as 0.95
	Setting    Typed     // the monitor's overall setting
	History    []Reading // see History
}

// FromTiming finds the factor from the pulses of the meter,
//
//	F = R / W
//
// with the energies of the minutes that were timed, and judges it on all
// periods, none of which it was found on. It is the factor at the loads that
// were timed: an offset in watts would be another share of another load. ok is
// false if there is nothing to compare or the factor is outside 0.01 to 100.
func FromTiming(in Timed) (c Correction, ok bool) {
	minutes := group{comparison: in.Compared}
	minutes.close(in.Accuracy)
	if v := in.Compared.Verdict; v == "" || v == compare.Nothing || !minutes.usable() {
		return c, false
	}
	groups, err := grouped(in.Periods, in.Accuracy)
	if err != nil {
		return c, false
	}
	factor, b := minutes.factor()
	c.Basis = FromPulses
	c.finish(factor, b, in.Confidence)
	c.set("", in.Setting, factor, c.Expanded)
	for _, g := range groups {
		j := g.judged(c.Settings[0].Rounded)
		j.hold(heldOut(g.totals, minutes.totals), g, in.Confidence)
		c.Judged = append(c.Judged, j)
	}
	c.sortJudged()
	c.correctDays(in.History, factor, 0, in.Confidence)
	c.noticeLarge(in.Setting.Path)
	c.Words, c.How = c.wordsOfPulses(), c.how()
	return c, true
}
