package fill

import (
	"math"
	"slices"
	"strings"
	"testing"

	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/ledger"
)

// usualDay is the course of an invented home's day, kWh by the hour: 14.2 in all.
func usualDay(h int) float64 {
	switch {
	case h < 6:
		return 0.2
	case h >= 18 && h < 22:
		return 1.5
	}
	return 0.5
}

// hourly makes a ledger of days by the hour: kWh gives what an hour brought and
// lost how much of it, in seconds, nobody covered.
func hourly(days int, kWh func(d, h int) float64, lost func(d, h int) float64) ledger.Ledger {
	var l ledger.Ledger
	for d := range days {
		var e ledger.Entry
		for h := range 24 {
			short := lost(d, h)
			if short < 3600 {
				x := measured(kWh(d, h) * (1 - short/3600)).Energy
				l.Slots = append(l.Slots, ledger.Slot{Day: calendar.Day(d), From: 60 * h, To: 60*h + 60, Energy: x, Short: int32(1000 * short)})
				e.Energy += x
			}
			e.Hours += 1 - short/3600
		}
		switch {
		case e.Hours == 0:
			e = ledger.Entry{}
		case e.Hours > 24-1e-9:
			e.State, e.Hours = ledger.Measured, 0
		default:
			e.State = ledger.Partial
		}
		l.Put(calendar.Day(d), e)
	}
	return l
}

// waves is a home whose days differ: evenings by a lot, nights hardly.
func waves(d, h int) float64 {
	x := usualDay(h)
	return x * (1 + 0.5*math.Sin(float64(d)*1.7)*min(1, x) + 0.1*math.Sin(float64(d*24+h)*2.9))
}

func in(d, first, end int) func(day, h int) float64 {
	return func(day, h int) float64 {
		if day == d && h >= first && h < end {
			return 3600
		}
		return 0
	}
}

// A record that loses seconds in every hour has no whole day, but its total is
// known to a hair, and nothing is said of gaps.
func TestSecondsLostInEachHour(t *testing.T) {
	l := hourly(40, waves, func(d, h int) float64 { return float64((d*7+h*3)%9) + 1 })
	res := fillOK(t, Request{Ledger: l, Span: span(5, 35)})
	truth := 0.0
	for d := 5; d < 35; d++ {
		for h := range 24 {
			truth += waves(d, h)
		}
	}
	if off := res.Total.KilowattHours() - truth; math.Abs(off) > 0.05 || res.Standard > 1e-4*truth || res.Standard <= 0 {
		t.Errorf("total %s ± %g kWh, off by %g", res.Total, res.Standard, off)
	}
	if res.Partial != 30 || res.Filled != 30 || res.Measured != 0 || res.Method != Hours || res.Chosen || res.Days[3].State != ledger.Partial {
		t.Errorf("counts of %+v", res)
	}
	if len(res.Notices) != 1 || !strings.Contains(res.Notices[0].Text, "30 days were measured only in part; what was measured is kept and the missing 60 minutes are estimated.") {
		t.Errorf("notices %v", res.Notices)
	}
	if ways := res.Ways(); len(ways) != 1 || ways[0] != (Way{Hours, 30}) {
		t.Errorf("ways %v", ways)
	}
}

// Where all days have one course, what is missing of one is its usual share of
// what was measured, whatever the hours are: a day of twice the usual use that
// lost its evening has lost twice the usual evening.
func TestUsualShare(t *testing.T) {
	for _, c := range []struct {
		name       string
		first, end int
	}{{"the evening", 18, 22}, {"the night", 0, 6}, {"one hour", 7, 8}, {"all but three hours", 3, 24}} {
		twice := func(d, h int) float64 {
			return usualDay(h) * (1 + float64((d*5)%7)/6) // every seventh day is of each size
		}
		l := hourly(63, twice, in(30, c.first, c.end))
		res := fillOK(t, Request{Ledger: l, Span: span(20, 50)})
		want := 0.0
		for h := range 24 {
			want += twice(30, h)
		}
		got := res.Days[10].Energy.KilowattHours()
		if math.Abs(got-want) > 0.04*want || math.Abs(got-want) > 2.5*res.Standard {
			t.Errorf("%s: %.3f ± %.3f kWh, want %.3f", c.name, got, res.Standard, want)
		}
		if res.Days[10].Method != Hours || res.Days[10].State != ledger.Partial || !res.Days[10].Filled {
			t.Errorf("%s: %+v", c.name, res.Days[10])
		}
	}
}

// A day with 23 covered hours goes by its own hours, one with a single covered
// hour by the days around it.
func TestOwnHoursOrDaysAround(t *testing.T) {
	large := func(d, h int) float64 { // day 30 is three times as large as any other
		x := usualDay(h) * (1 + 0.1*math.Sin(float64(d)*1.7) + 0.2*math.Sin(float64(d*24+h)*2.9))
		if d == 30 {
			x *= 3
		}
		return x
	}
	day := func(first, end int) float64 {
		return fillOK(t, Request{Ledger: hourly(60, large, in(30, first, end)), Span: span(20, 50)}).Days[10].Energy.KilowattHours()
	}
	if most := day(12, 13); most < 2.8*14.2 {
		t.Errorf("with 23 hours %.1f kWh, want about three times 14.2", most)
	}
	if one := day(1, 24); one < 12 || one > 2*14.2 {
		t.Errorf("with one hour %.1f kWh, want about 14.2", one)
	}
}

// A day of 23 hours that lost a minute lacks that minute and not an hour; one of
// 25 hours that lost the second run of an hour lacks that hour.
func TestDaysOfOtherLengths(t *testing.T) {
	plain := func(_, h int) float64 { return usualDay(h) }
	short := hourly(40, plain, in(20, 2, 3))
	short.Days[20].Turn, short.Days[20].TurnAt = -1, 2
	at := slices.IndexFunc(short.Slots, func(s ledger.Slot) bool { return s.Day == 20 && s.From == 720 })
	lost := short.Slots[at].Energy / 60
	short.Slots[at].Short, short.Slots[at].Energy = 60_000, short.Slots[at].Energy-lost
	short.Days[20].Energy -= lost
	short.Days[20].Hours -= 1.0 / 60
	d := fillOK(t, Request{Ledger: short, Span: span(10, 40)}).Days[10]
	if got := d.Energy.KilowattHours(); math.Abs(got-14.0) > 0.001 || len(d.Slots) != 23 {
		t.Errorf("23 hours: %.4f kWh in %d slots, want 14.0 in 23", got, len(d.Slots))
	}
	long := hourly(40, plain, in(-1, 0, 0))
	long.Days[20] = ledger.Entry{State: ledger.Partial, Energy: long.Days[20].Energy, Hours: 24, Turn: 1, TurnAt: 1}
	d = fillOK(t, Request{Ledger: long, Span: span(10, 40)}).Days[10]
	if got := d.Energy.KilowattHours(); math.Abs(got-14.4) > 0.01 || len(d.Slots) != 25 || !d.Slots[2].Again || d.Slots[2].From != 60 {
		t.Errorf("25 hours: %.4f kWh in slots %v, want 14.4 in 25", got, d.Slots)
	}
}

// The hours of a filled day are those that were measured, and the usual course
// of what was not.
func TestSlotsOfFilledDays(t *testing.T) {
	l := hourly(40, func(_, h int) float64 { return usualDay(h) }, func(d, h int) float64 {
		return in(20, 16, 20)(d, h) + in(21, 0, 24)(d, h)
	})
	res := fillOK(t, Request{Ledger: l, Span: span(10, 40)})
	for _, day := range res.Days[10:12] {
		if len(day.Slots) != 24 {
			t.Fatalf("%d slots", len(day.Slots))
		}
		var sum energy.Energy
		for h, s := range day.Slots {
			if math.Abs(s.Energy.KilowattHours()-usualDay(h)) > 0.02 {
				t.Errorf("day %d, hour %d: %s, want %g", day.Day, h, s.Energy, usualDay(h))
			}
			sum += s.Energy
		}
		if sum != day.Energy {
			t.Errorf("day %d: %s, its slots %s", day.Day, day.Energy, sum)
		}
	}
	if day := res.Days[0]; day.Slots != nil {
		t.Errorf("slots of a measured day: %v", day.Slots)
	}
}

// A record none of whose days is mostly covered, and one that never saw some
// hours, give an estimate with a doubt that is large, not an error.
func TestNoKnownDay(t *testing.T) {
	half := hourly(40, waves, func(d, h int) float64 {
		if (d+h)%2 == 0 {
			return 3600
		}
		return 0
	})
	nights := hourly(40, waves, func(_, h int) float64 {
		if h < 6 {
			return 3600
		}
		return 0
	})
	truth := 0.0
	for d := 5; d < 35; d++ {
		for h := range 24 {
			truth += waves(d, h)
		}
	}
	for _, c := range []struct {
		name     string
		l        ledger.Ledger
		from, to float64 // of the standard uncertainty, over the total
	}{{"every other hour", half, 0.003, 0.03}, {"all but the nights", nights, 0.05, 0.15}} {
		res := fillOK(t, Request{Ledger: c.l, Span: span(5, 35)})
		off := math.Abs(res.Total.KilowattHours() - truth)
		if part := res.Standard / truth; part < c.from || part > c.to || off > 3*res.Standard {
			t.Errorf("%s: %s ± %.2f kWh, want %.2f", c.name, res.Total, res.Standard, truth)
		}
	}
}
