package fill

import (
	"math"
	"slices"
)

// Trial tells how one method did on copies of the gap pattern, blanked at
// other places of the record where the truth is known.
type Trial struct {
	Method Method
	Tries  int     // copies of the pattern that could be placed
	RMS    float64 // root mean square error of the pattern's total, kWh
	Mean   float64 // mean error, kWh; positive if the method fills too much
}

func newTrial(m Method, misses []float64) Trial {
	tr := Trial{Method: m, Tries: len(misses)}
	if tr.Tries == 0 {
		return tr
	}
	square := 0.0
	for _, e := range misses {
		tr.Mean += e / float64(tr.Tries)
		square += e * e
	}
	tr.RMS = math.Sqrt(square / float64(tr.Tries))
	return tr
}

// place is a copy of the gap pattern on measured days.
type place struct {
	shift  int
	at     []int // the days of the copy
	hidden []int // known days that the copy must not see, see outOfSight
}

// mostPlaces bounds the copies that are tried.
const mostPlaces = 60

// outOfSight is how many days beyond a copy are hidden where the gap lies at
// an end of the data: a copy that could see past it would do too well.
const outOfSight = 14

// places gives the copies of the gap pattern that fall on measured days among
// at: at most mostPlaces, evenly spaced over all that there are.
func (rec *record) places(at []int) []place {
	use := make([]bool, len(rec.kWh))
	for _, t := range at {
		use[t] = rec.whole[t]
	}
	first, last := rec.gap[0], rec.gap[len(rec.gap)-1]
	var shifts []int
	for shift := -first; shift < len(use)-last; shift++ {
		fits := true
		for i, t := range rec.gap {
			// What hours tell can be tried only where hours are known.
			fits = fits && use[t+shift] && (rec.tell(i) == nil || rec.hours[t+shift].fine)
		}
		if fits {
			shifts = append(shifts, shift)
		}
	}
	n := min(len(shifts), mostPlaces)
	all := make([]place, 0, n)
	for i := range n {
		shift := shifts[i]
		if len(shifts) > n {
			shift = shifts[i*(len(shifts)-1)/(n-1)]
		}
		p := place{shift: shift}
		for _, t := range rec.gap {
			p.at = append(p.at, t+shift)
		}
		if rec.before(first) < 0 {
			p.hidden = within(at, first+shift-outOfSight, first+shift)
		}
		if rec.after(last) >= len(rec.kWh) {
			p.hidden = append(p.hidden, within(at, last+shift+1, last+shift+1+outOfSight)...)
		}
		if len(p.at)+len(p.hidden) < len(at) {
			all = append(all, p)
		}
	}
	return all
}

// within gives a copy of those of days, which ascend, from lo up to before hi.
func within(days []int, lo, hi int) []int {
	i, _ := slices.BinarySearch(days, lo)
	j, _ := slices.BinarySearch(days, hi)
	return slices.Clone(days[i:j])
}

// try blanks each place in turn, fills it by f and gives the errors of the
// totals. variance is that of a day.
func (rec *record) try(f simple, places []place, variance float64) []float64 {
	misses := make([]float64, len(places))
	kWh := make([]float64, len(rec.gap))
	for i, p := range places {
		rec.know(p, false)
		f(rec, p.at, p.shift, kWh)
		rec.know(p, true)
		for j, t := range p.at {
			if o := rec.tell(j); o != nil {
				kWh[j] = o.weigh(kWh[j], variance, rec.kWh[t]+rec.missAt(o, t))
			}
			misses[i] += (kWh[j] - rec.kWh[t]) * rec.share[j]
		}
	}
	return misses
}

func (rec *record) know(p place, k bool) {
	for _, days := range [2][]int{p.at, p.hidden} {
		for _, t := range days {
			rec.known[t] = k && (rec.told == nil || !rec.told[t])
		}
	}
}
