package compare

import (
	"math"

	"splittally/calc/uncertainty"
)

// source is one cause and what it contributes to each of several values, in
// their unit, with sign; 0 where it has no part.
type source struct {
	contributions []float64
	dof           float64
}

// sourcesOf lists the causes in budgets, each in order of first appearance,
// without what is common to all values.
func sourcesOf(budgets []uncertainty.Budget) []source {
	var sources []source
	at := map[string]int{}
	for i, b := range budgets {
		for _, p := range b.Merged() {
			k, seen := at[p.Source]
			if !seen || p.Source == "" {
				k = len(sources)
				at[p.Source] = k
				sources = append(sources, source{make([]float64, len(budgets)), math.Inf(1)})
			}
			sources[k].contributions[i] = p.Standard
			sources[k].dof = min(sources[k].dof, p.DoF)
		}
	}
	for _, s := range sources {
		s.dropCommon()
	}
	return sources
}

// dropCommon takes away what the cause does to all values alike: the mean of
// its contributions, if all have one sign.
//
// What moves all values together can't make them disagree: differences,
// χ² about the mean and the slope come out the same with it or without it. The
// weights of the mean do not. A cause that is a percentage of each reading
// contributes a little more where the reading is high, and least squares would
// use that to pull the mean far below the values. Not the smallest contribution
// but the mean is taken away, since what is left then favours no value.
func (s source) dropCommon() {
	lo, hi, sum := s.contributions[0], s.contributions[0], 0.0
	for _, a := range s.contributions {
		lo, hi = min(lo, a), max(hi, a)
		sum += a
	}
	if lo <= 0 && hi >= 0 {
		return
	}
	for i := range s.contributions {
		s.contributions[i] -= sum / float64(len(s.contributions))
	}
}

// covariance gives V = Σ a_s·a_sᵀ over the sources of n values.
func covariance(sources []source, n int) [][]float64 {
	v := make([][]float64, n)
	for i := range v {
		v[i] = make([]float64, n)
		for _, s := range sources {
			for j := 0; j <= i; j++ {
				v[i][j] += s.contributions[i] * s.contributions[j]
			}
		}
	}
	return v
}
