package rhythm

import "math"

// handMost is more than a hand scatters, in seconds: beyond, it is the load.
const handMost = 0.15

// scatter parts what the intervals show into the timing of the marks and the
// load. Marks that are early or late make neighbouring intervals long and short
// in turn: with second differences e of the marks, timing noise of variance s²
// and load noise of variance w² give E(e²) = 6s² + 2w², E(e·e') = −4s² − w², so
// s² = −(E(e²) + 2·E(e·e'))/2. Differences across a step of the load tell of
// neither.
func (j *judge) scatter() (jitter, wander float64) {
	var all []float64 // intervals, also those with a pulse that lacks, each for one
	var square, lag float64
	var squares, lags int
	for k := range j.runs {
		before, beforeOff := 0.0, math.NaN()
		for i, s := range j.runs[k].path {
			if s.starts {
				continue
			}
			d := j.runs[k].at[s.mark] - j.runs[k].at[j.runs[k].path[i-1].mark]
			m := s.lacks + 1
			for range m {
				all = append(all, d/float64(m))
			}
			e := math.NaN()
			if before > 0 && m == 1 && !s.steps {
				e = d - before
				square += e * e
				squares++
				if !math.IsNaN(beforeOff) {
					lag += e * beforeOff
					lags++
				}
			}
			before, beforeOff = d, e
			if m > 1 {
				before = 0
			}
		}
	}
	jitter = j.options.Timing
	if squares >= 4 && lags >= 3 {
		square /= float64(squares)
		v := -(square + 2*lag/float64(lags)) / 2
		jitter = max(jitter, min(math.Sqrt(max(0, min(v, square/6))), handMost))
	}
	if len(all) < 2 {
		return jitter, 0
	}
	mean, sum := 0.0, 0.0
	for _, d := range all {
		mean += d / float64(len(all))
	}
	for _, d := range all {
		sum += (d - mean) * (d - mean)
	}
	v := sum/float64(len(all)-1) - 2*jitter*jitter
	if mean > 0 && v > 0 {
		wander = math.Sqrt(v) / mean
	}
	return jitter, wander
}
