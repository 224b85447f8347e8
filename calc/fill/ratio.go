package fill

import (
	"math"

	"splittally/calc/calendar"
	"splittally/calc/ledger"
)

// pair is a record beside the readings of another instrument. Its gap is those
// days of the record's gap that the other measured. A day that was measured in
// part is missing to it as a whole: the other's whole day tells more of it than
// the measured hours do.
type pair struct {
	record            // kWh holds own − ratio·other on days that both measured
	own     []float64 // kWh of the instrument itself
	other   []float64 // kWh of the other instrument
	which   []int     // the place of each day of the gap in the gap of the whole record
	measure float64   // the ratio own/other for the gap itself
}

// enoughForRatio is how many days both instruments must have measured.
const enoughForRatio = 5

// ratioDays is how many common days, the nearest ones, a ratio is taken from.
const ratioDays = 30

// newPair lines up another instrument's readings. ok is false if the other
// measured no missing day or too few of the days that rec measured, or if
// there is no sensible ratio between them.
func newPair(rec *record, l ledger.Ledger) (p *pair, ok bool) {
	n := len(rec.kWh)
	p = &pair{record: *rec, own: rec.kWh, other: make([]float64, n)}
	p.kWh, p.known, p.whole = make([]float64, n), make([]bool, n), make([]bool, n)
	p.gap, p.share, p.last = nil, nil, nil
	p.noise, p.told, p.tells = nil, nil, nil
	has := make([]bool, n)
	common := 0
	for t := range n {
		e := l.At(rec.first + calendar.Day(t))
		if has[t] = e.State == ledger.Measured; !has[t] {
			continue
		}
		p.other[t] = e.Energy.KilowattHours()
		if rec.whole[t] {
			p.known[t], p.whole[t] = true, true
			common++
		}
	}
	for i, t := range rec.gap {
		if has[t] {
			p.gap, p.share, p.which = append(p.gap, t), append(p.share, 1), append(p.which, i)
		}
	}
	if len(p.gap) == 0 || common < enoughForRatio {
		return nil, false
	}
	if p.measure = p.ratio(p.gap); p.measure <= 0 {
		return nil, false
	}
	for t, k := range p.known {
		if k {
			p.kWh[t] = p.own[t] - p.measure*p.other[t]
		}
	}
	return p, true
}

// ratio gives own energy over the other's, from the known days nearest to the
// middle of days. It is 0 if there is no finite ratio.
func (p *pair) ratio(days []int) float64 {
	mid := days[len(days)/2]
	own, other, n := 0.0, 0.0, 0
	for h := 0; n < ratioDays && (mid-h >= 0 || mid+h < len(p.own)); h++ {
		for i, t := range [2]int{mid - h, mid + h} {
			if t >= 0 && t < len(p.own) && p.known[t] && (h > 0 || i == 0) {
				own, other = own+p.own[t], other+p.other[t]
				n++
			}
		}
	}
	if k := own / other; !math.IsInf(k, 0) && !math.IsNaN(k) {
		return k
	}
	return 0
}

// ratioPlan is a plan for those days of a gap that another instrument measured.
type ratioPlan struct {
	plan
	which []int // the places of those days in the gap
	index int   // the place of the instrument among the others
}

// bestRatio gives the plan that leans on the best of the other instruments:
// the one that measured most days of the gap, and of equals the one that does
// best.
func (rec *record) bestRatio(others []ledger.Ledger) (best ratioPlan, ok bool) {
	for i, l := range others {
		p, can := newPair(rec, l)
		if !can {
			continue
		}
		by := ratioPlan{plan: p.plan(), which: p.which, index: i}
		if !ok || len(by.which) > len(best.which) || len(by.which) == len(best.which) && by.beats(best.plan) {
			best, ok = by, true
		}
	}
	return best, ok
}

// plan fills the gap by ratio. How well that does is judged by what remains
// between the two instruments on common days, with the same model that fills
// from one instrument alone.
func (p *pair) plan() plan {
	rest, places := p.near() // what remains, estimated for the days of the gap
	pl := plan{method: Ratio, kWh: make([]float64, len(p.gap)), freedom: rest.freedom}
	for i, t := range p.gap {
		pl.kWh[i] = p.measure * p.other[t]
	}
	pl.standard = math.Hypot(rest.standard, p.sum(rest.kWh))
	misses := make([]float64, len(places))
	for i, c := range places {
		p.know(c, false)
		k := p.ratio(c.at)
		p.know(c, true)
		for j, t := range c.at {
			misses[i] += (k*p.other[t] - p.own[t]) * p.share[j]
		}
	}
	pl.trial = newTrial(Ratio, misses)
	return pl
}
