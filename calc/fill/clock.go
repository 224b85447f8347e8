package fill

import (
	"math"

	"splittally/calc/energy"
	"splittally/calc/ledger"
)

// byClock gives a filled day by the hour: what its hours brought, and with it the
// rest of its energy in proportion to what is usual for what is missing. The
// slots add up to the day. There are none if the record tells no hours, or those
// of this day are not told one by one.
func (rec *record) byClock(l ledger.Ledger, d *Day) []ledger.Slot {
	t := int(d.Day - rec.first)
	if rec.shape == nil {
		return nil
	}
	b := rec.hours[t]
	if !b.has {
		b = byHour{fine: d.State == ledger.Missing}
		for h := range b.all {
			b.all[h] = 1
		}
	}
	if !b.fine {
		return nil
	}
	hours, covered := exactHours(l.On(d.Day), b.has)
	rec.addMissing(&hours, &b, t, d.Energy-covered)
	slots := make([]ledger.Slot, 0, perDay+1)
	for h, e := range hours {
		s := ledger.Slot{Day: d.Day, From: 60 * h, To: 60*h + 60, Energy: e}
		if b.all[h] > 1 { // both runs alike
			s.Energy = e / 2
			slots = append(slots, s)
			s.Energy, s.Again = e-s.Energy, true
		}
		if b.all[h] > 0 {
			slots = append(slots, s)
		}
	}
	return slots
}

// exactHours adds slots up by the hour, and all of them. One over several hours
// is even over them, but for the last microwatt-hours, which its first one has.
func exactHours(slots []ledger.Slot, has bool) (hours [perDay]energy.Energy, sum energy.Energy) {
	if !has {
		return hours, 0
	}
	for _, s := range slots {
		first, last := s.From/60, (s.To-1)/60
		if first < 0 || last >= perDay || last < first {
			continue
		}
		sum += s.Energy
		each := s.Energy / energy.Energy(last-first+1)
		for h := first; h <= last; h++ {
			hours[h] += each
		}
		hours[first] += s.Energy - each*energy.Energy(last-first+1)
	}
	return hours, sum
}

// addMissing adds what is left of a day to its hours, to the microwatt-hour.
func (rec *record) addMissing(hours *[perDay]energy.Energy, b *byHour, t int, left energy.Energy) {
	var usual [perDay]float64
	total := 0.0
	for h := range usual {
		usual[h] = math.Max(0, rec.shape.usual[t][h]) * (b.all[h] - b.got[h])
		total += usual[h]
	}
	if total <= 0 {
		for h := range usual {
			usual[h] = b.all[h]
			total += usual[h]
		}
	}
	run, given, last := 0.0, energy.Energy(0), 0
	for h, x := range usual {
		if x <= 0 {
			continue
		}
		run += x
		upTo := energy.Energy(math.Round(float64(left) * math.Min(1, run/total)))
		hours[h] += upTo - given
		given, last = upTo, h
	}
	hours[last] += left - given
}
