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
	var d differences
	for k := range j.runs {
		d.add(&j.runs[k])
	}
	jitter = max(0, j.options.Timing)
	if d.squares >= 4 && d.lags >= 3 {
		square := d.square / float64(d.squares)
		v := -(square + 2*d.lag/float64(d.lags)) / 2
		jitter = max(jitter, min(math.Sqrt(max(0, min(v, square/6))), handMost))
	}
	if len(d.intervals) < 2 {
		return jitter, 0
	}
	mean, sum := 0.0, 0.0
	for _, i := range d.intervals {
		mean += i / float64(len(d.intervals))
	}
	for _, i := range d.intervals {
		sum += (i - mean) * (i - mean)
	}
	v := sum/float64(len(d.intervals)-1) - 2*jitter*jitter
	if mean > 0 && v > 0 {
		wander = math.Sqrt(v) / mean
	}
	return jitter, wander
}

// differences adds up intervals and how they differ from the next.
type differences struct {
	intervals     []float64 // those in which pulses lack are shared out evenly
	square, lag   float64   // sums of squares, and of products of neighbours
	squares, lags int
}

func (d *differences) add(r *run) {
	before, last := 0.0, math.NaN() // the interval before, and the last difference
	for i, s := range r.path {
		if s.starts {
			continue
		}
		interval := r.at[s.mark] - r.at[r.path[i-1].mark]
		m := s.lacks + 1
		for range m {
			d.intervals = append(d.intervals, interval/float64(m))
		}
		e := math.NaN()
		if before > 0 && m == 1 && !s.steps {
			e = interval - before
			d.square += e * e
			d.squares++
			if !math.IsNaN(last) {
				d.lag += e * last
				d.lags++
			}
		}
		before, last = interval, e
		if m > 1 {
			before = 0
		}
	}
}
