package rhythm

import (
	"math"
)

// sample bounds the marks on which the scatter is chosen.
const sample = 400

// fine and coarse are the scales that are tried: of a light probe, whose marks
// are as even as the load, to a hand's.
var (
	fine = []scale{
		{0.001, 0.004},
		{0.001, 0.02},
		{0.001, 0.08},
		{0.001, 0.2},
		{0.01, 0.01},
		{0.01, 0.08},
		{0.06, 0.01},
		{0.06, 0.08},
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
