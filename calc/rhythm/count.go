package rhythm

import "math"

// between tells what lacks and which extras may be pulses all the same.
func (j *judge) between(r *run, out *Result) {
	for k, s := range r.path {
		if s.starts {
			continue
		}
		a, b := r.path[k-1], s
		d := r.at[b.mark] - r.at[a.mark]
		c := j.counts(r, k, d)
		if b.lacks > 0 {
			out.Missing = append(out.Missing, Missing{After: r.index[a.mark], Count: b.lacks, Chance: c.chance})
		}
		out.Least += c.least - (b.lacks + 1)
		out.Most += c.most - (b.lacks + 1)
	}
}

// counts are the numbers of intervals that there may be between two marks.
type counts struct {
	chance      float64 // that it is as the path says
	least, most int
}

// counts weighs how many intervals there are between stops k-1 and k.
func (j *judge) counts(r *run, k int, d float64) counts {
	s := r.path[k]
	said := s.lacks + 1
	out := counts{chance: 1, least: said, most: said}
	if !(s.pace > 0) || k < 2 {
		return out
	}
	after := r.changes(k)
	if s.steps && after == 0 {
		return out
	}
	scores := j.scores(r, k, d, after)
	sum := 0.0
	for _, v := range scores {
		sum += v
	}
	for m, v := range scores {
		if v/sum > doubt {
			out.least, out.most = min(out.least, m), max(out.most, m)
		}
	}
	if sum > 0 {
		out.chance = scores[said] / sum
	}
	return out
}

// scores gives the likelihood of each number of intervals between stops k-1 and
// k, in units of the best: that the pace goes on, that it stepped for one, or
// that it changed on the way to that after it, if that is not 0.
func (j *judge) scores(r *run, k int, d, after float64) (scores [lackMost + 2]float64) {
	s := r.path[k]
	p, fits := s.pace, float64(min(k, 5))
	// After a step for one interval, the pace would have had to step back.
	again := s.lacks > 0 && k+1 < len(r.path) && !r.path[k+1].steps
	top := math.Inf(-1)
	for m := 1; m < len(scores); m++ {
		variance, off := j.scale.variance(p, fits, m), d-float64(m)*p
		scores[m] = density(p, off*off/variance, variance) + lacking(m-1)
		if m == 1 {
			v := changed(d, p)
			if again {
				v *= 2
			}
			scores[m] = math.Log(math.Exp(scores[m]) + math.Exp(v))
		}
		if after > 0 {
			scores[m] = math.Log(math.Exp(scores[m]) + math.Exp(s.across(d, after, m)))
		}
		top = max(top, scores[m])
	}
	for m := 1; m < len(scores); m++ {
		scores[m] = math.Exp(scores[m] - top)
	}
	return scores
}

// changes gives the pace after stop k, if it changes within the interval before
// it or at its end; 0 if it does not.
func (r *run) changes(k int) float64 {
	if k+1 == len(r.path) {
		return 0
	}
	a, b := r.path[k], r.path[k+1]
	if b.starts || !a.steps && !b.steps {
		return 0
	}
	return (r.at[b.mark] - r.at[a.mark]) / float64(b.lacks+1)
}

// across is the log-likelihood that the pace changed within m intervals, which
// take anything between so many of the old and of the new.
func (s stop) across(d, after float64, m int) float64 {
	low, high, n := min(s.pace, after), max(s.pace, after), float64(m)
	if d < n*low-3*s.spread || d > n*high+3*s.spread {
		return math.Inf(-1)
	}
	return lacking(m-1) - math.Log(max(n*(high-low), 3*s.spread)/s.pace) - 0.7
}
