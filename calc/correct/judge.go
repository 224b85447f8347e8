package correct

import (
	"cmp"
	"math"

	"splittally/calc/compare"
	"splittally/calc/sorted"
	"splittally/calc/uncertainty"
)

// judged is what can be said of a group without any judgement. settings is
// what the rounded settings multiply with.
func (g group) judged(settings float64) Judged {
	e := g.comparison.Percent.InexactFloat64()
	return Judged{
		Period: g.indexes[0], With: g.indexes[1:], Before: e,
		Predicted: corrected(e, settings), Verdict: compare.Nothing,
	}
}

// corrected is the error in percent after multiplying with the factor:
//
//	e' = ((1 + e/100) · F − 1) · 100
func corrected(percent, factor float64) float64 { return ((1+percent/100)*factor - 1) * 100 }

// remainder is an error after correction and its budget, in percent.
type remainder struct {
	after  float64
	budget uncertainty.Budget
}

// hold fills in the judgement.
func (j *Judged) hold(left remainder, g group, confidence float64) {
	j.HeldOut, j.After = true, left.after
	j.Expanded, _ = left.budget.Expanded(confidence)
	j.Verdict = verdict(j.After, j.Expanded, g.comparison.Promise, g.guessed)
}

// heldOut gives what is left of a group's error with the factor of the others,
//
//	After = 100 · (W/R · R′/W′ − 1)
//
// with W′, R′ the sums over the others. All four amounts go in with their
// sensitivities, and parts of one source are added before they are squared: the
// meter's class is in R and R′ by the same share and drops out; a read that
// the group shares with a neighbour lengthens one and shortens the other, so
// that it counts more than twice alone would.
func heldOut(g, others totals) remainder {
	w, r := g.indicated.KilowattHours(), g.reference.KilowattHours()
	w2, r2 := others.indicated.KilowattHours(), others.reference.KilowattHours()
	whole := 100 * w / r * r2 / w2
	return remainder{whole - 100, uncertainty.Weighted(
		[]float64{100 / r * r2 / w2, -whole / r, -whole / w2, whole / r2},
		[]uncertainty.Budget{g.w, g.r, others.w, others.r})}
}

// byFactor gives what is left of a group's error with a factor that was found
// elsewhere: After = 100 · (W/R · F − 1). The budget of F is in its own unit.
func byFactor(g totals, factor float64, b uncertainty.Budget) remainder {
	w, r := g.indicated.KilowattHours(), g.reference.KilowattHours()
	whole := 100 * w / r * factor
	return remainder{whole - 100, uncertainty.Weighted(
		[]float64{100 / r * factor, -whole / r, 100 * w / r},
		[]uncertainty.Budget{g.w, g.r, b})}
}

// verdict has the rule of the package comment.
func verdict(after, expanded, promise float64, guessed bool) compare.Verdict {
	switch {
	case guessed, math.IsInf(expanded, 0), math.IsNaN(expanded):
		return compare.CannotTell
	case after > expanded:
		return compare.DifferHigh
	case after < -expanded:
		return compare.DifferLow
	case math.Abs(after) <= promise && expanded <= 2*promise:
		return compare.Agree
	}
	return compare.CannotTell
}

// sortJudged puts the judgements into the order of the case.
func (c *Correction) sortJudged() {
	sorted.Stable(c.Judged, func(a, b Judged) int { return cmp.Compare(a.Period, b.Period) })
}
