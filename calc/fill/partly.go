package fill

import (
	"splittally/calc/calendar"
	"splittally/calc/ledger"
)

// mostTold is how many partly covered days of a period are weighed together with
// the days around. If there are more, those that are covered for the most part
// stand for themselves.
const mostTold = 100

// tellPartly learns the shape of days and finds out what the hours of those
// partly covered tell, by day of the record. Days mostly covered are known from
// then on.
func (rec *record) tellPartly(l ledger.Ledger) []*told {
	all := make([]*told, len(rec.kWh))
	if rec.hours == nil {
		return all
	}
	var ok bool
	if rec.shape, ok = rec.learnShape(); !ok {
		return all
	}
	inGap := 0
	for t := range all {
		b := &rec.hours[t]
		if !b.has || l.At(rec.first+calendar.Day(t)).State != ledger.Partial {
			continue
		}
		o, ok := rec.shape.tell(b, t)
		if !ok {
			continue
		}
		if rec.told == nil {
			rec.noise, rec.told = make([]float64, len(all)), make([]bool, len(all))
		}
		all[t], rec.kWh[t], rec.noise[t], rec.told[t] = &o, o.kWh, o.variance, true
		if b.covered() >= mostlyCovered {
			rec.take(t)
			rec.whole[t] = b.fine
		} else if t >= rec.start && t < rec.end {
			inGap++
		}
	}
	for _, least := range [2]float64{0.5, 0} {
		for t := rec.start; t < rec.end && inGap > mostTold; t++ {
			if rec.told[t] && rec.hours[t].covered() >= least {
				rec.take(t)
				inGap--
			}
		}
	}
	return all
}

// take makes a day that was told one that is known.
func (rec *record) take(t int) { rec.known[t], rec.told[t] = true, false }

// tell gives what the hours of day i of the gap tell, or nil.
func (rec *record) tell(i int) *told {
	if rec.tells == nil {
		return nil
	}
	return rec.tells[i]
}

// weigh combines a day estimated from other days, with the variance of a day,
// with what its own hours tell, each by the inverse of its variance.
func (o *told) weigh(kWh, variance, own float64) float64 {
	return (kWh*o.variance + own*variance) / (variance + o.variance)
}

// missAt gives what the hours of day t, a whole one, would tell if no more of it
// than of o were covered, less what it brought.
func (rec *record) missAt(o *told, t int) float64 {
	b, miss := &rec.hours[t], 0.0
	for h, w := range o.weights {
		miss += (w - 1) * (b.kWh[h] - rec.shape.usual[t][h])
	}
	return miss
}

// hint is what hours tell of a day that is blanked in a trial: how far they
// miss it, in kWh, and the variance of that; 0 if they tell nothing.
type hint struct{ miss, variance float64 }

// toldAt gives the hints of the days of a copy of the gap.
func (rec *record) toldAt(c place) []hint {
	if rec.noise == nil {
		return nil
	}
	all := make([]hint, len(rec.gap))
	for i := range all {
		if o := rec.tell(i); o != nil {
			all[i] = hint{rec.missAt(o, c.at[i]), o.variance}
		}
	}
	return all
}
