package fill

import "math"

// most bounds the number of copies of the gap pattern that are tried.
const most = 60

// places gives the shifts at which a copy of the gap pattern falls on measured
// days only: at most most of them, evenly spaced over all that there are.
func (rec *record) places() []int {
	var all []int
	first, last := rec.gap[0], rec.gap[len(rec.gap)-1]
	for shift := rec.lo - first; shift < rec.hi-last; shift++ {
		if rec.fits(shift) {
			all = append(all, shift)
		}
	}
	if len(all) <= most {
		return all
	}
	some := make([]int, most)
	for i := range some {
		some[i] = all[i*(len(all)-1)/(most-1)]
	}
	return some
}

// fits says whether the pattern, moved by shift, falls on measured days only,
// and leaves days to estimate it from on the sides where the gap has them.
func (rec *record) fits(shift int) bool {
	for _, t := range rec.gap {
		if !rec.whole[t+shift] {
			return false
		}
	}
	first, last := rec.gap[0], rec.gap[len(rec.gap)-1]
	return (rec.before(first) < rec.lo || rec.before(first+shift) >= rec.lo) &&
		(rec.after(last) >= rec.hi || rec.after(last+shift) < rec.hi)
}

// try blanks the pattern at each place in turn and fills it by c. Where the
// gap lies at an end of the data, so does the copy: what lies beyond it is put
// out of sight.
func (rec *record) try(c candidate, places []int) Trial {
	tr := Trial{Method: c.method}
	at, kWh := make([]int, len(rec.gap)), make([]float64, len(rec.gap))
	first, last := rec.gap[0], rec.gap[len(rec.gap)-1]
	atStart, atEnd := rec.before(first) < rec.lo, rec.after(last) >= rec.hi
	lo, hi := rec.lo, rec.hi
	square := 0.0
	for _, shift := range places {
		for i, t := range rec.gap {
			at[i] = t + shift
			rec.known[t+shift] = false
		}
		if atStart {
			rec.lo = first + shift
		}
		if atEnd {
			rec.hi = last + shift + 1
		}
		if rec.count(rec.lo, rec.hi) > 0 {
			c.fill(rec, at, shift, kWh)
			miss := 0.0
			for i, t := range at {
				miss += (kWh[i] - rec.kWh[t]) * rec.share[i]
			}
			tr.Tries++
			tr.Mean += miss
			square += miss * miss
		}
		rec.lo, rec.hi = lo, hi
		for _, t := range at {
			rec.known[t] = true
		}
	}
	if tr.Tries > 0 {
		tr.Mean /= float64(tr.Tries)
		tr.RMS = math.Sqrt(square / float64(tr.Tries))
	}
	return tr
}

// doubt gives the standard uncertainty of the gap's total and its degrees of
// freedom, from the trials of the method used and the spread of single days.
func (rec *record) doubt(tr Trial) (standard, dof float64) {
	plain := rec.plainDoubt()
	if tr.Tries == 0 {
		return plain, 4
	}
	// Copies that overlap say nearly the same; the plain figure counts as a
	// few tries of its own.
	span := float64(rec.gap[len(rec.gap)-1] - rec.gap[0] + 1)
	free := max(1, float64(tr.Tries)/max(1, span/2))
	const prior = 4
	square := (prior*plain*plain + free*tr.RMS*tr.RMS) / (prior + free)
	return math.Sqrt(square), prior + free
}

// plainDoubt is what the spread of single days gives for the gap's total,
// taking neighbouring days as alike: s · √(k·(1+k/4)), k missing days.
func (rec *record) plainDoubt() float64 {
	n, mean, square := 0.0, 0.0, 0.0
	for t, k := range rec.known {
		if k {
			n++
			d := rec.kWh[t] - mean
			mean += d / n
			square += d * (rec.kWh[t] - mean)
		}
	}
	k := 0.0
	for _, s := range rec.share {
		k += s
	}
	if n < 2 {
		return math.Abs(mean) * k
	}
	return math.Sqrt(square / (n - 1) * k * (1 + k/4))
}
