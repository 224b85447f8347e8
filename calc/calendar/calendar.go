// Package calendar counts civil days. It knows no clock and no zone: a day of
// 23 or 25 hours is one day, as it is to a person who reads daily totals.
package calendar

import (
	"fmt"
	"strconv"
	"time"
)

// Day is a civil day of the Gregorian calendar, counted from 1970-01-01, which
// is day 0. Days are ordered and subtracted like numbers.
type Day int32

// Limits of the years that a reading or a bill can sensibly have. They keep a
// mistyped year from making a span of a million days.
const (
	FirstYear = 1970
	LastYear  = 2199
)

// Date gives the day of a year, month (1 to 12) and day of the month. ok is
// false if there is no such day, such as 31 April, or the year is outside
// FirstYear to LastYear.
func Date(year, month, day int) (d Day, ok bool) {
	if year < FirstYear || year > LastYear || month < 1 || month > 12 || day < 1 || day > 31 {
		return 0, false
	}
	t := time.Date(year, time.Month(month), day, 0, 0, 0, 0, time.UTC)
	if t.Day() != day {
		return 0, false
	}
	return Day(t.Unix() / 86400), true
}

// Date gives the year, month (1 to 12) and day of the month.
func (d Day) Date() (year, month, day int) {
	y, m, dd := d.time().Date()
	return y, int(m), dd
}

// Weekday gives the day of the week.
func (d Day) Weekday() time.Weekday { return d.time().Weekday() }

// String gives the day as in ISO 8601, such as 2024-02-29.
func (d Day) String() string {
	y, m, dd := d.Date()
	return fmt.Sprintf("%04d-%02d-%02d", y, m, dd)
}

// Short gives the day without its year, in words, such as "29 Feb".
func (d Day) Short() string { return d.time().Format("2 Jan") }

// Long gives the day in words, such as "29 Feb 2024": no reader can take the
// month for the day.
func (d Day) Long() string { return d.time().Format("2 Jan 2006") }

func (d Day) time() time.Time { return time.Unix(int64(d)*86400, 0).UTC() }

// Floor divides towards the past, and gives the remainder from zero on. by must be
// positive.
func Floor(n, by int64) (quotient, rest int64) {
	quotient, rest = n/by, n%by
	if rest < 0 {
		quotient, rest = quotient-1, rest+by
	}
	return quotient, rest
}

// At gives the day of a time by a clock, in milliseconds counted from 1970-01-01
// 00:00, and the milliseconds since that day's midnight.
func At(ms int64) (d Day, rest int64) {
	n, rest := Floor(ms, 86_400_000)
	return Day(n), rest
}

// ParseISO reads year-month-day, the form of a browser's date field, with all
// its zeros. It does without time.Parse, whose layouts and zones cost the
// engine 10 kB, packed.
func ParseISO(text string) (d Day, ok bool) {
	if len(text) != len("2006-01-02") || text[4] != '-' || text[7] != '-' {
		return 0, false
	}
	year, wrongYear := strconv.ParseUint(text[:4], 10, 16)
	month, wrongMonth := strconv.ParseUint(text[5:7], 10, 8)
	day, wrongDay := strconv.ParseUint(text[8:], 10, 8)
	if wrongYear != nil || wrongMonth != nil || wrongDay != nil {
		return 0, false
	}
	return Date(int(year), int(month), int(day))
}

// Span is a run of days from First up to, but not with, End. A span whose End
// is not after First holds no day.
type Span struct{ First, End Day }

// Days counts the days of s.
func (s Span) Days() int { return max(0, int(s.End-s.First)) }

// Last gives the last day that belongs to s. s must hold a day.
func (s Span) Last() Day { return s.End - 1 }

// Has says whether d belongs to s.
func (s Span) Has(d Day) bool { return s.First <= d && d < s.End }

// Common gives the days that belong to both spans.
func (s Span) Common(o Span) Span { return Span{max(s.First, o.First), min(s.End, o.End)} }

// String gives the first and the last day that belong to s, in words.
func (s Span) String() string {
	if s.Days() == 0 {
		return "no day"
	}
	return s.First.Long() + " to " + s.Last().Long()
}
