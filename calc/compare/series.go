package compare

import "splittally/calc/uncertainty"

// series is the errors of some periods in order of time, as floats.
type series struct {
	errors     []float64 // percent
	times      []float64 // days
	sources    []source
	confidence float64
}

func newSeries(periods []*Period) *series {
	s := &series{confidence: periods[0].Confidence}
	var budgets []uncertainty.Budget
	for _, p := range periods {
		s.errors = append(s.errors, p.percentError())
		s.times = append(s.times, p.middle())
		budgets = append(budgets, p.Budget)
	}
	s.sources = sourcesOf(budgets)
	return s
}

// story fills in what the periods say beside their total.
func (s *series) story(p *Pooled) {
	n := len(s.errors)
	if n == 1 {
		p.Weights = []float64{1}
		p.Mean = s.estimate(p.Weights, nil)
		return
	}
	ends := make([]float64, n)
	ends[0], ends[n-1] = -1, 1
	p.Drift.Difference = s.estimate(ends, nil)
	l, ok := factor(covariance(s.sources, n))
	if !ok {
		return
	}
	mean := l.mean()
	p.Weights = mean.weights[0]
	p.Mean = s.estimate(p.Weights, &mean)
	p.Consistency = s.test(mean)
	s.drift(l, &p.Drift)
}

// drift fits the line if there are periods enough, and tests for a trend.
func (s *series) drift(l cholesky, d *Drift) {
	trend := d.Difference
	if len(s.errors) >= 3 {
		line, ok := l.line(s.times)
		if !ok {
			return
		}
		d.Line = s.test(line)
		perDays := make([]float64, len(s.times))
		for i, h := range line.weights[1] {
			perDays[i] = days * h
		}
		d.Slope = s.estimate(perDays, &line)
		trend = d.Slope
	}
	if !trend.Known || trend.Standard == 0 {
		return
	}
	d.Tested = true
	d.P = uncertainty.TwoSidedT(trend.Value/trend.Standard, trend.DoF)
	d.Drifts = d.P < 1-s.confidence
}

func (s *series) estimate(weights []float64, from *fit) Estimate {
	return estimate(weights, s.errors, s.sources, from, s.confidence)
}

func (s *series) test(f fit) Test {
	t := f.test(s.errors, s.sources)
	t.Passes = t.P >= 1-s.confidence
	return t
}
