package fill

import (
	"sort"

	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/ledger"
)

// perDay is how many hours of the clock a day has. The second run of an hour
// that comes twice is added to the first.
const perDay = 24

// byHour is one day by the hour of the clock.
type byHour struct {
	kWh [perDay]float64 // of what was covered
	got [perDay]float64 // hours that were covered: 1 for a whole one, 2 for one that came twice
	all [perDay]float64 // hours that there were
	// has says that the ledger tells this day's hours; fine, that it tells them
	// one by one, so that others may be compared with them.
	has, fine bool
}

// coarse is the longest slot, in minutes, whose energy is taken as even over its
// hours without spoiling what is learned of the shape of days.
const coarse = 120

// readHours takes the hours of the record's days out of the slots of a ledger.
func (rec *record) readHours(l ledger.Ledger) {
	end := rec.first + calendar.Day(len(rec.kWh))
	from := sort.Search(len(l.Slots), func(i int) bool { return l.Slots[i].Day >= rec.first })
	to := from
	for to < len(l.Slots) && l.Slots[to].Day < end {
		to++
	}
	if from == to {
		return
	}
	rec.hours = make([]byHour, len(rec.kWh))
	for from < to {
		day, next := l.Slots[from].Day, from+1
		for next < to && l.Slots[next].Day == day {
			next++
		}
		b := &rec.hours[day-rec.first]
		b.read(l.At(day), l.Slots[from:next])
		for _, x := range b.kWh {
			rec.below = rec.below || x < 0
		}
		from = next
	}
}

// read sets the hours from the slots of a day. It has none if the slots are not
// the day's energy.
func (b *byHour) read(e ledger.Entry, slots []ledger.Slot) {
	if e.State != ledger.Measured && e.State != ledger.Partial {
		return
	}
	b.fine = true
	var sum energy.Energy
	for h := range b.all {
		b.all[h] = 1
	}
	if e.Turn != 0 && e.TurnAt < perDay {
		b.all[e.TurnAt] += float64(e.Turn)
	}
	for i := range slots {
		s := &slots[i]
		sum += s.Energy
		b.add(s)
		b.fine = b.fine && s.To-s.From <= coarse
	}
	if e.State == ledger.Measured {
		b.all = b.got // the slots of a whole day are all of it
	}
	for h := range b.got {
		if b.got[h] > b.all[h]-1e-6 {
			b.got[h] = b.all[h] // sums of parts of an hour are rounded
		}
	}
	b.has = (sum - e.Energy).Abs() <= e.Energy.Abs()/sameEnergy
	b.fine = b.fine && b.has
}

// sameEnergy is the part of a day's energy by which its slots may fall short of
// it, or exceed it: they are rounded one by one.
const sameEnergy = 200

// add spreads a slot over the hours that it touches.
func (b *byHour) add(s *ledger.Slot) {
	if s.To <= s.From || s.From < 0 || s.To > 60*perDay {
		return
	}
	length := float64(s.To - s.From)
	covered := max(0, 1-float64(s.Short)/60000/length)
	for h := s.From / 60; 60*h < s.To; h++ {
		part := float64(min(s.To, 60*(h+1))-max(s.From, 60*h)) / length
		b.kWh[h] += s.Energy.KilowattHours() * part
		b.got[h] += covered * part * length / 60
	}
}

// covered gives the part of the day that was covered.
func (b *byHour) covered() float64 {
	got, all := 0.0, 0.0
	for h := range b.got {
		got, all = got+b.got[h], all+b.all[h]
	}
	if all == 0 {
		return 0
	}
	return got / all
}

// missing gives how many hours of the day were not covered.
func (b *byHour) missing() float64 {
	sum := 0.0
	for h := range b.got {
		sum += b.all[h] - b.got[h]
	}
	return sum
}

// leastPart gives the covered part of the hour that is covered least.
func (b *byHour) leastPart() float64 {
	least := 1.0
	for h, all := range b.all {
		if all > 0 {
			least = min(least, b.got[h]/all)
		}
	}
	return least
}
