package pulse

import (
	"sort"

	"splittally/calc/rhythm"
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
	if r.heard || len(h.Stretches) != 1 || len(h.Uses) != len(r.Marks.Marks) {
		return curve{}
	}
	missing := map[int]int{}
	for _, m := range h.Missing {
		missing[m.After] += m.Count
	}
	var c curve
	first := r.Marks.Marks[h.Stretches[0].First].At
	n, before := 0.0, -1
	for i := h.Stretches[0].First; i <= h.Stretches[0].Last; i++ {
		if h.Uses[i] != rhythm.Counted {
			continue
		}
		if before >= 0 {
			n += 1 + float64(missing[before])
		}
		before = i
		c.at, c.count = append(c.at, r.Marks.Marks[i].At-first), append(c.count, n)
	}
	if len(c.at) < 2 || n != float64(h.Intervals) {
		return curve{}
	}
	return c
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
