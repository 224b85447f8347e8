package compare

import (
	"math"

	"splittally/calc/matrix"
	"splittally/calc/uncertainty"
)

// source is one cause and what it contributes to each of several values, in
// their unit, with sign; 0 where it has no part.
type source struct {
	contributions []float64
	own           []float64 // contributions less what is common to all values
	dof           float64
}

// sourcesOf lists the causes in budgets, in order of first appearance.
func sourcesOf(budgets []uncertainty.Budget) []source {
	var sources []source
	at := map[string]int{}
	for i, b := range budgets {
		for _, p := range b.Merged() {
			k, seen := at[p.Source]
			if !seen || p.Source == "" {
				k = len(sources)
				at[p.Source] = k
				sources = append(sources, source{contributions: make([]float64, len(budgets)), dof: math.Inf(1)})
			}
			sources[k].contributions[i] = p.Standard
			sources[k].dof = min(sources[k].dof, p.DoF)
		}
	}
	for k := range sources {
		sources[k].own = withoutCommon(sources[k].contributions)
	}
	return sources
}

// withoutCommon takes away what a cause does to all values alike: the mean of
// its contributions, if all have one sign.
//
// What moves all values together can't make them disagree: differences,
// χ² about the mean and the slope come out the same with it or without it. The
// weights of the mean do not. A cause that is a percentage of each reading
// contributes a little more where the reading is high, and least squares would
// use that to pull the mean far below the values. Not the smallest contribution
// but the mean is taken away, since what is left then favours no value.
func withoutCommon(contributions []float64) []float64 {
	lo, hi, sum := contributions[0], contributions[0], 0.0
	for _, a := range contributions {
		lo, hi = min(lo, a), max(hi, a)
		sum += a
	}
	own := append([]float64(nil), contributions...)
	if lo <= 0 && hi >= 0 {
		return own
	}
	for i := range own {
		own[i] -= sum / float64(len(own))
	}
	return own
}

// covariance gives V = Σ a_s·a_sᵀ of n values over what the sources do to each
// alone.
func covariance(sources []source, n int) matrix.Lower {
	v := matrix.New(n)
	for _, s := range sources {
		v.AddSquare(s.own, 1)
	}
	return v
}
