package rhythm

import (
	"math"
)

// extraCost is the log-likelihood that a clear mark is one too many, as two in
// a hundred are.
const extraCost = -3.5

// evidence gives the log-likelihood of the marks on the paths, by their times
// alone, and how much better that is than chance does. Chance puts marks at
// intervals of a gamma density, which knows of no interval but their mean:
// crackle (shape 1), or speech, whose syllables keep some distance (3 and 6).
func (j *judge) evidence() (fit, better float64) {
	for k := range j.runs {
		f, c := j.runs[k].evidence()
		fit += f
		better += f - c
	}
	return fit, better
}

func (r *run) evidence() (fit, byChance float64) {
	var clear []float64
	c := 0
	for i, at := range r.at {
		on := c < len(r.path) && r.path[c].mark == i
		if on {
			if !r.path[c].starts {
				fit += r.path[c].gain
			}
			c++
		} else if r.odds[i] > 0 {
			fit += extraCost
		}
		if on || r.odds[i] > 0 {
			clear = append(clear, at)
		}
	}
	if len(r.path) < 2 {
		return 0, 0
	}
	return fit, chance(clear)
}

// chance is the log-likelihood of the marks' intervals, in units of their mean,
// under the best of the gamma densities.
func chance(at []float64) float64 {
	n := len(at) - 1
	mean := (at[n] - at[0]) / float64(n)
	if n < 1 || !(mean > 0) {
		return 0
	}
	logs := 0.0
	for i := range n {
		logs += math.Log(max((at[i+1]-at[i])/mean, 1e-3))
	}
	best := math.Inf(-1)
	for _, shape := range []float64{1, 3, 6} {
		g, _ := math.Lgamma(shape)
		best = max(best, float64(n)*(shape*math.Log(shape)-g-shape)+(shape-1)*logs)
	}
	return best
}

// rests counts the steps that were taken for the rest of a change.
func (j *judge) rests() float64 {
	n := 0.0
	for k := range j.runs {
		for _, s := range j.runs[k].path {
			if s.rest {
				n++
			}
		}
	}
	return n
}

// why says whether the paths can be believed.
func (j *judge) why(counted, lacks, extras int) Reason {
	if counted < 2 {
		if extras > 3 {
			return NoRhythm
		}
		return TooFew
	}
	if j.told() == counted {
		return ""
	}
	few, many := 1+0.1*float64(counted), 2+0.35*float64(counted)
	if float64(extras) > many || float64(lacks) > many {
		return NoRhythm
	}
	// What is clear by its sound, every one, needs less of a pace.
	_, e := j.evidence()
	least := 2 + 0.25*float64(counted-1)
	if float64(extras+lacks) <= few && j.clear() {
		least = -6 - 0.5*float64(counted-1)
	}
	if e < least {
		return NoRhythm
	}
	return ""
}

// clear says whether nearly all marks that count are pulses by their sound.
func (j *judge) clear() bool {
	all, sure := 0, 0
	for k := range j.runs {
		for _, s := range j.runs[k].path {
			all++
			if j.runs[k].odds[s.mark] > 2 {
				sure++
			}
		}
	}
	return sure*10 >= all*9
}

// told counts the marks that a person set.
func (j *judge) told() int {
	n := 0
	for _, i := range j.sorted {
		if j.marks[i].Told == Added {
			n++
		}
	}
	return n
}
