package pulse

import (
	"math"
	"sort"

	"splittally/calc/rhythm"
	"splittally/calc/uncertainty"
)

// curve is how many pulses had come at each mark that counts: the energy within
// the run, and so its power.
type curve struct {
	at, count []float64 // seconds from the first mark, pulses since
}

// curveOf gives the curve of marks without a break; else, and if the marks are
// to count just as they are, an empty one.
func curveOf(r *run) curve {
	h := r.Rhythm
	if r.heard || len(h.Stretches) != 1 {
		return curve{}
	}
	c := r.stretches()
	if len(c) != 1 || len(c[0].at) < 2 || c[0].count[len(c[0].count)-1] != float64(h.Intervals) {
		return curve{}
	}
	return c[0]
}

// stretches gives the curve of each stretch without a break, by the pace of
// the marks.
func (r *run) stretches() []curve {
	h := r.Rhythm
	if len(h.Uses) != len(r.Marks.Marks) {
		return nil
	}
	missing := map[int]int{}
	for _, m := range h.Missing {
		missing[m.After] += m.Count
	}
	out := make([]curve, 0, len(h.Stretches))
	for _, s := range h.Stretches {
		c := curve{make([]float64, 0, s.Last-s.First+1), make([]float64, 0, s.Last-s.First+1)}
		first, n, before := r.Marks.Marks[s.First].At, 0.0, -1
		for i := s.First; i <= s.Last; i++ {
			if h.Uses[i] != rhythm.Counted {
				continue
			}
			if before >= 0 {
				n++
				if len(missing) > 0 {
					n += float64(missing[before])
				}
			}
			before = i
			c.at, c.count = append(c.at, r.Marks.Marks[i].At-first), append(c.count, n)
		}
		out = append(out, c)
	}
	return out
}

// known says that there is a curve.
func (c curve) known() bool { return len(c.at) > 1 }

// reached gives the pulses since the first mark, between two of them in
// proportion to the time.
func (c curve) reached(t float64) float64 {
	last := len(c.at) - 1
	switch {
	case t <= 0:
		return 0
	case t >= c.at[last]:
		return c.count[last]
	}
	i := sort.SearchFloat64s(c.at, t)
	a, b := c.at[i-1], c.at[i]
	return c.count[i-1] + (c.count[i]-c.count[i-1])*(t-a)/(b-a)
}

// around gives the power about a time, as a multiple of the run's mean: that of
// a stretch of the given half-width, as far as it lies within the run.
func (c curve) around(t, half float64) float64 {
	last := len(c.at) - 1
	end := c.at[last]
	t = min(max(t, 0), end)
	from, to := max(0, t-half), min(end, t+half)
	return (c.reached(to) - c.reached(from)) / (to - from) * end / c.count[last]
}

// farOut is how many standard deviations off a second difference is left out:
// there the load went up or down at once.
const farOut = 3.5

// scatter gives the standard deviation of one mark's time as the second
// differences of the marks show it, which have six times its variance:
//
//	e = T(i+1) − 2·T(i) + T(i−1),  s² = mean e² / 6
//
// Whatever the load does from one pulse to the next counts as scatter too, so
// that it is no less than that of the marks. Second differences share marks:
// of n some n/2 tell something of their own. 0 degrees of freedom is not known.
func scatter(stretches []curve) (deviation, dof float64) {
	n := 0
	for _, c := range stretches {
		n += len(c.at)
	}
	e := make([]float64, 0, n)
	for _, c := range stretches {
		for i := 1; i+1 < len(c.at); i++ {
			if c.count[i+1]-c.count[i-1] == 2 {
				e = append(e, math.Abs(c.at[i+1]-2*c.at[i]+c.at[i-1]))
			}
		}
	}
	limit := farOut * uncertainty.MedianDeviation * uncertainty.Median(sampled(e))
	sum, kept := 0.0, 0.0
	for _, v := range e {
		if v <= limit {
			sum += v * v
			kept++
		}
	}
	if kept == 0 {
		return 0, 0
	}
	return math.Sqrt(sum / kept / 6), kept / 2
}

// sampled gives some thousands of values, evenly chosen: a limit needs no more.
func sampled(values []float64) []float64 {
	const enough = 4096
	by := 1 + len(values)/enough
	out := make([]float64, 0, enough)
	for i := 0; i < len(values); i += by {
		out = append(out, values[i])
	}
	return out
}
