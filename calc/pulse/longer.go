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
	// Twice as long is half as much, so that the answer is found between powers
	// of two. Beyond a day nothing is counted.
	interval := func(seconds float64) float64 {
		u, _ := scaled(f.Watts.Budget, longer, f.Seconds/seconds).Expanded(confidence)
		return u
	}
	l.Readings = f.readingsFor(percent, confidence)
	from, to := 0.0, f.Seconds/f.Count
	for interval(to) > want {
		if from, to = to, 2*to; to > MostSeconds {
			return l
		}
	}
	for range 40 {
		if half := (from + to) / 2; interval(half) > want {
			from = half
		} else {
			to = half
		}
	}
	pace := f.Seconds / f.Count
	l.Seconds, l.Possible = pace*math.Ceil(to/pace-1e-6), true
	return l
}

// readingsFor gives how many readings hold the monitor's mean to ± percent.
func (f *Found) readingsFor(percent, confidence float64) int {
	if !f.HasMonitor || len(f.Readings) == 0 {
		return 0
	}
	const most = 1000
	want := percent / 100 * math.Abs(f.Monitor.Value)
	now := float64(len(f.Readings))
	interval := func(n int) float64 {
		u, _ := scaled(f.Monitor.Budget, spreadRemedy, math.Sqrt(now/float64(n))).Expanded(confidence)
		return u
	}
	if interval(most) > want {
		return 0
	}
	from, to := 0, most
	for to-from > 1 {
		if half := (from + to) / 2; interval(half) > want {
			from = half
		} else {
			to = half
		}
	}
	return to
}

// scaled gives b with the parts that have the remedy times a factor.
func scaled(b uncertainty.Budget, remedy string, factor float64) uncertainty.Budget {
	out := append(uncertainty.Budget(nil), b...)
	for i := range out {
		if out[i].Remedy == remedy {
			out[i].Standard *= factor
		}
	}
	return out
}
