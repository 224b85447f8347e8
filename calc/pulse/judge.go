package pulse

import (
	"math"

	"splittally/calc/calendar"
	"splittally/calc/compare"
	"splittally/calc/energy"
	"splittally/calc/figure"
	"splittally/calc/uncertainty"
)

// compare sets the monitor's energy of the run against the meter's. What is
// not known of count and time is all on the meter's side: the run lasted as
// long for both.
func (s *sheet) compare(r *run) {
	if r.Waits != "" {
		return
	}
	s.longer(r)
	if !r.HasMonitor {
		return
	}
	e, err := energy.FromKilowattHours(r.Monitor.Value * r.Seconds / 3.6e6)
	if err != nil {
		return
	}
	r.Compared = compare.Judge(s.indicated(r, e), s.reference(r, r.Energy), s.Confidence)
	r.IsCompared = r.Compared.Verdict != compare.Nothing
	s.oneOff(r)
}

func (s *sheet) indicated(r *run, e energy.Energy) compare.Amount {
	a := compare.Amount{Energy: e, Budget: r.inEnergy(r.Monitor.Budget)}
	if s.Accuracy.HalfWidth > 0 {
		a.AddOfReading(s.Accuracy)
	}
	return a
}

func (s *sheet) reference(r *run, e energy.Energy) compare.Amount {
	a := compare.Amount{Energy: e, Budget: r.inEnergy(r.Watts.Budget)}
	if s.Class.HalfWidth > 0 {
		a.AddOfReading(s.Class)
	}
	return a
}

// inEnergy turns a budget in W into one in kWh over the run.
func (r *run) inEnergy(b uncertainty.Budget) uncertainty.Budget {
	return uncertainty.Weighted([]float64{r.Seconds / 3.6e6}, []uncertainty.Budget{b})
}

// oneOff points out a count by the watch that is off by just one: whoever says
// “one” at the start has counted one too many.
func (s *sheet) oneOff(r *run) {
	c := r.Compared
	e := c.Percent.InexactFloat64()
	if !r.watched() || math.Abs(e) <= c.Expanded || r.Count < 2 {
		return
	}
	for _, by := range []float64{-1, 1} {
		ratio := (r.Count + by) / r.Count
		// The error with that count, by far the better of both.
		then := 100 * ((1+e/100)/ratio - 1)
		if math.Abs(then) > c.Expanded/ratio || math.Abs(then) > math.Abs(e)/4 {
			continue
		}
		text := "One " + s.noun.one + " less would bring " + r.name() + " from " + percent(e) + " to " + percent(then) +
			". Was the first one counted as one? It starts the time and counts as zero."
		if by > 0 {
			text = "One " + s.noun.one + " more would bring " + r.name() + " from " + percent(e) + " to " + percent(then) + ". May one have been missed?"
		}
		s.notice(r.path+".turns", "one-off", text)
		return
	}
}

func percent(v float64) string { return figure.Percent(figure.Fixed(v, 1)) }

// pool takes the runs with monitor's watts together. When they were is not
// known, so each stands for a day of its own; nothing hangs on which.
func (s *sheet) pool() {
	var periods []compare.Period
	for i, r := range s.runs {
		if r.IsCompared {
			day := calendar.Day(i)
			periods = append(periods, compare.Period{Span: calendar.Span{First: day, End: day + 1}, Comparison: r.Compared})
		}
	}
	if len(periods) < 2 {
		return
	}
	pooled, err := compare.Pool(periods)
	if err != nil {
		return
	}
	s.out.Pooled, s.out.IsPooled, s.out.Consistent = pooled.Total, true, pooled.Consistency
}
