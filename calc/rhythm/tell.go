package rhythm

import "math"

// doubt is the chance from which something cannot be excluded.
const doubt = 0.05

// tell says what became of each mark.
func (j *judge) tell() Result {
	out := Result{Uses: make([]Use, len(j.marks)), Chances: make([]float64, len(j.marks))}
	for i := range out.Uses {
		out.Uses[i] = Out
	}
	for _, i := range j.sorted {
		out.Uses[i] = Doubted
		out.Chances[i] = min(max(j.marks[i].Sure, 0), 1) * 0.5
		if !(j.marks[i].Sure >= 0) {
			out.Chances[i] = 0
		}
	}
	counted, lacks, extras := 0, 0, 0
	for k := range j.runs {
		r := &j.runs[k]
		j.use(r, &out)
		counted += len(r.path)
		for _, s := range r.path {
			lacks += s.lacks
		}
		extras += r.clear() - len(r.path)
		r.stretch(&out)
	}
	out.Why = j.why(counted, lacks, extras)
	if out.Intervals == 0 && out.Why == "" {
		out.Why = TooFew
	}
	out.Jitter, out.Wander = j.scatter()
	return out
}

// clear counts the run's marks that by their sound are pulses, or count.
func (r *run) clear() int {
	n, c := 0, 0
	for i := range r.at {
		on := c < len(r.path) && r.path[c].mark == i
		if on {
			c++
		}
		if on || r.odds[i] > 0 {
			n++
		}
	}
	return n
}

// use names the uses and chances of the run's marks.
func (j *judge) use(r *run, out *Result) {
	k := 0       // stops before the mark
	instead := 0 // the last for which a mark may be in the place of those that lack
	for m, i := range r.index {
		if k < len(r.path) && r.path[k].mark == m {
			out.Uses[i], out.Chances[i] = Counted, r.chanceOf(k)
			// At an end it may be one too many; between others, its place is told.
			if (k == 0 || k == len(r.path)-1) && out.Chances[i] < 1-doubt && len(r.path) > 2 {
				out.Least--
			}
			k++
			continue
		}
		chance := r.chanceOff(m, k)
		out.Chances[i] = chance
		if j.marks[i].Sure >= 0.5 {
			out.Uses[i] = Extra
		}
		switch {
		case chance <= doubt:
		case k > 0 && k < len(r.path) && r.path[k].lacks > 0:
			// It would be in the place of those that lack.
			if k != instead {
				out.Least -= r.path[k].lacks - 1
			}
			instead = k
		default:
			out.Most++
		}
	}
	j.between(r, out)
}

// chanceOff is the chance that a mark off the path, after k stops, is a pulse
// all the same: that the load stepped to its time, and again after it.
func (r *run) chanceOff(m, k int) float64 {
	v := r.odds[m]
	pace := 0.0
	switch {
	case len(r.path) < 2:
		return 1 / (1 + math.Exp(-v-paceCost))
	case k > 1:
		pace = r.at[r.path[k-1].mark] - r.at[r.path[k-2].mark]
		pace /= float64(r.path[k-1].lacks + 1)
	default:
		pace = r.at[r.path[1].mark] - r.at[r.path[0].mark]
	}
	if k > 0 {
		v += changed(r.at[m]-r.at[r.path[k-1].mark], pace)
	}
	if k < len(r.path) {
		v += changed(r.at[r.path[k].mark]-r.at[m], pace)
		v -= r.path[k].gain
	}
	return 1 / (1 + math.Exp(-v))
}

// changed is the log-likelihood of an interval by a step of the load.
func changed(d, pace float64) float64 {
	if !(d > 0) || !(pace > 0) {
		return 4 * stepCost
	}
	return stepCost + step(math.Log(d/pace))
}

// chanceOf is the chance that a mark on the path is a pulse: against the path
// that passes it over.
func (r *run) chanceOf(k int) float64 {
	s := r.path[k]
	if r.must[s.mark] {
		return 1
	}
	with := r.odds[s.mark]
	if k > 0 && !s.starts {
		with += s.gain
	}
	if k+1 < len(r.path) && k > 0 && !s.starts && !r.path[k+1].steps {
		// Without it one more lacks.
		with += r.path[k+1].gain - (lacking(s.lacks+r.path[k+1].lacks+1) + r.fit(r.path[k+1]))
	}
	return 1 / (1 + math.Exp(-with))
}

// fit is the log-density of a mark that comes just when it is foretold.
func (r *run) fit(s stop) float64 {
	if !(s.spread > 0) {
		return 0
	}
	return density(s.pace, 0, s.spread*s.spread)
}

// stretch adds the run's stretch to the sums.
func (r *run) stretch(out *Result) {
	heard := r.clear() - 1
	if heard > 0 {
		out.Heard += heard
	}
	n := len(r.path)
	if n < 2 {
		return
	}
	s := Stretch{First: r.index[r.path[0].mark], Last: r.index[r.path[n-1].mark]}
	s.Seconds = r.at[r.path[n-1].mark] - r.at[r.path[0].mark]
	for _, p := range r.path[1:] {
		s.Intervals += p.lacks + 1
	}
	out.Stretches = append(out.Stretches, s)
	out.Intervals += s.Intervals
	out.Seconds += s.Seconds
	out.Least += s.Intervals
	out.Most += s.Intervals
}
