package rhythm

import (
	"math"
	"slices"
)

// sample bounds the marks on which the scatter is chosen.
const sample = 400

// fine and coarse are the scales that are tried: of a light probe, whose marks
// are as even as the load, to a hand's.
var (
	fine = []scale{
		{0.001, 0.004}, {0.001, 0.02}, {0.001, 0.08}, {0.001, 0.2},
		{0.01, 0.01}, {0.01, 0.08}, {0.06, 0.01}, {0.06, 0.08},
	}
	coarse = []scale{{0.001, 0.004}, {0.001, 0.03}, {0.01, 0.1}}
)

// choose finds how the marks scatter: the scale under which their best path is
// likeliest, by trying some.
func (j *judge) choose(scales []scale) {
	least := max(j.options.Timing, 0.001)
	j.scale = scale{timing: least, wander: 0.03}
	r := j.longest()
	if len(r.at) < 3 {
		return
	}
	n := min(len(r.at), sample)
	trial := run{at: r.at[:n], odds: r.odds[:n], must: r.must[:n]}
	best := math.Inf(-1)
	for _, s := range scales {
		s.timing = max(s.timing, least)
		trial.walk(s)
		// Narrow scales are the common ones: a wide one must earn its keep.
		if v := trial.score() - 20*s.wander; v > best {
			best, j.scale = v, s
		}
	}
}

// longest is the run with the most marks.
func (j *judge) longest() *run {
	r := &j.runs[0]
	for k := range j.runs {
		if len(j.runs[k].at) > len(r.at) {
			r = &j.runs[k]
		}
	}
	return r
}

// score is the log-likelihood of the path.
func (r *run) score() float64 {
	sum := 0.0
	for _, s := range r.path {
		sum += r.odds[s.mark] + s.gain
	}
	return sum
}

// follow finds the best path of each run.
func (j *judge) follow() {
	for k := range j.runs {
		j.runs[k].walk(j.scale)
	}
}

// rescue looks for doubtful marks where the pace wants a pulse, and weighs them
// with the others.
func (j *judge) rescue() {
	for k := range j.runs {
		r := &j.runs[k]
		wanted := r.wanted()
		if len(wanted) == 0 {
			continue
		}
		taken := make(map[int]bool, len(r.index))
		for _, i := range r.index {
			taken[i] = true
		}
		found := false
		w := 0
		for _, i := range j.sorted {
			at := j.marks[i].At
			for w < len(wanted) && wanted[w].to < at {
				w++
			}
			if w < len(wanted) && at >= wanted[w].from && j.marks[i].Sure >= wanted[w].sure && !taken[i] && at >= r.begins && at < r.ends {
				taken[i], found = true, true
			}
		}
		if found {
			r.gather(j, func(i int) bool { return taken[i] })
			r.walk(j.scale)
		}
	}
}

// How sure a doubtful mark must be where one is wanted. Beyond the ends there may
// be none at all.
const (
	sureBetween = 0.06
	sureBeyond  = 0.15
)

// place is when a pulse is wanted.
type place struct {
	from, to float64
	sure     float64 // that a mark must have to be looked at
}

// wanted lists where pulses lack on the path, and some before and after it.
func (r *run) wanted() []place {
	var list []place
	add := func(at, spread, sure float64) {
		list = append(list, place{at - 3*spread, at + 3*spread, sure})
	}
	n := len(r.path)
	if n < 3 {
		return nil
	}
	const beyond = 12 // pulses before the first and after the last
	first, last := r.path[1], r.path[n-1]
	p := r.at[first.mark] - r.at[r.path[0].mark]
	p /= float64(first.lacks + 1)
	for k := beyond; k >= 1; k-- {
		add(r.at[r.path[0].mark]-float64(k)*p, first.spread*math.Sqrt(float64(k)), sureBeyond)
	}
	for k, s := range r.path {
		if s.starts || s.lacks == 0 {
			continue
		}
		from := r.at[r.path[k-1].mark]
		p := (r.at[s.mark] - from) / float64(s.lacks+1)
		for l := 1; l <= s.lacks; l++ {
			add(from+float64(l)*p, s.spread, sureBetween)
		}
	}
	p = last.pace
	for k := 1; k <= beyond; k++ {
		add(r.at[last.mark]+float64(k)*p, last.spread*math.Sqrt(float64(k)), sureBeyond)
	}
	slices.SortFunc(list, func(a, b place) int {
		switch {
		case a.from < b.from:
			return -1
		case a.from > b.from:
			return 1
		}
		return 0
	})
	return list
}
