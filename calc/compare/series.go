package compare

import (
	"math"

	"splittally/calc/uncertainty"
)

// series is the errors of some periods in order of time, as floats.
type series struct {
	errors     []float64 // percent
	times      []float64 // days
	budgets    []uncertainty.Budget
	sources    []source
	confidence float64
}

func newSeries(periods []Period) *series {
	s := &series{confidence: periods[0].Confidence}
	for i := range periods {
		p := &periods[i]
		s.errors = append(s.errors, p.percentError())
		s.times = append(s.times, p.middle())
		s.budgets = append(s.budgets, p.Budget)
	}
	s.sources = sourcesOf(s.budgets)
	return s
}

// story fills in what the periods say beside their total.
func (s *series) story(p *Pooled) {
	n := len(s.errors)
	if n == 1 {
		p.Weights = []float64{1}
		p.Mean = s.estimate(p.Weights)
		return
	}
	ends := make([]float64, n)
	ends[0], ends[n-1] = -1, 1
	p.Drift.Difference = s.estimate(ends)
	l, ok := factor(covariance(s.sources, n))
	if !ok {
		return
	}
	p.Weights = l.meanWeights()
	p.Mean = s.estimate(p.Weights)
	residuals := make([]float64, n)
	for i, e := range s.errors {
		residuals[i] = e - p.Mean.Value
	}
	p.Consistency = s.test(l, residuals, 1)
	s.drift(l, &p.Drift)
}

// drift fits the line if there are periods enough, and tests for a trend.
func (s *series) drift(l cholesky, d *Drift) {
	trend := d.Difference
	if len(s.errors) >= 3 {
		h, _, ok := l.slopeWeights(s.times)
		if !ok {
			return
		}
		_, _, _, residuals, _ := l.line(s.times, s.errors)
		d.Line = s.test(l, residuals, 2)
		for i := range h {
			h[i] *= days
		}
		d.Slope = s.estimate(h)
		trend = d.Slope
	}
	if !trend.Known || trend.Standard == 0 {
		return
	}
	d.Tested = true
	d.P = uncertainty.TwoSidedT(trend.Value/trend.Standard, trend.DoF)
	d.Drifts = d.P < 1-s.confidence
}

// estimate gives Σ weights·errors. Its uncertainty takes in every source, the
// common ones too: in a mean they stay, in a difference they cancel.
func (s *series) estimate(weights []float64) Estimate {
	b := uncertainty.Weighted(weights, s.budgets)
	u, dof := b.Combined()
	k := uncertainty.Coverage(s.confidence, dof)
	return Estimate{
		Known: !math.IsInf(u, 0) && !math.IsNaN(u),
		Value: weightedSum(weights, s.errors), Standard: u, DoF: dof, Expanded: k * u,
	}
}

func (s *series) test(l cholesky, residuals []float64, fitted int) Test {
	t := l.spread(residuals, fitted, s.sources)
	t.Passes = t.P >= 1-s.confidence
	return t
}
