package scan

import (
	"splittally/calc/calendar"
)

// Form says how much of a date is certain.
type Form uint8

// The forms of dates.
const (
	Known    Form = iota // month and day are known; the year is, unless 0
	DayMonth             // A and B are day and month in an order not known; the year is known unless 0
	TwoDigit             // A, B and C are day, month and year in an order not known
	Month                // a whole month; the year is known unless 0
	Week                 // a whole week: Day holds its number by ISO 8601
)

// Date is a day, month or week as written.
type Date struct {
	Form             Form
	Mark             byte // what stands between the parts: '-', '/', '.'; 0 in a date with a word
	Year, Month, Day int
	A, B, C          int
}

// Order is the order of the parts of a date in digits.
type Order uint8

// The orders of dates.
const (
	DayFirst Order = iota
	MonthFirst
	YearFirst // of two-digit dates alone
)

// On gives the day in the given order and, where the date has none of its own,
// year. For a month or a week it gives the first day. ok is false if there is
// no such day.
func (d Date) On(order Order, year int) (day calendar.Day, ok bool) {
	if d.Year != 0 {
		year = d.Year
	}
	switch d.Form {
	case DayMonth:
		if order == MonthFirst {
			return calendar.Date(year, d.A, d.B)
		}
		return calendar.Date(year, d.B, d.A)
	case TwoDigit:
		switch order {
		case MonthFirst:
			return calendar.Date(century(d.C), d.A, d.B)
		case YearFirst:
			return calendar.Date(century(d.A), d.B, d.C)
		}
		return calendar.Date(century(d.C), d.B, d.A)
	case Month:
		return calendar.Date(year, d.Month, 1)
	case Week:
		return isoWeek(year, d.Day)
	}
	return calendar.Date(year, d.Month, d.Day)
}

// Yearless says whether the year is not written.
func (d Date) Yearless() bool { return d.Year == 0 && d.Form != TwoDigit }

// century gives the year that two digits mean: 1970 to 2069.
func century(two int) int {
	if two < 70 {
		return 2000 + two
	}
	return 1900 + two
}

// isoWeek gives the Monday of a week by ISO 8601: week 1 holds 4 January.
func isoWeek(year, week int) (calendar.Day, bool) {
	fourth, ok := calendar.Date(year, 1, 4)
	if !ok || week < 1 || week > 53 {
		return 0, false
	}
	monday := fourth - calendar.Day((int(fourth.Weekday())+6)%7)
	return monday + calendar.Day(7*(week-1)), true
}
