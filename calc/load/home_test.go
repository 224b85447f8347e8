package load

import (
	"testing"

	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/ledger"
)

// hoursOf makes a ledger of whole days from the energies of their hours, in Wh.
func hoursOf(wh ...int64) ledger.Ledger {
	l := ledger.Ledger{First: 19800}
	for i, v := range wh {
		d := l.First + calendar.Day(i/24)
		s := ledger.Slot{Day: d, From: i % 24 * 60, To: i%24*60 + 60, Energy: energy.Energy(v) * energy.WattHour}
		l.Slots = append(l.Slots, s)
		e := l.At(d)
		l.Put(d, ledger.Entry{State: ledger.Measured, Energy: e.Energy + s.Energy})
	}
	return l
}

func date(t testing.TB, y, m, d int) calendar.Day {
	t.Helper()
	day, ok := calendar.Date(y, m, d)
	if !ok {
		t.Fatalf("no day %d-%d-%d", y, m, d)
	}
	return day
}
