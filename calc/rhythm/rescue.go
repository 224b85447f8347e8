package rhythm

import (
	"cmp"
	"math"

	"splittally/calc/sorted"
)

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
	sureBetween = 0.04
	sureBeyond  = 0.08
)

// place is when a pulse is wanted.
type place struct {
	from, to float64
	sure     float64 // that a mark must have to be looked at
}

// wanted lists where pulses lack on the path, and some before and after it.
func (r *run) wanted() []place {
	n := len(r.path)
	if n < 3 {
		return nil
	}
	var list []place
	add := func(at, spread, sure float64) {
		list = append(list, place{at - 3*spread, at + 3*spread, sure})
	}
	const beyond = 12 // pulses before the first and after the last
	begin, first, last := r.at[r.path[0].mark], r.path[1], r.path[n-1]
	p := (r.at[first.mark] - begin) / float64(first.lacks+1)
	for k := beyond; k >= 1; k-- {
		add(begin-float64(k)*p, first.spread*math.Sqrt(float64(k)), sureBeyond)
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
	for k := 1; k <= beyond; k++ {
		add(r.at[last.mark]+float64(k)*last.pace, last.spread*math.Sqrt(float64(k)), sureBeyond)
	}
	sorted.Stable(list, func(a, b place) int { return cmp.Compare(a.from, b.from) })
	return list
}
