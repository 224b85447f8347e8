package pulse

import (
	"math"

	"splittally/calc/uncertainty"
)

// wantedPercents are the intervals for which every run says how long to count.
var wantedPercents = []float64{1, 0.5, 0.2, 0.1}

func (s *sheet) longer(r *run) {
	for _, p := range wantedPercents {
		r.Longer = append(r.Longer, r.For(p, s.Confidence))
	}
}

// For says how long to count, at the load of the run, for ± percent at a
// confidence given as a fraction. What sits at the ends of a run goes with 1/t;
// what does not, such as the clock, stays. f must have watts.
func (f *Found) For(percent, confidence float64) Longer {
	l := Longer{Percent: percent}
	want := percent / 100 * f.Watts.Value
	if !(want > 0) || !(f.Count > 0) {
		return l
	}
	l.Readings = f.readingsFor(percent, confidence)
	pace := f.Seconds / f.Count
	if factor := shrunk(f.Watts.Budget, func(p uncertainty.Part) bool { return p.Remedy == longer || p.Remedy == recordLonger }, want, confidence); factor > 0 {
		l.Seconds = pace * max(1, math.Ceil(f.Count/factor-1e-6))
		l.Possible = l.Seconds <= MostSeconds
	}
	if !l.Possible {
		l.Seconds = 0
	}
	return l
}

// readingsFor gives how many readings hold the monitor's mean to ± percent: of
// k times as many the scatter counts for 1/√k.
func (f *Found) readingsFor(percent, confidence float64) int {
	const most = 1000
	if !f.HasMonitor {
		return 0
	}
	factor := shrunk(f.Monitor.Budget, func(p uncertainty.Part) bool { return p.Remedy == spreadRemedy }, percent/100*math.Abs(f.Monitor.Value), confidence)
	n := math.Ceil(float64(len(f.Readings))/factor/factor - 1e-6)
	if !(factor > 0) || n > most {
		return 0
	}
	return max(1, int(n))
}

// shrunk gives the largest factor on the parts that are mended for which the
// expanded uncertainty is no more than wanted: 0 if none is small enough, +Inf
// if it does not matter. With u² = f²·a² + b² and U = k·u it is
//
//	f² = ((U/k)² − b²) / a²
//
// where k hangs on f a little by the degrees of freedom, and is found by turns.
func shrunk(b uncertainty.Budget, mends func(uncertainty.Part) bool, want, confidence float64) (factor float64) {
	a, _ := b.Only(mends).Combined()
	rest, _ := b.Only(func(p uncertainty.Part) bool { return !mends(p) }).Combined()
	scaled := append(uncertainty.Budget(nil), b...)
	factor = 1
	for range 5 {
		for i := range scaled {
			if mends(b[i]) {
				scaled[i].Standard = factor * b[i].Standard
			}
		}
		_, k := scaled.Expanded(confidence)
		left := want*want/k/k - rest*rest
		if !(left > 0) {
			return 0
		}
		next := math.Sqrt(left) / a
		if math.IsInf(next, 1) || math.Abs(next-factor) < 1e-3*factor {
			return next
		}
		factor = next
	}
	return factor
}
