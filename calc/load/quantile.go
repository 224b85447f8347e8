package load

import "math"

// Quantile gives the p-quantile of ascending values by linear interpolation
// between the order statistics, so that the least value is that of 0 and the
// largest that of 1: definition 7 of R. J. Hyndman and Y. Fan, Sample Quantiles
// in Statistical Packages, The American Statistician 50 (1996). values must
// hold one or more, and p is taken into 0 to 1.
func Quantile(values []float64, p float64) float64 {
	at := math.Max(0, math.Min(1, p)) * float64(len(values)-1)
	below := int(at)
	if below+1 >= len(values) {
		return values[len(values)-1]
	}
	rest := at - float64(below)
	return values[below] + rest*(values[below+1]-values[below])
}

// ranks gives the order statistics, from 1, between which the p-quantile of a
// population lies with at least the given confidence, for n independent draws
// from it: the number of draws below it is binomial, whatever the distribution
// (H. A. David and H. N. Nagaraja, Order Statistics, section 7.1; from memory).
// Each side has half of what confidence leaves. ok is false if n is too small.
func ranks(n int, p, confidence float64) (low, high int, ok bool) {
	tail := (1 - confidence) / 2
	// x_low is above the quantile if fewer than low draws are below it, x_high is
	// below it if high or more are.
	sum, odds := 0.0, math.Log(p/(1-p))
	log := float64(n) * math.Log1p(-p)
	for k := 0; k <= n && high == 0; k++ { // sum becomes P(at most k below)
		sum += math.Exp(log)
		log += math.Log(float64(n-k)/float64(k+1)) + odds
		if sum <= tail {
			low = k + 1
		}
		if sum >= 1-tail {
			high = k + 1
		}
	}
	return low, high, low >= 1 && high >= 1 && high <= n
}
