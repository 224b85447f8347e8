// Package say puts findings into sentences, once, for the page, the report and
// the share text alike: plain words, numbers rounded for show, and nothing
// calculated.
package say

import (
	"fmt"
	"math"
	"strings"

	"splittally/calc/compare"
	"splittally/calc/figure"
)

// The figures of sentences, as package figure writes them.
const (
	Minus     = figure.Minus
	Thin      = figure.Thin
	PlusMinus = figure.PlusMinus
)

// Signed, Fixed, Interval, Degrees, Chance, Counted and Plain are those of figure.
func Signed(value, u float64) string         { return figure.Signed(value, u) }
func Fixed(value float64, places int) string { return figure.Fixed(value, places) }
func Interval(u float64) string              { return figure.Interval(u) }
func Degrees(dof float64) string             { return figure.Degrees(dof) }
func Chance(p float64) string                { return figure.Chance(p) }
func Counted(n int, one, many string) string { return figure.Counted(n, one, many) }
func Plain(value float64, places int) string { return figure.Plain(value, places) }

// Error gives a percentage error with its interval: "+2.3 % ± 1.1 %".
func Error(c compare.Comparison) string {
	e := c.Percent.InexactFloat64()
	return Signed(e, c.Expanded) + Thin + "%" + PlusMinus + Interval(c.Expanded) + Thin + "%"
}

// Short names a verdict in a few words.
func Short(v compare.Verdict) string {
	switch v {
	case compare.Agree:
		return "they agree"
	case compare.DifferHigh:
		return "reads high"
	case compare.DifferLow:
		return "reads low"
	case compare.CannotTell:
		return "can’t tell yet"
	}
	return "nothing to compare"
}

// Verdict is the judgement of one comparison as a sentence about the
// instrument of that name, and what would help where it can't tell.
func Verdict(name string, c compare.Comparison) string {
	off := math.Abs(c.Percent.InexactFloat64())
	by := figure.Between(off, c.Expanded, "%")
	switch c.Verdict {
	case compare.Agree:
		return fmt.Sprintf("%s and the meter agree: %s. %s", name, Error(c), Why(c))
	case compare.DifferHigh:
		return fmt.Sprintf("%s reads high by %s. %s", name, by, Why(c))
	case compare.DifferLow:
		return fmt.Sprintf("%s reads low by %s. %s", name, by, Why(c))
	case compare.CannotTell:
		return fmt.Sprintf("Can’t tell yet whether %s and the meter agree: %s. %s", Within(name), Error(c), Why(c))
	}
	return fmt.Sprintf("Nothing to compare for %s. %s", Within(name), Why(c))
}

// Within gives a name as it stands within a sentence: one that nobody chose, "The
// monitor", loses its capital there.
func Within(name string) string {
	if rest, ok := strings.CutPrefix(name, "The "); ok {
		return "the " + rest
	}
	return name
}

// Why gives the ground of a verdict and, where it can't tell, what would narrow
// the interval most.
func Why(c compare.Comparison) string {
	if c.Verdict != compare.CannotTell || c.Narrow.Part.Remedy == "" {
		return c.Why.Sentence()
	}
	return fmt.Sprintf("%s What would narrow it most: %s (± %s%s%% would become ± %s%s%%).",
		c.Why.Sentence(), c.Narrow.Part.Remedy, Interval(c.Expanded), Thin, Interval(c.Narrow.Expanded), Thin)
}

// Pooled is the judgement over all bills of one instrument.
func Pooled(name string, p compare.Pooled) string {
	return fmt.Sprintf("Over %d bills together: %s", p.Periods, Verdict(Within(name), p.Total))
}

// Consistency says whether the bills tell one story.
func Consistency(p compare.Pooled) string {
	if !p.Consistency.Done {
		return ""
	}
	if p.Consistency.Passes {
		return fmt.Sprintf("The bills are consistent with one error (χ² = %.1f with %s of freedom, %s).",
			p.Consistency.ChiSquared, Counted(p.Consistency.DoF, "degree", "degrees"), Chance(p.Consistency.P))
	}
	return fmt.Sprintf("The bills are not consistent with one error (χ² = %.1f with %s of freedom, %s): they differ by more than their own rounding and filled days explain, so a load, a setting or a connection may have changed.",
		p.Consistency.ChiSquared, Counted(p.Consistency.DoF, "degree", "degrees"), Chance(p.Consistency.P))
}

// Drift says whether the error moves with time.
func Drift(p compare.Pooled) string {
	d := p.Drift
	if !d.Tested {
		return ""
	}
	verdict := "No drift shows"
	if d.Drifts {
		verdict = "The error drifts"
	}
	if d.Slope.Known {
		return fmt.Sprintf("%s: %s ± %s percentage points in 30 days (%s).", verdict, Signed(d.Slope.Value, d.Slope.Expanded), Interval(d.Slope.Expanded), Chance(d.P))
	}
	return fmt.Sprintf("%s: from the first bill to the last %s ± %s percentage points (%s).", verdict, Signed(d.Difference.Value, d.Difference.Expanded), Interval(d.Difference.Expanded), Chance(d.P))
}

// Caution stands wherever a step leads a person to a panel or to live parts.
const Caution = "Parts in a panel and at a receptacle can kill: use a meter rated for the place (CAT III or better), never work alone, keep the cover on. Work inside a panel is for a licensed electrician under the local code."

// Legal is the sentence that every form of the findings carries.
const Legal = "These findings are evidence for a conversation, not a legal proof of a meter’s error: a revenue meter is proved only by an authorised laboratory."
