package onset

import (
	"math"
	"slices"
)

// principal leaves out the companions: sounds that follow at one and the same
// short distance on many pulses, such as the release after a press.
func principal(times []float64) []float64 {
	for range 3 {
		lag, ok := companion(times)
		if !ok {
			return times
		}
		kept := times[:1:1]
		for i := 1; i < len(times); i++ {
			if math.Abs(times[i]-kept[len(kept)-1]-lag) > 0.004+0.03*lag {
				kept = append(kept, times[i])
			}
		}
		times = kept
	}
	return times
}

// companion seeks the distance of a companion: of the intervals that are short
// beside a neighbour, most are alike, and there are many.
func companion(times []float64) (lag float64, ok bool) {
	var short []float64
	for i := 1; i < len(times); i++ {
		d := times[i] - times[i-1]
		next := i+1 < len(times) && d < 0.35*(times[i+1]-times[i])
		last := i+1 == len(times) && i >= 2 && d < 0.35*(times[i-1]-times[i-2])
		if d > closest && d < 0.4 && (next || last) {
			short = append(short, d)
		}
	}
	if len(short) < 2 || len(short)*5 < 2*len(times)-5 {
		return 0, false
	}
	lag = median(short)
	near := 0
	for _, d := range short {
		if math.Abs(d-lag) <= 0.004+0.03*lag {
			near++
		}
	}
	return lag, near*3 >= len(short)*2 && near*5 >= 2*len(times)-5
}

func median(values []float64) float64 {
	if len(values) == 0 {
		return 0
	}
	v := slices.Clone(values)
	slices.Sort(v)
	return v[len(v)/2]
}
