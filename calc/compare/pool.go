package compare

import (
	"cmp"

	"splittally/calc/calendar"
	"splittally/calc/sorted"
	"splittally/calc/uncertainty"
)

// Period is one comparison and the days that it covers.
type Period struct {
	Span calendar.Span
	Comparison
}

// middle is the time of a period's error, in days since 1970-01-01.
func (p *Period) middle() float64 { return (float64(p.Span.First) + float64(p.Span.End)) / 2 }

// Pooled is the error over several periods. Total is what the instrument is
// off by over all of them; the rest asks whether the periods tell one story.
type Pooled struct {
	// Periods counts those that took part: the ones with something to compare.
	Periods int
	// Total compares the summed energies, so each period counts by its energy.
	// What one read takes from a period and gives to the next cancels; the
	// promises of the instruments are common to all and do not shrink.
	Total Comparison

	// Mean is the least-squares mean of the periods' errors. It counts a period
	// by how well it is known, not by its energy, and is the better figure for
	// an instrument that is off by the same percentage always. Here and below,
	// neighbours that share an estimated read are one period, and a period that
	// still ends in an estimate is left out.
	Mean Estimate
	// Weights are those of Mean, by time. They add to 1; correlated periods may
	// have negative ones.
	Weights []float64

	// Consistency tests the errors against their Mean, with what is not common
	// to all periods.
	Consistency Test
	Drift       Drift
}

// Estimate is a figure of statistics with its uncertainty, in the unit of the
// figure. Known is false if it could not be had.
type Estimate struct {
	Known                bool
	Value, Standard, DoF float64
	Expanded             float64 // at the confidence of the periods
}

// Test is a chi-squared test of consistency, which allows for standard
// uncertainties that were themselves estimated from few data.
type Test struct {
	// Done is false with too few periods, or if they have no uncertainty of
	// their own, so that the smallest difference would be a contradiction.
	Done       bool
	ChiSquared float64
	DoF        int // values less fitted parameters
	// VarianceDoF is how well the unit of ChiSquared is known, +Inf if nothing
	// was estimated from data.
	VarianceDoF float64
	P           float64 // the chance of at least this much disagreement by what is not known
	Passes      bool    // P is at least 1 less the confidence
}

// Drift is how the error changes with time.
type Drift struct {
	// Difference is the last period's error less the first's, in percentage
	// points, known from two periods on.
	Difference Estimate
	// Slope is the generalised least-squares line of error against the middle of
	// the period, in percentage points per 30 days, known from three periods on.
	Slope Estimate
	// P is the chance of a slope (with two periods: a difference) at least as
	// large if there is none, by a two-sided t test with the effective degrees
	// of freedom of the budget. Drifts says that P is below 1 less the confidence.
	Tested bool
	P      float64
	Drifts bool
	// Line tests the errors against the line. If it does not pass, the error
	// changes by more than a steady drift, and Slope says little.
	Line Test
}

// days is the time for which Drift.Slope states the change.
const days = 30

// Pool takes the periods together, at the confidence of the earliest one.
// Periods with nothing to compare are left out. Their order does not matter.
// The only errors are energy.ErrRange, and ErrNoReference if no period has
// anything to compare.
func Pool(periods []Period) (Pooled, error) {
	used := comparablePeriods(periods)
	pooled := Pooled{Periods: len(used)}
	if len(used) == 0 {
		return pooled, ErrNoReference
	}
	w, r, err := sums(used)
	if err != nil {
		return pooled, err
	}
	pooled.Total = Judge(w, r, used[0].Confidence)
	story, err := measured(used)
	if err != nil || len(story) == 0 {
		return pooled, err
	}
	newSeries(story).story(&pooled)
	return pooled, nil
}

// comparablePeriods gives the periods that take part, by time.
func comparablePeriods(periods []Period) []*Period {
	var used []*Period
	for i := range periods {
		if periods[i].Verdict != Nothing {
			used = append(used, &periods[i])
		}
	}
	sorted.Stable(used, func(a, b *Period) int { return cmp.Compare(a.middle(), b.middle()) })
	return used
}

// sums adds both sides with their budgets. An estimated read that ends one
// period and begins another is named twice and drops out.
func sums(periods []*Period) (indicated, reference Amount, err error) {
	var ws, rs []uncertainty.Budget
	guessed := map[string]int{}
	for _, p := range periods {
		if indicated.Energy, err = indicated.Energy.Add(p.Indicated.Energy); err != nil {
			return
		}
		if reference.Energy, err = reference.Energy.Add(p.Reference.Energy); err != nil {
			return
		}
		ws, rs = append(ws, p.Indicated.Budget), append(rs, p.Reference.Budget)
		for _, read := range p.Reference.EstimatedReads {
			guessed[read]++
		}
	}
	for _, p := range periods {
		for _, read := range p.Reference.EstimatedReads {
			if guessed[read] == 1 {
				reference.EstimatedReads = append(reference.EstimatedReads, read)
			}
		}
	}
	once := ones(len(periods))
	indicated.Budget = uncertainty.Weighted(once, ws)
	reference.Budget = uncertainty.Weighted(once, rs)
	return indicated, reference, nil
}
