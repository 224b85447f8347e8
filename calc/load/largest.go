package load

import (
	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/ledger"
)

// Peak is one of the largest hours.
type Peak struct {
	Day     calendar.Day
	Hour    int  // by the clock: from Hour:00
	IsAgain bool // the second run of an hour that came twice
	Energy  energy.Energy
	IsPart  bool // readings cover a part of it alone; Energy is that of the part
}

// peaks is how many of the largest hours are kept.
const peaks = 10

// largest gives the hours of the most energy, of those alike the earlier first.
func largest(days []Day) []Peak {
	var top []Peak
	put := func(d *Day, hour int, h Hour, again bool) {
		if h.Covered == 0 || len(top) == peaks && h.Energy <= top[peaks-1].Energy {
			return
		}
		if len(top) < peaks {
			top = append(top, Peak{})
		}
		at := len(top) - 1
		for at > 0 && top[at-1].Energy < h.Energy {
			top[at] = top[at-1]
			at--
		}
		top[at] = Peak{d.Day, hour, again, h.Energy, h.Covered < Whole}
	}
	for i := range days {
		d := &days[i]
		for h := range d.Hours {
			put(d, h, d.Hours[h], false)
			if int(d.AgainAt) == h {
				put(d, h, d.Again, true)
			}
		}
	}
	return top
}

// DayTotal is the energy of one day.
type DayTotal struct {
	Day    calendar.Day
	Energy energy.Energy
}

// extremes gives the largest and the least of the days that are whole, of those
// alike the first. A day's share of a longer total is left out: it is a mean.
func extremes(l ledger.Ledger) (most, least DayTotal, ok bool) {
	for i, e := range l.Days {
		if e.State == ledger.Spread || !IsWhole(e) {
			continue
		}
		d := DayTotal{l.First + calendar.Day(i), e.Energy}
		if !ok || d.Energy > most.Energy {
			most = d
		}
		if !ok || d.Energy < least.Energy {
			least = d
		}
		ok = true
	}
	return most, least, ok
}
