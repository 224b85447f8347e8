package correct

import (
	"cmp"
	"slices"

	"splittally/calc/calendar"
	"splittally/calc/compare"
	"splittally/calc/energy"
	"splittally/calc/sorted"
	"splittally/calc/uncertainty"
)

// Bills is what a factor can be found from: an instrument's comparisons with
// the meter.
type Bills struct {
	Periods    []Period
	Confidence float64 // a fraction, such as 0.95
	// Accuracy is the Source of the monitor's own stated accuracy in the
	// budgets of Periods.
	Accuracy string
	Setting  Typed     // the monitor's overall setting
	History  []Reading // see History
}

// Period is one comparison and its index in the case.
type Period struct {
	Index int
	compare.Period
}

// Typed is a setting as a person typed it, and its path in the case.
type Typed struct{ Path, Text string }

// FromPeriods finds the factor from bills:
//
//	F = Σ R / Σ W
//
// over the periods that rest on reads alone; neighbours that share an estimated
// read are one. The ratio of sums and not a weighted mean of ratios: a setting
// acts on energy, so this makes the total of the periods right; what a read
// takes from one period and gives to the next cancels exactly; a badly known
// short period counts little by its size; and no weight is itself estimated.
//
// ok is false if no period can be used or the factor is outside 0.01 to 100.
// The order of the periods does not matter.
func FromPeriods(in Bills) (c Correction, ok bool) {
	groups, err := grouped(in.Periods, in.Accuracy)
	if err != nil {
		return c, false
	}
	sound := slices.DeleteFunc(slices.Clone(groups), func(g group) bool { return g.guessed })
	all, err := sum(sound)
	if err != nil || !all.usable() {
		return c, false
	}
	factor, b := all.factor()
	c.Basis = FromBills
	c.finish(factor, b, in.Confidence)
	for _, g := range sound {
		c.Found = append(c.Found, g.indexes...)
	}
	sorted.Stable(c.Found, cmp.Compare)
	c.set("", in.Setting, factor, c.Expanded)
	for _, g := range groups {
		c.judgeByBills(g, sound, in.Confidence)
	}
	c.sortJudged()
	c.correctDays(in.History, factor, 0, in.Confidence)
	c.noticeLarge(in.Setting.Path)
	c.Words, c.How = c.wordsOfBills(), c.how()
	return c, true
}

// judgeByBills judges a group by the factor that the others give.
func (c *Correction) judgeByBills(g group, sound []group, confidence float64) {
	j := g.judged(c.Settings[0].Rounded)
	others, err := sum(slices.DeleteFunc(slices.Clone(sound), g.shares))
	if err == nil && others.usable() {
		j.hold(heldOut(g.totals, others), g, confidence)
	}
	c.Judged = append(c.Judged, j)
}

// totals are both sides of one or more periods.
type totals struct {
	indicated, reference energy.Energy
	// w and r are their budgets in kWh, w without the monitor's accuracy.
	w, r uncertainty.Budget
}

// usable says whether R/W can be a factor.
func (t totals) usable() bool {
	return t.indicated > 0 && t.reference > 0 && usable(t.reference.KilowattHours()/t.indicated.KilowattHours())
}

// factor gives R/W with its budget: ∂F/∂R = 1/W, ∂F/∂W = −R/W². W must not be 0.
func (t totals) factor() (ratio, uncertainty.Budget) {
	w, r := t.indicated.KilowattHours(), t.reference.KilowattHours()
	return ratio{t.reference.Decimal(), t.indicated.Decimal()},
		uncertainty.Weighted([]float64{-r / w / w, 1 / w}, []uncertainty.Budget{t.w, t.r})
}

// group is a period, or neighbours that share an estimated read and so are one.
type group struct {
	totals
	span       calendar.Span
	indexes    []int // of its periods in the case, in order of time
	comparison compare.Comparison
	guessed    bool // it still begins or ends in an estimated read
}

// shares says whether two groups have a day in common, as one that is judged
// and one that judges must not. A group shares all days with itself.
func (g group) shares(o group) bool {
	return g.indexes[0] == o.indexes[0] || g.span.Common(o.span).Days() > 0
}

// grouped takes the periods that have something to compare, by time.
func grouped(periods []Period, accuracy string) ([]group, error) {
	var used []Period
	for _, p := range periods {
		if p.Verdict != "" && p.Verdict != compare.Nothing {
			used = append(used, p)
		}
	}
	sorted.Stable(used, func(a, b Period) int {
		return cmp.Or(cmp.Compare(a.Span.First, b.Span.First), cmp.Compare(a.Index, b.Index))
	})
	var groups []group
	for _, p := range used {
		if n := len(groups); n > 0 && shareGuess(groups[n-1].comparison, p.Comparison) {
			joined, err := groups[n-1].join(p)
			if err != nil {
				return nil, err
			}
			groups[n-1] = joined
			continue
		}
		groups = append(groups, group{span: p.Span, indexes: []int{p.Index}, comparison: p.Comparison})
	}
	for i := range groups {
		groups[i].close(accuracy)
	}
	return groups, nil
}

// close takes the amounts out of the comparison.
func (g *group) close(accuracy string) {
	w, r := g.comparison.Indicated, g.comparison.Reference
	others := w.Budget.Only(func(p uncertainty.Part) bool { return accuracy == "" || p.Source != accuracy })
	g.totals = totals{w.Energy, r.Energy, others, r.Budget}
	g.guessed = len(r.EstimatedReads) > 0
}

func shareGuess(a, b compare.Comparison) bool {
	for _, read := range a.Reference.EstimatedReads {
		if slices.Contains(b.Reference.EstimatedReads, read) {
			return true
		}
	}
	return false
}

// join adds a period to the group. package compare knows how two periods make
// one, and what an estimated read between them comes to.
func (g group) join(p Period) (group, error) {
	pooled, err := compare.Pool([]compare.Period{{Span: g.span, Comparison: g.comparison}, p.Period})
	return group{
		span:       calendar.Span{First: g.span.First, End: max(g.span.End, p.Span.End)},
		indexes:    append(slices.Clone(g.indexes), p.Index),
		comparison: pooled.Total,
	}, err
}

// sum adds groups. The only error is energy.ErrRange.
func sum(groups []group) (t totals, err error) {
	var ws, rs []uncertainty.Budget
	var once []float64
	for _, g := range groups {
		if t.indicated, err = t.indicated.Add(g.indicated); err != nil {
			return t, err
		}
		if t.reference, err = t.reference.Add(g.reference); err != nil {
			return t, err
		}
		ws, rs, once = append(ws, g.w), append(rs, g.r), append(once, 1)
	}
	t.w, t.r = uncertainty.Weighted(once, ws), uncertainty.Weighted(once, rs)
	return t, nil
}
