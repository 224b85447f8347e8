// Package loadtest makes up homes for the tests of loads and their pictures.
package loadtest

import (
	"math/rand/v2"

	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/ledger"
)

// Home makes up a home from a day on: 110 W that never stop, a refrigerator,
// mornings, evenings, and washing at weekends. Every 40th day is lost, every
// 25th has a hole of four hours, and the clock changes twice a year.
func Home(first calendar.Day, days int) ledger.Ledger {
	chance := rand.New(rand.NewPCG(7, uint64(days)))
	l := ledger.Ledger{Name: "Larch House", First: first}
	for i := range days {
		d := first + calendar.Day(i)
		if i%40 == 39 {
			l.Put(d, ledger.Entry{})
			continue
		}
		e := ledger.Entry{State: ledger.Measured}
		put := func(hour int, again bool) {
			s := ledger.Slot{Day: d, From: 60 * hour, To: 60*hour + 60, Energy: drawn(chance, d, hour), Again: again}
			e.Energy += s.Energy
			e.Hours++
			l.Slots = append(l.Slots, s)
		}
		for hour := range 24 {
			switch {
			case i%25 == 24 && hour >= 9 && hour < 13:
				e.State = ledger.Partial
				continue
			case turns(d, 3) && hour == 2:
				continue
			}
			put(hour, false)
			if turns(d, 11) && hour == 1 {
				put(hour, true)
			}
		}
		if e.State == ledger.Measured {
			e.Hours = 0
		}
		l.Put(d, e)
	}
	return l
}

// turns says whether the clock is changed on a Sunday of a month: the second of
// March, the first of November.
func turns(d calendar.Day, month int) bool {
	_, m, day := d.Date()
	return m == month && d.Weekday() == 0 && (m == 3 && day > 7 && day < 15 || m == 11 && day < 8)
}

func drawn(chance *rand.Rand, d calendar.Day, hour int) energy.Energy {
	watts := 110 + 60*chance.Float64()
	switch {
	case hour >= 17 && hour < 22:
		watts += 400 + 900*chance.Float64()
	case hour == 6 || hour == 7:
		watts += 500 * chance.Float64()
	case hour >= 8 && (d.Weekday() == 0 || d.Weekday() == 6):
		watts += 1200 * chance.Float64() * chance.Float64()
	}
	if _, month, _ := d.Date(); month < 3 || month > 10 {
		watts *= 1.3
	}
	return energy.Energy(watts) * energy.WattHour / 10 * 10
}
