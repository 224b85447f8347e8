package uncertainty

import "slices"

// MedianDeviation is the standard deviation of a normal distribution over its
// median distance from the middle: what makes an estimate of the one from the
// other that a few values far out do not move.
const MedianDeviation = 1.4826

// Median gives the middle of v, which it leaves as it is: of an even number the
// mean of the two in the middle, of none 0.
func Median(v []float64) float64 {
	if len(v) == 0 {
		return 0
	}
	v = slices.Clone(v)
	slices.Sort(v)
	n := len(v)
	return (v[(n-1)/2] + v[n/2]) / 2
}
