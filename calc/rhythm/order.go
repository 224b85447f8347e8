package rhythm

import (
	"math"
	"slices"
	"sort"
)

// likely is the Sure from which a mark is weighed from the beginning. One below
// it is looked at only where the pace wants a pulse.
const likely = 0.3

// judge is the work on one set of marks.
type judge struct {
	marks   []Mark
	options Options
	sorted  []int // indices of the marks that may count, by time
	runs    []run // stretches between breaks
	scale   scale
}

// run is what is weighed of one stretch without a break.
type run struct {
	begins, ends float64 // seconds, of the stretch
	index        []int   // of the marks that are weighed
	at, odds     []float64
	must         []bool
	path         []stop
}

// stop is one mark that counts, on the best path.
type stop struct {
	mark   int // index in run.at
	lacks  int // pulses that lack before it
	steps  bool
	rest   bool    // and by what the interval before had not yet of a change
	starts bool    // it begins the path: there is no interval before it
	pace   float64 // seconds of an interval, as foretold before it
	spread float64 // standard deviation of what was foretold
	off    float64 // seconds that it came late
	gain   float64 // log-likelihood by its time alone
}

// order sorts the marks and parts them at the breaks.
func (j *judge) order() {
	j.sorted = make([]int, 0, len(j.marks))
	for i, m := range j.marks {
		if m.Told != Struck && !math.IsNaN(m.At) && !math.IsInf(m.At, 0) {
			j.sorted = append(j.sorted, i)
		}
	}
	earlier := func(a, b int) bool { return j.marks[j.sorted[a]].At < j.marks[j.sorted[b]].At }
	if !sort.SliceIsSorted(j.sorted, earlier) {
		sort.SliceStable(j.sorted, earlier)
	}
	breaks := slices.Clone(j.options.Breaks)
	sort.Float64s(breaks)
	begins := math.Inf(-1)
	for _, b := range append(breaks, math.Inf(1)) {
		if b > begins {
			j.runs = append(j.runs, run{begins: begins, ends: b})
			begins = b
		}
	}
	for k := range j.runs {
		r := &j.runs[k]
		r.gather(j, func(i int) bool { return j.marks[i].Told == Added || j.marks[i].Sure >= likely })
	}
}

// gather takes up the run's marks that pass.
func (r *run) gather(j *judge, pass func(i int) bool) {
	r.index, r.at, r.odds, r.must = nil, nil, nil, nil
	from := sort.Search(len(j.sorted), func(k int) bool { return j.marks[j.sorted[k]].At >= r.begins })
	for _, i := range j.sorted[from:] {
		m := j.marks[i]
		if m.At >= r.ends {
			break
		}
		if pass(i) {
			r.index = append(r.index, i)
			r.at = append(r.at, m.At)
			r.odds = append(r.odds, odds(m))
			r.must = append(r.must, m.Told == Added)
		}
	}
}

// surest bounds the log-odds that a sound alone can give: even a clear tap may
// be one too many.
const surest = 5.4

// odds are the log-odds that a mark is a pulse, by its sound.
func odds(m Mark) float64 {
	if m.Told == Added {
		return surest
	}
	s := m.Sure
	switch {
	case !(s > 0.001): // also not a number
		s = 0.001
	case s > 0.999:
		s = 0.999
	}
	v := math.Log(s / (1 - s))
	if v > 1 {
		v++ // clear sounds are pulses, mostly
	}
	return max(-surest, min(surest, v))
}
