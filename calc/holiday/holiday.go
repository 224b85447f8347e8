// Package holiday knows the public holidays of some regions, because prices
// that change with the hour often take a holiday for a weekend.
//
// A holiday counts on the day on which it is observed: one that moves from a
// Sunday to the Monday is that Monday alone. The rules are a small table of our
// own: the library that the tests compare it with would add 25 kB, packed, to
// what people load, for the same days.
//
// The step after is a tariff's time-of-use periods.
package holiday

import (
	"splittally/calc/calendar"
)

// FirstYear is the first year for which the rules are meant to hold.
const FirstYear = 2000

// Region is a country or a part of one that has holidays of its own.
type Region struct {
	ID   string // ISO 3166, such as "CA-ON"; "US-NERC" is the one that is no place
	Name string
}

// Regions lists the regions whose rules are known, by name.
func Regions() []Region {
	list := make([]Region, len(regions))
	for i, r := range regions {
		list[i] = r.Region
	}
	return list
}

// Known says whether a region of this ID is among Regions.
func Known(region string) bool { return find(region) != nil }

// Holiday is a holiday on the day on which it is observed.
type Holiday struct {
	Day  calendar.Day
	Name string
}

// Of lists the holidays that are observed within a year, in no order. New
// Year's Day of the year after is among them where it moves to 31 December.
func Of(region string, year int) (list []Holiday) {
	r := find(region)
	if r == nil || year < FirstYear {
		return nil
	}
	for of := year; of <= year+1; of++ {
		for _, h := range r.observed(of) {
			if y, _, _ := h.Day.Date(); y == year {
				list = append(list, h)
			}
		}
	}
	return list
}

func find(id string) *region {
	for i := range regions {
		if regions[i].ID == id {
			return &regions[i]
		}
	}
	return nil
}

// observed gives the holidays of a year, each moved by its rule. The order of
// the rules matters: of two holidays that move on to one day the later goes one
// further.
func (r *region) observed(year int) (list []Holiday) {
	var moved []calendar.Day
	for _, rule := range r.rules {
		if year < int(rule.since) || rule.until != 0 && year > int(rule.until) {
			continue
		}
		day, ok := rule.day(year)
		if !ok {
			continue
		}
		to := rule.moved(day, moved, list)
		if to != day {
			moved = append(moved, to)
		}
		list = append(list, Holiday{to, rule.name})
	}
	return list
}

// day gives the day of a year on which the holiday falls, before it is moved.
func (r rule) day(year int) (calendar.Day, bool) {
	switch r.kind {
	case easter:
		sunday, ok := Easter(year)
		return sunday + calendar.Day(r.n), ok
	case weekday:
		return nth(year, int(r.month), int(r.n), int(r.on))
	case firstFriday: // the first Monday, but the 1st if that is a Friday
		first, ok := calendar.Date(year, int(r.month), 1)
		if ok && dayOfWeek(first) == friday {
			return first, true
		}
		return nth(year, int(r.month), 1, monday)
	case table:
		if i := year - int(r.since); i >= 0 && i < len(matariki) {
			return calendar.Date(year, matariki[i]/100, matariki[i]%100)
		}
		return 0, false
	}
	return calendar.Date(year, int(r.month), int(r.n))
}

// moved gives the day on which a holiday is observed. on are the days that
// others were moved to, taken all holidays so far.
func (r rule) moved(day calendar.Day, on []calendar.Day, taken []Holiday) calendar.Day {
	switch w := dayOfWeek(day); {
	case r.move == nearest && w == saturday:
		return day - 1
	case r.move > onward && w == sunday:
		return day + 1
	case r.move == mondays && w == saturday:
		return day + 2
	case r.move == onward && (isWeekend(day) || has(on, day)):
		for day++; isWeekend(day) || isTaken(taken, day); {
			day++
		}
	}
	return day
}

func has(days []calendar.Day, d calendar.Day) bool {
	for _, o := range days {
		if o == d {
			return true
		}
	}
	return false
}

func isTaken(list []Holiday, d calendar.Day) bool {
	for _, h := range list {
		if h.Day == d {
			return true
		}
	}
	return false
}

// Days of the week as calendar.Day counts them.
const (
	sunday   = 0
	monday   = 1
	thursday = 4
	friday   = 5
	saturday = 6
)

func dayOfWeek(d calendar.Day) int { return int(d.Weekday()) }

func isWeekend(d calendar.Day) bool { w := dayOfWeek(d); return w == saturday || w == sunday }

// nth gives the nth such weekday of a month, counted from its end if n is below
// zero.
func nth(year, month, n, weekday int) (calendar.Day, bool) {
	first, ok := calendar.Date(year, month, 1)
	if !ok {
		return 0, false
	}
	if n > 0 {
		return first + calendar.Day((weekday-dayOfWeek(first)+7)%7+7*(n-1)), true
	}
	last := first + 27
	for _, m, _ := (last + 1).Date(); m == month; _, m, _ = (last + 1).Date() {
		last++
	}
	return last - calendar.Day((dayOfWeek(last)-weekday+7)%7) + calendar.Day(7*(n+1)), true
}

// Easter gives Easter Sunday of the Gregorian calendar, by the anonymous
// algorithm of 1876 (from memory; Meeus, Astronomical Algorithms, chapter 8).
func Easter(year int) (calendar.Day, bool) {
	a, b, c := year%19, year/100, year%100
	h := (19*a + b - b/4 - (b-(b+8)/25+1)/3 + 15) % 30
	l := (32 + 2*(b%4) + 2*(c/4) - h - c%4) % 7
	m := (a + 11*h + 22*l) / 451
	n := h + l - 7*m + 114
	return calendar.Date(year, n/31, n%31+1)
}
