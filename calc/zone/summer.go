package zone

import "splittally/calc/calendar"

// Parameters are the rules of a local clock as the open standard NAESB REQ.21
// (ESPI) has them in LocalTimeParameters.
type Parameters struct {
	Offset     int    // tzOffset: of the clock without summer time, in seconds east of UTC
	Summer     int    // dstOffset: what summer time adds, in seconds
	Start, End uint32 // dstStartRule, dstEndRule: codes that DecodeRule reads
}

// Rule says when in a year the clock is changed: at Hour and Second by the clock
// that is then changed (common practice, no source).
type Rule struct {
	Month    int // 1 to 12
	Operator int // how Weekday and Day name the day; see Date
	Weekday  int // Monday is 1, Sunday 7; 0 if there is none
	Day      int // of the month; 0 if there is none
	Hour     int
	Second   int // of the hour
}

// never is the code of a clock that is not changed.
const never = 0xFFFFFFFF

// DecodeRule reads a code: seconds in bits 0 to 11, hours in 12 to 16, weekday in
// 17 to 19, day of the month in 20 to 24, operator in 25 to 27, month in 28 to 31
// (NAESB REQ.21 ESPI, usage.xsd, DstRuleType). ok is false if the clock is not
// changed, or the code names no time of a year.
func DecodeRule(code uint32) (r Rule, ok bool) {
	r = Rule{
		Month:    int(code >> 28),
		Operator: int(code >> 25 & 7),
		Weekday:  int(code >> 17 & 7),
		Day:      int(code >> 20 & 31),
		Hour:     int(code >> 12 & 31),
		Second:   int(code & 0xFFF),
	}
	switch {
	case code == never, r.Month < 1, r.Month > 12, r.Hour > 24, r.Second >= 3600:
		return r, false
	case r.Operator <= 1 && r.Day == 0, r.Operator >= 1 && r.Weekday == 0:
		return r, false
	}
	return r, true
}

// Date gives the day of a year on which the clock is changed. By operator: 0 the
// Day of the month, 1 the first Weekday on or after it, 2 to 6 the first to the
// fifth Weekday of the month, 7 the last. ok is false if there is no such day.
func (r Rule) Date(year int) (d calendar.Day, ok bool) {
	day := max(1, r.Day)
	if r.Operator > 1 {
		day = 1
	}
	first, ok := calendar.Date(year, r.Month, day)
	if !ok || r.Operator == 0 {
		return first, ok
	}
	first += calendar.Day((r.Weekday%7 - int(first.Weekday()) + 7) % 7)
	switch r.Operator {
	case 1:
		return first, true
	case 7:
		for r.isIn(first + 7) {
			first += 7
		}
		return first, true
	}
	first += calendar.Day(7 * (r.Operator - 2))
	return first, r.isIn(first)
}

// isIn says whether a day is in the rule's month.
func (r Rule) isIn(d calendar.Day) bool {
	_, month, _ := d.Date()
	return month == r.Month
}

// Rules gives the changes of the clock in the years from first to last, and one
// year more at either end so that the offset holds at the turn of the year.
func (p Parameters) Rules(first, last int) Rules {
	r := Rules{Before: p.Offset, Name: FromUTC(p.Offset)}
	start, isStart := DecodeRule(p.Start)
	end, isEnd := DecodeRule(p.End)
	if !isStart || !isEnd || p.Summer == 0 {
		return r
	}
	r.Name += " with summer time"
	for year := first - 1; year <= last+1; year++ {
		on, isOn := start.at(year, p.Offset, p.Offset+p.Summer)
		off, isOff := end.at(year, p.Offset+p.Summer, p.Offset)
		if !isOn || !isOff || on.At == off.At {
			continue
		}
		if off.At < on.At {
			on, off = off, on
		}
		r.Changes = append(r.Changes, on, off)
	}
	if len(r.Changes) > 0 && r.Changes[0].Offset == p.Offset {
		r.Before += p.Summer // in the south a year begins in summer
	}
	return r
}

// at gives the change of a year, from one offset to another.
func (r Rule) at(year, from, to int) (c Change, ok bool) {
	day, ok := r.Date(year)
	return Change{At: int64(day)*86400 + int64(r.Hour)*3600 + int64(r.Second) - int64(from), Offset: to}, ok
}

// FromUTC writes an offset, such as "UTC−3:30".
func FromUTC(seconds int) string {
	sign, minutes := "+", seconds/60
	switch {
	case minutes == 0:
		return "UTC"
	case minutes < 0:
		sign, minutes = "−", -minutes
	}
	text := "UTC" + sign + twoDigits(minutes/60, false)
	if minutes%60 != 0 {
		text += ":" + twoDigits(minutes%60, true)
	}
	return text
}

func twoDigits(n int, pad bool) string {
	if n < 10 && !pad {
		return string([]byte{byte('0' + n)})
	}
	return string([]byte{byte('0' + n/10%10), byte('0' + n%10)})
}
