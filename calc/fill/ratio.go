package fill

import (
	"math"

	"splittally/calc/calendar"
	"splittally/calc/ledger"
)

// candidates makes ready every method that the data allow, in the order of
// Methods. Ratio comes once, with the instrument that it does best with.
func candidates(r Request, rec *record) []candidate {
	all := []candidate{{method: Near}, {method: Line}, {method: LikeDays}, {method: Mean}}
	places := rec.places()
	var best *candidate
	for i := range r.Others {
		c := candidate{method: Ratio, other: &r.Others[i], rest: &all[0], have: make([]bool, len(rec.gap))}
		some := false
		for j, t := range rec.gap {
			c.have[j] = c.measured(rec, t)
			some = some || c.have[j]
		}
		if _, ok := c.ratio(rec, rec.gap[0]); !some || !ok {
			continue
		}
		c.trial = rec.try(c, places)
		if best == nil || c.trial.Tries > 0 && c.trial.RMS < best.trial.RMS {
			best = &c
		}
	}
	if best != nil {
		all = append(all, *best)
	}
	return all
}

// measured says whether the other instrument measured day t of rec.
func (c candidate) measured(rec *record, t int) bool {
	return c.other.At(rec.first+calendar.Day(t)).State == ledger.Measured
}

// enoughForRatio is how many days both instruments must have measured.
const enoughForRatio = 5

// ratioDays is how many common days, the nearest ones, the ratio is taken from.
const ratioDays = 30

// ratio gives own energy over the other's, from the days nearest to t that
// both measured.
func (c candidate) ratio(rec *record, t int) (ratio float64, ok bool) {
	own, other, n := 0.0, 0.0, 0
	for h := 0; n < ratioDays && (t-h >= rec.lo || t+h < rec.hi); h++ {
		for _, s := range [2]int{t - h, t + h} {
			if s < rec.lo || s >= rec.hi || !rec.known[s] || !c.measured(rec, s) {
				continue
			}
			own += rec.kWh[s]
			other += c.other.At(rec.first + calendar.Day(s)).Energy.KilowattHours()
			n++
		}
	}
	if n < enoughForRatio || other == 0 || math.Signbit(own) != math.Signbit(other) {
		return 0, false
	}
	return own / other, true
}

// byRatio fills by ratio what the other instrument measured, and the rest by
// the rest's method.
func (c candidate) byRatio(rec *record, at []int, shift int, kWh []float64) []Method {
	used := c.rest.fill(rec, at, shift, kWh)
	k, ok := c.ratio(rec, at[len(at)/2])
	for i, t := range at {
		if ok && c.have[i] && c.measured(rec, t) {
			kWh[i] = k * c.other.At(rec.first+calendar.Day(t)).Energy.KilowattHours()
			used[i] = Ratio
		}
	}
	return used
}
