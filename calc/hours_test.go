package calc

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/ledger"
)

// hourDay makes a day of whole hours, each of as many watt-hours as its number
// plus one. change alters a slot; one that it gives no length is left out.
func hourDay(e ledger.Entry, change func(s *ledger.Slot)) ledger.Ledger {
	l := ledger.Ledger{First: 10}
	for h := range 24 {
		s := ledger.Slot{Day: 10, From: 60 * h, To: 60*h + 60, Energy: energy.Energy(h+1) * energy.WattHour}
		if change(&s); s.To == s.From {
			continue
		}
		l.Slots = append(l.Slots, s)
		if e.Turn > 0 && h == int(e.TurnAt) {
			s.Again = true
			l.Slots = append(l.Slots, s)
		}
	}
	for _, s := range l.Slots {
		e.Energy += s.Energy
	}
	l.Put(10, e)
	return l
}

// What a day brought from and up to an hour, and how much of it is in doubt.
func TestInSlots(t *testing.T) {
	whole := ledger.Entry{State: ledger.Measured}
	part := ledger.Entry{State: ledger.Partial, Hours: 23}
	plain := func(*ledger.Slot) {}
	without := func(hour int) func(s *ledger.Slot) {
		return func(s *ledger.Slot) {
			if s.From == 60*hour {
				s.To = s.From
			}
		}
	}
	short := func(s *ledger.Slot) {
		if s.From == 720 {
			s.Short = 1_000_000
		}
	}
	minute := func(s *ledger.Slot) {
		if s.From == 720 {
			s.Short = 60_000
		}
	}
	for _, c := range []struct {
		name     string
		l        ledger.Ledger
		from, to int
		wattHour float64
		doubt    float64 // Wh
		known    bool
	}{
		{"up to nine", hourDay(whole, plain), 0, 540, 45, 0, true},
		{"from twenty-two", hourDay(whole, plain), 1320, 1440, 47, 0, true},
		{"half past nine", hourDay(whole, plain), 0, 570, 50, 0.85 * 0.25 * 10, true},
		{"a minute past nine", hourDay(whole, plain), 0, 541, 45 + 10/60.0, 0.85 * 10 * 59 / 3600.0, true},
		{"23 hours, the clock set on at two", hourDay(whole, without(2)), 0, 540, 42, 0, true},
		{"25 hours, the clock set back at two", hourDay(ledger.Entry{State: ledger.Measured, Turn: 1, TurnAt: 1}, plain), 0, 540, 47, 0, true},
		{"25 hours, cut before", hourDay(ledger.Entry{State: ledger.Measured, Turn: 1, TurnAt: 1}, plain), 0, 60, 1, 0, true},
		{"an hour lost that counts", hourDay(part, without(2)), 0, 540, 0, 0, false},
		{"an hour lost that does not count", hourDay(part, without(12)), 0, 540, 45, 0, true},
		{"the first hour lost", hourDay(part, without(0)), 0, 540, 0, 0, false},
		{"the last hour lost", hourDay(part, without(23)), 1320, 1440, 0, 0, false},
		{"a quarter of an hour lost that counts", hourDay(part, short), 0, 780, 0, 0, false},
		{"a quarter of an hour lost that does not count", hourDay(part, short), 0, 720, 78, 0, true},
		{"23 hours, partly covered", hourDay(ledger.Entry{State: ledger.Partial, Turn: -1, TurnAt: 12}, without(12)), 0, 1440, 287, 0, true},
		{"a minute lost", hourDay(part, minute), 0, 780, 78 + 13*60/59.0, 0.85 * 13 / 60, true},
		{"no slots", ledger.Ledger{First: 10, Days: []ledger.Entry{whole}}, 0, 540, 0, 0, false},
	} {
		sum, doubt, known := inSlots(c.l, 10, c.from, c.to)
		if known != c.known || known && (math.Abs(sum.KilowattHours()*1000-c.wattHour) > 1e-6 || math.Abs(doubt*1000-c.doubt) > 1e-9) {
			t.Errorf("%s: %s ± %g kWh, known %t; want %g ± %g Wh, %t", c.name, sum, doubt, known, c.wattHour, c.doubt, c.known)
		}
	}
}

// Wherever a day is cut, its two parts are the day.
func TestCutsAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := hourDay(ledger.Entry{State: ledger.Measured}, func(s *ledger.Slot) {
			s.Energy = energy.Energy(rapid.Int64Range(-1e9, 9e9).Draw(t, "energy"))
		})
		at := rapid.IntRange(0, 1440).Draw(t, "minute")
		before, _, _ := inSlots(l, 10, 0, at)
		after, _, _ := inSlots(l, 10, at, 1440)
		if off := before + after - l.Days[0].Energy; off.Abs() > 1 {
			t.Fatalf("%s and %s are %s off", before, after, off)
		}
	})
}

// A read within half a day of midnight: 1 kW all the time makes up to 12 kWh
// either way, evenly. Where nothing is used after midnight there is nothing on
// that side, and the standard deviation is that of a rectangle 1/√2 as wide.
func TestAroundMidnight(t *testing.T) {
	l := ledger.Ledger{}
	for d := range 3 {
		for h := range 24 {
			s := ledger.Slot{Day: calendar.Day(d), From: 60 * h, To: 60*h + 60, Energy: energy.KilowattHour}
			if d == 2 && h < 18 {
				s.Energy = 0
			}
			l.Slots = append(l.Slots, s)
		}
		l.Put(calendar.Day(d), ledger.Entry{State: ledger.Measured, Energy: 24 * energy.KilowattHour})
	}
	if half, known := aroundMidnight(l, 1); !known || math.Abs(half-12) > 1e-9 {
		t.Errorf("half-width %g, known %t; want 12", half, known)
	}
	if half, known := aroundMidnight(l, 2); !known || math.Abs(half-12/math.Sqrt2) > 1e-9 {
		t.Errorf("half-width %g, known %t; want 12/√2", half, known)
	}
	if _, known := aroundMidnight(l, 3); known {
		t.Error("the hours of a day that is not there are known")
	}
}
